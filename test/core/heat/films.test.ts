import { describe, expect, it } from 'vitest';
import { airFilm } from '../../../src/core/heat/air-film.ts';
import { boreEmissivity } from '../../../src/core/heat/bore-emissivity.ts';
import {
  BOILING_POINT,
  WATER_AT_BOILING,
  criticalHeatFlux,
  filmBoilingFlux,
  nucleateBoilingFlux,
  steamProperties,
} from '../../../src/core/heat/boiling.ts';
import { tabulated } from '../../../src/core/heat/flux-law.ts';
import { interpolate } from '../../../src/core/heat/interpolate.ts';
import { steelConductivity } from '../../../src/core/heat/steel-conductivity.ts';
import { steelElongation } from '../../../src/core/heat/steel-elongation.ts';
import { steelEnthalpy } from '../../../src/core/heat/steel-enthalpy.ts';
import { steelSpecificHeat } from '../../../src/core/heat/steel-specific-heat.ts';
import { steelModulusReduction, steelYieldReduction } from '../../../src/core/heat/steel-strength-reduction.ts';
import { waterLaw } from '../../../src/core/heat/water-film.ts';
import { waterProperties } from '../../../src/core/heat/water-properties.ts';
import { PHYSICS } from './physics.ts';

describe('air film', () => {
  it('keeps its radiation and a little convection where surface and air are the same', () => {
    const { convection, radiation } = airFilm(0.1, 300, 300, 0.8);
    expect(convection).toBeGreaterThan(0);
    expect(radiation).toBeCloseTo(4 * 0.8 * 5.670374419e-8 * 300 ** 3, 6);
  });
});

describe("a bore's own emissivity", () => {
  it("tends to hole over twice the length in a deep bore and to the metal's in a short one", () => {
    expect(boreEmissivity(0.05, 5, 0.8) / (0.05 / 10)).toBeCloseTo(1, 1);
    expect(boreEmissivity(1, 1e-4, 0.8)).toBeCloseTo(0.8, 3);
  });
  it('is that of a grey enclosure with two black mouths that see 0.1716 of each other where it is as long as wide', () => {
    // View factor of equal coaxial discs one diameter apart, 0.1716 (Incropera's table 13.2 evaluated); by reciprocity the wall, four
    // times a mouth, sends (1 - 0.1716) / 2 to the mouths, and the flux out is that through (1 - e) / e + 1 / F in series.
    const toMouths = (1 - 0.1716) / 2;
    expect(boreEmissivity(0.1, 0.1, 0.8)).toBeCloseTo(1 / (0.25 + 1 / toMouths), 4);
    expect(boreEmissivity(0.1, 0.1, 1)).toBeCloseTo(toMouths, 4);
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
  it("is positive above the water's temperature and zero at it", () => {
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

describe('the parts of the boiling curve', () => {
  const law = waterLaw(0.0635, { ...PHYSICS, water: 293.15 });

  it('are natural convection below boiling: 41.5 kW/m2 from 2.5 in at 60 C to water at 20 C', () => {
    // Churchill and Chu by hand with a handbook's water at 40 C (from memory): 0.658e-6 m2/s, 0.631 W/m K, 3.85e-4 1/K, Pr 4.32 give
    // Ra 3.86e8, Nu 104.5, 1039 W/m2 K.
    expect(law.flux(333.15) / 41550).toBeCloseTo(1, 1.5);
  });

  it('are nucleate boiling on top of it just above', () => {
    // Turbulent natural convection goes as the difference to the power 4/3, and is a tenth of the flux there.
    const surface = 293.15 + 2 * Math.ceil((BOILING_POINT + 12 - 293.15) / 2);
    const convection = law.flux(BOILING_POINT) * ((surface - 293.15) / (BOILING_POINT - 293.15)) ** (4 / 3);
    expect(
      (law.flux(surface) - convection) / nucleateBoilingFlux(surface - BOILING_POINT, PHYSICS.surfaceFactor),
    ).toBeCloseTo(1, 1.5);
  });

  it("are a film of steam, with what the water's cold takes from it, far above", () => {
    for (const surface of [900, 1200, 1500]) {
      expect(
        (law.flux(surface) - filmBoilingFlux(surface, 0.0635, PHYSICS.emissivity)) / law.flux(BOILING_POINT),
      ).toBeCloseTo(1, 1.5);
    }
  });

  it("have three quarters of black radiation to the water added to the film's convection", () => {
    const [bare, black] = [0, 1].map((emissivity) => filmBoilingFlux(1200, 0.05, emissivity));
    expect((black! - bare!) / (0.75 * 5.670374419e-8 * (1200 ** 4 - BOILING_POINT ** 4))).toBeCloseTo(1, 9);
  });
});

describe('steam', () => {
  it.each([
    // Handbook values at one atmosphere (from memory): C, uPa s, W/m K.
    [100, 12.3, 0.0247],
    [300, 20.3, 0.0434],
    [600, 32.6, 0.0797],
  ])('at %d C has the viscosity and conductivity of a handbook within 3 %', (celsius, viscosity, conductivity) => {
    const steam = steamProperties(celsius + 273.15);
    expect(Math.abs((steam.viscosity * 1e6) / viscosity - 1)).toBeLessThan(0.03);
    expect(Math.abs(steam.conductivity / conductivity - 1)).toBeLessThan(0.03);
  });

  it('in a film is that at the mean of wall and boiling point', () => {
    const mean = steamProperties((1200 + BOILING_POINT) / 2);
    expect(filmBoilingFlux(1200, 0.05, 0.5)).toBe(filmBoilingFlux(1200, 0.05, 0.5, WATER_AT_BOILING, mean));
  });

  it('no lighter than the water does not rise: nothing boils away', () => {
    const steam = steamProperties(700);
    const even = { ...WATER_AT_BOILING, liquidDensity: WATER_AT_BOILING.vapourDensity };
    expect(criticalHeatFlux(even)).toBe(0);
    expect(nucleateBoilingFlux(6, 0.013, even)).toBe(0);
    expect(filmBoilingFlux(1200, 0.05, 0, { ...WATER_AT_BOILING, liquidDensity: steam.density }, steam)).toBe(0);
  });
});

describe('liquid water', () => {
  it.each([
    // Handbook values at one atmosphere (from memory): C, kg/m3, uPa s, W/m K, 1e-4/K, Prandtl number.
    [20, 998.2, 1002, 0.598, 2.07, 7.01],
    [50, 988.0, 547, 0.644, 4.58, 3.55],
    [100, 958.4, 282, 0.678, 7.5, 1.75],
  ])(
    'at %d C has the properties of a handbook within 2 %',
    (celsius, density, viscosity, conductivity, expansion, prandtl) => {
      const water = waterProperties(celsius + 273.15);
      // The rational fit of the density is 0.3 kg/m3 off at 100 C.
      expect(Math.abs(water.density / density - 1)).toBeLessThan(4e-4);
      expect(Math.abs((water.viscosity * 1e6) / viscosity - 1)).toBeLessThan(0.01);
      expect(Math.abs(water.conductivity / conductivity - 1)).toBeLessThan(0.01);
      expect(Math.abs((water.expansion * 1e4) / expansion - 1)).toBeLessThan(0.02);
      expect(Math.abs(water.prandtl / prandtl - 1)).toBeLessThan(0.02);
    },
  );

  it('is densest at 4 C', () => {
    expect(waterProperties(277.13).density).toBeGreaterThan(waterProperties(276.13).density);
    expect(waterProperties(277.13).density).toBeGreaterThan(waterProperties(278.13).density);
  });
});

describe("steel outside the standard's range", () => {
  it('keeps the slope of its elongation and the value of its conductivity and specific heat', () => {
    const slope = (c: number): number =>
      (steelElongation(273.15 + c + 0.01) - steelElongation(273.15 + c - 0.01)) / 0.02;
    expect(slope(0) / slope(20.02)).toBeCloseTo(1, 4);
    expect(slope(1300)).toBeCloseTo(slope(1190), 12);
    // From 20 C, where all of them start: 1.2e-5 + 0.8e-8 x 20 a kelvin, and the specific heat there.
    expect(steelElongation(273.15)).toBeCloseTo(-20 * 1.216e-5, 12);
    expect(steelEnthalpy(273.15)).toBeCloseTo(-20 * steelSpecificHeat(293.15), 6);
    expect([
      steelYieldReduction(250),
      steelModulusReduction(250),
      steelYieldReduction(1600),
      steelModulusReduction(1600),
    ]).toEqual([1, 1, 0, 0]);
    expect([0, 1, 1.5, 2, 3].map((at) => interpolate([1, 2], [10, 20], at))).toEqual([10, 10, 15, 20, 20]);
    for (const property of [steelConductivity, steelSpecificHeat]) {
      expect(property(250)).toBe(property(293.15));
      expect(property(1600)).toBe(property(1473.15));
    }
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
  it("rises by the specific heat everywhere, from far below to far above the standard's range", () => {
    for (let t = 200; t < 1800; t += 7.3)
      expect((steelEnthalpy(t + 0.01) - steelEnthalpy(t - 0.01)) / 0.02 / steelSpecificHeat(t)).toBeCloseTo(1, 2);
  });
  it('is continuous where its pieces meet', () => {
    for (const c of [20, 600, 735, 900])
      expect(steelEnthalpy(273.15 + c + 1e-9) - steelEnthalpy(273.15 + c - 1e-9)).toBeLessThan(1e-3);
  });
});
