/** The port on the real batching of each of the vendor's libraries. */
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addWorkbook } from '../../src/addin/add-workbook.ts';
import { officePort } from '../../src/addin/office-port.ts';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { tableFunction } from '../../src/catalogue/declaration.ts';
import { jobList } from '../../src/files/template/job-list.ts';
import { jobWorkbook } from '../../src/files/template/job-workbook.ts';
import type { NewWorkbook } from '../../src/files/xlsx/new-workbook.ts';
import { listedAssumptions } from '../../src/pane/assume-formula.ts';
import type { SelectedCell } from '../../src/pane/port.ts';
import type { FormulaCell } from '../../src/pane/unknown-name.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';
import { tableLook } from '../../src/sheet/table-look.ts';
import { OfficeLibrary, type LibraryName } from './office-library.ts';
import type { Book, WorkbookHost } from './workbook-host.ts';

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

describe.each<LibraryName>(['win32', 'web', 'mac'])('in the library of %s', (name) => {
  let library: OfficeLibrary;
  beforeAll(() => {
    library = new OfficeLibrary(name);
  });
  afterAll(() => library.close());

  async function follow(
    of: Book,
  ): Promise<{ readonly excel: WorkbookHost; readonly seen: (SelectedCell | undefined)[]; readonly stop: () => void }> {
    const excel = library.open(of);
    const seen: (SelectedCell | undefined)[] = [];
    const stop = officePort(library.run).onSelection((cell) => void seen.push(cell));
    await library.settled();
    return { excel, seen, stop };
  }

  describe('the selected cell in the host', () => {
    it('is given at once, with its formula and value', async () => {
      const { seen } = await follow(book());
      expect(seen).toEqual([{ sheet: 'Pins', address: 'D5', formula: '=BURN.PIN.OXYGEN(A5:A7,B5:B7)', value: 118.3 }]);
    });

    it('in a spill points to the cell that holds the formula', async () => {
      const { seen } = await follow(book({ active: { sheet: 'Pins', at: 'D6' } }));
      expect(seen[0]).toEqual({
        sheet: 'Pins',
        address: 'D6',
        formula: '',
        value: { error: '#VALUE!', message: '' },
        spill: { from: 'D5', formula: '=BURN.PIN.OXYGEN(A5:A7,B5:B7)', row: 1, column: 0 },
      });
    });

    it('with a constant or nothing in it has no formula', async () => {
      expect((await follow(book({ active: { sheet: 'Pins', at: 'A6' } }))).seen[0]).toEqual({
        sheet: 'Pins',
        address: 'A6',
        formula: '',
        value: '100 mm',
      });
      expect((await follow(book({ active: { sheet: 'Job sheet', at: 'B7' } }))).seen[0]).toEqual({
        sheet: 'Job sheet',
        address: 'B7',
        formula: '',
        value: null,
      });
    });

    it('is given again after selecting, editing and calculating, until it is stopped', async () => {
      const { excel, seen, stop } = await follow(book());
      expect(excel.followed.size).toBe(3);
      excel.book.active = { sheet: 'Pins', at: 'A5' };
      await library.fire();
      expect(seen.at(-1)?.address).toBe('A5');
      const before = seen.length;
      stop();
      await library.settled();
      expect(excel.followed.size).toBe(0);
      await library.fire();
      expect(seen.length).toBe(before);
    });

    it('is kept while the host refuses, as during an edit', async () => {
      const { excel, seen } = await follow(book());
      excel.refuses = 'the host is busy with an edit';
      await library.fire();
      expect(new Set(seen.map((c) => c?.address))).toEqual(new Set(['D5']));
    });

    it('is read once more for any number of events that come while it is read', async () => {
      const { seen } = await follow(book());
      await Promise.all([library.fire(), library.fire(), library.fire(), library.fire()]);
      await library.settled();
      // The library fires four events each time; all that come while the cell is read lead to one reading more.
      expect(seen.length).toBeLessThanOrEqual(4);
    });
  });

  describe('a reference in the host', () => {
    const read = (reference: string, address = 'D6', sheet = 'Pins', more: Partial<Book> = {}): Promise<unknown> => {
      library.open(book(more));
      return officePort(library.run).read(reference, sheet, address);
    };
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
      const excel = library.open(book({ active: { sheet: 'Job sheet', at: 'B2' } }));
      await officePort(library.run).putFormula('=BURN.PIN.HOLE(4)');
      expect(excel.book.formulas['Job sheet']).toEqual({ B2: '=BURN.PIN.HOLE(4)' });
    });

    it('is a sheet of rows, shown, its heading kept in sight', async () => {
      const excel = library.open(book());
      expect(
        await officePort(library.run).addSheet('Assumptions', [
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
      expect(excel.done).toEqual(['freeze Assumptions 1', 'activate Assumptions']);
    });

    it('goes to a cell of another sheet', async () => {
      const excel = library.open(book());
      await officePort(library.run).goTo?.('Job sheet', 'C9');
      expect(excel.done).toEqual(['activate Job sheet', 'select Job sheet C9']);
    });

    it('may have many rows', async () => {
      const excel = library.open(book());
      const rows = Array.from({ length: 300 }, (_, i) => [`row ${i}`, i, null, i / 2, 'x', true, '', -i]);
      expect(await officePort(library.run).addSheet('Long', rows)).toBe('Long');
      expect(excel.book.sheets['Long']).toMatchObject({ A1: 'row 0', H300: -299 });
    });

    it('takes a number where the name of the sheet is taken', async () => {
      library.open(book());
      const port = officePort(library.run);
      expect([await port.addSheet('pins', [['a']]), await port.addSheet('PINS', [['a']])]).toEqual([
        'pins 2',
        'PINS 3',
      ]);
    });
  });

  describe('a workbook put into the open one', () => {
    const added: NewWorkbook = {
      title: 'job',
      definedNames: { Bore: 'Pins!$A$2:$A$3', Free: 'Sums!$A$1' },
      sheets: [
        {
          name: 'Pins',
          rows: [
            ['Pins, see the sheet Sums'],
            ['diameter', { text: '3/8' }],
            [4, '=SUM(Sums!A1,Bore)&" the sheet Pins"'],
          ],
          cells: { D5: true },
          looks: {
            A1: { bold: true, size: 16, color: '#5b6662' },
            'A2:B2': { wrap: true, background: '#dfe6e4', align: 'center' },
            A3: { format: '0.0', unlocked: true },
          },
          widths: { A: 100, 'B:C': 60 },
          heights: { 2: 40 },
          frozenRows: 2,
          frozenColumns: 1,
          landscape: true,
          protected: true,
          conditions: [{ range: 'A3', formula: 'Sums!A1>2', look: { color: '#9d1c12' } }],
          printedHeading: 2,
          validations: {
            A3: { message: 'Give a number above 0.' },
            B3: { list: ['a', 'b'], message: 'This is none.' },
          },
        },
        { name: 'Sums', rows: [['=Pins!A3*2']], hidden: true },
      ],
    };

    it('gets names that are free, in its formulas too, and changes nothing that was there', async () => {
      const of = book();
      const before = structuredClone(of);
      const excel = library.open(of);
      excel.states.push('Calculating', 'Pending');
      expect(await library.run((context) => addWorkbook(context, added))).toEqual({
        sheets: ['Pins 2'],
        names: ['Bore_2', 'Free'],
      });
      const { 'Pins 2': pins, Sums: sums, ...others } = excel.book.formulas;
      expect(others).toEqual(before.formulas);
      expect({ ...excel.book.sheets, 'Pins 2': undefined, Sums: undefined }).toEqual({ ...before.sheets });
      expect(excel.book.names).toEqual({ ...before.names, Bore_2: "'Pins 2'!$A$2:$A$3", Free: 'Sums!$A$1' });
      expect(pins).toMatchObject({
        A1: 'Pins, see the sheet Sums',
        B2: "'3/8",
        A3: '4',
        B3: '=SUM(Sums!A1,Bore_2)&" the sheet Pins 2"',
        D5: 'true',
        D1: '',
      });
      expect(sums).toEqual({ A1: "='Pins 2'!A3*2" });
      expect(excel.done).toEqual([
        'freeze Pins 2 A1:A2',
        'Orientation of Pins 2 Landscape',
        'Zoom of Pins 2 {"horizontalFitToPages":1}',
        'repeat Pins 2 $1:$2',
        'Visibility of Sums Hidden',
        'protect Pins 2',
        'activate Pins 2',
      ]);
      expect(excel.looks['Pins 2']).toMatchObject({
        A1: { 'font Bold': true, 'font Size': 16, 'font Color': '#5b6662' },
        'A2:B2': {
          'format WrapText': true,
          'fill Color': '#dfe6e4',
          'format HorizontalAlignment': 'Center',
          rows: 'fitted',
        },
        A3: {
          'lock Locked': false,
          'condition rule Formula': '=Sums!A1>2',
          'condition format Color': '#9d1c12',
          NumberFormat: '0.0',
          'validation Rule': { decimal: { formula1: 0, operator: 'GreaterThan' } },
        },
        B3: { 'validation Rule': { list: { inCellDropDown: true, source: 'a,b' } } },
        'A1:A1048576': { 'format ColumnWidth': 75 },
        'B1:C1048576': { 'format ColumnWidth': 45 },
        'A2:XFD2': { 'format RowHeight': 30 },
      });
    });

    it('is taken away again where the host refuses a part of it', async () => {
      const of = book({ locked: ['Sums'] });
      const before = structuredClone(of);
      const excel = library.open(of);
      await expect(library.run((context) => addWorkbook(context, added))).rejects.toThrow('protected');
      expect(excel.book).toEqual(before);
      const whole = library.open(book({ structure: 'protected' }));
      await expect(library.run((context) => addWorkbook(context, added))).rejects.toThrow('structure');
      expect(whole.book.sheets).toEqual(before.sheets);
    });

    it('may be the job template or a blank job list: each of their formulas, as it is in the file', async () => {
      const listing = listedAssumptions();
      for (const kind of ['template', 'list'] as const) {
        const workbook = kind === 'list' ? jobList('Job list', []) : jobWorkbook(hostFunctions, listing);
        const excel = library.open({ sheets: { Mine: { A1: 1 } }, formulas: {}, active: { sheet: 'Mine', at: 'A1' } });
        const got = await officePort(library.run).beginJob?.(kind);
        expect(got?.sheets).toEqual(workbook.sheets.flatMap(({ name, hidden }) => (hidden ? [] : [name])));
        for (const { name, cells = {}, rows = [] } of workbook.sheets) {
          const found = excel.book.formulas[name] ?? {};
          const formulas = [...rows.flat(), ...Object.values(cells)].filter(
            (c) => typeof c === 'string' && c[0] === '=',
          );
          expect(
            Object.values(found)
              .filter((text) => text.startsWith('='))
              .sort(),
            name,
          ).toEqual([...formulas].sort());
        }
      }
    });
  });

  describe('formats of a table', () => {
    const rows = [
      ['item', 'oxygen, scf', 'note'],
      [
        1,
        118.31,
        'a sentence that is long enough to be wrapped below the others in its row of the table, twice at least',
      ],
      [2, 80.2, ''],
    ];
    const look = tableLook(
      tableFunction({
        ...findFunction('BURN.JOB.PLAN')!,
        result: {
          kind: 'table',
          columns: [{ heading: 'item' }, { heading: 'oxygen', quantity: 'oxygen' }, { heading: 'note' }],
        },
      } as never),
      rows,
    )!;

    it('are set as they suit what stands there; columns grow and never shrink, and the heading stays in sight', async () => {
      const excel = library.open(book({ widths: { Pins: { D: 200 } } }));
      await officePort(library.run).format?.({ sheet: 'Pins', address: 'D5', rows, look });
      expect(excel.looks['Pins']).toMatchObject({
        'D1:D1048576': { 'format ColumnWidth': 200 },
        'E1:E1048576': { 'format ColumnWidth': 58.5 },
        'F1:F1048576': { 'format ColumnWidth': 315 },
        'D5:F5': { 'font Bold': true, 'format WrapText': true },
        'E6:E7': { NumberFormat: '#,##0.0', 'format HorizontalAlignment': 'Right' },
        'F6:F7': { 'format WrapText': true, 'format VerticalAlignment': 'Top' },
        'D5:F7': { rows: 'fitted' },
      });
      expect(excel.done).toEqual(['freeze Pins 5']);
      expect(excel.book).toEqual(book({ widths: { Pins: { D: 200 } } }));
    });

    it('leave alone what the user has frozen, and a heading far down', async () => {
      const frozen = library.open(book({ frozen: { Pins: 2 } }));
      await officePort(library.run).format?.({ sheet: 'Pins', address: 'D5', rows, look });
      expect(frozen.done).toEqual([]);
      const low = library.open(book());
      await officePort(library.run).format?.({ sheet: 'Pins', address: 'D40', rows, look });
      expect(low.done).toEqual([]);
    });

    it('that the host refuses say why', async () => {
      library.open(book({ locked: ['Pins'] }));
      await expect(officePort(library.run).format?.({ sheet: 'Pins', address: 'D5', rows, look })).rejects.toThrow(
        'protected',
      );
    });
  });

  describe('values written into cells', () => {
    it('are written together, texts as texts', async () => {
      const excel = library.open(book());
      await officePort(library.run).write?.('Pins', [
        { address: 'A7', value: 5 },
        { address: 'C7', value: '=your log' },
      ]);
      expect([excel.book.sheets['Pins']?.['A7'], excel.book.sheets['Pins']?.['C7']]).toEqual([5, "'=your log"]);
    });

    it.each(['D5', 'D6'])('are refused all where one of them, %s, is filled by a formula', async (address) => {
      const excel = library.open(book());
      const cells = [
        { address: 'A7', value: 5 },
        { address, value: 1 },
      ];
      await expect(officePort(library.run).write?.('Pins', cells)).rejects.toThrow(
        `Pins ${address} is filled by a formula`,
      );
      expect(excel.book.sheets['Pins']?.['A7']).toBe(4);
    });
  });

  describe('formulas of the workbook', () => {
    it('are all found, sheet by sheet, however large the sheet', async () => {
      library.open(
        book({
          formulas: { Pins: { D5: '=BURN.PIN.OXYGEN(A5:A7,B5:B7)' }, Empty: { AB30000: '=_xldudf_BURN_VERSION()' } },
        }),
      );
      expect(await officePort(library.run).formulas?.all()).toEqual([
        { sheet: 'Pins', address: 'D5', formula: '=BURN.PIN.OXYGEN(A5:A7,B5:B7)', value: 118.3 },
        { sheet: 'Empty', address: 'AB30000', formula: '=_xldudf_BURN_VERSION()', value: null },
      ]);
    });

    it('are entered one by one; where the host refuses one, the others are entered and its reason is told', async () => {
      const excel = library.open(book({ formulas: {}, locked: ['Job sheet'] }));
      const cell = (sheet: string, address: string): FormulaCell => ({
        sheet,
        address,
        formula: '=BURN.VERSION()',
        value: null,
      });
      const cells = [cell('Pins', 'D9'), cell('Job sheet', 'A1'), cell('Nowhere', 'A1'), cell('Empty', 'B2')];
      const entered = await officePort(library.run).formulas?.enter?.(cells);
      expect(entered?.done).toBe(2);
      expect(entered?.failed.map((f) => [f.cell.sheet, f.reason])).toEqual([
        ['Job sheet', expect.stringContaining('protected') as string],
        ['Nowhere', expect.stringContaining("doesn't exist") as string],
      ]);
      expect(excel.book.formulas).toEqual({ Pins: { D9: '=BURN.VERSION()' }, Empty: { B2: '=BURN.VERSION()' } });
    });
  });

  it('is asked for nothing while the pane is hidden, and for the cell once it is shown', async () => {
    const excel = library.open(book());
    let show = (): void => undefined;
    const shown = new Promise<void>((resolve) => (show = resolve));
    const seen: (SelectedCell | undefined)[] = [];
    const stop = officePort(library.run, { wait: () => shown }).onSelection((cell) => void seen.push(cell));
    await library.settled();
    await library.fire();
    expect(seen).toEqual([]);
    const before = excel.requests;
    show();
    await library.settled();
    expect(seen.map((c) => c?.address)).toEqual(['D5']);
    expect(excel.requests).toBeGreaterThan(before);
    stop();
  });

  it('asks for no member beyond the requirement sets of the manifest', () => {
    const manifest = readFileSync(new URL('../../manifest.xml', import.meta.url), 'utf8');
    const declared = (set: string): number =>
      Number(new RegExp(`<Set Name="${set}" MinVersion="1\\.(\\d+)"`).exec(manifest)?.[1] ?? 0);
    // Switches that the library asks for by itself, no sets that a manifest can declare.
    const own = ['RichApiRuntimeFlag', 'ExcelApiUndo'];
    const members = [...library.asked].filter(([set]) => !own.includes(set));
    const beyond = members.flatMap(([set, versions]) =>
      [...versions].filter((v) => Number(v.split('.')[1]) > declared(set)).map((v) => `${set} ${v}`),
    );
    expect(members.length).toBeGreaterThan(0);
    expect(beyond).toEqual([]);
  });
});
