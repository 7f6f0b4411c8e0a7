/**
 * Single cells that share one range of assumptions, called as a host calls them, against one call of as many rows.
 *
 * The vendor's runtime (`_invokeRemainingBatchEntries` in custom-functions-runtime.debug.js of @microsoft/office-js) hands all calls of
 * a message over one after the other, whatever each gives back: it waits for no promise, and after a second lets the page's timers
 * run. `test/addin/gathered.test.ts` plays the host to it. `each awaited` is the manner of hosts that wait for every cell.
 */
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { hostCall } from '../../src/addin/associate.ts';
import { call } from '../../src/sheet/call.ts';
import { planList } from '../../src/catalogue/plan-list.ts';
import { hostFunction } from '../../src/sheet/as-host-function.ts';
import type { HostFunction } from '../../src/sheet/host-function.ts';
import { LONG_LISTS } from '../../src/sheet/long-lists.ts';

const CELLS = 20_000;
/** The one call of so many plans is worked out and then refused as more than a host takes; working it out is what is measured. */
const PLANS = [5000, 20_000, 100_000];
/** Cells that are awaited one by one. */
const AWAITED = 5000;
/** How long the runtime hands over at a stretch [ms]. */
const STRETCH = 1000;
/** No two alike. */
const sizes = (i: number): readonly [number, number] => [
  2 + ((i * 0.618033988749895) % 1) * 4.8,
  5 + ((i * 0.754877666246693) % 1) * 19,
];
/** What a workbook brings along: some values of its own among blank rows, and the whole listing with one of them changed. */
const FEW = [
  ['name', 'value', 'low', 'high', 'unit'],
  ['crew price', 190, 150, 230, null],
  ['oxygen price', 0.45, null, null, null],
  ['flow factor', 1.05, 0.95, 1.15, null],
  ['rod change time', 0.6, null, null, 'min'],
  ['lighting time', 5, null, null, 's'],
  ...Array.from({ length: 24 }, () => [null, null, null, null, null]),
];
const LISTING = call(findFunction('BURN.ASSUMED')!, []).map((row) =>
  row.map((cell, k) => (k === 1 && row[0] === 'crew price' ? 190 : cell)),
);

/** Milliseconds of processor. */
async function spent(make: () => unknown): Promise<number> {
  const before = process.cpuUsage();
  await make();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}
const fresh = (rows: readonly (readonly unknown[])[]): unknown => rows.map((row) => [...row]);
const line = (what: string, figure: string): void => console.log(`${what.padEnd(54)} ${figure}`);
const micro = (ms: number, cells: number): string => `${((ms * 1000) / cells).toFixed(1)} us a cell`;

/** The call of a host for each cell, or for all of them; the range comes anew with each. */
async function measure(
  name: string,
  what: string,
  assume: readonly (readonly unknown[])[],
  cells = CELLS,
): Promise<void> {
  const declared = hostFunction(findFunction(name)!);
  const nothing: HostFunction = { name, summary: '', parameters: declared.parameters, call: () => [[1]] };
  const addresses = ['Pins!A2', 'Pins!B2', null, null, null, 'Assumptions!A1:E30'];
  const rest = [null, null, null];
  const one = (host: ReturnType<typeof hostCall>, i: number): unknown => {
    const [diameter, length] = sizes(i);
    return host([[diameter]], [[length]], ...rest, fresh(assume), { parameterAddresses: addresses });
  };
  const asTheHost = async (f: HostFunction): Promise<number> => {
    const host = hostCall(f);
    let answered = 0;
    const ms = await spent(async () => {
      const promised: Promise<unknown>[] = [];
      let until = performance.now() + STRETCH;
      for (let i = 0; i < cells; i++) {
        const result = one(host, i);
        if (result instanceof Promise) promised.push(result.then(() => answered++));
        else answered++;
        if (performance.now() < until) continue;
        await new Promise((resolve) => setTimeout(resolve));
        until = performance.now() + STRETCH;
      }
      await Promise.all(promised);
    });
    if (answered !== cells) throw new Error('cells are missing');
    return ms;
  };
  const awaited = (f: HostFunction, count: number): Promise<number> => {
    const host = hostCall(f);
    return spent(async () => {
      for (let i = 0; i < count; i++) await one(host, i);
    });
  };
  const all = Array.from({ length: cells }, (_, i) => sizes(i));
  const column = (k: 0 | 1): unknown => all.map((size) => [size[k]]);
  const wholeCall = async (): Promise<void> => {
    const host = hostCall(declared);
    try {
      await host(column(0), column(1), ...rest, fresh(assume), { parameterAddresses: addresses });
    } catch (e) {
      // Beyond what the host takes at once.
      if (!(e instanceof CustomFunctions.Error)) throw e;
    }
  };
  const whole = (): Promise<number> => spent(wholeCall);
  await whole();
  await asTheHost(nothing);
  const [calls, once, single] = [await asTheHost(nothing), await whole(), await asTheHost(declared)];
  line(`${name}, ${cells} single cells, ${what}`, micro(single, cells));
  line('the calls themselves', micro(calls, cells));
  line('one call of as many rows', micro(once, cells));
  line(
    'ratio single cells, beyond the calls / one call',
    `${((single - calls) / once).toFixed(2)} (asked: at most 1.5)`,
  );
  const few = Math.min(cells, AWAITED);
  const [idle, slow] = [await awaited(nothing, few), await awaited(declared, few)];
  line(`each awaited, ${few} cells`, `${micro(slow, few)}, ratio ${((slow - idle) / few / (once / cells)).toFixed(2)}`);
}

async function main(): Promise<void> {
  // As a host has it.
  LONG_LISTS.work = planList;
  Object.assign(globalThis, { CustomFunctions: { Error: class extends Error {}, ErrorCode: {} } });
  for (const suffix of ['PRESSURE', 'OXYGEN', 'TIME']) {
    await measure(`BURN.PIN.${suffix}`, 'a range of 30 rows', FEW);
    await measure(`BURN.PIN.${suffix}`, 'all assumptions', LISTING);
  }
  // Alone each draws its own low and high, which a long list reads from a lattice.
  for (const cells of PLANS) await measure('BURN.PIN.PLAN', 'a range of 30 rows', FEW, cells);
}

void main();
