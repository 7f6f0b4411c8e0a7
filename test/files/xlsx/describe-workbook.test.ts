import { readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { recheck } from '../../../src/cli/recheck/recheck.ts';
import { templateFile } from '../../../src/cli/template/command.ts';
import { asInTheHost } from '../../../src/engine/as-in-the-host.ts';
import { calculateWorkbook, functionNames } from '../../../src/engine/headless.ts';
import { describeWorkbook } from '../../../src/files/xlsx/describe-workbook.ts';
import { jobList } from '../../../src/files/template/job-list.ts';
import { columnName, readAddress } from '../../../src/files/xlsx/address.ts';
import { newWorkbook, type NewSheet, type NewWorkbook } from '../../../src/files/xlsx/new-workbook.ts';
import { readWorkbook } from '../../../src/files/xlsx/read-workbook.ts';
import { UnreadableFile } from '../../../src/files/xlsx/unreadable.ts';
import { plainWorkbook } from '../../../src/plain/plain-workbook.ts';
import { hostFunctions } from '../../../src/sheet/host-functions.ts';
import { draglineSheets } from '../../../src/trial/demo/dragline.ts';
import { finishedJobsSheet } from '../../../src/trial/demo/finished-jobs.ts';
import { newJob } from '../../../src/trial/new-jobs.ts';
import { readPasted, readRows } from '../../../src/trial/read-list.ts';
import { altered, makeWorkbook, replacing, SHEET1 } from './make.ts';

const read = (file: Uint8Array): ReturnType<typeof describeWorkbook> =>
  describeWorkbook(readWorkbook(file), 'A test', hostFunctions, new Set(functionNames));
const written = async (workbook: NewWorkbook): Promise<Uint8Array> =>
  newWorkbook(workbook, await calculateWorkbook(workbook, hostFunctions.map(asInTheHost)));

const PACKAGES = new URL('../../../node_modules/', import.meta.url).pathname;
/** Workbooks that packages of general spreadsheet libraries ship as their own test data or examples (all under MIT). */
const OTHERS = [
  'xlsx-populate/examples',
  'xlsx-stream-reader/example',
  'xlsx-stream-reader/test',
  'office-addin-dev-settings/templates',
].flatMap((folder) =>
  readdirSync(PACKAGES + folder, { recursive: true, encoding: 'utf8' })
    // One has 240,000 cells, to try the patience of its reader; it says nothing more.
    .filter((name) => name.endsWith('.xlsx') && !name.endsWith('big.xlsx'))
    .map((name) => path.join(folder, name)),
);

/** What a reader of another program would find: every cell's value and formula as stored. */
const cellsOf = (file: Uint8Array): unknown =>
  readWorkbook(file).sheets.map(({ name, cells }) => ({
    name,
    cells: cells
      .filter((c) => c.formula ?? (c.value !== null && c.value !== ''))
      .map((c) => [c.row, c.column, c.formula?.text ?? c.value]),
  }));

/** With a width for each column by itself, as they are written; without room left free, and heights that texts ask for. */
const comparable = ({ size: _, heights: __, ...sheet }: NewSheet): NewSheet => ({
  ...sheet,
  widths: Object.fromEntries(
    Object.entries(sheet.widths ?? {}).flatMap(([letters, px]) => {
      const [from = '', to = from] = letters.split(':');
      const [first, last] = [from, to].map((each) => readAddress(`${each}1`)!.column) as [number, number];
      return Array.from({ length: last - first + 1 }, (_, i) => [columnName(first + i), px]);
    }),
  ),
});

/** Workbooks that came back the same. */
let cameBack = 0;
afterAll(() => expect(cameBack).toBeGreaterThanOrEqual(30));

describe('workbooks of other libraries', () => {
  it.each(OTHERS)(
    '%s comes back as it was written, or is refused with a reason',
    async (name) => {
      const file = readFileSync(PACKAGES + name);
      let opened: ReturnType<typeof read>;
      try {
        opened = read(file);
      } catch (thrown) {
        expect(thrown).toBeInstanceOf(UnreadableFile);
        return;
      }
      const before = readWorkbook(file).sheets;
      // Every value that stands in the file without a formula stands in what is shown.
      before.forEach((sheet, i) => {
        const values = opened.workbook.sheets[i]?.cells ?? {};
        const typed = sheet.cells.filter((c) => !c.formula && c.value !== null && c.value !== '');
        expect(Object.keys(values).length, sheet.name).toBeGreaterThanOrEqual(typed.length === 0 ? 0 : 1);
      });
      const again = await written(opened.workbook);
      const back = read(again);
      expect(back.workbook.sheets.map(comparable)).toEqual(opened.workbook.sheets.map(comparable));
      back.workbook.sheets.forEach((sheet, i) =>
        expect(sheet.heights).toMatchObject(opened.workbook.sheets[i]?.heights ?? {}),
      );
      expect(back.workbook.definedNames).toEqual(opened.workbook.definedNames);
      expect(back.notKept).toEqual([]);
      cameBack++;
    },
    120_000,
  );
});

/** What a new job may begin with, a customer's list that was read, and sheets of the example by themselves. */
const OURS: Readonly<Record<string, () => NewWorkbook>> = {
  'a blank job list': () => newJob('list', hostFunctions),
  'a list that was read': () => {
    const table = readPasted(LIST);
    return jobList(
      'Job list',
      readRows(table, table.guessed, table.unit).map(({ row }) => row),
    );
  },
  'the example': () => newJob('example', hostFunctions),
  'the jobs that were finished': () => ({ title: 'Finished', sheets: [finishedJobsSheet()] }),
  'the load and the price of a job': () => ({ title: 'Dragline', sheets: draglineSheets() }),
};
const LIST = 'tag\tno. off\tØ mm\tlength\tremarks\nBoom foot\t4 off\t90\t300\t\nLink\t2\t1-1/2"\t200\tseized, "hard"';

describe('our own workbooks', () => {
  const calculate = (workbook: NewWorkbook) => calculateWorkbook(workbook, hostFunctions.map(asInTheHost));
  it.each([...Object.keys(OURS), 'a blank job list, in plain cells', 'a list that was read, in plain cells'])(
    '%s: comes back as it was written, and nothing moves in a recheck',
    async (name) => {
      const plain = name.endsWith(', in plain cells');
      const made = OURS[name.replace(', in plain cells', '')]!();
      const copy = plain ? await plainWorkbook(made, calculate) : undefined;
      const first = copy ? newWorkbook(copy.workbook, copy.results) : await written(made);
      const opened = read(first);
      expect(opened.notKept).toEqual([]);
      const again = await written({
        ...opened.workbook,
        sheets: opened.workbook.sheets.map((s) => ({ ...s, plain: 'singles' })),
      });
      const back = read(again);
      expect(back.notKept).toEqual([]);
      expect(back.workbook.sheets.map(comparable)).toEqual(opened.workbook.sheets.map(comparable));
      expect(back.workbook.definedNames).toEqual(opened.workbook.definedNames);
      if (plain) await expect(recheck(again)).rejects.toThrow('no formula with a BURN function');
      else {
        const checked = await recheck(again);
        expect(checked.cells.filter((c) => c.status !== 'same')).toEqual([]);
        expect(checked.others).toEqual([]);
      }
      cameBack++;
    },
    120_000,
  );

  let template: Uint8Array;
  beforeAll(async () => {
    template = await templateFile();
  }, 120_000);

  it('the template comes back with its choices, heights, names and hidden sheet', async () => {
    const opened = read(template);
    // The browser workbook has neither; it says so before anything is saved over.
    expect(opened.notKept).toEqual([
      'protection of a sheet (Pins, Plan, Stock and 11 more)',
      'conditional formats (Checks)',
    ]);
    expect(opened.workbook.sheets.map((s) => [s.name, s.hidden])).toContainEqual(['Calculation', true]);
    expect(Object.keys(opened.workbook.sheets[0]?.validations ?? {}).length).toBe(2);
    const again = await written({
      ...opened.workbook,
      sheets: opened.workbook.sheets.map((s) => ({ ...s, plain: 'singles' })),
    });
    expect(cellsOf(again)).toEqual(cellsOf(template));
    const checked = await recheck(again);
    expect(checked.cells.filter((c) => c.status !== 'same')).toEqual([]);
    expect(checked.others).toEqual([]);
    cameBack++;
  }, 120_000);

  it('looks, merged cells, borders, hidden rows and columns, heights and frozen panes come back', async () => {
    const sheet = {
      name: 'Looks',
      rows: [['a', 1.5], ['b', 2], [null, '=SUM(B1:B2)'], ['=BURN.PIN.RODS(B1:B2,10)']],
      looks: {
        A1: { bold: true, italic: true, underline: true, strike: true, size: 16, color: '#8f4304', face: 'Georgia' },
        B1: { format: '0.00', align: 'center' as const, background: '#fff8e3' },
        B2: { borders: { top: { line: 'thick' as const, color: '#9d1c12' }, left: { line: 'hair' as const } } },
        A2: { wrap: true, vertical: 'center' as const },
      },
      widths: { A: 140, B: 77 },
      heights: { 1: 40 },
      merged: ['D1:E2'],
      hiddenRows: [6],
      hiddenColumns: ['G'],
      frozenRows: 1,
      frozenColumns: 2,
    };
    const file = await makeWorkbook([sheet], { rods: 'Looks!$A$4' });
    const { workbook, notKept } = read(file);
    expect(notKept).toEqual([]);
    const [back] = workbook.sheets;
    expect(back).toMatchObject({
      looks: sheet.looks,
      heights: sheet.heights,
      merged: sheet.merged,
      hiddenRows: [6],
      hiddenColumns: ['G'],
      frozenRows: 1,
      frozenColumns: 2,
    });
    expect(back?.widths).toMatchObject({ A: 140, B: 77 });
    expect(back?.cells).toMatchObject({
      A1: { text: 'a' },
      B1: 1.5,
      B3: '=SUM(B1:B2)',
      A4: '=BURN.PIN.RODS(B1:B2,10)',
    });
    expect(back?.cells?.['A5']).toBeUndefined();
    expect(workbook.definedNames).toEqual({ rods: 'Looks!$A$4' });
    cameBack++;
  });

  it('says what it does not keep', async () => {
    const file = await makeWorkbook([{ name: 'Pins', rows: [[1, '=A1*2']] }]);
    const { notKept, workbook } = read(
      altered(file, {
        [SHEET1]: (xml) =>
          replacing(
            '</sheetData>',
            '</sheetData><conditionalFormatting sqref="A1"><cfRule type="cellIs" priority="1" operator="equal"><formula>1</formula></cfRule></conditionalFormatting><hyperlinks><hyperlink ref="A1" location="B1"/></hyperlinks>',
          )(replacing('<f>A1*2</f>', '<f>[1]Other!A1*2</f>')(xml)),
        'xl/comments1.xml': () => '<x/>',
      }),
    );
    expect(notKept).toEqual([
      'conditional formats (Pins)',
      'links of cells (Pins)',
      'the formula: it reads another workbook ([1]Other!A1), which is not opened; its last value stands in its place (Pins!B1)',
    ]);
    expect(workbook.sheets[0]?.cells).toEqual({ A1: 1, B1: 2 });
  });
});
