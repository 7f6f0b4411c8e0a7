/**
 * One burning bar through reinforced concrete: US Navy, Underwater Cutting and Welding Manual, S0300-BB-MAN-010, App. E
 * (a reprint was read): 24 in thick, a hole of 2-1/2 in, 60 cu ft of oxygen, 5 min, 80 to 120 psi, one bar.
 *
 * Where the plan falls, at 100 psi with a bar of 3/8 pipe, 10 ft: 64 scf, low 57, high 97; burning 3.5 min, with pauses
 * 5.0 min; a bar, but for an inch. The published oxygen lies between low and high, 6 % under the middle and close to the low (about one
 * job in five or six takes less); without idle and lighting losses, of which the published figure says nothing, the middle
 * is 58. The published time lies between burning alone and burning with its pauses. Why the low is near the middle: at
 * the middle the bar burns just about all of its iron (1.6 kg fed, 1.65 kg that the oxygen could burn), and any departure
 * of feed or burnt share from that match costs heat.
 *
 * The heat to melt concrete is the sum of parts below; nothing was fitted to the published case.
 */
import { describe, expect, it } from 'vitest';
import { REGISTRY } from '../../src/core/assumptions/registry.ts';
import { numberOf, rowsOf } from './plan-of.ts';

describe('a burning bar through 24 in of reinforced concrete', () => {
  const at = (pressure: number): Readonly<Record<string, unknown>> =>
    rowsOf('BURN.BREACH.PLAN', 24, 2.5, 1, '3/8 pipe', undefined, [['tip pressure', pressure]])[0] ?? {};

  it.each([80, 100, 120])('takes the published 60 cu ft between its low and its high at %i psi', (pressure) => {
    const plan = at(pressure);
    expect(plan['oxygen low']).toBeLessThan(60);
    expect(plan['oxygen high']).toBeGreaterThan(60);
    // The published figure is round: 60 to about 10 %.
    expect(Math.abs((plan['oxygen'] as number) / 60 - 1)).toBeLessThan(0.1);
  });

  it('burns 3 to 4-1/2 min where 5 min is published, which lies between that and the time with its pauses at 80 psi', () => {
    // The published 12 scfm is less than what the model has for a bar at 80 to 120 psi, 13.6 to 20.
    for (const pressure of [80, 100, 120]) {
      expect(at(pressure)['burning']).toBeGreaterThan(2.8);
      expect(at(pressure)['burning']).toBeLessThan(5);
    }
    // Share of the time in which a rod burns: 0.7.
    expect((at(80)['burning'] as number) / 0.7).toBeGreaterThan(5);
  });

  it('takes one bar', () => {
    // The size of the published bar is not given. One of 3/8 pipe, 120 in, just misses the far end: it is 30.7 in when it gets
    // there, where the wall and a stub of 8 in (4 to 18, common practice) are 32. So its middle is 2 bars, of 1.007, its low 1.
    for (const pressure of [80, 100, 120]) {
      expect(at(pressure)['rods low']).toBe(1);
      const steps = rowsOf('BURN.BREACH.STEPS', 24, 2.5, 1, '3/8 pipe', undefined, [['tip pressure', pressure]]);
      const unrounded = steps.find((step) => step['symbol'] === 'N_used')?.['value'];
      expect(unrounded).toBeGreaterThan(0.9);
      expect(unrounded).toBeLessThan(1.05);
    }
    for (const rod of ['1/2 pipe', '3/4 pipe', undefined])
      expect(numberOf('BURN.BREACH.RODS', 24, 2.5, 1, rod)).toBe(1);
  });

  it('uses the published pressure', () => {
    expect(numberOf('BURN.BREACH.PRESSURE', 24, 2.5)).toBeCloseTo(100, 9);
  });

  it.each(['1/4 pipe', '3/8 pipe', '1/2 pipe', '3/4 pipe', undefined])(
    'takes the published oxygen between low and high with %s',
    (rod) => {
      const plan = rowsOf('BURN.BREACH.PLAN', 24, 2.5, 1, rod)[0] ?? {};
      expect(plan['oxygen low']).toBeLessThan(60);
      expect(plan['oxygen high']).toBeGreaterThan(60);
    },
  );
});

describe('the heat to melt concrete', () => {
  const row = REGISTRY.find((a) => a.name === 'concrete heat to melt') as { value: number; low: number; high: number };

  it('lies about the sum of warming, drying, decomposing and melting', () => {
    // EN 1992-1-2, 3.3.2: 900 J/kgK to 100 C, rising to 1000 at 200, 1100 at 400, 1100 to 1200 C (from memory).
    const warming = 900 * 80 + 950 * 100 + 1050 * 200 + 1100 * 800;
    // To a melting range about 1250 to 1450 C, at the last value.
    const above = [50, 250].map((K) => 1100 * K);
    // Sevon, VTT Research Notes 2311 (read in a summary): 2258 kJ/kg of water driven off, 1340 of portlandite, 1637 of calcite.
    const drying = [0.02, 0.05].map((water) => 2.258e6 * water);
    const decomposing = [1.34e6 * 0.03, 1.34e6 * 0.06 + 1.637e6 * 0.2];
    // Fukuyama 1985 (abstract read): heat of fusion of basaltic liquids 121.1 to 161.5 cal/g.
    const melting = [121.1, 161.5].map((cal) => cal * 4184 * 0.9);
    const sum = (k: number): number =>
      (warming + (above[k] ?? 0) + (drying[k] ?? 0) + (decomposing[k] ?? 0) + (melting[k] ?? 0)) / 1e6;
    // 1.85 without carbonate, 2.7 with a fifth of it: concrete of limestone lies at the high end, of gravel at the middle.
    expect(sum(0)).toBeGreaterThan(row.low);
    expect(sum(0)).toBeLessThan(row.value);
    expect(sum(1)).toBeGreaterThan(row.value);
    expect(sum(1) / row.high).toBeLessThan(1.05);
  });
});
