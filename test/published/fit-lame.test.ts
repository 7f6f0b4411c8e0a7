import { describe, expect, it } from 'vitest';
import { contactPressure, type PressFit } from '../../src/core/fit/contact-pressure.ts';
import { gripForce } from '../../src/core/fit/grip-force.ts';
import { hoopStresses } from '../core/fit/physics.ts';
import { Rings, type RingMaterial } from '../../src/core/fit/ring-solver.ts';
import { radialMesh } from '../../src/core/heat/radial-mesh.ts';

// Press fits worked out independently from Lame's rings, the first as in Marks' Calculations for Machine Design, interference
// fits, example 6 (which prints 2100 psi): case, interference on the diameter, d, Do, di, E and nu of hub, E and nu of shaft,
// contact pressure, hoop stress of the hub at its bore, of the shaft at its surface, axial force with 0.12 per unit of length.
// Any consistent units: the first, fourth and fifth in inch and psi, the others in m and Pa.
type Row = readonly [
  string,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
];
const CASES: readonly Row[] = [
  ['solid 4 in pin, 6 in hub', 0.001, 4, 6, 0, 30e6, 0.3, 30e6, 0.3, 2083.33, 5416.67, -2083.33, 3141.59],
  ['solid 25 mm pin, 50 mm hub', 2e-5, 0.025, 0.05, 0, 210e9, 0.3, 210e9, 0.3, 6.3e7, 1.05e8, -6.3e7, 593761],
  [
    '50/20 mm hollow shaft, 100 mm hub',
    5e-5,
    0.05,
    0.1,
    0.02,
    207e9,
    0.292,
    207e9,
    0.292,
    6.79219e7,
    1.13203e8,
    -9.37969e7,
    1.2803e6,
  ],
  ['solid 3 in pin, 6 in boss', 0.003, 3, 6, 0, 30e6, 0.3, 30e6, 0.3, 11250, 18750, -11250, 12723.5],
  ['4 in pin bored 2.5 in, 8 in boss', 0.004, 4, 8, 2.5, 30e6, 0.3, 30e6, 0.3, 7597.4, 12662.3, -17337.7, 11456.6],
];

const NAMED = CASES.map((row) => ({ name: row[0], row }));

const fitOf = ([
  ,
  ,
  diameter,
  boss,
  hole,
  bossModulus,
  bossPoisson,
  pinModulus,
  pinPoisson,
]: (typeof CASES)[number]): PressFit => ({ diameter, boss, hole, bossModulus, bossPoisson, pinModulus, pinPoisson });

describe('interference fits after Lame', () => {
  it.each(NAMED)('$name: pressure, hoop stresses and force to five figures', ({ row }) => {
    const fit = fitOf(row);
    const [, interference, diameter, , , , , , , pressure, bossHoop, pinHoop, force] = row;
    const p = contactPressure(fit, interference);
    expect(p / pressure).toBeCloseTo(1, 5);
    expect(hoopStresses(fit, p).boss / bossHoop).toBeCloseTo(1, 5);
    expect(hoopStresses(fit, p).pin / pinHoop).toBeCloseTo(1, 5);
    expect(gripForce({ diameter, length: 1, pressure: p, friction: 0.12, bond: 0 }) / force).toBeCloseTo(1, 5);
  });

  it.each(NAMED)('$name: rings that yield give the same pressure and stresses while they stay elastic', ({ row }) => {
    const fit = fitOf(row);
    const [
      ,
      interference,
      diameter,
      boss,
      hole,
      bossModulus,
      bossPoisson,
      pinModulus,
      pinPoisson,
      pressure,
      bossHoop,
      pinHoop,
    ] = row;
    const elastic = (modulus: number, poisson: number): RingMaterial => ({
      modulus: () => modulus,
      yield: () => Infinity,
      elongation: () => 0,
      poisson,
    });
    const cells = 40;
    const mesh = radialMesh([
      { inner: hole / 2, outer: diameter / 2, cells },
      { inner: diameter / 2, outer: boss / 2, cells },
    ]);
    const solver = new Rings(mesh, {
      materials: [elastic(pinModulus, pinPoisson), elastic(bossModulus, bossPoisson)],
      interference: interference / 2,
      reference: 0,
      ends: 'free',
    });
    const { pressures } = solver.advance({ temperatures: new Float64Array(2 * cells) });
    expect(pressures[0]! / contactPressure(fit, interference)).toBeCloseTo(1, 5);
    expect(pressures[0]! / pressure).toBeCloseTo(1, 5);
    // At the joint, from the two points on either side of it by straight lines.
    const { hoop, radii, axial } = solver.stresses();
    const at = 2 * cells;
    const toJoint = (near: number, far: number): number =>
      hoop[near]! + ((diameter / 2 - radii[near]!) * (hoop[far]! - hoop[near]!)) / (radii[far]! - radii[near]!);
    expect(toJoint(at - 1, at - 2) / pinHoop).toBeCloseTo(1, 3);
    expect(toJoint(at, at + 1) / bossHoop).toBeCloseTo(1, 3);
    // Lame's plane stress: no axial stress anywhere.
    for (const stress of axial) expect(Math.abs(stress)).toBeLessThan(1e-4 * pressure);
  });
});
