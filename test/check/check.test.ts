import { describe, expect, it } from 'vitest';
import { checkWorkbook, findIn } from '../../src/check/check.ts';
import { placesOf } from '../../src/check/places.ts';
import { readFormula } from '../../src/formula/read-formula.ts';
import type { CheckedCell, CheckedWorkbook } from '../../src/check/workbook.ts';
import { CALCULATION_VERSION } from '../../src/core/version.ts';
import type { Cell } from '../../src/sheet/host-function.ts';

/** Cells from A1 on; a text that begins with `=` is a formula, which shows 1. */
function sheet(name: string, rows: readonly (readonly (Cell | undefined)[])[]): CheckedWorkbook['sheets'][number] {
  return {
    name,
    cells: rows.flatMap((cells, row) =>
      cells.flatMap((value, column): readonly CheckedCell[] => {
        if (value === undefined || value === null) return [];
        const isFormula = typeof value === 'string' && value.startsWith('=');
        return [isFormula ? { row, column, value: 1, formula: value } : { row, column, value }];
      }),
    ),
  };
}
const book = (...sheets: readonly CheckedWorkbook['sheets'][number][]): CheckedWorkbook => ({ sheets });
const found = (workbook: CheckedWorkbook): readonly string[] =>
  findIn(workbook).map((f) => `${placesOf(workbook, f.cells)} ${f.kind}`);
const pin = (row: number, assume = ''): string => `=BURN.PIN.RODS(A${row},B${row}${assume})`;

const LIST: readonly (readonly (Cell | undefined)[])[] = [
  ['Diameter', 'Length', 'Rods'],
  [3, 10, pin(2)],
  [4, 12, pin(3)],
  [5, 14, pin(4)],
  [6, 16, pin(5)],
];
const withRow = (row: number, ...cells: readonly (Cell | undefined)[]) =>
  book(sheet('Pins', [...LIST.slice(0, row - 1), cells, ...LIST.slice(row)]));

describe('a formula taken apart', () => {
  it('has its references and constants as slots, and the calls of our functions with their arguments', () => {
    const { shape, slots, calls } = readFormula('=IF(A2="","",_xldudf_BURN_PIN_RODS(A2,Sizes!$B$2:$B$9,,"x",-2))');
    expect(shape).toBe('IF(·=·,·,BURN.PIN.RODS(·,·,,·,-·))');
    expect(slots.map((s) => s.text)).toEqual(['A2', '""', '""', 'A2', 'Sizes!$B$2:$B$9', '"x"', '2']);
    expect(calls).toEqual([
      {
        name: 'BURN.PIN.RODS',
        arguments: [
          { kind: 'slot', slot: 3 },
          { kind: 'slot', slot: 4 },
          { kind: 'blank' },
          { kind: 'slot', slot: 5 },
          { kind: 'formula' },
        ],
      },
    ]);
  });

  it('may be anything', () => {
    for (const text of ['=', '=((', '=)))', '=BURN.PIN.RODS(', '={1,2', "='a'!", '="', '=BURN.PIN.RODS(,,,)'])
      expect(readFormula(text).slots.length).toBeLessThan(3);
  });
});

describe('formulas of ours', () => {
  it('are one where they were filled down or across, whatever stands under a $', () => {
    const workbook = book(
      sheet('Pins', [
        ['Diameter', 'Length', 'Rods'],
        ...[2, 3, 4].map((r) => [r, 9, `=BURN.PIN.RODS(A${r},B${r},,,,$F$1:$G$4)`]),
        [null, null, '=SUM(C2:C4)'],
      ]),
    );
    const { formulas } = checkWorkbook(workbook);
    expect(formulas.map((f) => [placesOf(workbook, f.cells), f.functions])).toEqual([
      ['Pins!C2:C4', ['BURN.PIN.RODS']],
    ]);
  });

  it('bring up the cautions of all their work, each once with its cells', () => {
    const { cautions } = checkWorkbook(book(sheet('Pins', LIST)));
    expect(cautions.length).toBeGreaterThan(5);
    expect(new Set(cautions.map((c) => c.caution.key)).size).toBe(cautions.length);
    expect(cautions[0]?.cells).toHaveLength(4);
  });
});

describe('what breaks a filled column', () => {
  it('is nothing where it is whole', () => expect(found(book(sheet('Pins', LIST)))).toEqual([]));

  it('is a number typed over a formula, in the middle and at the end', () => {
    expect(found(withRow(3, 4, 12, 9))).toEqual(['Pins!C3 typed over']);
    expect(found(withRow(5, 6, 16, 9))).toEqual(['Pins!C5 typed over']);
  });

  it('is a formula that is missing, or reads another row or a constant', () => {
    expect(found(withRow(3, 4, 12))).toEqual(['Pins!C3 formula missing']);
    expect(found(withRow(4, 5, 14, '=BURN.PIN.RODS(A4,B5)'))).toEqual(['Pins!C4 differs from its neighbours']);
    expect(found(withRow(4, 5, 14, '=BURN.PIN.RODS(A4,14)'))).toEqual(['Pins!C4 differs from its neighbours']);
    expect(found(withRow(4, 5, 14, '=BURN.PIN.TIME(A4,B4)'))).toEqual(['Pins!C4 differs from its neighbours']);
  });

  it('is no heading, no blank row, no subtotal and no other work', () => {
    const rows: (Cell | undefined)[][] = [
      ...LIST.map((r) => [...r]),
      [],
      ['Diameter', 'Length', 'Rods'],
      ...[8, 9, 10].map((r) => [3, 10, pin(r)]),
      [undefined, undefined, '=SUM(C2:C5)'],
      ['Hole', 'Depth'],
      [1.5, 3, '=BURN.HOLE.RODS(A13,B13)'],
    ];
    expect(found(book(sheet('Pins', rows)))).toEqual([]);
  });

  it('is found across a row as well', () => {
    const across = [
      ['Diameter', 3, 4, 5, 6],
      ['Length', 10, 12, 14, 16],
      ['Rods', '=BURN.PIN.RODS(B1,B2)', '=BURN.PIN.RODS(C1,C2)', 11, '=BURN.PIN.RODS(E1,E2)'],
    ];
    expect(found(book(sheet('Pins', across)))).toEqual(['Pins!D3 typed over']);
  });
});

describe('ranges', () => {
  const total = (formula: string) => book(sheet('Pins', [...LIST, [undefined, undefined, formula]]));

  it('of a sum that misses a row at either end are found, others not', () => {
    expect(found(total('=SUM(C2:C5)'))).toEqual([]);
    expect(found(total('=SUM(C2:C4)'))).toEqual(['Pins!C6 range stops short']);
    expect(found(total('=SUM(C3:C5)'))).toEqual(['Pins!C6 range starts late']);
    // Sums of parts that meet leave nothing out.
    expect(found(book(sheet('Pins', [...LIST, [undefined, undefined, '=SUM(C2:C3)+SUM(C4:C5)']])))).toEqual([]);
  });

  it('of a plan or a list are found, free rows below a list are none of it', () => {
    const plan = (formula: string) => book(sheet('Pins', LIST), sheet('Plan', [[formula]]));
    expect(found(plan('=BURN.PIN.PLAN(Pins!A2:A5,Pins!B2:B5)'))).toEqual([]);
    expect(found(plan('=BURN.PIN.PLAN(Pins!A2:A30,Pins!B2:B30)'))).toEqual([]);
    expect(found(plan('=BURN.PIN.PLAN(Pins!A2:A4,Pins!B2:B4)'))).toEqual(['Plan!A1 range stops short']);
    expect(found(plan('=BURN.PIN.PLAN(Pins!A3:A5,Pins!B3:B5)'))).toEqual(['Plan!A1 range starts late']);
    expect(found(plan('=BURN.PIN.PLAN(Pins!A2:A5,Pins!B3:B6)'))).toEqual(['Plan!A1 rows do not match']);
    expect(found(plan('=BURN.JOB.PLAN(Pins!A1:B5)'))).toEqual([]);
    expect(found(plan('=BURN.JOB.PLAN(Pins!A2:B5)'))).toEqual(['Plan!A1 range starts late']);
    expect(found(plan('=BURN.JOB.PLAN(Pins!A1:B4)'))).toEqual(['Plan!A1 range stops short']);
  });
});

describe('a range of assumptions', () => {
  it('that leaves out rows of how they go along with each other is found', () => {
    const assumed = (last: number) =>
      book(
        sheet('Plan', [[`=BURN.PIN.PLAN(4,10,,,,Set!A1:B${last})`]]),
        sheet('Set', [
          ['name', 'value'],
          ['flow factor', 1.1],
          ['rod feed ratio', 0.5],
          ['correlation of flow factor with rod feed ratio', -0.4],
          ['correlation of flow factor with slag temperature', 0.2],
        ]),
      );
    expect(found(assumed(5))).toEqual([]);
    for (const last of [3, 4]) expect(found(assumed(last)), `to row ${last}`).toEqual(['Plan!A1 range stops short']);
  });
});

describe('sizes and assumptions', () => {
  it('read from under another heading are found; a word that fits is not', () => {
    const swapped = book(sheet('Pins', [LIST[0]!, ...[2, 3, 4].map((r) => [3, 10, `=BURN.PIN.RODS(B${r},A${r})`])]));
    expect(found(swapped)).toEqual(['Pins!C2:C4 wrong column']);
    const bored = book(
      sheet('Holes', [
        ['Dia', 'Thickness'],
        [1.5, 3, '=BURN.HOLE.RODS(A2,B2)'],
      ]),
    );
    expect(found(bored)).toEqual([]);
    const upright = book(
      sheet('One', [
        ['Diameter', 3],
        ['Length', 10],
        ['Rods', '=BURN.PIN.RODS(B2,B1)'],
      ]),
    );
    expect(found(upright)).toEqual(['One!B3 wrong column']);
  });

  it('that differ within one list are found, and ranges that slide', () => {
    const assumed = [
      ['stub', 3],
      ['joint loss', 1],
    ];
    const rows = (one: (r: number) => string, other: (r: number) => string) =>
      book(
        sheet('Pins', [
          ['Diameter', 'Length', , , , , , ...assumed[0]!],
          ...[2, 3, 4].map((r) => [3, 10, one(r), other(r), , , , ...(assumed[r - 1] ?? [])]),
        ]),
      );
    const fixed = (name: string) => (r: number) => `=BURN.PIN.${name}(A${r},B${r},,,,$H$1:$I$4)`;
    expect(found(rows(fixed('RODS'), fixed('TIME')))).toEqual([]);
    expect(found(rows(fixed('RODS'), (r) => `=BURN.PIN.TIME(A${r},B${r})`))).toEqual(['Pins!D2:D4 mixed assumptions']);
    expect(
      found(
        rows(
          (r) => `=BURN.PIN.RODS(A${r},B${r},,,,H${r}:I${r + 3})`,
          (r) => `=A${r}`,
        ),
      ),
    ).toEqual(['Pins!C2:C4 range slides']);
  });
});

describe('a cell of a sheet', () => {
  it('is the same with and without the name of its own sheet', () => {
    const rows = (third: string) =>
      book(
        sheet('Pins', [
          ['Diameter', 'Length', 'Rods'],
          [3, 10, pin(2)],
          [4, 12, pin(3)],
          [5, 14, third],
          [6, 16, pin(5)],
        ]),
      );
    expect(found(rows('=BURN.PIN.RODS(Pins!$A$4,pins!B4)'))).toEqual([]);
    expect(found(rows('=BURN.PIN.RODS(Pins!$A$3,Pins!B4)'))).toEqual(['Pins!C4 differs from its neighbours']);
  });
});

describe('single cells', () => {
  it('with an error, a formula as a text or an older version are found', () => {
    const error: Cell = { error: '#VALUE!', message: 'length is blank' };
    const cell = (value: Cell, formula: string): CheckedWorkbook =>
      book({ name: 'One', cells: [{ row: 0, column: 0, value, formula }] });
    expect(findIn(cell(error, '=BURN.PIN.RODS(B1,C1)'))).toMatchObject([{ kind: 'error', text: 'length is blank' }]);
    expect(found(cell('2026.01.01', '=BURN.VERSION()'))).toEqual(['One!A1 older version']);
    expect(found(cell(CALCULATION_VERSION, '=BURN.VERSION()'))).toEqual([]);
    expect(
      found(
        book(sheet('One', [['=BURN.VERSION()']]), {
          name: 'Two',
          cells: [{ row: 2, column: 1, value: '=BURN.PIN.RODS(3,9)' }],
        }),
      ),
    ).toEqual(['Two!B3 formula as text']);
  });

  it('are left alone where nothing of ours is', () => {
    const rows = [
      [1, '=A1*2'],
      [2, '=A2*2'],
      [3, 7],
      [4, '=A4*2'],
      [null, '=SUM(B1:B2)'],
    ];
    expect(checkWorkbook(book(sheet('Wages', rows)))).toEqual({ formulas: [], findings: [], cautions: [] });
  });
});
