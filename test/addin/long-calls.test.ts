/** Long lists and large results through the vendor's own runtime. */
import { afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { Outlet } from '../../src/addin/outlet.ts';
import { MOST_BYTES, bytesOf } from '../../src/addin/result-size.ts';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { call, callByItems } from '../../src/sheet/call.ts';
import { bundle } from './bundle.ts';
import type { Seen } from './long-functions.ts';
import { INVALID_VALUE, SpreadsheetHost } from './spreadsheet-host.ts';

/** The vendor's limit for one request (its documentation of resource limits, and issue 4654 of its public tracker). */
const REQUEST = 5_000_000;
const list = (n: number): readonly (readonly number[])[] => Array.from({ length: n }, (_, i) => [i]);

let invented: string;
let host: SpreadsheetHost;
beforeAll(async () => {
  invented = await bundle("import './long-functions.ts';");
});
beforeEach(async () => {
  host = await SpreadsheetHost.load(invented);
});
afterEach(() => host.close());
const seen = (): Seen => host.global('seen') as Seen;

describe('a long list', () => {
  it('is worked out over many turns of the page, which answers others in between', async () => {
    const [outcome] = await host.run([{ id: 'LONG.LIST', args: [list(400)] }]);
    expect(outcome).toEqual({ value: list(400).map(([n = 0]) => [2 * n]) });
    expect(seen().turns).toHaveLength(400);
    expect(new Set(seen().turns).size).toBeGreaterThan(8);
  });

  it('does not keep short calls waiting that come with it, nor do many short ones hold the page up together', async () => {
    const order: string[] = [];
    await Promise.all([
      host.run([{ id: 'LONG.LIST', args: [list(4000)] }]).then(() => order.push('long')),
      host.run([{ id: 'LONG.LIST', args: [list(3)] }]).then(() => order.push('short')),
    ]);
    expect(order).toEqual(['short', 'long']);
    seen().turns.length = 0;
    await host.run(Array.from({ length: 60 }, () => ({ id: 'LONG.LIST', args: [list(10)] })));
    expect(new Set(seen().turns).size).toBeGreaterThan(8);
  });

  it('stops where the host takes its call back', async () => {
    await host.run([{ id: 'LONG.LIST', args: [list(4000)], cancelled: true }]);
    expect(seen().turns.length).toBeLessThan(100);
    await host.run([{ id: 'LONG.LIST', args: [list(3)] }]);
    expect(seen().turns.length).toBeLessThan(103);
  });

  it('that is short is answered at once, without a promise', () => {
    expect(host.direct('LONG.LIST', [[1], [2]], {})).toEqual([[2], [4]]);
  });

  it('that comes as a whole column ends with its last filled cell, before anything is done with it', () => {
    const column = Array.from({ length: 1_048_576 }, (_, i) => [i === 1 ? 7 : null]);
    expect(host.direct('LONG.LIST', column, {})).toEqual([[''], [14]]);
    expect(seen().turns).toHaveLength(2);
  });

  it.each([
    ['BURN.COOL.TIME', [[[4], [3], ['x']], 2, 10]],
    ['BURN.PIN.PLAN', [[[4], [null], [3]], 10]],
    ['BURN.HOLE.TIME', [[[1, 1.5]], [[6], [8]]]],
  ] as const)('pauses after each item: %s', (name, args) => {
    const paused = callByItems(findFunction(name)!, args);
    let pauses = 0;
    for (;;) {
      const { done, value } = paused.next();
      if (done) {
        expect(value).toEqual(call(findFunction(name)!, args));
        break;
      }
      pauses++;
    }
    expect(pauses).toBeGreaterThanOrEqual(3);
  });
});

describe('a large result', () => {
  it('is an error beyond 4.5 MB, which says how long a list may be; its neighbours have their figures', async () => {
    const [large, small, most] = await host.run([
      { id: 'LARGE.TABLE', args: [[[48_000]]] },
      { id: 'LARGE.TABLE', args: [[[1]]] },
      { id: 'LARGE.TABLE', args: [[[42_000]]] },
    ]);
    expect(large).toEqual({
      failure: INVALID_VALUE,
      message:
        'the result has 48000 rows and 4.9 MB, more than the host takes at once; split the list: at most 41000 rows a formula',
    });
    expect(small).toMatchObject({ value: [['x'.repeat(97)]] });
    expect(most).toMatchObject({ value: expect.any(Array) as unknown[] });
    expect(host.largest).toBeLessThan(REQUEST);
  });

  it('does not share a request with another, and both arrive', async () => {
    const outcomes = await host.run(Array.from({ length: 3 }, () => ({ id: 'LARGE.TABLE', args: [[[30_000]]] })));
    for (const outcome of outcomes) expect('value' in outcome && (outcome.value as unknown[]).length).toBe(30_000);
    expect(host.largest).toBeLessThan(REQUEST);
  });

  it('is measured as it is sent', () => {
    for (const rows of [[[1.5, -2e-7, 'text', '']], [['½ in', '"', true]], [['日本'], [0.1 + 0.2]]]) {
      let counted: IteratorResult<undefined, number>;
      const counting = bytesOf(rows);
      do counted = counting.next();
      while (!counted.done);
      const sent = Buffer.byteLength(JSON.stringify(rows));
      expect(counted.value).toBeGreaterThanOrEqual(sent);
      expect(counted.value).toBeLessThan(sent + 10);
    }
  });

  it('waits until the one before it is out of the way; a small one goes at once', () => {
    let now = 1000;
    const outlet = new Outlet(() => now);
    expect([3e6, 3e6, 100, 1e6, 4e6].map((bytes) => outlet.wait(bytes))).toEqual([0, 3000, 0, 3000, 6000]);
    now += 20_000;
    expect(outlet.wait(MOST_BYTES)).toBe(0);
  });
});

describe('a plan of 10,000 pins', () => {
  it('says that its list is to be split, and a list of the length it says fits', async () => {
    const real = await SpreadsheetHost.load(
      await bundle(
        "import { hostFunctions } from '../../src/sheet/host-functions.ts'; import { associate } from '../../src/addin/associate.ts'; associate(hostFunctions);",
      ),
    );
    const plan = async (n: number): Promise<{ readonly value?: readonly unknown[]; readonly message?: string }> => {
      const args = [list(n).map(([i = 0]) => [2 + i * 0.0005]), [[10]], null, null, null, null];
      return (await real.run([{ id: 'PIN.PLAN', args }]))[0] as never;
    };
    const { message = '' } = await plan(10_000);
    expect(message).toMatch(/^the result has 10001 rows and \d\.\d MB, .* split the list: at most \d+ rows a formula$/);
    const most = Number(/at most (\d+)/.exec(message)?.[1]);
    expect((await plan(most)).value).toHaveLength(most + 1);
    expect(real.largest).toBeLessThan(REQUEST);
    real.close();
  });
});
