import { describe, expect, it } from 'vitest';
import { fromSi, plainUnit, toSi } from '../../../src/core/units/parse-quantity.ts';
import { CUBIC_METRE_15C, QUANTITIES, SCF, type QuantityName } from '../../../src/core/units/quantities.ts';
import { showQuantity } from '../../../src/core/units/show-quantity.ts';

/**
 * What one of each unit is in SI: NIST SP 811 (2008), Appendix B.8, to the seven figures printed there (from memory and from the
 * definitions: inch 0.0254 m, pound 0.45359237 kg, standard gravity 9.80665 m/s2, 0 C 273.15 K, 1 atm 101325 Pa).
 */
const ONE: Readonly<Record<QuantityName, Readonly<Record<string, number>>>> = {
  length: { in: 0.0254, ft: 0.3048, yd: 0.9144, mm: 0.001, cm: 0.01, m: 1 },
  distance: { in: 0.0254, ft: 0.3048, yd: 0.9144, mm: 0.001, cm: 0.01, m: 1 },
  pressure: { psi: 6894.757, bar: 1e5, kPa: 1e3, MPa: 1e6, Pa: 1, psia: 6894.757 - 101325, 'bar abs': -1325 },
  stress: { psi: 6894.757, ksi: 6.894757e6, MPa: 1e6, GPa: 1e9, Pa: 1 },
  oxygen: { scf: SCF, m3: CUBIC_METRE_15C, Nm3: 1.429033, kg: 1, lb: 0.4535924 },
  flow: {
    scfm: SCF / 60,
    scfh: SCF / 3600,
    'm3/h': CUBIC_METRE_15C / 3600,
    'L/min': CUBIC_METRE_15C / 60000,
    'kg/s': 1,
    'kg/min': 0.01666667,
  },
  time: { min: 60, s: 1, h: 3600 },
  seconds: { min: 60, s: 1, h: 3600 },
  hours: { min: 60, s: 1, h: 3600 },
  mass: { lb: 0.4535924, kg: 1, g: 0.001, oz: 0.02834952 },
  force: { ton: 8896.443, kN: 1000, N: 1, lbf: 4.448222, kip: 4448.222 },
  temperature: { F: 255.9277778, C: 274.15, K: 1 },
  temperatureDifference: { F: 0.5555556, C: 1, K: 1 },
  absoluteTemperature: { F: 255.9277778, C: 274.15, K: 1 },
  capacity: { L: 0.001, m3: 1, 'cu ft': 0.02831685 },
  volume: { 'cu ft': 0.02831685, m3: 1, 'cu in': 1.638706e-5, L: 0.001, cm3: 1e-6 },
  airflow: { cfm: 4.719474e-4, 'm3/h': 2.777778e-4, 'm3/s': 1, 'L/s': 0.001 },
  area: { 'sq in': 6.4516e-4, mm2: 1e-6, cm2: 1e-4, m2: 1 },
  speed: { 'in/min': 4.233333e-4, 'mm/min': 1.666667e-5, 'm/s': 1 },
  massRate: { 'lb/min': 7.559873e-3, 'kg/min': 0.01666667, 'kg/s': 1 },
  massPerLength: { 'lb/ft': 1.488164, 'kg/m': 1 },
  pressurePerLength: { 'psi/in': 271447.1, 'psi/ft': 22620.59, 'bar/m': 1e5, 'Pa/m': 1 },
  timePerLength: { 'min/in': 2362.205, 'min/m': 60, 's/m': 1 },
  density: { 'kg/m3': 1 },
  specificHeat: { 'J/kg K': 1 },
  heatPerMass: { 'MJ/kg': 1e6, 'kJ/kg': 1e3, 'J/kg': 1 },
  energy: { J: 1, kJ: 1000 },
  power: { kW: 1000, W: 1 },
  heatTransfer: { 'W/m2K': 1 },
  conductivity: { 'W/m K': 1 },
  diffusivity: { 'mm2/s': 1e-6, 'm2/s': 1 },
  ratio: { '': 1, '%': 0.01 },
  percent: { '%': 0.01 },
  count: { '': 1 },
  level: { dBA: 1, dB: 1 },
  current: { A: 1 },
  voltage: { V: 1 },
  resistivity: { 'ohm mm2/m': 1e-6 },
  charge: { Ah: 3600 },
  concentration: { 'mg/m3': 1e-6 },
  money: { money: 1 },
  moneyPerMass: { 'money/scf': 1 / SCF, 'money/m3': 1 / CUBIC_METRE_15C },
  moneyPerSteel: { 'money/lb': 1 / 0.45359237, 'money/kg': 1 },
  moneyPerTime: { 'money/h': 1 / 3600 },
  oxygenPerMass: { 'scf/lb': SCF / 0.4535924, 'm3/kg': CUBIC_METRE_15C, 'kg/kg': 1 },
};

describe('the units', () => {
  it('are each what the guide to the SI says', () => {
    for (const [name, { units }] of Object.entries(QUANTITIES)) {
      const quantity = name as QuantityName;
      expect(Object.keys(units).sort(), name).toEqual(Object.keys(ONE[quantity]).sort());
      for (const [unit, si] of Object.entries(ONE[quantity])) {
        expect(toSi(1, quantity, 'US', unit) / si, `${name} ${unit}`).toBeCloseTo(1, 6);
        expect(fromSi(si, quantity, 'US', unit), `${name} ${unit}`).toBeCloseTo(1, 3);
      }
    }
  });

  it('of oxygen hold what an ideal gas would, and a tenth of a percent more: 70 F and 14.696 psia, 15 C and 1 atm', () => {
    // Molar mass 31.9988 g/mol, R 8.314463; the compressibility of oxygen there is 0.9992 to 0.9994 (from memory).
    const ideal = (T: number): number => (101325 * 0.0319988) / (8.314463 * T);
    expect(SCF / 0.02831685 / ideal(294.2611)).toBeGreaterThan(1.0005);
    expect(SCF / 0.02831685 / ideal(294.2611)).toBeLessThan(1.001);
    expect(CUBIC_METRE_15C / ideal(288.15)).toBeGreaterThan(1.0005);
    expect(CUBIC_METRE_15C / ideal(288.15)).toBeLessThan(1.001);
  });
});

describe('a quantity shown', () => {
  it.each([
    [0.127, 'length', 'US', '5 in'],
    [0.127, 'length', 'SI', '127 mm'],
    [0.3, 'percent', 'US', '30%'],
    [12, 'count', 'SI', '12'],
    [294.2611111, 'temperature', 'US', '70 F'],
    [294.2611111, 'temperature', 'SI', '21.1111 C'],
  ] as const)('%f as %s in %s is %s', (value, name, system, text) => {
    expect(showQuantity(value, name, system)).toBe(text);
  });

  it('has six figures, or as many as asked', () => {
    expect(showQuantity(1 / 3, 'ratio', 'US')).toBe('0.333333');
    expect(showQuantity(1 / 3, 'ratio', 'US', 3)).toBe('0.333');
  });

  it('uses the plain unit of the system, which every quantity has', () => {
    for (const [name, { units }] of Object.entries(QUANTITIES))
      for (const system of ['US', 'SI'] as const)
        expect(Object.keys(units)).toContain(plainUnit(name as QuantityName, system));
    expect(() => toSi(1, 'length', 'US', 'lb')).toThrow('lb is not a unit of length');
  });
});
