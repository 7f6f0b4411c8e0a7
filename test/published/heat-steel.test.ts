import { describe, expect, it } from 'vitest';
import { ZERO_CELSIUS } from '../../src/core/heat/celsius.ts';
import { steelConductivity } from '../../src/core/heat/steel-conductivity.ts';
import { steelElongation } from '../../src/core/heat/steel-elongation.ts';
import { steelEnthalpy } from '../../src/core/heat/steel-enthalpy.ts';
import { steelSpecificHeat } from '../../src/core/heat/steel-specific-heat.ts';
import {
  steelModulusReduction,
  steelProportionalReduction,
  steelYieldReduction,
} from '../../src/core/heat/steel-strength-reduction.ts';

// EN 1993-1-2:2005, 3.4.1, spot values worked out independently: t [C], c [J/kg K], k [W/m K], elongation, mean c from 20 C.
const STEEL = [
  [20, 439.8, 53.334, 0.0, NaN],
  [200, 529.76, 47.34, 0.002318, 489.95],
  [400, 605.88, 40.68, 0.005198, 529.85],
  [599, 758.78, 34.053, 0.008382, 578.55],
  [650, 813.75, 32.355, 0.009248, 595.06],
  [730, 2291.25, 29.691, 0.01065, 646.96],
  [740, 2525.0, 29.358, 0.010829, 684.17],
  [800, 803.26, 27.3, 0.011, 720.0],
  [900, 650.0, 27.3, 0.0118, 718.25],
  [1100, 650.0, 27.3, 0.0158, 705.61],
] as const;

// EN 1993-1-2:2005, Table 3.1, confirmed in two independent transcriptions: t [C], k_y, k_p, k_E.
const TABLE_3_1 = [
  [20, 1, 1, 1],
  [100, 1, 1, 1],
  [200, 1, 0.807, 0.9],
  [300, 1, 0.613, 0.8],
  [400, 1, 0.42, 0.7],
  [500, 0.78, 0.36, 0.6],
  [600, 0.47, 0.18, 0.31],
  [700, 0.23, 0.075, 0.13],
  [800, 0.11, 0.05, 0.09],
  [900, 0.06, 0.0375, 0.0675],
  [1000, 0.04, 0.025, 0.045],
  [1100, 0.02, 0.0125, 0.0225],
  [1200, 0, 0, 0],
] as const;

describe('carbon steel after EN 1993-1-2', () => {
  it.each(STEEL)(
    'at %d C has the specific heat, conductivity, elongation and heat content of the standard',
    (t, c, k, elongation, mean) => {
      const T = t + ZERO_CELSIUS;
      expect(steelSpecificHeat(T)).toBeCloseTo(c, 1);
      expect(steelConductivity(T)).toBeCloseTo(k, 3);
      expect(Math.abs(steelElongation(T) - elongation)).toBeLessThan(6e-7);
      if (!Number.isNaN(mean)) expect(steelEnthalpy(T) / (t - 20)).toBeCloseTo(mean, 1);
    },
  );

  it('has the latent peak of 5000 J/kg K at 735 C from both sides', () => {
    expect(steelSpecificHeat(ZERO_CELSIUS + 735 - 1e-9)).toBeCloseTo(5000, 1);
    expect(steelSpecificHeat(ZERO_CELSIUS + 735)).toBeCloseTo(5000, 6);
  });

  it.each(TABLE_3_1)('at %d C has the reduction factors of Table 3.1', (t, yields, proportional, modulus) => {
    const T = t + ZERO_CELSIUS;
    expect(steelYieldReduction(T)).toBeCloseTo(yields, 12);
    expect(steelProportionalReduction(T)).toBeCloseTo(proportional, 12);
    expect(steelModulusReduction(T)).toBeCloseTo(modulus, 12);
  });

  it('halves the way between two rows of Table 3.1', () => {
    expect(steelYieldReduction(ZERO_CELSIUS + 550)).toBeCloseTo((0.78 + 0.47) / 2, 12);
    expect(steelModulusReduction(ZERO_CELSIUS + 650)).toBeCloseTo((0.31 + 0.13) / 2, 12);
  });
});
