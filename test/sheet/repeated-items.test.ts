/** Items of one call that are alike are worked out once, and what is wrong with a cell is put into words once. */
import { describe, expect, it, vi } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { optional, required, rowsFunction, valueFunction } from '../../src/catalogue/declaration.ts';
import { Assumptions } from '../../src/core/assumptions/assumptions.ts';
import { noSolution } from '../../src/core/messages.ts';
import * as cooling from '../../src/core/heat/cooling-time.ts';
import * as nearest from '../../src/core/units/nearest-names.ts';
import { call } from '../../src/sheet/call.ts';
import { SharedBases } from '../../src/sheet/shared-bases.ts';

const NUMBER = { kind: 'quantity', quantity: 'count' } as const;
const parameters = { size: required(NUMBER, 'Size', '1'), word: optional({ kind: 'text' }, 'Word', '"a"') };
const common = { family: 'X', summary: 'x', assume: true, sources: [], cautions: [], examples: [] } as const;

describe('a list with repeated rows', () => {
  const calculate = vi.fn(({ size, word }: { size: number; word?: string | undefined }) => {
    if (size === 9) throw noSolution('there is no nine');
    return `${size}${word ?? ''}`;
  });
  const once = valueFunction({
    ...common,
    name: 'BURN.X',
    parameters,
    result: { kind: 'value', quantity: 'text' },
    calculate,
  });

  it('works out each distinct one once', () => {
    calculate.mockClear();
    const sizes = [[1], [2], [1], [9], [2], [9]];
    expect(call(once, [sizes]).flat()).toEqual([
      '1',
      '2',
      '1',
      { error: '#N/A', message: 'there is no nine' },
      '2',
      { error: '#N/A', message: 'there is no nine' },
    ]);
    expect(calculate).toHaveBeenCalledTimes(3);
  });

  it('takes rows for alike only where every cell is, its kind too', () => {
    calculate.mockClear();
    const sizes = [[1], [1], [1], ['1'], [11]];
    const words = [['a'], ['b'], [null], ['a'], ['1a']];
    expect(call(once, [sizes, words]).flat()).toEqual(['1a', '1b', '1', '1a', '111a']);
    expect(calculate).toHaveBeenCalledTimes(5);
  });

  it('keeps nothing from one call for the next, whose assumptions may be others', () => {
    const read = valueFunction({
      ...common,
      name: 'BURN.Y',
      parameters,
      result: { kind: 'value', quantity: 'pressure' },
      calculate: (_, { a }) => a.value('ram oil pressure'),
    });
    const at = (psi: number) => call(read, [[[1], [1]], undefined, [['ram oil pressure', psi]]]).flat()[1];
    expect([at(9000), at(9500)]).toEqual([expect.closeTo(9000, 6), expect.closeTo(9500, 6)]);
  });

  it('gives rows their own numbers, also where they fail', () => {
    const rows = rowsFunction({
      ...common,
      name: 'BURN.Z',
      parameters,
      result: {
        kind: 'rows',
        columns: [{ heading: 'item' }, { heading: 'size', quantity: 'count' }, { heading: 'note' }],
      },
      calculate: ({ size }) => [null, size, ''],
    });
    expect(call(rows, [[[3], ['x'], [3], ['x']]]).map((row) => row[0])).toEqual(['item', 1, 2, 3, 4]);
  });
});

describe('cooling', () => {
  const cool = findFunction('BURN.COOL.TIME')!;
  const solved = vi.spyOn(cooling, 'coolingTime');

  it('of alike pins in cells of their own is solved once, and anew with other assumptions, target or way', () => {
    const shared = new SharedBases();
    const cell = (...args: Parameters<typeof call>[1]) => call(cool, args, Assumptions.defaults(), shared)[0]?.[0];
    const first = cell(4, 2.5, 10);
    const hot = [['ambient temperature', '30 C']];
    const others = [
      cell(4, 2.5, 10, 'water'),
      cell(4, 2.5, 10, 'air', 200),
      cell(4, 2.5, 9),
      cell(4, 2.5, 10, undefined, undefined, hot),
    ];
    expect(new Set([first, ...others]).size).toBe(5);
    solved.mockClear();
    expect(cell(4, 2.5, 10)).toBe(first);
    expect(cell(4, 2.5, 10, undefined, undefined, hot)).toBe(others[3]);
    expect(solved).not.toHaveBeenCalled();
  });
});

describe('a wrong name in every row of a list', () => {
  it('has its nearest sought once', () => {
    const sought = vi.spyOn(nearest, 'nearestNames');
    const rows = 200;
    const sizes = Array.from({ length: rows }, (_, i) => [2 + i / 100]);
    const rods = Array.from({ length: rows }, (_, i) => [i % 2 === 0 ? 'nonsense' : 'rubbish']);
    const results = call(findFunction('BURN.PIN.OXYGEN')!, [sizes, 10, 1, rods]).flat();
    expect(results.every((cell) => typeof cell === 'object')).toBe(true);
    expect(sought).toHaveBeenCalledTimes(2);
  });
});
