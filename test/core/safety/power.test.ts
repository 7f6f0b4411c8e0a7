import { describe, expect, it } from 'vitest';
import { Assumptions } from '../../../src/core/assumptions/assumptions.ts';
import { batteryStrikes, batteryStrikesInForce } from '../../../src/core/safety/battery-strikes.ts';
import { copperResistivity, leadDrop, leadDropInForce } from '../../../src/core/safety/lead-drop.ts';
import { machineSetting, rodCover } from '../../../src/core/safety/welding-machine.ts';
import { gaugeDiameter, gaugeNumber } from '../../../src/core/safety/wire-gauge.ts';
import { FOOT } from '../../../src/core/units/quantities.ts';

const AH = 3600;

describe('wire gauge', () => {
  it('is read however it is written', () => {
    expect(
      ['4/0', '0000', 'AWG 4/0', '2/0', '00', '1/0', '0', '1', ' 2 ', '#10', '36 AWG', '40'].map(gaugeNumber),
    ).toEqual([-3, -3, -3, -1, -1, 0, 0, 1, 2, 10, 36, 40]);
  });

  it('that does not exist is refused', () => {
    for (const bad of ['5/0', '41', '-1', 'x', '', '2.5', '00000'])
      expect(() => gaugeNumber(bad)).toThrow('is not a wire gauge the register knows');
  });

  it('halves its copper about every three numbers', () => {
    expect((gaugeDiameter(2) / gaugeDiameter(5)) ** 2).toBeCloseTo(2.005, 3);
  });
});

describe('voltage lost in a lead', () => {
  const drop = (I: number, feet: number, gauge: string, T = 293.15, lay = 1): number =>
    leadDrop(I, feet * FOOT, gauge, T, lay);

  it('goes with current, length and lay, and is none at none', () => {
    expect(drop(100, 50, '2')).toBeCloseTo(2 * drop(50, 50, '2'), 12);
    expect(drop(100, 50, '2')).toBeCloseTo(2 * drop(100, 25, '2'), 12);
    expect(drop(100, 50, '2', 293.15, 1.02) / drop(100, 50, '2')).toBeCloseTo(1.02, 12);
    expect(drop(0, 50, '2')).toBe(0);
    expect(drop(100, 0, '2')).toBe(0);
  });

  it('is less in a thicker lead and more in a hot one', () => {
    const gauges = ['4', '2', '1', '1/0', '2/0', '3/0', '4/0'];
    for (let i = 1; i < gauges.length; i++)
      expect(drop(100, 50, gauges[i]!)).toBeLessThan(drop(100, 50, gauges[i - 1]!));
    expect(drop(100, 50, '2', 340)).toBeGreaterThan(drop(100, 50, '2', 290));
  });

  it('refuses what cannot be', () => {
    expect(() => drop(-1, 1, '2')).toThrow('amps');
    expect(() => drop(1, -1, '2')).toThrow('length');
    expect(() => drop(1, 1, '2', 293, 0.9)).toThrow('lay');
    expect(() => copperResistivity(100)).toThrow('temperature');
    expect(() => copperResistivity(500)).toThrow('temperature');
  });

  it('is the same in its working', () => {
    const a = Assumptions.defaults();
    const working = leadDropInForce(150, 30, '2/0', a);
    expect(working.value).toBe(leadDrop(150, 30, '2/0', a.value('lead temperature'), a.value('lead lay')));
    const symbols = working.steps().map((s) => s.symbol);
    expect(symbols).toEqual(['I', 'L', 'T', 's', 'd', 'A', 'rho_20', 'T_double', 'T_20', 'rho', 'V']);
  });
});

describe('ignitions from a battery', () => {
  it('are the charge over the charge of one, where the current does not matter', () => {
    expect(batteryStrikes(100 * AH, 100, 2, 1, 1).strikes).toBe(1800);
    expect(batteryStrikes(100 * AH, 100, 2, 0.5, 1).strikes).toBe(900);
  });

  it('do not lose a whole number to rounding', () => {
    expect(batteryStrikes(36, 0.1, 120, 1, 1).strikes).toBe(3);
    expect(batteryStrikes(0.3 * AH, 10, 36, 1, 1).strikes).toBe(3);
  });

  it('are fewer at a higher current than in proportion, and whole', () => {
    const n = (I: number): number => batteryStrikes(70 * AH, I, 2, 0.5, 1.25).strikes;
    expect(n(200)).toBeLessThan(n(100) / 2);
    expect(Number.isInteger(n(137))).toBe(true);
  });

  it('give the rated charge at the rated current whatever the exponent', () => {
    for (const k of [1, 1.2, 1.5]) expect(batteryStrikes(100 * AH, 5, 10, 1, k).charge).toBeCloseTo(100 * AH, 6);
  });

  it('are none from a battery too small for one', () => {
    expect(batteryStrikes(1, 100, 2, 0.5, 1.25).strikes).toBe(0);
  });

  it('refuse what cannot be', () => {
    expect(() => batteryStrikes(-3600, 100, 2, 0.5, 1.2)).toThrow('amp hours is -1 Ah; must be more than 0 Ah');
    expect(() => batteryStrikes(Infinity, 100, 2, 0.5, 1.2)).toThrow('amp hours is ');
    expect(() => batteryStrikes(0, 100, 2, 0.5, 1.2)).toThrow('amp hours is 0 Ah; must be more than 0 Ah');
    expect(() => batteryStrikes(AH, 0, 2, 0.5, 1.2)).toThrow('amps');
    expect(() => batteryStrikes(AH, 1, 0, 0.5, 1.2)).toThrow('seconds');
    expect(() => batteryStrikes(AH, 1, 1, 1.5, 1.2)).toThrow('battery usable share');
    expect(() => batteryStrikes(AH, 1, 1, 0.5, 0.9)).toThrow('peukert exponent');
  });

  it('are the same in their working', () => {
    const a = Assumptions.defaults();
    const of = (I: number, t: number): number =>
      batteryStrikes(70 * AH, I, t, a.value('battery usable share'), a.value('peukert exponent')).strikes;
    const working = batteryStrikesInForce(70 * AH, 100, 2, a);
    expect(working.value).toBe(of(100, 2));
    expect(working.steps().map((s) => s.symbol)).toEqual(['C', 'I', 't', 'share', 'k', 'H', 'C_I', 'C_use', 'n']);
    expect(batteryStrikesInForce(70 * AH, undefined, undefined, a).value).toBe(
      of(a.value('strike current'), a.value('strike time')),
    );
  });
});

describe('a welding machine', () => {
  it('is set at most at the limit for short rods', () => {
    // Common practice, no source: at most 150 A.
    expect(machineSetting(150, 150)).toEqual({ exceeds: false, limit: 150 });
    expect(machineSetting(151, 150).exceeds).toBe(true);
    expect(() => machineSetting(-1, 150)).toThrow('setting');
  });

  it('asks for an insulated rod where the work is grounded, an arc is kept or the work is under water', () => {
    const plain = { grounded: false, arc: false, underwater: false };
    expect(rodCover(plain).cover).toBe('bare');
    for (const key of ['grounded', 'arc', 'underwater'] as const)
      expect(rodCover({ ...plain, [key]: true }).cover).toBe('insulated');
    expect(rodCover({ grounded: true, arc: true, underwater: false }).reason).toContain(
      'the work is grounded and the current stays on',
    );
  });
});
