import { describe, expect, it } from 'vitest';
import type { Cell } from '../../src/catalogue/cell.ts';
import { findIn } from '../../src/check/check.ts';
import { assumeRanges } from '../../src/check/differing-assumptions.ts';
import { differingInSheets } from '../../src/pane/differing-assumptions.ts';
import type { CheckedCell, CheckedWorkbook } from '../../src/check/workbook.ts';
import { addressOf } from '../../src/files/xlsx/address.ts';
import { areaOf } from '../../src/formula/reference-area.ts';
import type { SheetPort } from '../../src/pane/port.ts';
import { readForCheck } from '../../src/pane/workbook/read-workbook.ts';
import type { FormulaCell } from '../../src/pane/unknown-name.ts';
import { demoWorkbook } from '../../src/trial/demo/demo-workbook.ts';
import { reader, type Cells } from '../pane/memory-sheet.ts';

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
): ReturnType<typeof differingInSheets> => differingInSheets(formulas.flat(), { read: reader(SHEETS) });

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
    const uses = await differingInSheets(
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
    expect(await differingInSheets(formulas, { read: () => Promise.resolve([]) })).toEqual([]);
  });
});

describe('the check of a workbook and the note of the pane', () => {
  const LIST: readonly (readonly (Cell | undefined)[])[] = [
    ['Mark', 'Diameter', 'Length'],
    ['A', 4, 12],
    ['B', 3, 10],
    ['C', 5, 14],
  ];
  const NAMED = { JobAssume: DUTY };
  const own = [DUTY, [['burning duty', 0.6]]] as const;
  const row = (r: number, ...more: readonly string[]): readonly (Cell | undefined)[] => [...LIST[r]!, ...more];
  const pins = (...of: readonly ((r: number) => string)[]): readonly (readonly (Cell | undefined)[])[] => [
    LIST[0]!,
    ...[1, 2, 3].map((r) => row(r, ...of.map((f) => f(r + 1)))),
  ];
  const call =
    (name: string, assume = '') =>
    (r: number): string =>
      `=BURN.PIN.${name}(B${r},C${r}${assume === '' ? '' : `,,,,${assume}`})`;
  const cases: readonly (readonly [
    string,
    Readonly<Record<string, readonly (readonly (Cell | undefined)[])[]>>,
    readonly string[],
  ])[] = [
    ['one range', { Pins: pins(call('RODS', 'Set!$A$1:$D$2'), call('TIME', 'Set!$A$1:$D$2')) }, []],
    [
      'a column without assumptions',
      { Pins: pins(call('RODS', 'Set!$A$1:$D$2'), call('TIME'), call('BURN', 'Set!A$1:D$2')) },
      ['Pins E2', 'Pins E3', 'Pins E4'],
    ],
    ['ranges with the same in them', { Pins: pins(call('RODS', 'Set!$A$1:$D$2'), call('TIME', 'Copy!$A$1:$D$2')) }, []],
    ['an empty range and none', { Pins: pins(call('RODS', 'Set!$H$1:$K$2'), call('TIME')) }, []],
    [
      'whole columns of assumptions and of a list',
      { Pins: pins(call('RODS', 'Set!$A:$D')), Plan: [['=BURN.JOB.PLAN(Pins!A:C,Set!$A$1:$D$2)']] },
      [],
    ],
    [
      'a plan that goes by another range',
      {
        Pins: pins(call('RODS', 'Set!$A$1:$D$2'), call('TIME', 'Set!$A$1:$D$2')),
        Plan: [['=BURN.JOB.PLAN(Pins!A1:C4,Other!A1:B1)']],
      },
      ['Plan A1'],
    ],
    [
      'two lists in the same rows of one sheet',
      {
        Pins: LIST.map((cells, r) => [
          ...cells,
          r === 0 ? 'Rods' : call('RODS', 'Set!$A$1:$D$2')(r + 1),
          r === 0 ? 'Dia' : 2,
          r === 0 ? 'Len' : 9,
          r === 0 ? 'Rods' : `=BURN.PIN.RODS(E${r + 1},F${r + 1},,,,Other!$A$1:$B$1)`,
        ]),
      },
      [],
    ],
    [
      'a formula that chooses its assumptions',
      { Pins: pins(call('RODS', 'Set!$A$1:$D$2'), call('TIME', 'IF($Z$1="",Set!$A$1:$D$2,Other!$A$1:$B$1)')) },
      [],
    ],
    ['a name and its cells', { Pins: pins(call('RODS', 'JobAssume'), call('TIME', 'Set!$A$1:$D$2')) }, []],
    [
      'a name and another range',
      { Pins: pins(call('RODS', 'JobAssume'), call('TIME', 'JobAssume'), call('BURN', 'Other!$A$1:$B$1')) },
      ['Pins F2', 'Pins F3', 'Pins F4'],
    ],
    [
      'assumptions that cannot be read',
      { Pins: pins(call('RODS', 'Set!$A$1:$D$2'), call('TIME', 'Set!$A$1:$D$2'), call('BURN', 'Bad!$A$1:$B$1')) },
      ['Pins F2', 'Pins F3', 'Pins F4'],
    ],
  ];

  it.each(cases)('find the same in a workbook with %s', async (_, sheets, expected) => {
    const workbook: CheckedWorkbook = {
      sheets: Object.entries({ ...sheets, Set: own[0], Copy: own[0], Other: own[1], Bad: [['no such thing', 1]] }).map(
        ([name, rows]) => ({
          name,
          cells: (rows as readonly (readonly (Cell | undefined)[])[]).flatMap((cells, r) =>
            cells.flatMap((value, column): readonly CheckedCell[] =>
              value === undefined || value === null
                ? []
                : typeof value === 'string' && value.startsWith('=')
                  ? [{ row: r, column, value: 1, formula: value }]
                  : [{ row: r, column, value }],
            ),
          ),
        }),
      ),
    };
    const formulas = workbook.sheets.flatMap(({ name, cells }) =>
      cells.flatMap(({ row: r, column, formula }) =>
        formula === undefined ? [] : [{ sheet: name, address: addressOf(r, column), formula, value: 1 }],
      ),
    );
    const port = { read: readerOf(workbook, NAMED), formulas: { all: () => Promise.resolve(formulas) } };
    const differing = await differingInSheets(formulas, port);
    const noted = differing.map(({ uses }) => uses.map(({ cells }) => cells.map((c) => `${c.sheet} ${c.address}`)));
    // All of them but those that go by what is usual.
    const told = noted.flatMap((uses) => uses.filter((cells) => cells.some((cell) => expected.includes(cell))).flat());
    expect(told.sort()).toEqual([...expected].sort());
    expect(noted).toHaveLength(expected.length === 0 ? 0 : 1);
    for (const checked of [
      { ...workbook, named: new Map(Object.entries(NAMED)) },
      await readForCheck(formulas, port),
    ]) {
      const cells = findIn(checked)
        .filter((f) => f.kind === 'mixed assumptions')
        .flatMap((f) => f.cells.map((c) => `${checked.sheets[c.sheet]?.name ?? ''} ${addressOf(c.row, c.column)}`));
      expect(cells.sort()).toEqual([...expected].sort());
    }
  });
});

/** Reads a workbook as a host does: cells, whole columns and names. */
function readerOf(
  { sheets }: CheckedWorkbook,
  named: Readonly<Record<string, readonly (readonly Cell[])[]>>,
): SheetPort['read'] {
  return (reference, of) => {
    const area = areaOf(reference, of);
    const found = area && sheets.find((s) => s.name === area.sheet);
    if (!area || !found) {
      const rows = named[reference];
      return rows ? Promise.resolve(rows) : Promise.reject(new Error('there is no such range'));
    }
    const [bottom, right] = [Math.min(area.bottom, 40), Math.min(area.right, 40)];
    return Promise.resolve(
      Array.from({ length: bottom - area.top + 1 }, (_, r) =>
        Array.from(
          { length: right - area.left + 1 },
          (__, c) => found.cells.find((x) => x.row === area.top + r && x.column === area.left + c)?.value ?? null,
        ),
      ),
    );
  };
}

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
