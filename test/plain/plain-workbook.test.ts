import { describe, expect, test } from 'vitest';
import { CATALOGUE } from '../../src/catalogue/catalogue.ts';
import { asInTheHost } from '../../src/engine/as-in-the-host.ts';
import { calculateWorkbook } from '../../src/engine/headless.ts';
import type { NewWorkbook } from '../../src/files/xlsx/new-workbook.ts';
import { plainWorkbook, type PlainCopy } from '../../src/plain/plain-workbook.ts';
import type { CalculatedWorkbook, CellContent } from '../../src/sheet/described-workbook.ts';
import type { Cell } from '../../src/sheet/host-function.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';

const FUNCTIONS = hostFunctions.map(asInTheHost);
const calculate = (workbook: NewWorkbook): Promise<CalculatedWorkbook> => calculateWorkbook(workbook, FUNCTIONS);
/** As a program calculates it that has none of our functions. */
const without = (workbook: NewWorkbook): Promise<CalculatedWorkbook> => calculateWorkbook(workbook, []);

const book = (cells: Record<string, CellContent>, more: Partial<NewWorkbook> = {}): NewWorkbook => ({
  title: 'job',
  sheets: [{ name: 'Job', cells, size: [200, 60] }],
  ...more,
});

function formulas({ workbook }: PlainCopy): readonly string[] {
  return workbook.sheets.flatMap(({ cells = {} }) =>
    Object.values(cells).filter((c): c is string => typeof c === 'string' && c.startsWith('=')),
  );
}

function close(found: Cell, expected: Cell, where: string): void {
  if (typeof expected === 'number' && typeof found === 'number')
    expect(Math.abs(found - expected), where).toBeLessThanOrEqual(1e-9 * Math.abs(expected));
  else expect(found ?? '', where).toEqual(expected ?? '');
}

const changed = ({ workbook }: PlainCopy, cells: Record<string, CellContent>): NewWorkbook => ({
  ...workbook,
  sheets: workbook.sheets.map((sheet, i) => (i === 0 ? { ...sheet, cells: { ...sheet.cells, ...cells } } : sheet)),
});

describe('a copy in plain cells', () => {
  test('every example of every function gives the same without the functions', async () => {
    const examples = CATALOGUE.flatMap((d) => d.examples);
    const workbook: NewWorkbook = {
      title: 'examples',
      sheets: examples.map((formula, i) => ({ name: `Sheet ${i}`, cells: { A1: formula }, size: [400, 60] })),
    };
    const before = await calculate(workbook);
    const copy = await plainWorkbook(workbook, calculate);
    expect(copy.notFollowed).toEqual([]);
    expect(formulas(copy).filter((formula) => formula.includes('BURN'))).toEqual([]);
    const after = await without(copy.workbook);
    let linked = 0;
    examples.forEach((formula, sheet) =>
      before.spilledAt(sheet, 0, 0).forEach((cells, r) =>
        cells.forEach((expected, c) => {
          close(after.valueAt(sheet, r, c), expected, `${formula} at row ${r + 1}, column ${c + 1}`);
          close(copy.results.valueAt(sheet, r, c), expected, formula);
          linked++;
        }),
      ),
    );
    expect(linked).toBeGreaterThan(1000);
    // Each step's formula on the sheets Working gives what the program itself had worked out.
    let steps = 0;
    copy.workbook.sheets.slice(examples.length).forEach(({ cells = {} }, i) => {
      for (const [address, content] of Object.entries(cells)) {
        if (typeof content !== 'string' || !content.startsWith('=')) continue;
        const found = after.values(`'${copy.workbook.sheets[examples.length + i]!.name}'!${address}`)[0]?.[0] ?? null;
        const [letters = '', digits = ''] = /^([A-Z]+)(\d+)$/.exec(address)?.slice(1) ?? [];
        const column = letters.charCodeAt(0) - 65;
        if (letters.length > 1) continue;
        close(found, copy.results.valueAt(examples.length + i, Number(digits) - 1, column), `${address}: ${content}`);
        steps++;
      }
    });
    expect(steps).toBeGreaterThan(2000);
  });

  test('a changed size moves what follows from it by formulas', async () => {
    const workbook = book({ A1: 4, A2: '=BURN.PIN.HOLE(A1)', A3: '=BURN.PUSH.SPACERS(A1*5,6)' });
    const copy = await plainWorkbook(workbook, calculate);
    const after = await without(changed(copy, { A1: 5.25 }));
    const again = await calculate(book({ ...workbook.sheets[0]!.cells, A1: 5.25 }));
    for (const cell of ['A2', 'A3'])
      close(after.values(`Job!${cell}`)[0]![0]!, again.values(`Job!${cell}`)[0]![0]!, cell);
    expect(after.values('Job!A2')).not.toEqual((await calculate(workbook)).values('Job!A2'));
  });

  test('what is found by iteration stands still and says so', async () => {
    const copy = await plainWorkbook(book({ A1: 80, A2: '=BURN.ROD.FLOW("3/8 x 36",A1)' }), calculate);
    const working = copy.workbook.sheets[1]!;
    const notes = Object.entries(working.cells ?? {}).filter(
      ([, c]) => typeof c === 'object' && c !== null && 'text' in c && c.text.includes('stands still'),
    );
    expect(notes.length).toBeGreaterThan(0);
    const after = await without(changed(copy, { A1: 90 }));
    const still = await calculate(book({ A2: '=BURN.ROD.FLOW("3/8 x 36",80)' }));
    close(after.values('Job!A2')[0]![0]!, still.values('Job!A2')[0]![0]!, 'A2');
  });

  test('calls inside a formula, inside one another, on lists, names, sums and assumptions', async () => {
    const cells: Record<string, CellContent> = {
      A1: 4,
      A2: 5,
      A3: 6,
      B1: 10,
      B2: 12,
      B3: '14 in',
      D1: '=BURN.PIN.OXYGEN(A1:A3,B1:B3)',
      E1: '=BURN.CYLINDER.COUNT(BURN.PIN.OXYGEN(A1,B1))',
      E2: '=BURN.CYLINDER.COUNT(SUM(D1#))',
      E3: '=ROUND(BURN.PIN.HOLE(A1)*2,3)&" in"',
      E4: '=SUM(BURN.PIN.OXYGEN(A1:A3,B1:B3))+SUM(D1#)',
      E5: '=BURN.PIN.HOLE(first)',
      E6: '=BURN.PIN.HOLE(A1,H1:I2)',
      E7: '=SUM(D1:D3)',
      H1: 'bore ratio',
      I1: 0.55,
    };
    const workbook = book(cells, { definedNames: { first: 'Job!$A$1' } });
    const before = await calculate(workbook);
    const copy = await plainWorkbook(workbook, calculate);
    expect(copy.notFollowed).toEqual([]);
    const after = await without(copy.workbook);
    for (const cell of ['D1', 'D2', 'D3', 'E1', 'E2', 'E3', 'E4', 'E5', 'E6', 'E7'])
      close(after.values(`Job!${cell}`)[0]![0]!, before.values(`Job!${cell}`)[0]![0]!, cell);
    // An assumption that stands in a cell moves what rests on it.
    const moved = await without(changed(copy, { I1: 0.5 }));
    const again = await calculate(book({ ...cells, I1: 0.5 }, { definedNames: { first: 'Job!$A$1' } }));
    close(moved.values('Job!E6')[0]![0]!, again.values('Job!E6')[0]![0]!, 'E6');
  });

  test('a failed cell keeps its error, a cell that cannot be followed its value, and both are told', async () => {
    const workbook = book({ A1: '=BURN.PIN.OXYGEN(-4,10)', A2: '=BURN.PIN.HOLE(INDIRECT("B"&1))', A3: '=2+2', B1: 4 });
    const copy = await plainWorkbook(workbook, calculate);
    expect(copy.notFollowed.join('\n')).toContain('Job!A1: shows #VALUE!');
    expect(copy.notFollowed.join('\n')).toContain('Job!A2: the argument INDIRECT("B"&1) cannot be followed');
    const after = await without(copy.workbook);
    expect(after.values('Job!A3')).toEqual([[4]]);
    close(after.values('Job!A2')[0]![0]!, (await calculate(workbook)).values('Job!A2')[0]![0]!, 'A2');
  });

  test('a sheet that is called Working already is left alone', async () => {
    const workbook: NewWorkbook = { title: 'job', sheets: [{ name: 'Working', cells: { A1: '=BURN.PIN.HOLE(4)' } }] };
    const copy = await plainWorkbook(workbook, calculate);
    expect(copy.workbook.sheets.map(({ name }) => name)).toEqual(['Working', 'Working 2']);
  });
});
