import { describe, expect, it } from 'vitest';
import { officePort } from '../../src/addin/office-port.ts';
import type { SelectedCell } from '../../src/pane/port.ts';
import { FakeExcel, type Book } from './fake-excel.ts';

function book(more: Partial<Book> = {}): Book {
  return {
    sheets: {
      Pins: {
        A4: 'diameter',
        B4: 'length',
        A5: 3.5,
        B5: 10,
        A6: '100 mm',
        B6: '#DIV/0!',
        A7: 4,
        B7: 12,
        D5: 118.3,
        D6: '#VALUE!',
        D7: 160.2,
      },
      'Job sheet': { A1: 'x', C2: true, C9: 1 },
      Empty: {},
    },
    formulas: { Pins: { D5: '=BURN.PIN.OXYGEN(A5:A7,B5:B7)' } },
    spills: { Pins: [{ from: 'D5', to: 'D5:D7' }] },
    names: { Bore: 'Pins!A5:A7', Depth: 2.5, 'Pins!Local': 'Pins!B7' },
    tables: { List: { sheet: 'Pins', at: 'A4', columns: ['diameter', 'length'], rows: 3 } },
    active: { sheet: 'Pins', at: 'D5' },
    ...more,
  };
}

const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 5));

async function follow(
  excel: FakeExcel,
): Promise<{ readonly seen: (SelectedCell | undefined)[]; readonly stop: () => void }> {
  const seen: (SelectedCell | undefined)[] = [];
  const stop = officePort(excel.run).onSelection((cell) => void seen.push(cell));
  await settled();
  return { seen, stop };
}

describe('the selected cell in the host', () => {
  it('is given at once, with its formula and value', async () => {
    const { seen } = await follow(new FakeExcel(book()));
    expect(seen).toEqual([{ sheet: 'Pins', address: 'D5', formula: '=BURN.PIN.OXYGEN(A5:A7,B5:B7)', value: 118.3 }]);
  });

  it('in a spill points to the cell that holds the formula', async () => {
    const { seen } = await follow(new FakeExcel(book({ active: { sheet: 'Pins', at: 'D6' } })));
    expect(seen[0]).toEqual({
      sheet: 'Pins',
      address: 'D6',
      formula: '',
      value: { error: '#VALUE!', message: '' },
      spill: { from: 'D5', formula: '=BURN.PIN.OXYGEN(A5:A7,B5:B7)', row: 1, column: 0 },
    });
  });

  it('with a constant or nothing in it has no formula', async () => {
    expect((await follow(new FakeExcel(book({ active: { sheet: 'Pins', at: 'A6' } })))).seen[0]).toEqual({
      sheet: 'Pins',
      address: 'A6',
      formula: '',
      value: '100 mm',
    });
    expect((await follow(new FakeExcel(book({ active: { sheet: 'Job sheet', at: 'B7' } })))).seen[0]).toEqual({
      sheet: 'Job sheet',
      address: 'B7',
      formula: '',
      value: null,
    });
  });

  it('is given again after selecting, editing and calculating, until it is stopped', async () => {
    const excel = new FakeExcel(book());
    const { seen, stop } = await follow(excel);
    expect(excel.handlers.size).toBe(1);
    excel.book.active = { sheet: 'Pins', at: 'A5' };
    await excel.fire();
    expect(seen.map((c) => c?.address)).toEqual(['D5', 'A5']);
    stop();
    await settled();
    expect(excel.handlers.size).toBe(0);
    await excel.fire();
    expect(seen.length).toBe(2);
  });

  it('is kept while the host refuses, as during an edit', async () => {
    const excel = new FakeExcel(book());
    const { seen } = await follow(excel);
    excel.refuses = 'the host is busy with an edit';
    await excel.fire();
    expect(seen.map((c) => c?.address)).toEqual(['D5', 'D5']);
  });

  it('is read once more for any number of events that come while it is read', async () => {
    const excel = new FakeExcel(book());
    const { seen } = await follow(excel);
    await Promise.all([excel.fire(), excel.fire(), excel.fire(), excel.fire()]);
    await settled();
    expect(seen.length).toBe(3);
  });
});

describe('a reference in the host', () => {
  const read = (reference: string, address = 'D6', sheet = 'Pins', more: Partial<Book> = {}): Promise<unknown> =>
    officePort(new FakeExcel(book(more)).run).read(reference, sheet, address);
  const ERROR = { error: '#DIV/0!', message: '' };

  it('may be a cell, a range, of another sheet, with errors and blanks as such', async () => {
    expect(await read('A5')).toEqual([[3.5]]);
    expect(await read('$A$5:B6')).toEqual([
      [3.5, 10],
      ['100 mm', ERROR],
    ]);
    expect(await read("'Job sheet'!C1:C2")).toEqual([[null], [true]]);
    expect(await read('A1', 'D6', 'Job sheet')).toEqual([['x']]);
  });

  it('of whole columns and rows ends with the last filled cell of the workbook, the same for all sheets', async () => {
    expect(await read('A:A')).toEqual([[null], [null], [null], ['diameter'], [3.5], ['100 mm'], [4], [null], [null]]);
    expect(await read("'Job sheet'!C:C")).toHaveLength(9);
    expect(await read('5:5')).toEqual([[3.5, 10, null, 118.3]]);
    expect(await read('Empty!B:B')).toHaveLength(9);
  });

  it('may be a name: of the workbook, of the sheet, of a constant', async () => {
    expect(await read('Bore')).toEqual([[3.5], ['100 mm'], [4]]);
    expect(await read('Local')).toEqual([[12]]);
    expect(await read('Depth')).toEqual([[2.5]]);
  });

  it('may be a spill', async () => {
    expect(await read('D5#')).toEqual([[118.3], [{ error: '#VALUE!', message: '' }], [160.2]]);
    await expect(read('A5#')).rejects.toThrow('nothing spills from there');
  });

  it('may be a part of a table', async () => {
    expect(await read('List[length]')).toEqual([[10], [ERROR], [12]]);
    expect(await read('List')).toEqual([
      [3.5, 10],
      ['100 mm', ERROR],
      [4, 12],
    ]);
    expect(await read('List[[diameter]:[length]]')).toEqual([
      [3.5, 10],
      ['100 mm', ERROR],
      [4, 12],
    ]);
    expect(await read('List[#All]')).toHaveLength(4);
    expect(await read('List[[#Headers],[length]]')).toEqual([['length']]);
    expect(await read('List[[#This Row],[diameter]]', 'D7')).toEqual([[4]]);
    expect(await read('[@diameter]', 'B6')).toEqual([['100 mm']]);
  });

  it('that leads nowhere says why', async () => {
    await expect(read('Nowhere!A1')).rejects.toThrow('there is no sheet Nowhere');
    await expect(read('Nowhere')).rejects.toThrow('there is no such name');
    await expect(read('Nowhere[x]')).rejects.toThrow('there is no table Nowhere');
    await expect(read('[@diameter]', 'Z99')).rejects.toThrow('its formula is not in a table');
    await expect(read("'[Other.xlsx]S'!A1")).rejects.toThrow('it is in another workbook');
    await expect(read('Pins:Empty!A1')).rejects.toThrow('it runs through several sheets');
    await expect(read('List[[#Totals],[length]]')).rejects.toThrow('does not read this part');
  });
});

describe('what the pane writes in the host', () => {
  it('is a formula in the selected cell', async () => {
    const excel = new FakeExcel(book({ active: { sheet: 'Job sheet', at: 'B2' } }));
    await officePort(excel.run).putFormula('=BURN.PIN.HOLE(4)');
    expect(excel.book.formulas?.['Job sheet']).toEqual({ B2: '=BURN.PIN.HOLE(4)' });
  });

  it('is a sheet of rows, shown, its heading kept in sight', async () => {
    const excel = new FakeExcel(book());
    expect(
      await officePort(excel.run).addSheet('Assumptions', [
        ['name', 'value'],
        ['stub', 3],
        ['rod', '3/8'],
        ['sign', '=A1'],
        ['gap', null],
      ]),
    ).toBe('Assumptions');
    expect(excel.book.sheets['Assumptions']).toEqual({
      A1: 'name',
      B1: 'value',
      A2: 'stub',
      B2: 3,
      A3: 'rod',
      B3: "'3/8",
      A4: 'sign',
      B4: "'=A1",
      A5: 'gap',
      B5: '',
    });
    expect(excel.actions).toEqual(['freeze Assumptions 1', 'activate Assumptions']);
  });

  it('takes a number where the name of the sheet is taken', async () => {
    const excel = new FakeExcel(book());
    const port = officePort(excel.run);
    expect([await port.addSheet('pins', [['a']]), await port.addSheet('PINS', [['a']])]).toEqual(['pins 2', 'PINS 3']);
  });
});
