import { describe, expect, it } from 'vitest';
import { planList } from '../../src/catalogue/plan-list.ts';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { callByItems } from '../../src/sheet/call.ts';
import { LONG_LISTS } from '../../src/sheet/long-lists.ts';
import { PlayedPage } from './played-page.ts';

describe('turns', () => {
  it('answer a short calculation at once while a long one is under way and the turn has time, else before it', async () => {
    const page = new PlayedPage();
    const long = page.turns.run(page.steps('long', 1000));
    expect(long).toBeInstanceOf(Promise);
    const short = page.turns.run(page.steps('short', 3));
    expect(page.turn()).toEqual({ short: 3, long: 37 });
    await expect(short).resolves.toBe('short');
    expect(page.turn()).toEqual({ long: 40 });
  });

  it('of the page leave out what is under way while the pane is about to show something', () => {
    const page = new PlayedPage();
    void page.turns.run(page.steps('long', 1000));
    expect(page.turn()).toEqual({ long: 40 });
    page.turns.giveWay();
    expect(page.turn()).toEqual({});
    expect(page.turns.run(page.steps('short', 3))).toBe('short');
    for (let i = 0; i < 20; i++) page.turn();
    expect(page.turn()).toEqual({ long: 40 });
  });

  it('are not given up for a pane that asks without end: what is under way has two of five milliseconds', () => {
    const page = new PlayedPage();
    let steps = 0;
    void page.turns.run(page.steps('long', 100_000));
    const begun = page.time;
    while (page.time < begun + 10_000) {
      page.turns.giveWay();
      steps += page.turn()['long'] ?? 0;
    }
    expect(steps).toBeGreaterThan(0.37 * 10_000);
  });
});

describe('a long list in columns', () => {
  it('takes in a thousand items at a stretch, and works the others out one by one', () => {
    LONG_LISTS.work = planList;
    const count = 3500;
    let read = 0;
    const diameters = Array.from({ length: count }, (_, i) => [2 + i / 1000]);
    const items: unknown = new Proxy(diameters, {
      get: (of, key) => {
        if (typeof key === 'string' && /^\d+$/.test(key)) read++;
        return Reflect.get(of, key) as unknown;
      },
    });
    const paused = callByItems(findFunction('BURN.PIN.PLAN')!, [items as never, [[10]]]);
    const stretches: number[] = [];
    for (;;) {
      read = 0;
      const { done } = paused.next();
      stretches.push(read);
      if (done) break;
    }
    // The first looks at the list as a whole; each item is read in two looks at its cell, and looked up in two more.
    expect(Math.max(...stretches.slice(1))).toBeLessThanOrEqual(2 * 1000 + 2);
    expect(stretches.slice(1).filter((n) => n > 2)).toHaveLength(4);
  });
});
