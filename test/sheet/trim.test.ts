import { describe, expect, it } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { isBlankCell, type Cell } from '../../src/catalogue/cell.ts';
import { call } from '../../src/sheet/call.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { SharedBases } from '../../src/sheet/shared-bases.ts';
import { trimmed } from '../../src/sheet/trim.ts';

/** A whole column has so many rows. */
const ROWS = 1_048_576;
type Rows = readonly (readonly Cell[])[];

/** The rows at the top of whole columns; a blank row below counts how often it is looked at. */
function wholeColumns(top: Rows): { readonly rows: Rows; readonly looks: () => number } {
  let looks = 0;
  const blank = new Proxy(
    (top[0] ?? []).map(() => null),
    {
      get(target, key, receiver): unknown {
        if (key === '0') looks++;
        return Reflect.get(target, key, receiver);
      },
    },
  );
  return { rows: [...top, ...Array.from({ length: ROWS - top.length }, () => blank)], looks: () => looks };
}
const PINS: Rows = [
  ['diameter', 'length'],
  [4, 10],
  [null, null],
  [3, 8],
];
const ASSUME: Rows = [
  ['name', 'value', 'low', 'high', 'unit'],
  ['stub', 4, null, null, 'in'],
];
const together = (args: readonly Rows[]): readonly (readonly unknown[])[] =>
  trimmed<Cell, Rows>(args, () => ({ alone: false, isBlank: isBlankCell }));
const column = (n: number, filled: number): Rows => Array.from({ length: n }, (_, i) => [i < filled ? i + 1 : null]);

describe('arguments', () => {
  it('lose the blank end of a whole column, each of them at the same row', () => {
    expect(together([column(ROWS, 3), column(ROWS, 5), [[1]]]).map((a) => a.length)).toEqual([5, 5, 1]);
    expect(together([column(ROWS, 0)]).map((a) => a.length)).toEqual([1]);
  });

  it('of a bounded range stay as they are, so that a result has a row for each', () => {
    expect(together([column(100, 3), column(20_000, 5)]).map((a) => a.length)).toEqual([100, 20_000]);
    expect(call(findFunction('BURN.PIN.HOLE')!, [column(9, 3)])).toHaveLength(9);
  });

  it('keep gaps, even long ones', () => {
    const gap = column(ROWS, 2).map((row, i) => (i === 45_000 ? [7] : row));
    expect(together([gap])[0]).toHaveLength(45_001);
  });

  it('that are no ranges are left alone', () => {
    const args: readonly Argument[] = [undefined, 4, 'x', null, [[]]];
    expect(trimmed<Cell, Argument>(args, () => ({ alone: true, isBlank: isBlankCell }))).toEqual(args);
  });
});

describe('whole columns', () => {
  it.each<readonly [string, readonly Argument[], number, Rows]>([
    ['BURN.PIN.OXYGEN', [4, 10, undefined, undefined, undefined], 5, ASSUME],
    ['BURN.SPREAD', ['PIN', [], 'oxygen', 90], 1, PINS],
    [
      'BURN.JOB.COST',
      [[[4, 10]], []],
      1,
      [
        ['oxygen', 0.4],
        ['crew', 180],
      ],
    ],
    [
      'BURN.LOG.SCORE',
      [],
      0,
      [
        ['diameter', 'length', 'oxygen used'],
        [4, 10, 140],
        [3.5, 12, 128],
        [5, 16, 330],
      ],
    ],
    ['BURN.PIN.PLAN', [[], 10], 0, [[4], [null], [3]]],
  ])(
    'give what their filled part gives, and their blank rows are looked at in part and once: %s',
    (name, args, at, rows) => {
      const { rows: whole, looks } = wholeColumns(rows);
      const given = (range: Rows): readonly Argument[] => Object.assign([...args], { [at]: range });
      const long = call(findFunction(name)!, given(whole));
      expect(long).toEqual(call(findFunction(name)!, given(rows)));
      expect(looks()).toBeLessThan(ROWS / 10);
    },
  );

  it('of assumptions are one with their filled part to what cells share, and are not kept', () => {
    const shared = new SharedBases();
    const keep = (assume: Rows): unknown => call(findFunction('BURN.PIN.HOLE')!, [4, assume], undefined, shared);
    keep(wholeColumns(ASSUME).rows);
    expect(shared.size).toBe(1);
    keep(ASSUME);
    keep([...ASSUME, [null, null, null, null, null]]);
    expect(shared.size).toBe(1);
  });
});
