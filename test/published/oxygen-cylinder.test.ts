import { describe, expect, it } from 'vitest';
import { contentPressure, cylinderContent, drawnTo } from '../../src/core/oxygen/cylinder-content.ts';
import { cylinderGauge } from '../../src/core/oxygen/cylinder-gauge.ts';
import { isotherm } from '../../src/core/oxygen/oxygen-state.ts';
import { ATMOSPHERE, CUBIC_FOOT, PSI, SCF } from '../../src/core/units/quantities.ts';

const fahrenheit = (t: number): number => ((t + 459.67) * 5) / 9;
const T = fahrenheit(70);

describe('oxygen cylinder', () => {
  it.each([
    // Common size, 244 cu ft at 2200 psi and 70 F, which by the equation of state has 43.0 L of water volume.
    [43.0, 2200, 244],
    // US Army TC 9-237: 220 cu ft at 2000 psi, 42.7 L.
    [42.7, 2000, 220],
  ])('of %d L holds at %d psi what is printed on it: %d cu ft', (litres, psi, scf) => {
    expect(Math.abs(cylinderContent(litres * 1e-3, psi * PSI + ATMOSPHERE, T) / SCF / scf - 1)).toBeLessThan(0.002);
    // An ideal gas would give 6 % less: 45.9 and 45.4 L for the same content.
    expect(Math.abs(isotherm(T).Z(psi * PSI + ATMOSPHERE) - 0.939)).toBeLessThan(0.003);
  });

  /** psig at 70 F, MPa absolute, kg/m3, Z, scf contained and scf deliverable to 0 psig for each cu ft of water volume. */
  it.each([
    [1800.0, 12.512, 173.89, 0.94108, 131.12, 130.12],
    [2015.0, 13.994, 194.98, 0.93871, 147.03, 146.03],
    [2216.0, 15.38, 214.56, 0.93752, 161.79, 160.79],
    [2400.0, 16.649, 232.31, 0.93732, 175.18, 174.18],
    [2640.0, 18.303, 255.13, 0.93831, 192.39, 191.39],
  ])('at %d psig and 70 F has the content of the reference table', (psig, mpa, density, Z, contained, deliverable) => {
    const pressure = psig * PSI + ATMOSPHERE;
    expect(pressure / 1e6).toBeCloseTo(mpa, 3);
    expect(isotherm(T).density(pressure)).toBeCloseTo(density, 1);
    expect(isotherm(T).Z(pressure)).toBeCloseTo(Z, 4);
    expect(cylinderContent(CUBIC_FOOT, pressure, T) / SCF).toBeCloseTo(contained, 1);
    expect(drawnTo(CUBIC_FOOT, pressure, T, ATMOSPHERE) / SCF).toBeCloseTo(deliverable, 1);
    expect(contentPressure(CUBIC_FOOT, contained * SCF, T) / pressure).toBeCloseTo(1, 4);
  });

  it('filled to 2200 psig at 70 F reads 1783 psig at 0 F and 2377 at 100 F', () => {
    const full = 2200 * PSI + ATMOSPHERE;
    expect((cylinderGauge(full, T, fahrenheit(0)) - ATMOSPHERE) / PSI).toBeCloseTo(1783, -0.3);
    expect((cylinderGauge(full, T, fahrenheit(100)) - ATMOSPHERE) / PSI).toBeCloseTo(2377, -0.3);
  });
});
