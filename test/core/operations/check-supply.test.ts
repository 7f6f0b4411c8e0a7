/** One supply line with the assumptions in force; the network itself is tested with the oxygen. */
import { describe, expect, it } from 'vitest';
import type { Override } from '../../../src/core/assumptions/assumptions.ts';
import { rodLine } from '../../../src/core/burn/rod-line.ts';
import { findRod } from '../../../src/core/burn/rods.ts';
import {
  checkSupply,
  supplyWorking,
  type CheckedSupply,
  type SupplyInputs,
} from '../../../src/core/operations/check-supply.ts';
import { cylinderContent } from '../../../src/core/oxygen/cylinder-content.ts';
import { rodFlow } from '../../../src/core/oxygen/rod-flow.ts';
import type { WorkedStep } from '../../../src/core/model/step.ts';
import { ATMOSPHERE, FOOT, PSI, SCF } from '../../../src/core/units/quantities.ts';
import { replay, solvedFrom } from '../model/replay.ts';
import { foundAgain } from '../model/solved.ts';
import { IN, basisOf, set, word } from './sized.ts';

const T_70F = ((70 + 459.67) * 5) / 9;
const inputs = (more: Partial<SupplyInputs> = {}): SupplyInputs => ({
  rod: findRod('3/8 x 36'),
  setting: 95 * PSI,
  hoseLength: 50 * FOOT,
  bore: 0.375 * IN,
  cylinders: 1,
  content: undefined,
  depth: 0,
  ...more,
});
const checked = (more: Partial<SupplyInputs> = {}, ...overrides: readonly Override[]): CheckedSupply =>
  checkSupply(inputs(more), basisOf(...overrides));
const gauge = ({ air }: CheckedSupply, pressure: number): number => (pressure - air) / PSI;

describe('a supply line as assumed', () => {
  it('gives what is set while the oxygen flows, or less by the droop where it is set standing', () => {
    const flowing = checked();
    expect(gauge(flowing, flowing.check.point.delivery)).toBeCloseTo(95, 4);
    const standing = checked(
      {},
      word('regulator set', 'standing'),
      set('regulator droop', 8 * PSI),
      set('regulator droop flow', (20 * SCF) / 60),
    );
    const { point } = standing.check;
    expect(gauge(standing, point.delivery)).toBeCloseTo(95 - (8 * point.flow) / ((20 * SCF) / 60), 4);
  });

  it('under water aims at the tip pressure over that of the water, 0.445 psi a foot', () => {
    // US Navy Diving Manual: 60 ft of sea water, 26.7 psi. So 90 psi at the tip is 116.7 psi over air.
    const overrides = [set('tip pressure', 90 * PSI), set('water depth', 60 * FOOT)];
    const short = checked({ setting: 117 * PSI, hoseLength: 200 * FOOT, depth: 60 * FOOT }, ...overrides);
    expect(gauge(short, short.check.point.tip)).toBeLessThan(116.7);
    const mend = short.check.mends.find((m) => m.what === 'setting');
    if (mend?.what !== 'setting') throw new Error('a higher setting must mend it');
    const mended = checked(
      { setting: mend.setting - short.air, hoseLength: 200 * FOOT, depth: 60 * FOOT },
      ...overrides,
    );
    expect(gauge(mended, mended.check.point.tip)).toBeCloseTo(116.7, 2);
  });

  it('takes a rod longer than its stub', () => {
    expect(() => checked({ rod: findRod('3/8 x 18') }, set('stub', 18 * IN))).toThrow(
      "stub is 18 in; must be less than the rod's 18 in",
    );
    expect(checked({ rod: findRod('3/8 x 18') }, set('stub', 17 * IN)).stub).toBeCloseTo(17 * IN, 12);
    expect(checked({ rod: findRod('3/8') }).length).toBeCloseTo(36 * IN, 12);
  });

  it('takes a content up to that of a cylinder filled a tenth over its rating, which counts what can still be drawn', () => {
    const overrides = [
      set('gas temperature', T_70F),
      set('cylinder volume', 0.043),
      set('cylinder rating', 2200 * PSI),
      set('cylinder pressure', 2200 * PSI),
      set('leftover pressure', 250 * PSI),
      set('air pressure', ATMOSPHERE),
    ];
    const content = (psi: number): number =>
      cylinderContent(0.043, psi * PSI + ATMOSPHERE, T_70F) - cylinderContent(0.043, 250 * PSI + ATMOSPHERE, T_70F);
    // 49 CFR 173.302a(b): a tenth over 2200 psi.
    const most = checked({ content: content(2420) }, ...overrides);
    expect(gauge(most, most.check.point.cylinder)).toBeCloseTo(2420, 3);
    const half = checked({ content: content(1200) }, ...overrides);
    expect(gauge(half, half.check.point.cylinder)).toBeCloseTo(1200, 3);
    expect(() => checked({ content: 1.0001 * content(2420) }, ...overrides)).toThrow(/content is/);
  });
});

describe('the working of a supply line', () => {
  const working = (more: Partial<SupplyInputs>, ...overrides: readonly Override[]): readonly WorkedStep[] =>
    supplyWorking(inputs(more), basisOf(...overrides)).steps();
  const CASES: readonly (readonly [string, Partial<SupplyInputs>, readonly Override[]])[] = [
    ['of a full cylinder', {}, []],
    [
      'of a content, under water, set standing',
      { content: 3, depth: 10, setting: 130 * PSI },
      [word('regulator set', 'standing')],
    ],
  ];

  it.each(CASES)('%s can be calculated again from what it shows', (_, more, overrides) => {
    const steps = working(more, ...overrides);
    const shown = new Set<string>();
    for (const step of steps) {
      expect(shown.has(step.symbol), step.symbol).toBe(false);
      const from = solvedFrom(step);
      expect(from?.filter((name) => !shown.has(name)) ?? [], step.symbol).toEqual([]);
      if (from) expect((foundAgain(step, steps) ?? NaN) / (step.value as number), step.symbol).toBeCloseTo(1, 8);
      shown.add(step.symbol);
    }
    for (const { step, value } of replay(steps))
      expect(Math.abs(value - (step.value as number)), step.symbol).toBeLessThanOrEqual(1e-11 * Math.abs(value));
  });

  it('shows the pressure behind the holder, which drives the flow through the rod alone', () => {
    const steps = working({});
    const n = (symbol: string): number => steps.find((s) => s.symbol === symbol)?.value as number;
    const { holder: _, ...bare } = rodLine(findRod('3/8').rod, n('p_hose'), basisOf());
    expect(rodFlow(bare, n('p_behind') + n('p_air'), (n('L_rod') + n('stub')) / 2) / n('m')).toBeCloseTo(1, 5);
    expect(n('p_behind')).toBeLessThan(n('p_hose'));
    expect(n('p_left')).toBeGreaterThanOrEqual(n('p_low'));
  });
});
