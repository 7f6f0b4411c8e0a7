import { describe, expect, it } from 'vitest';
import type { Cell } from '../../src/catalogue/cell.ts';
import { assumeRanges, differingUses } from '../../src/pane/differing-assumptions.ts';
import type { FormulaCell } from '../../src/pane/unknown-name.ts';
import { demoWorkbook } from '../../src/trial/demo/demo-workbook.ts';
import { reader, type Cells } from './memory-sheet.ts';

const at = (sheet: string, cells: Readonly<Record<string, string>>): readonly FormulaCell[] =>
  Object.entries(cells).map(([address, formula]) => ({ sheet, address, formula, value: null }));

const DUTY: readonly (readonly Cell[])[] = [
  ['name', 'value', 'low', 'high'],
  ['burning duty', 0.4, 0.3, 0.5],
];
const SHEETS: Cells = {
  'Set!$A$1:$D$2': DUTY,
  'Set!A1:D2': DUTY,
  'Copy!A1:D2': DUTY,
  'Other!A1:B2': [
    ['burning duty', 0.6],
    ['position', 'overhead'],
  ],
  'Empty!A1:B9': [[null, null]],
};
const found = (
  ...formulas: readonly FormulaCell[][] | readonly (readonly FormulaCell[])[]
): ReturnType<typeof differingUses> => differingUses(formulas.flat(), { read: reader(SHEETS) });

describe('cells that read the same list', () => {
  it('are named where some go by the defaults and others by a range, with what differs', async () => {
    const [one, ...others] = await found(
      at('Pins', { F6: '=BURN.PIN.RODS(C6,D6)', F7: '=BURN.PIN.RODS(C7,D7)', A1: '=SUM(F6:F7)' }),
      at('Plan', { A3: '=BURN.PIN.PLAN(Pins!C6:C29,Pins!D6:D29,,,,Set!$A$1:$D$2)' }),
      at('Price', { E9: '=BURN.JOB.STOCK(Pins!$A$5:$E$29,90,Set!$A$1:$D$2)' }),
    );
    expect(others).toEqual([]);
    expect(one?.uses.map(({ assume, cells }) => [assume, cells.map((c) => `${c.sheet} ${c.address}`)])).toEqual([
      ['', ['Pins F6', 'Pins F7']],
      ['Set!A1:D2', ['Plan A3', 'Price E9']],
    ]);
    expect(one?.differ).toEqual([
      { name: 'burning duty', values: [expect.stringMatching(/\(.* to .*\)$/) as string, '0.4 (0.3 to 0.5)'] },
    ]);
  });

  it('are no matter where they assume the same, by the same range or by one with the same in it', async () => {
    const formulas = (assume: string): readonly FormulaCell[] => [
      ...at('Pins', { F6: '=BURN.PIN.RODS(C6,D6,,,,Set!A1:D2)' }),
      ...at('Plan', { A3: `=BURN.PIN.PLAN(Pins!C6:C29,Pins!D6:D29,,,,${assume})` }),
    ];
    for (const assume of ['Set!$A$1:$D$2', 'Copy!A1:D2', '{"burning duty",0.4,0.3,0.5}'])
      expect(await found(formulas(assume)), assume).toEqual([]);
    expect(
      await found(at('Pins', { F6: '=BURN.PIN.RODS(C6,D6,,,,Empty!A1:B9)', G6: '=BURN.PIN.TIME(C6,D6)' })),
    ).toEqual([]);
    expect(await found(formulas('Other!A1:B2'))).toHaveLength(1);
  });

  it('are of the same list only where they share cells of it, on the same sheet', async () => {
    expect(
      await found(
        at('Pins', { F6: '=BURN.PIN.RODS(C6,D6)', F40: '=BURN.PIN.RODS(C40,D40,,,,Other!A1:B2)' }),
        at('Dock', { F6: '=BURN.PIN.RODS(C6,D6,,,,Set!A1:D2)' }),
        // Prices and confidences are shared by many jobs.
        at('Price', { A1: '=BURN.JOB.STOCK(Pins!A5:E9,B1)', A9: '=BURN.JOB.STOCK(Dock!A5:E9,B1,Set!A1:D2)' }),
        at('Two ways', { A1: '=BURN.JOB.COMPARE(Pins!A5:E29,Set!A1:D2,Other!A1:B2)' }),
      ),
    ).toEqual([]);
  });

  it('are compared over whole columns, and inside other formulas', async () => {
    const [one] = await found(
      at('Pins', { F6: '=IF(C6="","",BURN.PIN.RODS(C6,D6))' }),
      at('Plan', { A3: '=BURN.JOB.PLAN(Pins!A:E,Other!A1:B2)' }),
    );
    expect(one?.uses.map((u) => u.assume)).toEqual(['', 'Other!A1:B2']);
    expect(one?.differ.map((d) => d.name)).toEqual(['burning duty', 'position']);
  });

  it('are found among tens of thousands of formulas, with each range read once', async () => {
    const cells = Object.fromEntries(
      Array.from({ length: 20_000 }, (_, i) => [`F${i + 1}`, `=BURN.PIN.RODS(C${i + 1},D${i + 1},,,,Set!A1:D2)`]),
    );
    let read = 0;
    const uses = await differingUses(
      [...at('Pins', cells), ...at('Plan', { A1: '=BURN.PIN.PLAN(Pins!C1:C20000,Pins!D1:D20000)' })],
      {
        read: (...asked) => {
          read++;
          return reader(SHEETS)(...asked);
        },
      },
    );
    expect(uses).toHaveLength(1);
    expect(read).toBe(1);
  });

  it('of the demo workbook assume the same', async () => {
    const formulas = demoWorkbook().sheets.flatMap(({ name, rows = [], cells = {} }) => [
      ...rows.flatMap((row, r) =>
        row.flatMap((cell, c) =>
          typeof cell === 'string' && cell.startsWith('=')
            ? at(name, { [`${String.fromCharCode(65 + c)}${r + 1}`]: cell })
            : [],
        ),
      ),
      ...Object.entries(cells).flatMap(([address, cell]) =>
        typeof cell === 'string' && cell.startsWith('=') ? at(name, { [address]: cell }) : [],
      ),
    ]);
    expect(formulas.length).toBeGreaterThan(100);
    expect(await differingUses(formulas, { read: () => Promise.resolve([]) })).toEqual([]);
  });
});

describe('ranges of assumptions', () => {
  it('are those that formulas have as assume, the most used first', () => {
    expect(
      assumeRanges([
        ...at('Pins', { A1: '=BURN.PIN.RODS(4,10,,,,$H$1:$I$4)', A2: '=BURN.LOG.FIT(A1:F9)' }),
        ...at('Plan', {
          A1: "=BURN.PIN.PLAN(4,10,,,,'My set'!A1:F9)",
          A2: "=BURN.PIN.TIME(4,10,,,,'My set'!$A$1:$F$9)",
          A3: '=BURN.PIN.TIME(4,10,,,,{"burning duty",0.5})',
        }),
      ]),
    ).toEqual([
      { text: "'My set'!A1:F9", formulas: 2 },
      { text: 'Pins!H1:I4', formulas: 1 },
    ]);
  });
});
