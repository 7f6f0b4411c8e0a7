import { describe, expect, it } from 'vitest';
import { Assumptions } from '../../../src/core/assumptions/assumptions.ts';
import { REGISTRY } from '../../../src/core/assumptions/registry.ts';
import {
  ALUMINIUM,
  CHROMIUM_LIQUID,
  COPPER,
  GRAPHITE,
  MOLAR_MASS,
  NICKEL_LIQUID,
  SILICON_LIQUID,
  elementEnthalpy,
} from '../../../src/core/burn/element-polynomials.ts';
import { ironEnthalpy } from '../../../src/core/burn/iron-heat.ts';
import { MATERIAL_NAMES } from '../../../src/core/assumptions/material-names.ts';
import { MATERIALS, findMaterial, materialFactors, materialSteps } from '../../../src/core/burn/materials.ts';
import { heatBalanceSteps } from '../../../src/core/burn/heat-balance.ts';
import { findRod } from '../../../src/core/burn/rods.ts';
import { StepList } from '../../../src/core/model/step-list.ts';
import { substance } from './substance.ts';
import { CalcError } from '../../../src/core/errors.ts';
import { findSource } from '../../../src/core/sources/register.ts';

const a = Assumptions.defaults();
const at = substance;

describe('the register of materials', () => {
  it('has every name the assumptions offer, each with sources that exist and factors that are assumptions', () => {
    expect(MATERIALS.map((m) => m.name)).toEqual([...MATERIAL_NAMES]);
    for (const m of MATERIALS) {
      expect(findSource(m.source), m.source).toBeDefined();
      expect(findSource(m.heatSource), m.heatSource).toBeDefined();
      for (const factor of materialFactors(m)) expect(REGISTRY.some((r) => r.name === factor)).toBe(true);
    }
  });

  it('finds a material by another name of it, whatever case and spaces, and none twice', () => {
    expect(findMaterial(' Stainless  STEEL ').name).toBe('stainless steel');
    expect(findMaterial('bronze').name).toBe('copper alloy');
    const words = MATERIALS.flatMap((m) => [m.name, ...m.aliases]);
    expect(new Set(words).size).toBe(words.length);
  });

  it('gives #N/A with the nearest names for one it does not know', () => {
    expect(() => findMaterial('stainles')).toThrow(CalcError);
    expect(() => findMaterial('stainles')).toThrow(/material "stainles" is not in the register; nearest: stainless/);
  });
});

describe('what a material is to the heat balance', () => {
  it('carbon, hardened and manganese steel burn freely and take the heat of iron', () => {
    for (const name of ['carbon steel', 'hardened pin steel', 'manganese steel'])
      expect(at(name)).toMatchObject({ burns: 1, heat: ironEnthalpy(2100), heatLost: 0.06 });
  });

  it('stainless steel and cast iron burn only in part, take about the heat of iron, and are rows of the assumptions', () => {
    expect(at('stainless').burns).toBeCloseTo(0.05, 12);
    expect(at('cast iron').burns).toBeCloseTo(0.45, 12);
    // Of what is melted of cast iron some clings and is melted again.
    for (const [name, leaves] of [
      ['stainless', 1],
      ['cast iron', 0.75],
    ] as const) {
      expect((at(name).heat * leaves) / ironEnthalpy(2100)).toBeGreaterThan(0.95);
      expect((at(name).heat * leaves) / ironEnthalpy(2100)).toBeLessThan(1.1);
    }
  });

  it('copper and aluminium only melt, leave above their own melting point whatever the slag, and conduct heat away', () => {
    for (const name of ['copper', 'aluminium']) {
      expect(at(name).burns).toBe(0);
      expect(at(name, 1900).heat).toBe(at(name, 2400).heat);
      // Of the heat left over for the work three tenths are conducted away.
      expect(at(name).takes).toBeCloseTo(at(name).heat / 0.7, 6);
    }
    const ratio = a.value('melt temperature ratio');
    expect(at('copper').heat).toBe(elementEnthalpy(COPPER, MOLAR_MASS.Cu, 1358 * ratio));
    expect(at('aluminium').heat).toBe(elementEnthalpy(ALUMINIUM, MOLAR_MASS.Al, 933.61 * ratio));
  });

  it('alloys take the heat of their elements by mass: 18 chromium and 9 nickel in stainless, 3.3 carbon and 2 silicon in cast iron', () => {
    const Cr = elementEnthalpy(CHROMIUM_LIQUID, MOLAR_MASS.Cr, 2100);
    const Ni = elementEnthalpy(NICKEL_LIQUID, MOLAR_MASS.Ni, 2100);
    const Si = elementEnthalpy(SILICON_LIQUID, MOLAR_MASS.Si, 2100);
    const C = elementEnthalpy(GRAPHITE, MOLAR_MASS.C, 2100);
    expect(at('stainless').heat).toBeCloseTo(0.73 * ironEnthalpy(2100) + 0.18 * Cr + 0.09 * Ni, 3);
    expect(at('cast iron').heat).toBeCloseTo((0.947 * ironEnthalpy(2100) + 0.02 * Si + 0.033 * C) / 0.75, 3);
  });

  it('rest on the assumptions that they are said to rest on, and on no others', () => {
    for (const m of MATERIALS) {
      const list = new StepList(
        [...materialSteps(m), ...heatBalanceSteps(findRod('3/8').rod, m)],
        ['h_work', 'h_takes', 'f', 'rho', 'burns', 'material', 'share'],
      );
      const read = list.assumptionsOf('rho', 'burns', 'T', 'h_takes', 'f');
      const ofAll = ['slag temperature', 'heat lost share', 'heat into the part'];
      expect([...read].filter((name) => !ofAll.includes(name)).sort(), m.name).toEqual([...materialFactors(m)].sort());
    }
  });

  it('concrete takes its heat to melt whatever the slag; with steel in it, density and heat mix by volume and the steel may burn', () => {
    expect(at('concrete')).toMatchObject({ density: 2300, heat: 2e6, burns: 0 });
    const s = 0.01;
    const mixed = at('reinforced concrete');
    expect(mixed.density).toBeCloseTo(0.99 * 2300 + s * 7850, 9);
    expect(mixed.density * mixed.heat).toBeCloseTo(0.99 * 2300 * 2e6 + s * 7850 * ironEnthalpy(2100), 0);
    expect(mixed.burns).toBeCloseTo((s * 7850) / mixed.density, 12);
  });
});
