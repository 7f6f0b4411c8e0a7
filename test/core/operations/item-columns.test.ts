/** Long lists in columns against the same rows worked out one by one, which are the definition. */
import { describe, expect, it } from 'vitest';
import { findFunction } from '../../../src/catalogue/catalogue.ts';
import { PLAN_COLUMNS } from '../../../src/catalogue/plan-line.ts';
import { LONG } from '../../../src/catalogue/long.ts';
import { planList } from '../../../src/catalogue/plan-list.ts';
import { call } from '../../../src/sheet/call.ts';
import type { Argument, Cell } from '../../../src/sheet/host-function.ts';
import { LONG_LISTS } from '../../../src/sheet/long-lists.ts';
import { RowsAlike } from './rows-alike.ts';

/** Fractional parts of the multiples of an irrational number: no two alike. */
const between = (low: number, high: number, i: number, step: number): number => low + (high - low) * ((i * step) % 1);
const column = (low: number, high: number, step: number): Cell[][] =>
  Array.from({ length: LONG }, (_, i) => [between(low, high, i, step)]);
const [GOLDEN, PLASTIC] = [0.618033988749895, 0.754877666246693];

const LISTS: Readonly<Record<string, readonly Argument[]>> = {
  PIN: [column(2, 6.8, GOLDEN), column(5, 24, PLASTIC)],
  HOLE: [column(0.8, 2, GOLDEN), column(2, 20, PLASTIC)],
  GOUGE: [column(0.5, 1.5, GOLDEN), column(0.25, 1, PLASTIC), 24],
  CUT: [column(0.5, 4, GOLDEN), column(6, 60, PLASTIC)],
  STUD: [column(0.75, 2, GOLDEN), Array.from({ length: LONG }, (_, i) => [1 + (i % 8)])],
  BREACH: [column(4, 16, GOLDEN), column(1, 4, PLASTIC), 4],
};
/** Rows that are compared. */
const COMPARED = 120;

function both(id: string, args: readonly Argument[]): readonly [long: Cell[][], alone: Cell[][]] {
  const plan = findFunction(`BURN.${id}.PLAN`)!;
  const few = args.map((each) => (Array.isArray(each) ? each.slice(0, COMPARED) : each)) as readonly Argument[];
  LONG_LISTS.work = planList;
  try {
    const [long, alone] = [call(plan, args), call(plan, few)];
    return [long.slice(1, COMPARED + 1) as Cell[][], alone.slice(1) as Cell[][]];
  } finally {
    delete LONG_LISTS.work;
  }
}

describe('a long list', () => {
  it.each(Object.entries(LISTS))('of %s has the rows of its items by themselves', (id, args) => {
    const [long, alone] = both(id, args);
    const alike = new RowsAlike(true);
    alone.forEach((row, r) => alike.compare(id, `${id} ${r}`, long[r]!, row));
    expect(alike.read).toBe(['PIN', 'HOLE'].includes(id) ? COMPARED : 0);
    if (alike.read > 0) alike.check();
  });

  it('has its bad and blank rows where they stand, with the same reasons', () => {
    const diameters = LISTS['PIN']![0] as Cell[][];
    const spoilt = diameters.map((row, i): Cell[] => (i === 3 ? ['wide'] : i === 5 ? [null] : i === 7 ? [-4] : row));
    const lengths = (LISTS['PIN']![1] as Cell[][]).map((row, i): Cell[] => (i === 5 ? [null] : row));
    const [long, alone] = both('PIN', [spoilt, lengths]);
    for (const i of [3, 5, 7]) expect(long[i]).toEqual(alone[i]);
    expect(long[3]!.at(-1)).toContain('diameter');
    expect(long[8]![0]).toBe(9);
  });

  it('takes materials and rods of its rows, and a rod that does not fit', () => {
    const materials = Array.from({ length: LONG }, (_, i): Cell[] => [['stainless steel', 'gray iron', null][i % 3]!]);
    const rods = Array.from({ length: LONG }, (_, i): Cell[] => [['3/8', null, '3/8 x 36', '1/4 x 18'][i % 4]!]);
    const [long, alone] = both('PIN', [...LISTS['PIN']!, undefined, rods, materials]);
    alone.forEach((row, i) => {
      for (const heading of ['rod', 'rods', 'material', 'cautions', 'note']) {
        const k = PLAN_COLUMNS.findIndex((c) => c.heading === heading);
        expect(long[i]![k], `${i} ${heading}`).toEqual(row[k]);
      }
    });
  });
});
