import { describe, expect, it } from 'vitest';
import { calculateWorkbook } from '../../src/engine/headless.ts';
import type { Cell } from '../../src/sheet/host-function.ts';

/** A formula in L1 and what the rest of its workbook gives beside it. */
async function beside(formula: string): Promise<readonly [own: Cell, other: Cell]> {
  const workbook = await calculateWorkbook(
    {
      sheets: [
        {
          name: 'Sheet1',
          rows: [
            [4, 12],
            [3.5, 10],
          ],
          cells: { L1: formula, M1: '=SUM(A1:B2)' },
        },
      ],
    },
    [],
  );
  return [workbook.spilled('L1')[0]?.[0] ?? null, workbook.spilled('M1')[0]?.[0] ?? null];
}

describe('a formula that the engine throws at', () => {
  it.each([
    ['=LET(C6:C10,D6:D10,1)', 'cannot be taken apart'],
    ['=LAMBDA(f,f(f))(LAMBDA(f,f(f)))', 'cannot be taken apart'],
    ['=SUM(1,LET(A1:A2,1,A1))', 'cannot be taken apart'],
    [`=${'-'.repeat(8000)}1`, 'cannot be taken apart'],
    [`=1${'+1'.repeat(3500)}`, 'cannot be taken apart'],
    [`=${'SUM('.repeat(2000)}1${')'.repeat(2000)}`, ''],
  ])('%.40s fails alone, with a reason', async (formula, reason) => {
    expect(await beside(formula)).toEqual([
      { error: expect.stringMatching(/^#/) as string, message: expect.stringContaining(reason) as string },
      29.5,
    ]);
  });
});

describe('a result', () => {
  it.each([
    '=EDATE(1,1E9)',
    '=EDATE({1;2},1E9)',
    '=IF(EDATE(1,1E9)>5,1,2)',
    '=10^308*10',
    '=(10^308*10)>5',
    '=-10^308*10',
    '=SUM(10^308,10^308)',
    '=PRODUCT(10^308,A1)',
    '=1/(10^308*10)',
  ])('%s is never a NaN or endless, but says that it is no number', async (formula) => {
    expect(await beside(formula)).toEqual([
      { error: '#NUM!', message: 'the result is no number, or too large a one' },
      29.5,
    ]);
  });
});
