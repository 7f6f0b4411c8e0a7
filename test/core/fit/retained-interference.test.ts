/** Interference left for any heat and pace, read between those worked out, against solutions for just that heat and pace. */
import { describe, expect, it } from 'vitest';
import { pertDraws, drawsOf } from '../../../src/core/spread/draws.ts';
import { retainedInterference, type RetainedInputs } from '../../../src/core/fit/retained-interference.ts';
import { heatedPin, interferenceLeft } from '../../../src/core/fit/shrink-pin.ts';
import { INCH, PHYSICS } from '../heat/physics.ts';
import { gripOf, priorsFor, retainedInputs, SHORT_TON } from './physics.ts';

const GRID = { pinCells: 8, bossCells: 10, tolerance: 3 };
const DRAWS = 32;
const certain = (x: number) => ({ low: x, likely: x, high: x });

const pinOf = (diameter: number, hole: number, boss: number) => ({
  diameter: diameter * INCH,
  hole: hole * INCH,
  boss: boss * INCH,
  length: 2.5 * diameter * INCH,
});
const solved = (inputs: RetainedInputs, interference: number, heat: number, pace: number, least?: number): number =>
  interferenceLeft(heatedPin({ ...inputs, passes: inputs.passes(heat, pace) }, PHYSICS, GRID, least), interference);

describe('interference left after any heat and pace', () => {
  it.each([
    [4, 2.5, 10, 'air'],
    [4, 2.5, 10, 'water'],
    [2, 1.4, 5, 'air'],
    [8, 5, 20, 'air'],
    [6, 3, 9, 'air'],
    [4, 3.4, 8, 'water'],
    [4, 2.8, 40, 'water'],
  ] as const)(
    'of a %d in pin bored %d in, in a boss of %d in cooled with %s, lies near the solution',
    (diameter, hole, boss, method) => {
      const pin = pinOf(diameter, hole, boss);
      const priors = priorsFor(pin.diameter);
      const inputs = retainedInputs(pin, method, priors);
      const read = retainedInterference(inputs, PHYSICS);
      const draws = pertDraws(
        [
          { name: 'x', ...priors.interference },
          { name: 'heat', ...priors.heat },
          { name: 'pace', ...priors.pace },
        ],
        DRAWS,
        3,
      );
      const [xs, heats, paces] = ['x', 'heat', 'pace'].map((name) => drawsOf(draws, name));
      const errors = Array.from({ length: DRAWS }, (_, i) => {
        const at = [xs?.[i] ?? NaN, heats?.[i] ?? NaN, paces?.[i] ?? NaN] as const;
        return (Math.max(0, read(...at)) - Math.max(0, solved(inputs, ...at))) / inputs.most;
      });
      expect(Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / DRAWS)).toBeLessThan(0.025);
      expect(Math.max(...errors.map(Math.abs))).toBeLessThan(0.15);
    },
  );

  it('is the solution where heat and pace are certain, at the interferences worked out', () => {
    const priors = priorsFor(4 * INCH);
    const inputs = retainedInputs(pinOf(4, 2.5, 10), 'air', {
      ...priors,
      heat: certain(priors.heat.likely),
      pace: certain(priors.pace.likely),
    });
    const read = retainedInterference(inputs, PHYSICS, GRID);
    for (const share of [0.2, 1]) {
      const at = [share * inputs.most, priors.heat.likely, priors.pace.likely] as const;
      expect(read(...at)).toBeCloseTo(solved(inputs, ...at, 10), 12);
      // Steps taken together change next to nothing.
      expect(Math.abs(read(...at) - solved(inputs, ...at)) / inputs.most).toBeLessThan(0.002);
    }
  });

  it('falls as the pace rises, which heats the ring before the boss has its share', () => {
    const inputs = retainedInputs(pinOf(4, 2.5, 10), 'air', priorsFor(4 * INCH));
    const read = retainedInterference(inputs, PHYSICS);
    const { low, likely, high } = inputs.pace;
    const left = [low, likely, high].map((pace) => read(0.5 * inputs.most, inputs.heat.likely, pace));
    left.slice(1).forEach((x, i) => expect(x).toBeLessThan(left[i]!));
  });

  it('takes a pin without interference', () => {
    const inputs = { ...retainedInputs(pinOf(4, 2.5, 10), 'air', priorsFor(4 * INCH)), most: 0 };
    const read = retainedInterference(inputs, PHYSICS);
    expect(read(0, inputs.heat.high, inputs.pace.high)).toBeLessThan(0);
    expect(Math.abs(read(0, inputs.heat.low, inputs.pace.low))).toBeLessThan(0.001 * INCH);
  });
});

describe('grip after burning at a pace that is not known', () => {
  const pin = pinOf(8, 5, 20);
  const grip = (pace = priorsFor(pin.diameter).pace) =>
    gripOf({ pin, tons: 200, priors: { ...priorsFor(pin.diameter), pace } });
  const { pace } = priorsFor(pin.diameter);

  it('has a wider range than at the likely pace, and a lower low', () => {
    const [known, unknown] = [grip(certain(pace.likely)).after, grip().after];
    expect(unknown.low).toBeLessThan(0.9 * known.low);
    expect(unknown.high / unknown.low).toBeGreaterThan(1.1 * (known.high / known.low));
  });

  it('lies between that of the slowest and that of the fastest, and is the same before', () => {
    const [slow, unknown, fast] = [grip(certain(pace.low)), grip(), grip(certain(pace.high))];
    for (const level of ['low', 'likely', 'high'] as const) {
      expect(unknown.after[level]).toBeLessThan(slow.after[level]);
      expect(unknown.after[level]).toBeGreaterThan(fast.after[level]);
    }
    expect(unknown.before).toEqual(slow.before);
    expect(unknown.chance(150 * SHORT_TON)).toBeGreaterThan(slow.chance(150 * SHORT_TON));
  });
});
