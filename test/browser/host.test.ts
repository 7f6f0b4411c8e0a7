/**
 * The built page of the shared runtime in a real browser, with the vendor's own scripts out of the package: once with
 * office.js as shipped, once with the custom-functions runtime alone and a host played to it.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { builtFiles } from './built.ts';
import { openPage } from './page.ts';

type Outcome = { readonly value: unknown } | { readonly failure: number; readonly message: string };
declare const CustomFunctions: { readonly _association: { readonly mappings: Readonly<Record<string, unknown>> } };
declare const host: {
  run(calls: readonly (readonly [id: string, args: readonly unknown[]])[]): Promise<readonly Outcome[]>;
};

const OFFICE = '<script src="office/office.js"></script>';

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

describe('the page with the runtime alone, and a host played to it', () => {
  it('has all functions from the one script, while the pane waits for the rest of the host', async () => {
    const played = page().replace(
      OFFICE,
      '<script src="bridge.js"></script><script src="office/custom-functions-runtime.js"></script>',
    );
    const open = await openPage({ ...files, '': played });
    expect(await open.page.evaluate(() => Object.keys(CustomFunctions._association.mappings))).toEqual(ids());
    const outcomes = await open.page.evaluate(() =>
      host.run([
        ['PIN.RODS', [[[4]], [[10]], null, null, null, null]],
        ['FIRE.WATCH', [[['OSHA']], null]],
        ['EYE.SHADE', [[[3]], null]],
      ]),
    );
    expect(outcomes).toEqual([{ value: [[expect.any(Number)]] }, { value: [[30]] }, { value: [[4]] }]);
    expect(await open.page.locator('#pane').textContent()).toContain('Type =BURN. in a cell');
    // The runtime says itself that this is no spreadsheet host, and is refused its frame.
    const ownComplaints = open.complaints.filter(
      (text) =>
        !/^Warning: Expected to be loaded inside of an Excel add-in\.$|violates the following Content Security Policy/.test(
          text,
        ),
    );
    expect(ownComplaints).toEqual([]);
    await open.close();
  });
});
