import { describe, expect, it } from 'vitest';
import { isCellError } from '../../../src/catalogue/cell.ts';
import { hostFunctions } from '../../../src/sheet/host-functions.ts';
import { finishedJobsSheet } from '../../../src/trial/demo/finished-jobs.ts';
import { lockGateSheet } from '../../../src/trial/demo/lock-gate.ts';
import { rescueBreachSheet } from '../../../src/trial/demo/rescue-breach.ts';
import { starterHolesSheet } from '../../../src/trial/demo/starter-holes.ts';
import { calculateWorkbook } from '../../../src/engine/headless.ts';
import type { SheetDescription } from '../../../src/sheet/described-workbook.ts';

describe.each([lockGateSheet, rescueBreachSheet, starterHolesSheet].map((make) => [make().name, make] as const))(
  'the demo sheet %s',
  (name, make) => {
    it('calculates every formula, without an error in any cell', async () => {
      const sheet = make();
      const book = await calculateWorkbook({ sheets: [sheet] }, hostFunctions);
      const formulas = (sheet.rows ?? []).flatMap((row, r) =>
        row.flatMap((cell, c) => (typeof cell === 'string' && cell.startsWith('=') ? [[r, c, cell] as const] : [])),
      );
      expect(formulas.length).toBeGreaterThan(15);
      for (const [r, c, formula] of formulas) {
        const spilled = book.spilledAt(0, r, c).flat();
        expect(spilled.filter(isCellError), `${name}: ${formula}`).toEqual([]);
        expect(spilled[0]).not.toBeNull();
      }
    });
  },
);

/** Pixels that a letter of the sheets' script takes on the average; `3/8 x 36 coupled` takes 107. */
const LETTER = 7;

/** Width of a column; widths go by a letter or from one to another. */
function widthOf(sheet: SheetDescription, column: string): number {
  const found = Object.entries(sheet.widths ?? {}).find(([range]) => {
    const [from = '', to = from] = range.split(':');
    return column >= from && column <= to;
  });
  return found?.[1] ?? 88;
}

describe('the demo sheets', () => {
  it('have room for the rods that they name', async () => {
    const finished = finishedJobsSheet();
    const named = (finished.rows ?? []).map((row) => row[4]).filter((c) => typeof c === 'object' && c && 'text' in c);
    expect(named.length).toBeGreaterThan(20);
    for (const cell of named)
      expect(LETTER * (cell as { text: string }).text.length).toBeLessThan(widthOf(finished, 'E'));
    const breach = rescueBreachSheet();
    const book = await calculateWorkbook({ sheets: [breach] }, hostFunctions);
    for (const [, rod] of book.spilled("'Rescue breach'!A14"))
      expect(LETTER * String(rod).length).toBeLessThan(widthOf(breach, 'B'));
  });

  it('show what they are for', async () => {
    const book = await calculateWorkbook(
      { sheets: [lockGateSheet(), rescueBreachSheet(), starterHolesSheet()] },
      hostFunctions,
    );
    // Under water: 90 psi over the bottom's pressure for thin metal (US Navy S0300-BB-MAN-010).
    expect(book.values("'Lock gate'!F12")[0]?.[0]).toBeCloseTo(90, 9);
    // Sharing rods takes no more of them than starting each hole with a fresh one.
    const list = book.spilled("'Starter holes'!A17");
    const shared = list.at(-1)?.[1] as number;
    expect(shared).toBeLessThanOrEqual(book.values("'Starter holes'!D14")[0]?.[0] as number);
    expect(book.spilled("'Rescue breach'!A14").map((r) => r[0])).toEqual(['choice', 'pick', 'runner-up']);
  });
});
