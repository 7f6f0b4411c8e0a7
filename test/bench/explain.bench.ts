/**
 * Explaining a cell against calculating it, as ratios of one run: warm, each call on sizes that no other had, as when somebody
 * goes down a list.
 */
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { PLAN_COLUMNS } from '../../src/catalogue/plan-line.ts';
import { call, givenItem } from '../../src/sheet/call.ts';
import { explainItem } from '../../src/sheet/explain.ts';
import { SharedBases } from '../../src/sheet/shared-bases.ts';

const CALLS = 300;
const WARM = 30;

/** Fractional parts of multiples of two irrational numbers: no two alike. */
const sizes = (i: number): readonly [number, number] => [
  2 + ((i * 0.618033988749895) % 1) * 4.8,
  5 + ((i * 0.754877666246693) % 1) * 19,
];

/** Milliseconds of processor: the median call. */
function median(run: (sizes: readonly [number, number]) => unknown, from: number): number {
  const each: number[] = [];
  for (let i = 0; i < WARM + CALLS; i++) {
    const before = process.cpuUsage();
    run(sizes(from + i));
    const { user, system } = process.cpuUsage(before);
    if (i >= WARM) each.push((user + system) / 1000);
  }
  return each.sort((x, y) => x - y)[CALLS / 2] ?? NaN;
}

const OXYGEN_COLUMN = PLAN_COLUMNS.findIndex((c) => c.heading === 'oxygen');

for (const [name, column] of [
  ['BURN.PIN.OXYGEN', undefined],
  ['BURN.PIN.PLAN', OXYGEN_COLUMN],
] as const) {
  const d = findFunction(name)!;
  for (const [how, kept] of [
    ['by itself', () => undefined],
    ['in a host', (shared: SharedBases) => shared],
  ] as const) {
    const shared = new SharedBases();
    const calculated = median((args) => call(d, args, undefined, kept(shared)), 1);
    const explained = median((args) => explainItem(d, givenItem(d, args, 0, kept(shared)), column).steps, 10_000);
    console.log(
      `${`${name}${column === undefined ? '' : ', its oxygen'}, ${how}`.padEnd(44)} calculated ${calculated.toFixed(3)} ms, explained ${explained.toFixed(3)} ms: ${(explained / calculated).toFixed(2)} times (asked: at most 3)`,
    );
  }
}
