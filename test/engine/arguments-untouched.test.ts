import { describe, expect, it } from 'vitest';
import { calculateWorkbook, functionNames } from '../../src/engine/headless.ts';

/** Numbers and texts out of order, so that a function that sorts or drops some is seen. */
const ROWS = [
  [4, 12, 'c', 0.5],
  [3.5, 10, 'a', 0.25],
  [6, 24, 'd', 0.75],
  [5, 18, 'b', 0.1],
] as const;
const CELLS = 'A1:D4';

/** Arguments that the functions are called with; most give an error for most functions, which is a result like any other. */
const ARGUMENTS = [
  'A1:A4',
  'A1:D4',
  'A1:A4,B1:B4',
  'A1:A4,-1',
  'A1:D4,2',
  'A1:D4,2,-1',
  'A1:D4,1,1,TRUE',
  'A1:A4,B1:B4,C1:C4',
  'A1:A4,B1:B4,1',
  '5,A1:A4',
  '5,A1:A4,B1:B4',
  '5,A1:A4,1',
  '5,A1:D4,2,FALSE',
  '1,5,A1:A4',
  'A1:D4,LAMBDA(x,x)',
  'C1:C4,"a"',
  '"a",C1:C4',
];

/** The ranges above, where what comes after the calls is shown. The engine keeps what a range holds by its name. */
const RANGES = { F1: 'A1:A4', F6: 'B1:B4', F11: 'C1:C4', F16: CELLS } as const;

/** What the cells are for formulas that are calculated after all calls. */
async function cellsAfter(calls: readonly string[]): Promise<unknown> {
  const cells = Object.fromEntries(calls.map((call, i) => [`${i % 2 === 0 ? 'J' : 'CA'}${1 + 40 * i}`, `=${call}`]));
  const after = Object.fromEntries(
    Object.entries(RANGES).map(([place, range]) => [
      place,
      `=IF(ISERROR(COUNTA(${Object.keys(cells).join(',')})),"","")&${range}`,
    ]),
  );
  const workbook = await calculateWorkbook(
    { sheets: [{ name: 'Sheet1', rows: ROWS, cells: { ...cells, ...after } }] },
    [],
  );
  expect(workbook.values(CELLS)).toEqual(ROWS);
  return Object.keys(RANGES).map((place) => workbook.spilled(place));
}

const TEXTS = ROWS.map((row) => row.map(String));
const AS_TYPED = [TEXTS.map((row) => [row[0]]), TEXTS.map((row) => [row[1]]), TEXTS.map((row) => [row[2]]), TEXTS];

describe('the cells that a function reads', () => {
  it('stay in their order beside SORT, for all that read them too', async () => {
    const workbook = await calculateWorkbook(
      {
        sheets: [
          {
            name: 'Sheet1',
            rows: ROWS,
            cells: { F1: '=SORT(A1:A4)', G1: '=SUMPRODUCT(A1:A4,B1:B4)', H1: '=XLOOKUP(5,A1:A4,B1:B4)' },
          },
        ],
      },
      [],
    );
    expect(workbook.spilled('F1')).toEqual([[3.5], [4], [5], [6]]);
    // 4 x 12 + 3.5 x 10 + 6 x 24 + 5 x 18
    expect(workbook.values('G1:H1')).toEqual([[317, 18]]);
  });
  it.each(functionNames)('are left as they were by %s', async (name) => {
    expect(await cellsAfter(ARGUMENTS.map((args) => `${name}(${args})`))).toEqual(AS_TYPED);
  });
});
