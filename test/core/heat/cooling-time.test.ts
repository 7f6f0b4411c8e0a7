import { describe, expect, it } from 'vitest';
import { coolingTime, type CoolingTime } from '../../../src/core/heat/cooling-time.ts';
import { CalcError } from '../../../src/core/errors.ts';
import { assumed, INCH, passesOf, PHYSICS, PIN } from './physics.ts';

const FINE = { pinCells: 60, bossCells: 90, tolerance: 0.05 };
const inputs = (over: Partial<CoolingTime> = {}): CoolingTime => {
  const pin = { ...PIN, ...over };
  return { ...pin, method: 'air', passes: passesOf(pin), target: assumed('cooling target in air'), ...over };
};
const time = (over: Partial<CoolingTime> = {}, physics = PHYSICS): number => coolingTime(inputs(over), physics);
const fails = (over: Partial<CoolingTime>): string => {
  try {
    time(over);
  } catch (error) {
    if (error instanceof CalcError) return `${error.code} ${error.message}`;
    throw error;
  }
  return 'no error';
};

describe('cooling time', () => {
  it.each([
    ['air', 366.5],
    ['air', 422],
    ['air', 500],
    ['water', 300],
    ['water', 366.5],
    ['water', 422],
  ] as const)('with %s to %d K lies within 3 percent of a grid and steps many times finer', (method, target) => {
    expect(
      Math.abs(time({ method, target }) / coolingTime(inputs({ method, target }), PHYSICS, FINE) - 1),
    ).toBeLessThan(0.03);
  });

  it.each([
    [12, 0.3],
    [12, 0.65],
    [4, 0.65],
  ])('does so for a pin of %d in bored to %d of it in a boss of 20 diameters', (size, bore) => {
    const diameter = size * INCH;
    const pin = { diameter, hole: bore * diameter, boss: 20 * diameter, length: 2.5 * diameter };
    const given = inputs({
      ...pin,
      method: 'water',
      target: assumed('cooling target with water'),
      passes: passesOf(pin, 250 * (size * bore) ** 2),
    });
    expect(Math.abs(coolingTime(given, PHYSICS) / coolingTime(given, PHYSICS, FINE) - 1)).toBeLessThan(0.03);
  });

  it('grows as the target nears the air', () => {
    const times = [600, 500, 422, 366.5, 320, 300].map((target) => time({ target }));
    times.slice(1).forEach((t, i) => expect(t).toBeGreaterThan(times[i]!));
  });

  it('is far shorter with water', () => {
    const target = assumed('cooling target with water');
    expect(time({ method: 'water', target })).toBeLessThan(0.1 * time({ target }));
  });

  it('grows with the heat of burning', () => {
    const [low, value, high] = (['low', 'value', 'high'] as const).map((level) =>
      time({ passes: passesOf(PIN, 600, level) }),
    );
    expect(low!).toBeLessThan(value!);
    expect(value!).toBeLessThan(high!);
  });

  it('is shorter in a larger boss, which takes up more heat', () => {
    expect(time({ boss: 12 * INCH })).toBeLessThan(time());
  });

  it('is zero where the pin never gets as hot', () => {
    expect(time({ target: 1700 })).toBe(0);
  });

  it('refuses what does not fit, naming the argument', () => {
    expect(fails({ target: 290 })).toBe("#VALUE! target is 62.33 F; must be more than the air's 70 F");
    expect(fails({ method: 'water', target: 280 })).toBe(
      "#VALUE! target is 44.33 F; must be more than the water's 60 F",
    );
    expect(fails({ hole: 5 * INCH })).toBe("#VALUE! hole is 5 in; must be less than the pin's 4 in");
    expect(fails({ boss: 3 * INCH })).toBe("#VALUE! boss is 3 in; must be more than the pin's 4 in");
    expect(fails({ length: 0 })).toBe('#VALUE! length is 0 in; must be more than 0 in');
  });

  it.each([0.75, 1.5, 4, 8, 16])(
    'settles for a pin of %d in, thin or thick ring, short or long, in air and in water',
    (inches) => {
      for (const ratio of [0.2, 0.6, 0.95]) {
        for (const boss of [1.1, 2, 5]) {
          for (const length of [0.5, 3, 10]) {
            const diameter = inches * INCH;
            const pin = { diameter, hole: ratio * diameter, boss: boss * diameter, length: length * diameter };
            for (const method of ['air', 'water'] as const) {
              const t = time({ ...pin, method, passes: passesOf(pin, 60 * inches) });
              expect(t).toBeGreaterThanOrEqual(0);
              expect(t).toBeLessThan(14 * 86400);
            }
          }
        }
      }
    },
  );
});
