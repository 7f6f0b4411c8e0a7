import { describe, expect, it } from 'vitest';
import { forPane, forProgram } from '../../src/libreoffice/process/formula-text.ts';

describe('a formula between the pane and the program', () => {
  it.each([
    ['=BURN.PIN.RODS(3.5;12)', '=BURN.PIN.RODS(3.5,12)'],
    ['=BURN.PIN.OXYGEN("1; 2|3";;;"x")', '=BURN.PIN.OXYGEN("1; 2|3",,,"x")'],
    ['=BURN.PIN.RODS({3;4|5;6};1)', '=BURN.PIN.RODS({3,4;5,6},1)'],
  ])('has other separators: %s', (program, pane) => {
    expect(forPane(program)).toBe(pane);
    expect(forProgram(pane)).toBe(program);
  });

  it('has other names of sheets', () => {
    expect(forProgram("=BURN.PIN.PLAN('Pin list; a'!$A$2:B9,Pins!A:A)")).toBe(
      "=BURN.PIN.PLAN($'Pin list; a'.$A$2:B9;$Pins.A:A)",
    );
    expect(forPane("=BURN.PIN.PLAN('Pin; list'!A1;Pins!A1)")).toBe("=BURN.PIN.PLAN('Pin; list'!A1,Pins!A1)");
  });
});
