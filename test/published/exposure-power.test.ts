import { describe, expect, it } from 'vitest';
import { batteryStrikes } from '../../src/core/safety/battery-strikes.ts';
import { copperResistivity, leadDrop } from '../../src/core/safety/lead-drop.ts';
import { gaugeDiameter, gaugeNumber } from '../../src/core/safety/wire-gauge.ts';
import { FOOT, INCH } from '../../src/core/units/quantities.ts';

/** Diameters in inches as printed in tables on ASTM B258 (four decimals, five under a tenth). */
const DIAMETERS: readonly (readonly [string, number])[] = [
  ['4/0', 0.46],
  ['3/0', 0.4096],
  ['2/0', 0.3648],
  ['1/0', 0.3249],
  ['1', 0.2893],
  ['2', 0.2576],
  ['4', 0.2043],
  ['6', 0.162],
  ['8', 0.1285],
  ['10', 0.1019],
  ['12', 0.08081],
  ['14', 0.06408],
  ['18', 0.0403],
  ['24', 0.0201],
  ['36', 0.005],
];

describe('ASTM B258', () => {
  it('prints the diameters that the formula gives, to the last figure', () => {
    for (const [gauge, inches] of DIAMETERS) {
      const printed = inches < 0.1 ? 5e-6 : 5e-5;
      expect(Math.abs(gaugeDiameter(gaugeNumber(gauge)) / INCH - inches), gauge).toBeLessThanOrEqual(printed * 1.01);
    }
  });
});

describe('NBS Handbook 100, Copper Wire Tables', () => {
  it('has annealed copper at 0.017241 ohm mm2/m at 20 C', () => {
    expect(copperResistivity(293.15) * 1e6).toBeCloseTo(0.017241, 6);
    expect(copperResistivity(293.15 + 50) / copperResistivity(293.15)).toBeCloseTo(1 + 0.00393 * 50, 12);
  });

  it('has the ohms of 1000 ft at 20 C; values from memory, to 0.2 percent', () => {
    for (const [gauge, ohms] of [
      ['4/0', 0.04901],
      ['2/0', 0.07793],
      ['1/0', 0.09827],
      ['2', 0.1563],
      ['10', 0.9989],
    ] as const) {
      expect(Math.abs(leadDrop(1, 1000 * FOOT, gauge, 293.15, 1) / ohms - 1), gauge).toBeLessThan(2e-3);
    }
  });

  it('with a lay of 1.02 has the stranded conductors of NEC Chapter 9, Table 8, at 75 C; values from memory, to 1 percent', () => {
    for (const [gauge, ohms] of [
      ['4/0', 0.0608],
      ['2/0', 0.0967],
      ['1/0', 0.122],
      ['2', 0.194],
    ] as const) {
      expect(Math.abs(leadDrop(1, 1000 * FOOT, gauge, 348.15, 1.02) / ohms - 1), gauge).toBeLessThan(0.01);
    }
  });
});

describe('Peukert 1897', () => {
  it('gives t = H (C / (I H))^k to full discharge', () => {
    for (const [C, I, k] of [
      [100, 10, 1.2],
      [70, 100, 1.25],
      [55, 150, 1.15],
    ] as const) {
      const hours = 20 * (C / (I * 20)) ** k;
      const { charge } = batteryStrikes(C * 3600, I, 1, 1, k);
      expect(charge / I / 3600).toBeCloseTo(hours, 9);
    }
  });
});
