/**
 * Facts of the trade: common practice, no source. The model is not tuned to any of them; each must lie within what
 * the low and high of the assumptions allow, or the test says how far it does not.
 */
import { describe, expect, it } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import type { Cell } from '../../src/catalogue/cell.ts';
import { call } from '../../src/sheet/call.ts';

const number = (name: string, ...args: Parameters<typeof call>[1][number][]): number =>
  call(findFunction(name)!, args)[0]?.[0] as number;
const flow = (rod: string, pressure: number, holder: number): number =>
  number('BURN.ROD.FLOW', rod, pressure, 36, [['holder orifice', holder]]);
const planOf = (...args: Parameters<typeof call>[1][number][]): Record<string, Cell> => {
  const [heading = [], row = []] = call(findFunction('BURN.PIN.PLAN')!, args);
  return Object.fromEntries(heading.map((h, i) => [h as string, row[i] ?? null]));
};

describe('short rods take 4 to 10 cu ft of oxygen a minute at 40 to 150 psi (common practice, no source)', () => {
  // Holder orifice low and high: 0.08 and 0.16 in. Each rod is met over a part of the pressures: a 3/16 rod takes
  // less than 4 below about 85 psi and a 3/8 rod more than 10 above about 115, wherever the holder's range is set.
  it.each([
    ['3/16', 90, 150],
    ['1/4', 60, 130],
    ['3/8', 45, 110],
  ] as const)('a %s rod from %i to %i psi', (rod, from, to) => {
    for (let p = from; p <= to; p += 5) {
      expect(flow(rod, p, 0.16), `${p} psi`).toBeGreaterThan(4);
      expect(flow(rod, p, 0.08), `${p} psi`).toBeLessThan(10);
    }
  });

  it('over the whole range of pressure the model gives 2 to 16, wider than that practice', () => {
    expect(flow('3/16', 40, 0.08)).toBeGreaterThan(1.9);
    expect(flow('3/8', 150, 0.16)).toBeLessThan(17);
  });
});

describe('a pin 4 in by 10 in took about an hour in all on one cylinder (common practice, no source)', () => {
  const plan = planOf(4, 10);

  it('an hour lies between the low and the high of the crew time', () => {
    expect(plan['crew low, min'] as number).toBeLessThan(60);
    expect(plan['crew high, min'] as number).toBeGreaterThan(60);
  });

  it('one cylinder does, also at the high', () => {
    expect(plan['cylinders so far']).toBe(1);
    expect(plan['oxygen high, scf'] as number).toBeLessThan(230);
  });
});

describe('piercing is done at 70 to 150 psi, more with depth (common practice, no source)', () => {
  it.each([1, 3, 10, 20, 30, 40])('%i in deep', (length) => {
    const p = number('BURN.PIN.PRESSURE', 4, length);
    expect(p).toBeGreaterThanOrEqual(70);
    expect(p).toBeLessThanOrEqual(150);
    expect(number('BURN.PIN.PRESSURE', 4, length + 1)).toBeGreaterThanOrEqual(p);
  });
});

it('pins down to 3/4 in can be pierced with the small rods (common practice, no source)', () => {
  expect(planOf(0.75, 3)['rod']).toMatch(/^3\/16 x /);
});

it('short rods come 18, 24, 36 and 48 in long (common practice, no source)', () => {
  for (const length of [18, 24, 36, 48])
    expect(number('BURN.PIN.RODS', 4, 10, null, `3/8 x ${length}`)).toBeGreaterThanOrEqual(1);
});
