/**
 * The built page of the shared runtime in a real browser, with the vendor's own scripts out of the package: once with
 * office.js as shipped, once with the custom-functions runtime alone and a host played to it.
 */
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { builtFiles } from './built.ts';
import { openPage, type OpenPage } from './page.ts';

type Outcome = { readonly value: unknown } | { readonly failure: number; readonly message: string };
declare const CustomFunctions: { readonly _association: { readonly mappings: Readonly<Record<string, unknown>> } };
declare const host: {
  run(calls: readonly (readonly [id: string, args: readonly unknown[]])[]): Promise<readonly Outcome[]>;
};

const OFFICE = '<script src="office/office.js"></script>';
const FURTHER = '<script src="functions-further.js" async></script>';
const PANE = '<script src="pane.js" defer></script>';
const NOT_AVAILABLE = 1;

/** Plays the spreadsheet host to the runtime, as test/addin/spreadsheet-host.ts does in Node. */
const BRIDGE = `
  const waiting = new Map();
  let calls = 0;
  const send = (message) => globalThis._richApiNativeBridge.onMessageFromHost(JSON.stringify(message));
  globalThis._richApiNativeBridge = { sendMessageToHost(text) {
    const { id, type, message } = JSON.parse(text);
    if (type !== 1) return;
    const actions = message.body.Actions;
    for (const { Name, ArgumentInfo } of actions) {
      if (!/^SetInvocation(Array)?Results$/.test(Name)) continue;
      for (const [call, good, value, failure] of ArgumentInfo.Arguments[0]) waiting.get(call)(good ? { value } : { message: value, failure });
    }
    send({ id, type: 2, flags: 0, message: { statusCode: 200, headers: {}, body: { Results: actions.map((a) => ({ ActionId: a.Id, Value: null })) } } });
  } };
  globalThis.host = { run(list) {
    const outcomes = list.map(([id, args]) => {
      const number = ++calls;
      return { entry: { messageCategory: 1, messageType: 1000, targetId: '', message: [number, id, args, '', 4, null] }, outcome: new Promise((done) => waiting.set(number, done)) };
    });
    send({ type: 3, message: { entries: outcomes.map((o) => o.entry) } });
    return Promise.all(outcomes.map((o) => o.outcome));
  } };`;

let files: Record<string, string | Buffer>;
beforeAll(async () => {
  files = { 'favicon.ico': '', 'bridge.js': BRIDGE, ...(await builtFiles()) };
});

const page = (): string => String(files['pane.html']);
const ids = (): readonly string[] =>
  (JSON.parse(String(files['functions.json'])) as { functions: readonly { id: string }[] }).functions.map((f) => f.id);

describe('the page of the shared runtime with office.js as shipped', () => {
  it('associates every function once, asks for nothing outside, and has no complaint but of its policy against office.js', async () => {
    const open = await openPage({ ...files, '': page() });
    await open.page.waitForFunction(() => 'Office' in globalThis && 'CustomFunctions' in globalThis);
    await open.page.waitForTimeout(4000); // office.js turns to its maker after 3 s
    expect(await open.page.evaluate(() => Object.keys(CustomFunctions._association.mappings))).toEqual(ids());
    expect(open.outside).toEqual([]);
    expect(open.complaints.filter((text) => !/violates the following Content Security Policy/.test(text))).toEqual([]);
    await open.close();
  });
});

describe('functions that are fetched at their first use', () => {
  const main = ['PIN.RODS', [[[4]], [[10]], null, null, null, null]] as const;
  const watch = ['FIRE.WATCH', [[['OSHA']], null]] as const;
  const shade = ['EYE.SHADE', [[[3]], null]] as const;
  let open: OpenPage;
  /** What is done with each request for the further functions, the first first; the last goes for all that follow. */
  let ways: ('serve' | 'refuse' | 'wait' | 'never')[];
  let asked: number;

  /** Opens a page with the runtime and a played host in place of office.js and the pane. */
  async function load(
    html: string,
    how: typeof ways,
    first: (where: Page) => Promise<void> = () => Promise.resolve(),
  ): Promise<Page> {
    ways = how;
    asked = 0;
    const played = html
      .replace(OFFICE, '<script src="bridge.js"></script><script src="office/custom-functions-runtime.js"></script>')
      .replace(PANE, '');
    open = await openPage({ ...files, '': '<!doctype html><title>none</title>', 'host.html': played });
    await open.page.route('**/functions-further.js', async (route) => {
      const way = ways[Math.min(asked++, ways.length - 1)];
      if (way === 'refuse') return route.abort();
      if (way === 'never') return undefined;
      if (way === 'wait') await new Promise((done) => setTimeout(done, 1000));
      return route.continue();
    });
    await first(open.page);
    await open.page.goto(new URL('host.html', open.page.url()).href);
    return open.page;
  }
  const run = (
    where: Page,
    ...calls: readonly (readonly [string, readonly unknown[]])[]
  ): Promise<readonly Outcome[]> => where.evaluate((list) => host.run(list), calls);
  /** Those of our own: the runtime says itself that this is no spreadsheet host and is refused its frame, and a script refused above is told as such. */
  const complaints = (): readonly string[] =>
    open.complaints.filter(
      (text) =>
        !/^Warning: Expected to be loaded inside of an Excel add-in\.$|violates the following Content Security Policy|net::ERR_FAILED/.test(
          text,
        ),
    );
  const withoutFurther = (): string => page().replace(FURTHER, '');

  it('come late and once for any number of calls, while the others answer', async () => {
    const where = await load(withoutFurther(), ['wait']);
    const [rods, first, second] = await run(where, main, watch, shade);
    expect(rods).toEqual({ value: [[expect.any(Number)]] });
    expect(first).toEqual({ value: [[30]] });
    expect(second).toEqual({ value: [[4]] });
    expect(asked).toBe(1);
    expect(await run(where, watch, shade)).toEqual([first, second]);
    expect(asked).toBe(1);
    expect(complaints()).toEqual([]);
    await open.close();
  });

  it('say so where they cannot be fetched, and are asked for again at the next call', async () => {
    const where = await load(withoutFurther(), ['refuse', 'serve']);
    const [rods, ...failed] = await run(where, main, watch, shade);
    expect(rods).toEqual({ value: [[expect.any(Number)]] });
    for (const outcome of failed)
      expect(outcome).toEqual({
        failure: NOT_AVAILABLE,
        message: expect.stringContaining('functions-further.js must lie beside functions.js') as string,
      });
    expect(asked).toBe(1);
    expect(await run(where, watch, shade)).toEqual([{ value: [[30]] }, { value: [[4]] }]);
    expect(asked).toBe(2);
    expect(complaints()).toEqual([]);
    await open.close();
  });

  it('are not waited for without end', async () => {
    const where = await load(withoutFurther(), ['never'], (at) => at.clock.install());
    const pending = run(where, watch);
    await expect.poll(() => asked).toBe(1);
    await where.clock.runFor(20_000);
    expect(await pending).toEqual([
      { failure: NOT_AVAILABLE, message: expect.stringContaining('functions-further.js') as string },
    ]);
    await open.close();
  });

  it('are the same whether the page has them first or a call does', async () => {
    const where = await load(page(), ['wait']);
    const early = await run(where, watch, shade);
    await where.waitForLoadState('load');
    expect(await run(where, watch, shade)).toEqual(early);
    expect(early).toEqual([{ value: [[30]] }, { value: [[4]] }]);
    expect(await where.evaluate(() => Object.keys(CustomFunctions._association.mappings))).toEqual(ids());
    expect(complaints()).toEqual([]);
    await open.close();
  });
});
