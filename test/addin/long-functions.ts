/** Invented functions with long lists and large results, in a page whose clock goes on by a millisecond at each look. */
import { associate } from '../../src/addin/associate.ts';
import type { Cell, HostFunction } from '../../src/sheet/host-function.ts';

/** What the test reads from the page. */
export interface Seen {
  /** For each item of a list, in which turn of the page it was worked out. */
  readonly turns: number[];
}

const seen: Seen = { turns: [] };
let turn = 0;
let clock = 0;
performance.now = () => clock++;
const count = (): void => {
  turn++;
  setTimeout(count, 0);
};
count();
Object.assign(globalThis, { seen });

const cells = { name: 'cells', summary: 'cells', optional: false, example: '1' };
const twice = (cell: Cell): Cell => {
  seen.turns.push(turn);
  return typeof cell === 'number' ? 2 * cell : cell;
};
type Grid = readonly (readonly Cell[])[];

const functions: readonly HostFunction[] = [
  {
    name: 'BURN.LONG.LIST',
    summary: 'Twice each number',
    parameters: [cells],
    call: ([list]) => (list as Grid).map((row) => row.map(twice)),
    *paused([list]) {
      const rows: Cell[][] = [];
      for (const row of list as Grid) {
        rows.push(row.map(twice));
        yield;
      }
      return rows;
    },
  },
  {
    name: 'BURN.LARGE.TABLE',
    summary: 'A table of so many rows, of a hundred bytes each',
    parameters: [cells],
    call: ([rows]) => Array.from({ length: Number((rows as Grid)[0]?.[0]) }, () => ['x'.repeat(97)]),
  },
];
associate(functions);
