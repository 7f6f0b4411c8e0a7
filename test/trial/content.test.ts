import { BooleanNumber, CellValueType, type ICellData, type IWorkbookData, type IWorksheetData } from '@univerjs/core';
import { describe, expect, it } from 'vitest';
import { contentOf } from '../../src/trial/content.ts';

const book = (cell: ICellData, sheet: Partial<IWorksheetData> = {}, more: Partial<IWorkbookData> = {}): string =>
  contentOf({
    id: 'book',
    sheetOrder: ['pins'],
    styles: {},
    sheets: { pins: { id: 'pins', name: 'Pins', cellData: { 0: { 0: cell } }, ...sheet } },
    ...more,
  } as unknown as IWorkbookData);

describe('what a workbook holds', () => {
  it('is the same however it is looked at and whatever is calculated', () => {
    const formula = { f: '=BURN.PIN.RODS(4,10)' };
    const held = book(formula);
    expect(book({ ...formula, v: 5, t: CellValueType.NUMBER })).toBe(held);
    expect(book({ ...formula, p: null })).toBe(held);
    expect(book(formula, { zoomRatio: 2, scrollTop: 90, rowCount: 3000 })).toBe(held);
    expect(book(formula, { rowData: {} })).not.toBe(book(formula, { rowData: { 3: { h: 40 } } }));
    expect(book(formula, { rowData: { 3: { h: 40, ah: 17, ia: BooleanNumber.TRUE } } })).toBe(
      book(formula, { rowData: { 3: { h: 40 } } }),
    );
  });

  it('is another with another value, formula, look, name, width or rule', () => {
    const held = book({ v: 4 });
    const others = [
      book({ v: 5 }),
      book({ v: 4, s: 'bold' }),
      book({ f: '=4' }),
      book({ v: 4 }, { name: 'Bores' }),
      book({ v: 4 }, { columnData: { 0: { w: 90 } } }),
      book({ v: 4 }, { mergeData: [{ startRow: 0, endRow: 1, startColumn: 0, endColumn: 0 }] }),
      book({ v: 4 }, {}, { resources: [{ name: 'rules', data: '{}' }] }),
      book({ v: 4 }, {}, { sheetOrder: [] }),
    ];
    expect(new Set([held, ...others]).size).toBe(others.length + 1);
  });
});
