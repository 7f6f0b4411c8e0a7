import { describe, expect, it } from 'vitest';
import { CATALOGUE, findFunction } from '../../src/catalogue/catalogue.ts';
import { findCalls } from '../../src/formula/formula-calls.ts';
import { formulaWithAssume, listingRegion, sheetInFormula } from '../../src/pane/assume-formula.ts';

describe('a formula that follows a sheet of assumptions', () => {
  it('points to the whole listing with its heading', () => {
    expect(listingRegion('Assumptions', 46, 8)).toBe('Assumptions!$A$1:$H$46');
    expect(listingRegion('Assumptions 2', 46, 8)).toBe("'Assumptions 2'!$A$1:$H$46");
  });

  it("quotes a sheet's name where the sheet would", () => {
    expect(['Plain', 'A1', 'with space', "Foreman's", 'R1C1', '2026'].map(sheetInFormula)).toEqual([
      'Plain',
      "'A1'",
      "'with space'",
      "'Foreman''s'",
      "'R1C1'",
      "'2026'",
    ]);
  });

  it('has it as the last argument, after all others', () => {
    expect(formulaWithAssume(findFunction('BURN.PIN.OXYGEN')!, 'X!$A$1:$H$9')).toBe(
      '=BURN.PIN.OXYGEN(4,10,,,,X!$A$1:$H$9)',
    );
    for (const d of CATALOGUE.filter((each) => each.assume)) {
      const [call] = findCalls(formulaWithAssume(d, 'X!$A$1:$H$9'));
      expect(call?.operands.length, d.name).toBe(Object.keys(d.parameters).length + 1);
      expect(call?.operands.at(-1)).toEqual({ kind: 'reference', text: 'X!$A$1:$H$9' });
    }
  });
});
