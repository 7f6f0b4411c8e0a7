import { describe, expect, it } from 'vitest';
import { isCellError } from '../../../src/catalogue/cell.ts';
import { hostFunctions } from '../../../src/sheet/host-functions.ts';
import { lockGateSheet } from '../../../src/trial/demo/lock-gate.ts';
import { rescueBreachSheet } from '../../../src/trial/demo/rescue-breach.ts';
import { starterHolesSheet } from '../../../src/trial/demo/starter-holes.ts';
import { calculateWorkbook } from '../../../src/engine/headless.ts';

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

describe('the demo sheets', () => {
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
