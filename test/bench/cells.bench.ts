/** Single cells that share one range of assumptions, called as a host calls them, against one call of as many rows. */
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { hostCall } from '../../src/addin/associate.ts';
import { call } from '../../src/sheet/call.ts';
import { planList } from '../../src/catalogue/plan-list.ts';
import { hostFunction } from '../../src/sheet/as-host-function.ts';
import type { HostFunction } from '../../src/sheet/host-function.ts';
import { LONG_LISTS } from '../../src/sheet/long-lists.ts';

const CELLS = 20_000;
/** Of plans, whose one call would be more than a host takes. */
const PLANS = 5000;
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
  const each = async (f: HostFunction): Promise<number> => {
    const host = hostCall(f);
    return spent(async () => {
      for (let i = 0; i < cells; i++) {
        const [diameter, length] = sizes(i);
        await host([[diameter]], [[length]], ...rest, fresh(assume), { parameterAddresses: addresses });
      }
    });
  };
  const all = Array.from({ length: cells }, (_, i) => sizes(i));
  const column = (k: 0 | 1): unknown => all.map((size) => [size[k]]);
  const whole = (): Promise<number> =>
    spent(() => hostCall(declared)(column(0), column(1), ...rest, fresh(assume), { parameterAddresses: addresses }));
  await whole();
  const [calls, once, single] = [await each(nothing), await whole(), await each(declared)];
  line(`${name}, ${cells} single cells, ${what}`, micro(single, cells));
  line('the calls themselves', micro(calls, cells));
  line('one call of as many rows', micro(once, cells));
  line(
    'ratio single cells, beyond the calls / one call',
    `${((single - calls) / once).toFixed(2)} (asked: at most 1.5)`,
  );
}

async function main(): Promise<void> {
  // As a host has it.
  LONG_LISTS.work = planList;
  Object.assign(globalThis, { CustomFunctions: { Error: class extends Error {}, ErrorCode: {} } });
  for (const suffix of ['PRESSURE', 'OXYGEN', 'TIME']) {
    await measure(`BURN.PIN.${suffix}`, 'a range of 30 rows', FEW);
    await measure(`BURN.PIN.${suffix}`, 'all assumptions', LISTING);
  }
  // Each draws its own low and high, which a long list reads from a lattice.
  await measure('BURN.PIN.PLAN', 'a range of 30 rows', FEW, PLANS);
}

void main();
