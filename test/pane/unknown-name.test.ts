import { describe, expect, it } from 'vitest';
import { asTyped, findCalls } from '../../src/formula/formula-calls.ts';
import { isUnknownToHost } from '../../src/pane/unknown-name.ts';
import type { Cell } from '../../src/catalogue/cell.ts';

const NAME: Cell = { error: '#NAME?', message: '' };

describe('a function of ours that the host does not know', () => {
  // The forms are those that threads 4487, 6294, 6395 and 6611 of the vendor's public tracker show, and those of saved workbooks.
  it.each([
    ['=_xldudf_BURN_PIN_OXYGEN(A5,B5)', '=BURN.PIN.OXYGEN(A5,B5)'],
    ['=@_xldudf_BURN_PIN_OXYGEN(A5,B5)+1', '=@BURN.PIN.OXYGEN(A5,B5)+1'],
    ['=[2]!_xldudf_BURN_PIN_OXYGEN(A5,B5)', '=BURN.PIN.OXYGEN(A5,B5)'],
    ["='C:\\jobs\\pins.xlsx'!_xldudf_BURN_PIN_RODS(A5,B5)", '=BURN.PIN.RODS(A5,B5)'],
    ["='[Book 2.xlsx]'!BURN.PIN.RODS(A5,B5)", '=BURN.PIN.RODS(A5,B5)'],
    ['=_xll.BURN.PIN.RODS(A5,B5)', '=BURN.PIN.RODS(A5,B5)'],
    ['=_xludf.BURN.PIN.RODS(A5,B5)', '=BURN.PIN.RODS(A5,B5)'],
    ['=_xldudf_burn_pin.rods(A5,B5)', '=BURN.PIN.RODS(A5,B5)'],
    ['=SUM(_xldudf_BURN_PIN_RODS(A5:A7;B5:B7))', '=SUM(BURN.PIN.RODS(A5:A7;B5:B7))'],
    ['=BURN.PIN.RODS(A5,B5)', '=BURN.PIN.RODS(A5,B5)'],
  ])('is told in %s and entered as %s', (formula, typed) => {
    expect(isUnknownToHost({ formula, value: NAME })).toBe(true);
    expect(asTyped(formula)).toBe(typed);
    expect(findCalls(formula)).toHaveLength(1);
  });

  it('is told by its name where an old value stands in the cell still', () => {
    expect(isUnknownToHost({ formula: '=_xldudf_BURN_PIN_OXYGEN(A5,B5)', value: 93.8 })).toBe(true);
  });

  it.each<[string, Cell]>([
    ['=BURN.PIN.RODS(A5,B5)', 6],
    ['=BURN.PIN.RODS(A5,B5)', { error: '#VALUE!', message: '' }],
    ['=BURN.PIN.RADS(A5,B5)', NAME],
    ['=_xldudf_OTHER_RODS(A5)', NAME],
    ['="[2]!_xldudf_BURN_PIN_RODS(A5)"', NAME],
    ['=NOSUCH(A5)', NAME],
    ['', NAME],
  ])('is not seen in %s that shows %j: there is nothing to enter again', (formula, value) => {
    expect(isUnknownToHost({ formula, value })).toBe(false);
  });
});
