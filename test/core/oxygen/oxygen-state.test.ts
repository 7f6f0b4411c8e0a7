import { describe, expect, it } from 'vitest';
import { CalcError } from '../../../src/core/errors.ts';
import {
  checkOxygenRange,
  isotherm,
  oxygenDensity,
  oxygenState,
  OXYGEN_GAS_CONSTANT,
} from '../../../src/core/oxygen/oxygen-state.ts';

const TEMPERATURES = [160, 200, 250, 273.15, 294.26, 320, 350, 400];
const PRESSURES = [1, 101325, 1e6, 5.043e6, 15e6, 30e6, 80e6];

describe('isotherm', () => {
  it('gives back the pressure it was asked the density for', () => {
    for (const T of TEMPERATURES)
      for (const p of PRESSURES)
        expect(Math.abs(isotherm(T).pressure(isotherm(T).density(p)) / p - 1)).toBeLessThan(1e-12);
  });

  it('is the ideal gas in the limit of no pressure', () => {
    expect(isotherm(300).density(0)).toBe(0);
    expect(isotherm(300).Z(0)).toBe(1);
    expect(isotherm(300).density(1) * OXYGEN_GAS_CONSTANT * 300).toBeCloseTo(1, 7);
  });

  it('gives more density for more pressure and less for more temperature', () => {
    for (const T of TEMPERATURES) {
      const line = isotherm(T);
      for (let p = 1e5, before = 0; p < 30e6; p += 2e5) {
        const density = line.density(p);
        expect(density).toBeGreaterThan(before);
        if (T < 400) expect(isotherm(T + 10 > 400 ? 400 : T + 10).density(p)).toBeLessThan(density);
        before = density;
      }
    }
  });

  it('keeps enthalpy, energy, cp, cv and the pressure slope consistent with each other', () => {
    for (const T of [250, 300, 350])
      for (const p of [1e5, 5e6, 20e6]) {
        const state = oxygenState(T, p);
        expect(state.enthalpy - state.internalEnergy).toBeCloseTo(p / state.density, 4);
        const h = 0.01;
        const slope = (oxygenState(T + h, p).enthalpy - oxygenState(T - h, p).enthalpy) / (2 * h);
        expect(slope / state.cp).toBeCloseTo(1, 6);
        const above = isotherm(T + h).state(state.density);
        const below = isotherm(T - h).state(state.density);
        expect((above.internalEnergy - below.internalEnergy) / (2 * h) / state.cv).toBeCloseTo(1, 6);
        expect((above.pressure - below.pressure) / (2 * h) / state.pressureSlope).toBeCloseTo(1, 6);
      }
  });

  it('refuses what lies outside the equation, naming argument and limit', () => {
    expect(() => isotherm(150)).toThrow('temperature is 150 K; must be at least 160 K');
    expect(() => isotherm(NaN)).toThrow(CalcError);
    expect(() => isotherm(401)).toThrow('must be at most 400 K');
    expect(() => oxygenDensity(300, -1)).toThrow('pressure is -1 Pa absolute; must be at least 0 Pa absolute');
    expect(() => oxygenDensity(300, 81e6)).toThrow(CalcError);
    expect(() => checkOxygenRange(221, 1e5)).toThrow('temperature is 221 K; must be at least 222 K');
    expect(() => checkOxygenRange(300, 31e6)).toThrow(CalcError);
    expect(() => checkOxygenRange(222, 30e6)).not.toThrow();
  });
});
