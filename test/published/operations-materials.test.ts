/** Properties of materials and pipes against published values. */
import { describe, expect, it } from 'vitest';
import {
  ALUMINIUM,
  COPPER,
  MOLAR_MASS,
  elementEnthalpy,
  meltingPoint,
} from '../../src/core/burn/element-polynomials.ts';
import { findMaterial } from '../../src/core/burn/materials.ts';
import { substance } from '../core/burn/substance.ts';
import { molarEnthalpy, molarTransition } from '../../src/core/burn/nasa-polynomials.ts';
import { findRod, rodMassPerLength } from '../../src/core/burn/rods.ts';

describe('metals from the NASA polynomials', () => {
  it('have no enthalpy at 298.15 K and melt where the data say', () => {
    for (const species of [COPPER, ALUMINIUM]) expect(Math.abs(molarEnthalpy(species, 298.15))).toBeLessThan(1e-4);
    expect([meltingPoint(COPPER), meltingPoint(ALUMINIUM)]).toEqual([1358, 933.61]);
  });

  it('take the heat of fusion of CODATA key values: aluminium 10.71, copper 13.1 kJ/mol (from memory, so only to 2 %)', () => {
    expect(molarTransition(ALUMINIUM, 0) / 10.71e3).toBeCloseTo(1, 1.7);
    expect(molarTransition(COPPER, 1) / 13.1e3).toBeCloseTo(1, 1.7);
  });

  it('take the specific heat of handbooks at room temperature: copper 385, aluminium 897 J/kgK (from memory, so only to 2 %)', () => {
    const c = (species: typeof COPPER, mass: number): number =>
      (elementEnthalpy(species, mass, 303.15) - elementEnthalpy(species, mass, 293.15)) / 10;
    expect(c(COPPER, MOLAR_MASS.Cu) / 385).toBeCloseTo(1, 1.7);
    expect(c(ALUMINIUM, MOLAR_MASS.Al) / 897).toBeCloseTo(1, 1.7);
  });
});

describe('densities', () => {
  it.each([
    // ASM Metals Handbook Desk Edition, read as a web copy of the table.
    ['cast iron', 6950, 7350],
    ['carbon steel', 7830, 7871],
    // Common engineering tables: stainless about 7900, copper 8940, aluminium alloys 2640 to 2830.
    ['stainless steel', 7480, 8000],
    ['copper alloy', 8400, 8960],
    ['aluminium alloy', 2640, 2830],
    // Ordinary concrete without steel: NIST PSTAR 2.30 g/cm3 (read in a copy); US practice 145 lb/cu ft, 2323 kg/m3 (from memory).
    ['concrete', 2280, 2330],
  ] as const)('of %s lies between %i and %i kg/m3', (name, low, high) => {
    expect(findMaterial(name).density).toBeGreaterThanOrEqual(low);
    expect(findMaterial(name).density).toBeLessThanOrEqual(high);
  });
});

describe('reinforced concrete', () => {
  it('weighs what it is said to with its steel: US practice 150 lb/cu ft, 2403 kg/m3 (from memory), Eurocode 1 25 kN/m3 at most', () => {
    const { density } = substance('reinforced concrete');
    expect(density / 2403).toBeGreaterThan(0.97);
    expect(density * 9.80665).toBeLessThan(25e3);
  });
});

describe('burning bars', () => {
  it.each([
    // ASME B36.10M schedule 40 (outside diameter and wall read in a pipe table; masses of plain pipe from memory, two figures).
    ['1/4 pipe', 0.54, 0.088, 0.42],
    ['3/8 pipe', 0.675, 0.091, 0.57],
    ['1/2 pipe', 0.84, 0.109, 0.85],
    ['3/4 pipe', 1.05, 0.113, 1.13],
  ] as const)('%s have the outside diameter, wall and mass of schedule 40 pipe', (name, outside, wall, pounds) => {
    const { rod } = findRod(name);
    expect(rod.outsideDiameter / 0.0254).toBeCloseTo(outside, 9);
    expect((rod.outsideDiameter - rod.bore) / 2 / 0.0254).toBeCloseTo(wall, 9);
    const wires = rod.wires * (Math.PI / 4) * rod.wireDiameter ** 2 * 7850;
    expect(Math.abs(((rodMassPerLength(rod) - wires) * 0.3048) / 0.45359237 / pounds - 1)).toBeLessThan(0.015);
  });

  it.each([
    // Smallest circle, in circle radii, that holds n of them: Graham, Lubachevsky and others (from memory).
    ['1/4 pipe', 5, 2.701, 6, 3],
    ['3/8 pipe', 11, 3.924, 12, 4.029],
    ['1/2 pipe', 19, 4.863, 20, 5.122],
    ['3/4 pipe', 33, 6.487, 34, 6.61],
  ] as const)('%s hold as many wires as their bore takes: %i, not %i', (name, n, fits, _more, tooMany) => {
    const { rod } = findRod(name);
    expect(rod.wires).toBe(n);
    expect(rod.bore / rod.wireDiameter).toBeGreaterThan(fits);
    expect(rod.bore / rod.wireDiameter).toBeLessThan(tooMany);
  });
});
