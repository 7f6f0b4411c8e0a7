/** Position and access: what they do to time, rod and oxygen. */
import { describe, expect, it } from 'vitest';
import type { Override } from '../../../src/core/assumptions/assumptions.ts';
import { HOLE } from '../../../src/core/operations/hole.ts';
import { PIN } from '../../../src/core/operations/pin.ts';
import type { Sized } from '../../../src/core/operations/sized.ts';
import { IN, basisOf, set, sized, word } from './sized.ts';

const hole = (...overrides: readonly Override[]): Sized =>
  sized(HOLE, [1.5 * IN, 6 * IN], { rod: '3/8 x 36', basis: basisOf(...overrides) });

describe('position and access', () => {
  const flat = hole();
  /** Slag that holds nothing up. */
  const FREE = [set('advance limit', 2), set('limit sharpness', 50)] as const;

  it('overhead takes more oxygen and rod for the metal, and more time still', () => {
    const over = hole(word('position', 'overhead'), ...FREE);
    const free = hole(...FREE);
    expect(over.burnTime / free.burnTime).toBeCloseTo(1 / 0.9, 6);
    expect(over.consumed / free.consumed).toBeCloseTo(1 / 0.9, 6);
    expect(over.timeAtWork).toBeCloseTo(1.5 * (over.burnTime / 0.7 + Math.max(1, over.used) * 45), 6);
    expect(over.removed).toBe(flat.removed);
    const held = hole(word('position', 'overhead')).burnTime / flat.burnTime;
    expect(held).toBeGreaterThan(1.1);
    expect(held).toBeLessThan(1 / 0.9);
  });

  it('vertical down slows only what slag limits', () => {
    expect(hole(word('position', 'vertical down')).burnTime / flat.burnTime).toBeCloseTo(1, 2);
    expect(hole(word('position', 'vertical down'), ...FREE).burnTime).toBeCloseTo(hole(...FREE).burnTime, 9);
    const limited = [set('advance limit', IN / 60), set('limit sharpness', 50), set('hole taper', 0)];
    expect(hole(word('position', 'vertical down'), ...limited).burnTime / hole(...limited).burnTime).toBeCloseTo(
      1 / 0.6,
      6,
    );
  });

  it('tight access slows the crew and burns no more', () => {
    const tight = hole(word('access', 'tight'));
    expect(tight.oxygen).toBe(flat.oxygen);
    expect(tight.timeAtWork / flat.timeAtWork).toBeCloseTo(1.4, 9);
  });

  it('a shorter access takes shorter rods, so more stubs, changes and oxygen', () => {
    const long = sized(PIN, [4 * IN, 10 * IN]);
    const short = sized(PIN, [4 * IN, 10 * IN], { basis: basisOf(set('access length', 20 * IN)) });
    expect(short.rods).toBeGreaterThan(long.rods);
    expect(short.timeAtWork).toBeGreaterThan(long.timeAtWork);
    expect(short.oxygen).toBeGreaterThan(long.oxygen);
  });

  it('grounded work takes insulated rods, and ungrounded work bare ones', () => {
    expect(sized(HOLE, [1.5 * IN, 6 * IN]).rod.rod.insulated).toBe(false);
    const grounded = sized(HOLE, [1.5 * IN, 6 * IN], { basis: basisOf(word('work grounded', 'yes')) });
    expect(grounded.rod.rod.insulated).toBe(true);
    expect(grounded.rod.reason).toContain('insulated, since the work is grounded');
  });

  it('a depth of water is under water, whatever the position says', () => {
    const deep = sized(HOLE, [1.5 * IN, 6 * IN], { basis: basisOf(set('water depth', 60 * 0.3048)) });
    const awash = sized(HOLE, [1.5 * IN, 6 * IN], { basis: basisOf(word('position', 'underwater')) });
    expect(deep.rod.rod.insulated).toBe(true);
    expect(deep.pressure).toBe(awash.pressure);
    expect(deep.flow, 'denser oxygen').toBeGreaterThan(awash.flow);
    expect(deep.burnTime).toBeLessThan(awash.burnTime);
  });
});
