/** A cell of each supply function: the first call of the process, and the median of later ones with other figures. */
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { call } from '../../src/sheet/call.ts';
import type { Argument } from '../../src/sheet/host-function.ts';

const CELLS: readonly (readonly [string, (i: number) => readonly Argument[]])[] = [
  ['BURN.SUPPLY.CHECK', (i) => ['3/8 x 36', 90 + i, 50, '3/8', 1]],
  ['BURN.CYLINDER.COUNT', (i) => [1000, undefined, [['cylinder draw flow', 10 + i / 10]]]],
  ['BURN.CYLINDER.CONTENT', (i) => [43, 2000 + i]],
  ['BURN.CYLINDER.GAUGE', (i) => [2000 + i, 0]],
  ['BURN.HOSE.LOSS', (i) => [10 + i / 10, 90, 50, '3/8']],
  ['BURN.HOSE.SETTING', (i) => [90, 10 + i / 10, 50, '3/8', 30]],
];

function timed(name: string, args: readonly Argument[]): number {
  const found = findFunction(name)!;
  const start = performance.now();
  call(found, args);
  return performance.now() - start;
}

for (const [name, args] of CELLS) {
  const first = timed(name, args(0));
  const later = Array.from({ length: 50 }, (_, i) => timed(name, args(i + 1))).sort((a, b) => a - b);
  console.log(
    `${name.padEnd(22)} first ${first.toFixed(1)} ms, later ${(later[25] ?? NaN).toFixed(2)} ms (asked: 50 ms at most)`,
  );
}
