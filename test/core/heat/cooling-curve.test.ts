import { describe, expect, it } from 'vitest';
import { coolingCurve } from '../../../src/core/heat/cooling-curve.ts';
import { coolingTime } from '../../../src/core/heat/cooling-time.ts';
import { passesOf, PHYSICS, PIN } from './physics.ts';

const TIMES = [0, 10, 60, 300, 1200, 3600, 14400, 86400, 7 * 86400];
const curve = (method: 'air' | 'water', times: readonly number[] = TIMES) =>
  coolingCurve({ ...PIN, method, passes: passesOf(), times }, PHYSICS);

describe('cooling curve', () => {
  it.each([
    ['air', PHYSICS.ambient],
    ['water', PHYSICS.water],
  ] as const)('with %s never falls below what cools it, however long', (method, sink) => {
    for (const { bore, surface, bossInside, bossOutside } of curve(method)) {
      for (const t of [bore, surface, bossInside, bossOutside]) expect(t).toBeGreaterThan(sink - 1e-5);
    }
    expect(curve(method).at(-1)!.bore).toBeCloseTo(sink, 0);
  });

  it("starts with the bore hotter than the pin's surface, that hotter than the boss", () => {
    const { bore, surface, bossInside, bossOutside } = curve('air')[0]!;
    expect(bore).toBeGreaterThan(surface);
    expect(surface).toBeGreaterThan(bossInside);
    expect(bossInside).toBeGreaterThan(bossOutside);
  });

  it('has the pin cooler than the boss soon after water is run through it', () => {
    const points = curve('water', [0, 60, 90]);
    expect(points[0]!.pinMean).toBeGreaterThan(points[0]!.bossMean);
    expect(points[2]!.pinMean).toBeLessThan(points[2]!.bossMean);
  });

  it('passes the target at the cooling time', () => {
    const target = 440;
    const t = coolingTime({ ...PIN, method: 'air', passes: passesOf(), target }, PHYSICS);
    const point = curve('air', [t])[0]!;
    expect(Math.max(point.bore, point.surface)).toBeGreaterThan(target - 3);
    expect(Math.max(point.bore, point.surface)).toBeLessThan(target + 3);
  });

  it('gives one point a moment', () => {
    expect(curve('air').map(({ time }) => time)).toEqual(TIMES);
    expect(curve('air', [])).toEqual([]);
  });
});
