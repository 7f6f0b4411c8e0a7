/** How a page gets what long lists are worked out with. */
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import type { LongList } from '../../src/catalogue/plan-list.ts';
import { LONG_LISTS, readyFor } from '../../src/sheet/long-lists.ts';

const LONG_RANGE = Array.from({ length: 1000 }, (_, i) => [i + 1]);
const list: LongList = () => undefined;

/** Turns that pass until it is ready. */
async function turns(args: readonly unknown[]): Promise<number> {
  let passed = 0;
  for (const _ of readyFor(args)) {
    passed++;
    await Promise.resolve();
    if (passed > 100) throw new Error('it never is');
  }
  return passed;
}

describe('a long list in a page', () => {
  // Other tests of this process may have it from the start, and get it back.
  const before = { ...LONG_LISTS };
  const empty = (): void => {
    delete LONG_LISTS.work;
    delete LONG_LISTS.fetch;
  };
  beforeEach(empty);
  afterAll(() => {
    empty();
    Object.assign(LONG_LISTS, before);
  });

  it('waits until what it needs is fetched, once', async () => {
    let asked = 0;
    LONG_LISTS.fetch = async () => {
      asked++;
      return Promise.resolve(list);
    };
    expect(await turns([LONG_RANGE])).toBeGreaterThan(0);
    expect(LONG_LISTS.work).toBe(list);
    expect(await turns([LONG_RANGE])).toBe(0);
    expect(asked).toBe(1);
  });

  it('does not wait where it is short, or where nothing can be fetched', async () => {
    expect(await turns([LONG_RANGE])).toBe(0);
    LONG_LISTS.fetch = async () => Promise.resolve(list);
    expect(await turns([4, undefined, [[1], [2]]])).toBe(0);
    expect(LONG_LISTS.work).toBeUndefined();
  });

  it('goes on without where the fetch fails, and tries again with the next', async () => {
    LONG_LISTS.fetch = async () => Promise.reject(new Error('gone'));
    expect(await turns([LONG_RANGE])).toBeGreaterThan(0);
    expect(LONG_LISTS.work).toBeUndefined();
    LONG_LISTS.fetch = async () => Promise.resolve(list);
    await turns([LONG_RANGE]);
    expect(LONG_LISTS.work).toBe(list);
  });
});
