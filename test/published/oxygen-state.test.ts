import { describe, expect, it } from 'vitest';
import { isotherm, oxygenDensity, oxygenState, oxygenViscosity } from '../../src/core/oxygen/oxygen-state.ts';
import { ATMOSPHERE, CUBIC_FOOT, CUBIC_METRE_15C, PSI, SCF } from '../../src/core/units/quantities.ts';

/**
 * Reference grid computed from the published equation (Schmidt and Wagner 1985; Stewart, Jacobsen and Wagner 1991;
 * viscosity Lemmon and Jacobsen 2004) with CoolProp 8.0.0 agreeing within 4e-6.
 * T [K], p [MPa], mol/m3, kg/m3, Z, viscosity [uPa s], cv, cp [J/kg K], cp/cv, speed of sound [m/s].
 */
const GRID = [
  [250.0, 0.101325, 48.8148, 1.56201, 0.998614, 17.7954, 653.136, 915.019, 1.40096, 301.251],
  [250.0, 2.0, 988.8838, 31.6431, 0.973009, 18.2479, 660.829, 964.069, 1.45888, 299.602],
  [250.0, 10.0, 5454.5076, 174.5377, 0.882016, 21.0147, 691.832, 1224.419, 1.76982, 303.906],
  [250.0, 15.17, 8578.2444, 274.49353, 0.850784, 24.1209, 707.235, 1392.566, 1.96903, 320.726],
  [250.0, 20.0, 11346.185, 363.0643, 0.848032, 27.8539, 716.816, 1492.605, 2.08227, 346.948],
  [273.15, 1.0, 444.5258, 14.22429, 0.990545, 19.3458, 658.024, 934.59, 1.4203, 314.512],
  [273.15, 5.0, 2303.6265, 73.71328, 0.955716, 20.3343, 670.242, 1021.678, 1.52434, 315.055],
  [273.15, 13.79, 6696.2176, 214.27093, 0.906788, 23.6016, 693.373, 1228.774, 1.77217, 330.908],
  [273.15, 18.2, 8886.8866, 284.36971, 0.901764, 25.989, 701.999, 1313.384, 1.87092, 347.624],
  [288.15, 0.101325, 42.3255, 1.35436, 0.999237, 19.9932, 657.035, 918.326, 1.39768, 323.243],
  [288.15, 2.0, 847.1574, 27.10802, 0.985416, 20.4158, 662.124, 951.822, 1.43753, 323.37],
  [288.15, 10.0, 4435.3662, 141.9264, 0.941075, 22.6156, 681.869, 1106.615, 1.62291, 331.603],
  [288.15, 15.17, 6816.6793, 218.12556, 0.928894, 24.6516, 692.327, 1202.107, 1.73633, 344.96],
  [288.15, 20.0, 8965.2827, 286.87829, 0.93115, 27.0208, 700.182, 1273.127, 1.81828, 363.179],
  [294.26, 1.0, 411.4934, 13.1673, 0.993295, 20.5303, 660.169, 933.914, 1.41466, 326.696],
  [294.26, 5.0, 2108.4141, 67.46672, 0.969293, 21.463, 670.043, 1003.793, 1.4981, 328.704],
  [294.26, 13.79, 6002.8269, 192.08326, 0.938965, 24.2609, 688.756, 1161.641, 1.68658, 344.634],
  [294.26, 18.2, 7928.9499, 253.71688, 0.938203, 26.1866, 696.136, 1228.169, 1.76427, 359.158],
  [300.0, 0.101325, 40.6481, 1.30069, 0.999373, 20.6524, 658.73, 919.887, 1.39646, 329.723],
  [300.0, 2.0, 811.4998, 25.96702, 0.988081, 21.0663, 663.301, 950.076, 1.43235, 330.245],
  [300.0, 10.0, 4205.5932, 134.57394, 0.953287, 23.1534, 680.949, 1085.954, 1.59477, 339.353],
  [300.0, 15.17, 6434.7076, 205.90292, 0.945165, 25.0037, 690.395, 1168.808, 1.69296, 352.212],
  [300.0, 20.0, 8448.1447, 270.33049, 0.949117, 27.1249, 697.666, 1232.055, 1.76597, 369.142],
  [310.0, 1.0, 389.9733, 12.47868, 0.994891, 21.3915, 662.339, 934.413, 1.41078, 335.396],
  [310.0, 5.0, 1985.4361, 63.53157, 0.977068, 22.2886, 670.93, 994.738, 1.48263, 338.26],
  [310.0, 13.79, 5589.5027, 178.85738, 0.957198, 24.8367, 687.244, 1127.28, 1.64029, 354.338],
  [310.0, 18.2, 7362.5236, 235.59192, 0.959081, 26.523, 693.844, 1183.79, 1.70613, 367.798],
  [323.15, 0.101325, 37.7281, 1.20725, 0.999585, 21.9107, 662.696, 923.639, 1.39376, 341.95],
  [323.15, 2.0, 750.2208, 24.00616, 0.992222, 22.3083, 666.48, 948.653, 1.42338, 343.098],
  [323.15, 10.0, 3829.3023, 122.53308, 0.97196, 24.2204, 681.011, 1056.962, 1.55205, 353.589],
  [323.15, 15.17, 5820.3655, 186.24471, 0.970071, 25.8037, 688.909, 1121.843, 1.62843, 365.797],
  [323.15, 20.0, 7619.7221, 243.82196, 0.97692, 27.5675, 695.181, 1172.974, 1.68729, 380.955],
] as const;

const fromFahrenheit = (t: number): number => ((t + 459.67) * 5) / 9;

describe('oxygen against the published equation', () => {
  it.each(GRID)('agrees at %d K and %d MPa to 0.01 %', (T, p, molar, density, Z, viscosity, cv, cp, gamma, sound) => {
    const state = oxygenState(T, p * 1e6);
    const close = (got: number, wanted: number): void => expect(Math.abs(got / wanted - 1)).toBeLessThan(1e-4);
    close(state.density / 0.0319988, molar);
    close(state.density, density);
    close(state.Z, Z);
    close(oxygenViscosity(T, state.density) * 1e6, viscosity);
    close(state.cv, cv);
    close(state.cp, cp);
    close(state.cp / state.cv, gamma);
    close(state.speedOfSound, sound);
  });

  it('gives the CoolProp test values of viscosity at 300 K, dilute and at 5 mol/L', () => {
    expect(oxygenViscosity(300, 0) * 1e6).toBeCloseTo(20.6307, 4);
    expect(oxygenViscosity(300, 5000 * 0.0319988) * 1e6).toBeCloseTo(23.7577, 4);
  });

  it('gives 203.58 kg/m3 and Z 0.9452 at 300 K and 15 MPa', () => {
    expect(oxygenDensity(300, 15e6)).toBeCloseTo(203.58, 2);
    expect(isotherm(300).Z(15e6)).toBeCloseTo(0.9452, 4);
  });

  it('is the basis of the standard cubic foot and cubic metre', () => {
    expect(oxygenDensity(fromFahrenheit(70), ATMOSPHERE) * CUBIC_FOOT).toBeCloseTo(SCF, 9);
    // 14.696 psia is one atmosphere rounded: 3.5 parts in a million more.
    expect((oxygenDensity(fromFahrenheit(70), 14.696 * PSI) * CUBIC_FOOT) / SCF - 1).toBeLessThan(4e-6);
    // US compressed-gas trade, 70 F, and the 60 F basis.
    expect(oxygenDensity(fromFahrenheit(70), ATMOSPHERE) * CUBIC_FOOT).toBeCloseTo(0.0375521, 7);
    expect(oxygenDensity(fromFahrenheit(60), ATMOSPHERE) * CUBIC_FOOT).toBeCloseTo(0.0382772, 7);
    expect(oxygenDensity(288.15, ATMOSPHERE)).toBeCloseTo(CUBIC_METRE_15C, 6);
  });
});
