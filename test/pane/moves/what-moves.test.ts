import { describe, expect, it } from 'vitest';
import { findFunction } from '../../../src/catalogue/catalogue.ts';
import type { Cell } from '../../../src/catalogue/cell.ts';
import { whatMoves, type WhatMoves } from '../../../src/pane/moves/what-moves.ts';
import type { FormulaCell } from '../../../src/pane/unknown-name.ts';
import { call } from '../../../src/sheet/call.ts';
import type { Argument } from '../../../src/sheet/host-function.ts';

/** A sheet `Job` by address. Ranges are read cell by cell. */
type Sheet = Readonly<Record<string, Cell>>;

function columnsOf(reference: string): readonly (readonly string[])[] {
  const [, left = '', top = '', right = left, bottom = top] = /^([A-Z])(\d+)(?::([A-Z])(\d+))?$/.exec(reference) ?? [];
  return Array.from({ length: Number(bottom) - Number(top) + 1 }, (_, r) =>
    Array.from(
      { length: right.charCodeAt(0) - left.charCodeAt(0) + 1 },
      (__, c) => `${String.fromCharCode(left.charCodeAt(0) + c)}${Number(top) + r}`,
    ),
  );
}

/** What moves among formulas of the sheet, and what was asked of it. */
async function moves(
  cells: Sheet,
  formulas: Readonly<Record<string, string>>,
): Promise<WhatMoves & { readonly asked: readonly string[] }> {
  const asked: string[] = [];
  const all = Object.entries(formulas).map(([address, formula]): FormulaCell => ({
    sheet: 'Job',
    address,
    formula,
    value: cells[address] ?? null,
  }));
  const read = (reference: string): Promise<readonly (readonly Cell[])[]> => {
    asked.push(reference);
    if (!/^[A-Z]\d/.test(reference)) return Promise.reject(new Error('there is no such name'));
    return Promise.resolve(columnsOf(reference).map((row) => row.map((address) => cells[address] ?? null)));
  };
  return { ...(await whatMoves(all, { read }, () => undefined)), asked };
}

function fresh(name: string, ...args: readonly Argument[]): Cell {
  return call(findFunction(name)!, args)[0]?.[0] ?? null;
}

const oxygen = fresh('BURN.PIN.OXYGEN', 3.5, 10) as number;

describe('what would move', () => {
  it('is nothing where every cell holds what this version gives, to the last digits but two computers may differ in', async () => {
    const found = await moves({ A1: 3.5, B1: 10, C1: oxygen * (1 + 1e-12) }, { C1: '=BURN.PIN.OXYGEN(A1,B1)' });
    expect(found).toMatchObject({ moved: [], compared: 1, left: [] });
  });

  it('is a cell with another figure, before and after', async () => {
    const found = await moves({ A1: 3.5, B1: 10, C1: 12 }, { C1: '=BURN.PIN.OXYGEN(A1,B1)' });
    expect(found.moved).toEqual([{ sheet: 'Job', address: 'C1', before: 12, after: oxygen }]);
  });

  it('is each cell of a spill that differs, and no other', async () => {
    const more = fresh('BURN.PIN.OXYGEN', 4, 12);
    const cells = { A1: 3.5, A2: 4, B1: 10, B2: 12, D1: oxygen, D2: 1 };
    const found = await moves(cells, { D1: '=BURN.PIN.OXYGEN(A1:A2,B1:B2)' });
    expect(found.moved).toEqual([{ sheet: 'Job', address: 'D2', before: 1, after: more }]);
  });

  it('follows from a cell that moved to those that read it, whatever their order', async () => {
    const content = fresh('BURN.CYLINDER.COUNT', 1000 * oxygen);
    const many = fresh('BURN.CYLINDER.COUNT', oxygen);
    // The saved oxygen is a thousand times what it is now, and the count was of that.
    const found = await moves(
      { A1: 3.5, B1: 10, C1: content, D1: 1000 * oxygen },
      { C1: '=BURN.CYLINDER.COUNT(D1)', D1: '=BURN.PIN.OXYGEN(A1,B1)' },
    );
    expect(content).not.toBe(many);
    expect(found.moved.map(({ address, after }) => [address, after]).sort()).toEqual([
      ['C1', many],
      ['D1', oxygen],
    ]);
  });

  it('is told where the call stands beside an empty text for rows that are not filled in', async () => {
    const found = await moves(
      { A1: 3.5, B1: 10, C1: 12, C2: '', C3: 12, C4: 12 },
      {
        C1: '=IF(A1="","",BURN.PIN.OXYGEN(A1,B1))',
        C2: '=IF(A2="", "", BURN.PIN.OXYGEN(A2,B2))',
        C3: '=IF(A1>0,BURN.PIN.OXYGEN(A1,B1),"")',
        C4: '=IF(A1="",0,BURN.PIN.OXYGEN(A1,B1))',
      },
    );
    expect(found.moved.map(({ address, after }) => [address, after])).toEqual([
      ['C1', oxygen],
      ['C3', oxygen],
    ]);
    expect(found.left.map((cell) => cell.address)).toEqual(['C4']);
  });

  it('leaves out what it cannot compare, and says which', async () => {
    const found = await moves(
      { A1: 3.5, B1: 10, C1: 1, C2: { error: '#NAME?', message: '' }, C3: 3, C4: '2020.01.01', C5: 7 },
      {
        C1: '=ROUND(BURN.PIN.OXYGEN(A1,B1),0)',
        C2: '=BURN.PIN.OXYGEN(A1,B1)',
        C3: '=BURN.PIN.OXYGEN(NoSuchName,B1)',
        C4: '=BURN.VERSION()',
        C5: '=SUM(A1,B1)',
      },
    );
    expect(found.moved).toEqual([]);
    expect(found.compared).toBe(0);
    expect(found.left.map((cell) => cell.address)).toEqual(['C1', 'C2', 'C3']);
  });

  it('is a figure that became an error, and an error that became a figure', async () => {
    const found = await moves(
      { A1: 3.5, B1: -1, B2: 10, C1: 12, C2: { error: '#VALUE!', message: '' } },
      { C1: '=BURN.PIN.OXYGEN(A1,B1)', C2: '=BURN.PIN.OXYGEN(A1,B2)' },
    );
    expect(found.moved).toMatchObject([
      { address: 'C1', before: 12, after: { error: '#VALUE!' } },
      { address: 'C2', before: { error: '#VALUE!' }, after: oxygen },
    ]);
  });

  it('asks the sheet for a range once, however many formulas read it', async () => {
    const { asked } = await moves(
      { A1: 3.5, B1: 10, C1: 1, C2: 1 },
      { C1: '=BURN.PIN.OXYGEN(A1,B1)', C2: '=BURN.PIN.RODS(A1,B1)' },
    );
    expect([...asked].sort()).toEqual(['A1', 'B1']);
  });
});
