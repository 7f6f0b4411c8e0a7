import { describe, expect, it } from 'vitest';
import { airFilm } from '../../../src/core/heat/air-film.ts';
import { boreEmissivity } from '../../../src/core/heat/bore-emissivity.ts';
import { BOILING_POINT } from '../../../src/core/heat/boiling.ts';
import { tabulated } from '../../../src/core/heat/flux-law.ts';
import { steelEnthalpy } from '../../../src/core/heat/steel-enthalpy.ts';
import { steelSpecificHeat } from '../../../src/core/heat/steel-specific-heat.ts';
import { waterLaw } from '../../../src/core/heat/water-film.ts';
import { PHYSICS } from './physics.ts';

describe('air film', () => {
  it('keeps its radiation and a little convection where surface and air are the same', () => {
    const { convection, radiation } = airFilm(0.1, 300, 300, 0.8);
    expect(convection).toBeGreaterThan(0);
    expect(radiation).toBeCloseTo(4 * 0.8 * 5.670374419e-8 * 300 ** 3, 6);
  });
});

describe('a bore\'s own emissivity', () => {
  it('tends to hole over twice the length in a deep bore and to the metal\'s in a short one', () => {
    expect(boreEmissivity(0.05, 5, 0.8) / (0.05 / 10)).toBeCloseTo(1, 1);
    expect(boreEmissivity(1, 1e-4, 0.8)).toBeCloseTo(0.8, 3);
  });
  it('falls as the bore gets deeper', () => {
    expect(boreEmissivity(0.05, 0.3, 0.8)).toBeLessThan(boreEmissivity(0.05, 0.2, 0.8));
  });
});

describe('boiling curve', () => {
  const law = waterLaw(0.0635, PHYSICS);
  const flux = (surface: number): number => law.flux(surface);
  it('rises without a fall while the wall is wet, and again under a film of steam', () => {
    for (let t = PHYSICS.water; t < 1600; t += 0.5) {
      if (t < PHYSICS.filmLimit && t + 0.5 >= PHYSICS.filmLimit) continue;
      expect(flux(t + 0.5)).toBeGreaterThanOrEqual(flux(t));
    }
  });
  it('is positive above the water\'s temperature and zero at it', () => {
    expect(flux(PHYSICS.water)).toBe(0);
    for (let t = PHYSICS.water + 1; t < 1800; t += 10) expect(flux(t)).toBeGreaterThan(0);
  });
  it('falls to a small share of its peak where the steam film stands', () => {
    expect(flux(PHYSICS.filmLimit)).toBeLessThan(0.1 * flux(PHYSICS.filmLimit - 1));
  });
  it('peaks at the critical flux times its factor', () => {
    let peak = 0;
    for (let t = BOILING_POINT; t < PHYSICS.filmLimit; t += 0.1) peak = Math.max(peak, flux(t));
    expect(peak / (PHYSICS.fluxFactor * 1.107e6)).toBeCloseTo(1, 1);
  });
});

describe('a tabulated law', () => {
  it('meets the law at its points and lies close between', () => {
    const table = tabulated((t) => t * t, 0, 100, 1);
    expect(table.flux(40)).toBe(1600);
    expect(table.flux(40.5)).toBeCloseTo(40.5 ** 2, 0);
    expect(table.slope(40.5)).toBeCloseTo(81, 9);
  });
});

describe('heat content of steel', () => {
  it('rises by the specific heat everywhere, from far below to far above the standard\'s range', () => {
    for (let t = 200; t < 1800; t += 7.3) expect((steelEnthalpy(t + 0.01) - steelEnthalpy(t - 0.01)) / 0.02 / steelSpecificHeat(t)).toBeCloseTo(1, 2);
  });
  it('is continuous where its pieces meet', () => {
    for (const c of [20, 600, 735, 900]) expect(steelEnthalpy(273.15 + c + 1e-9) - steelEnthalpy(273.15 + c - 1e-9)).toBeLessThan(1e-3);
  });
});
