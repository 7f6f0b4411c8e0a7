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

describe('the tables of a job in plain cells', () => {
  const cells: Record<string, CellContent> = Object.fromEntries(
    [
      ['mark', 'qty', 'dia', 'length, mm', 'access'],
      ['Boom foot', 2, 5, 450, null],
      ['Stick', { text: '3 off' }, { text: '4-1/2' }, 400, null],
      ['bad', 1, null, 300, null],
      ['Link', 4, 3.5, 300, 'tight'],
    ].flatMap((row, r) => row.map((content, c) => [`${'ABCDE'[c]}${r + 1}`, content as CellContent])),
  );
  const prices: Record<string, CellContent> = Object.fromEntries(
    [
      ['rod', 9, null],
      ['oxygen', 38, '100 scf'],
      ['crew', 185, 'h'],
      ['contingency', 10, '%'],
      ['margin', 20, '%'],
      ['other permit', 250, null],
    ].flatMap((row, r) => row.map((content, c) => [`${'GHI'[c]}${r + 1}`, content as CellContent])),
  );
  const job = (more: Record<string, CellContent> = {}): NewWorkbook =>
    book({
      ...cells,
      ...prices,
      A20: '=BURN.JOB.PLAN(A1:E5)',
      A40: '=BURN.JOB.COST(A1:E5,G1:I6)',
      A60: '=BURN.JOB.STOCK(A1:E5,90)',
      ...more,
    });
  const columnOf = (calculated: CalculatedWorkbook, top: number, heading: string): number => {
    const found = calculated.spilledAt(0, top, 0)[0]!.findIndex((h) => String(h).replace(/,.*/, '') === heading);
    expect(found, heading).toBeGreaterThanOrEqual(0);
    return found;
  };

  test('give the same, and follow a changed size, quantity and price where they are formulas', async () => {
    const before = await calculate(job());
    const copy = await plainWorkbook(job(), calculate);
    expect(copy.notFollowed).toEqual([]);
    const plain = await without(copy.workbook);
    for (const top of [19, 39, 59])
      before
        .spilledAt(0, top, 0)
        .forEach((row, r) => row.forEach((cell, c) => close(plain.valueAt(0, top + r, c), cell, `${top + r} ${c}`)));
    const changes = { B2: 3, C2: 4, C5: 4, H1: 12, H4: 15 };
    const moved = await without(changed(copy, changes));
    const again = await calculate(job(changes));
    const at = (heading: string): number => columnOf(before, 19, heading);
    // The sizes reach the work by formulas; pressures and flows are solved and stand still, so only what rests on quantity and bore moves alike.
    const [quantity, removed, rods] = [at('quantity'), at('removed'), at('rods')];
    expect(moved.valueAt(0, 20, quantity)).toBe(3);
    expect(moved.valueAt(0, 24, quantity)).toBe(again.valueAt(0, 24, quantity));
    close(moved.valueAt(0, 20, removed), again.valueAt(0, 20, removed), 'removed');
    expect(moved.valueAt(0, 20, rods)).not.toBe(plain.valueAt(0, 20, rods));
    // The total is the sum of its rows, the bad one left out.
    const sum = [20, 21, 23].reduce((all, row) => all + Number(moved.valueAt(0, row, removed)), 0);
    close(moved.valueAt(0, 24, removed), sum, 'total');
    // The price: another price of a rod and another contingency, with the load as it stands.
    const line = (book_: CalculatedWorkbook, name: string): number =>
      39 + book_.spilledAt(0, 39, 0).findIndex((row) => row[0] === name);
    const priced = await calculate(job({ H1: 12, H4: 15 }));
    const onlyPrices = await without(changed(copy, { H1: 12, H4: 15 }));
    for (const name of ['subtotal', 'contingency', 'cost', 'margin', 'price', 'other permit'])
      close(onlyPrices.valueAt(0, line(before, name), 4), priced.valueAt(0, line(priced, name), 4), name);
    expect(onlyPrices.valueAt(0, line(before, 'price'), 4)).not.toBe(plain.valueAt(0, line(before, 'price'), 4));
  });

  test('say of each column that stands still why', async () => {
    const copy = await plainWorkbook(job(), calculate);
    const texts = copy.workbook.sheets
      .slice(1)
      .flatMap(({ cells: all = {} }) => Object.entries(all))
      .flatMap(([address, c]) =>
        typeof c === 'object' && c !== null && 'text' in c ? [[address, c.text] as const] : [],
      );
    const reasons = texts.filter(([, text]) => text.endsWith(': stands still'));
    const drawn = reasons.filter(([, text]) => text.startsWith('drawn from the ranges'));
    // Low and high of rods, oxygen and crew in the plan, low and high of the price, amount of the load and how often it falls short.
    expect(drawn.length).toBe(6 + 2 + 3);
    // Sizes, quantities and prices are read from the cells that hold them.
    for (const address of [
      '$C$2',
      '$D$2',
      '$D$3',
      '$C$5',
      '$B$2',
      '$B$5',
      '$H$1',
      '$H$2',
      '$H$3',
      '$H$4',
      '$H$5',
      '$H$6',
    ])
      expect(
        formulas(copy).some((c) => c.includes(`Job!${address}`)),
        address,
      ).toBe(true);
  });
});
