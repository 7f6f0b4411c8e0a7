/** What burning and cooling leave of an interference, in cases drawn from the ranges, against solutions of the same cases and more of them. */
import { describe, expect, it } from 'vitest';
import { Assumptions, type Override } from '../../../src/core/assumptions/assumptions.ts';
import type { NumberName } from '../../../src/core/assumptions/registry.ts';
import type { GripAfter } from '../../../src/core/fit/grip-after.ts';
import { looseningInCases, retainedInCases } from '../../../src/core/fit/heated-cases.ts';
import { shrinkInForce } from '../../../src/core/fit/shrink-in-force.ts';
import { INCH } from '../heat/physics.ts';
import { gripOf, PACES, SHORT_TON } from './physics.ts';

const paces = Float64Array.from(PACES);
const DEFAULTS = Assumptions.defaults();
const MOST = 0.001 * 4 * INCH;

const pinOf = (diameter: number, hole: number, boss: number) => ({
  diameter: diameter * INCH,
  hole: hole * INCH,
  boss: boss * INCH,
  length: 2.5 * diameter * INCH,
});
/** Every range that the cases draw set to one value each. */
const certain = (changed: Partial<Record<NumberName, number>> = {}): Assumptions => {
  const names: readonly NumberName[] = [
    'heat into the part',
    'heated zone',
    'joint conductance',
    'pin yield strength',
    'pin over boss when pushed',
    'wet boss share',
    'boiling surface factor',
    'boiling flux factor',
    'film boiling limit',
    'interference over diameter',
    'boss over pin',
  ];
  return Assumptions.from(
    names.map((name): Override => {
      const value = changed[name] ?? DEFAULTS.value(name);
      return { name, value, low: value, high: value, kind: 'your value' };
    }),
  );
};

describe('interference left in cases of heating and cooling', () => {
  it.each([
    [4, 2.8, 10, 'air'],
    [4, 2.8, 10, 'water'],
    [2, 1.4, 5, 'air'],
    [8, 5, 20, 'water'],
  ] as const)(
    'of a %d in pin bored %d in, in a boss of %d in cooled with %s, is that of one solution where nothing is open, on a finer grid',
    (diameter, hole, boss, method) => {
      const a = certain({ 'heat into the part': 1.1e6 });
      const pin = pinOf(diameter, hole, boss);
      const [left] = retainedInCases(pin, method, Float64Array.of(0.006), MOST, a, 1);
      const delta = 0.2 * MOST;
      const over = Assumptions.from(
        [{ name: 'interference over diameter', value: delta / pin.diameter, kind: 'your value' }],
        a,
      );
      const fine = delta - shrinkInForce(pin, method, 0.006, over).pushed.loosening;
      // The grid of the cases is coarse: within a tenth of the interference, or of what it loosens.
      expect(Math.abs(left!(delta) - fine)).toBeLessThan(0.1 * Math.max(delta, Math.abs(delta - fine)));
    },
  );

  it('leaves less the faster it is burnt, since the ring is then hot before its boss', () => {
    const a = certain({ 'heat into the part': 1e6 });
    const left = [0.004, 0.006, 0.008, 0.011].map((pace) => {
      const [only] = retainedInCases(pinOf(4, 2.4, 10), 'air', Float64Array.of(pace), MOST, a, 1);
      return only!(0.5 * MOST);
    });
    left.slice(1).forEach((x, i) => expect(x).toBeLessThan(left[i]!));
  });

  it('takes a pin without interference', () => {
    for (const left of retainedInCases(pinOf(4, 2.5, 10), 'air', paces, 0, DEFAULTS))
      expect(left(0)).toBeLessThan(0.001 * INCH);
  });

  it('loosens by nothing in all cases of little heat, and in none of much', () => {
    const pin = pinOf(4, 2.8, 10);
    expect(looseningInCases(pin, 'air', paces, certain({ 'heat into the part': 0.2e6 })).nothing).toBe(1);
    expect(looseningInCases(pin, 'air', paces, certain({ 'heat into the part': 2e6 })).nothing).toBe(0);
  });

  it.each(['air', 'water'] as const)('settles with the number of cases, with %s', (method) => {
    const pin = pinOf(4, 2.4, 10);
    const [few, many] = [undefined, 256].map((cases) => looseningInCases(pin, method, paces, DEFAULTS, cases)) as [
      ReturnType<typeof looseningInCases>,
      ReturnType<typeof looseningInCases>,
    ];
    // In thousandths of an inch: a pin of this size has 1.2 of interference.
    expect(Math.abs(few.likely - many.likely)).toBeLessThan(0.2e-3 * INCH);
    expect(Math.abs(few.nothing - many.nothing)).toBeLessThan(0.1);
    const forces = [undefined, 256].map((cases) => gripOf({ tons: 60, method, cases }).after);
    expect(Math.abs(forces[0]!.likely / forces[1]!.likely - 1)).toBeLessThan(0.12);
    expect(Math.abs(forces[0]!.high / forces[1]!.high - 1)).toBeLessThan(0.15);
    expect(Math.abs(forces[0]!.low / forces[1]!.low - 1)).toBeLessThan(0.2);
  });
});

describe('a grip whose cases are read between a few that are followed', () => {
  it.each(['air', 'water'] as const)(
    'has chances within what it says of those of many, each followed, with %s',
    (method) => {
      let [held, asked] = [0, 0];
      for (const [diameter, hole, boss] of [
        [2, 1.2, 5],
        [3, 2, 7],
        [4, 2.5, 10],
        [6, 4, 14],
        [8, 5, 20],
      ] as const) {
        const pin = pinOf(diameter, hole, boss);
        const [read, followed] = [undefined, 128].map((cases) =>
          gripOf({ pin, tons: 15 * diameter, method, cases }),
        ) as [GripAfter, GripAfter];
        const { low, likely, high } = followed.after;
        const pairs = [low, likely, high].map((force) => [read.chance(force), followed.chance(force)] as const);
        for (const [few, many] of [...pairs, [read.nothing, followed.nothing] as const]) {
          asked++;
          if (Math.abs(few.value - many.value) <= few.within) held++;
        }
      }
      expect(asked).toBe(20);
      expect(held).toBeGreaterThanOrEqual(19);
    },
  );

  it('are what they were followed as where each is followed', () => {
    const each = new Array<number>(8).fill(1);
    const a = certain();
    const one = retainedInCases(pinOf(4, 2.4, 10), 'air', Float64Array.of(0.008), MOST, a, 1)[0]!(0.5 * MOST);
    for (const left of retainedInCases(pinOf(4, 2.4, 10), 'air', Float64Array.of(0.008), MOST, a, 8, each))
      expect(left(0.5 * MOST)).toBeCloseTo(one, 12);
  });
});

describe('grip after burning at a pace that is not known', () => {
  const pin = pinOf(8, 5.6, 20);
  const [slow, unknown, fast] = [[0.004], PACES, [0.011]].map((each) => gripOf({ pin, tons: 200, paces: each }));

  it('lies between that of a slow and that of a fast one, and is the same before', () => {
    for (const level of ['low', 'likely', 'high'] as const) {
      expect(unknown!.after[level]).toBeLessThanOrEqual(slow!.after[level]);
      expect(unknown!.after[level]).toBeGreaterThanOrEqual(fast!.after[level]);
    }
    expect(unknown!.before).toEqual(slow!.before);
    expect(unknown!.chance(150 * SHORT_TON).value).toBeGreaterThan(slow!.chance(150 * SHORT_TON).value);
    expect(unknown!.nothing.value).toBeLessThan(slow!.nothing.value);
  });
});
