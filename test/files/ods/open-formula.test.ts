import { describe, expect, it } from 'vitest';
import { fromOpenExpression, fromOpenFormula } from '../../../src/files/ods/open-formula.ts';

describe('a formula of an OpenDocument file', () => {
  // Left as LibreOffice 7.4 stored it, right as the other format has it. Syntax: OpenDocument 1.3, part 4, 5.
  it.each([
    ['of:=BURN.PIN.RODS(3.5;12)', 'BURN.PIN.RODS(3.5,12)'],
    ['of:=BURN.PIN.PLAN([.C1:.C4];[.$D$1:.D4])', 'BURN.PIN.PLAN(C1:C4,$D$1:D4)'],
    ["of:=SUM([$Pins.A1:.B2];[$'Pins of Monday'.$A$1])", "SUM(Pins!A1:B2,'Pins of Monday'!$A$1)"],
    ["of:=[$'O''Neil [2].a'.A1]", "'O''Neil [2].a'!A1"],
    ['of:=SUM([.A:.A];[.2:.3])', 'SUM(A:A,2:3)'],
    ['of:=BURN.PIN.RODS({3.5|4};{12;10|1;2})', 'BURN.PIN.RODS({3.5;4},{12,10;1,2})'],
    ['of:="a;b|[.A1] ""x"" "&[.B2]', '"a;b|[.A1] ""x"" "&B2'],
    ['of:=SUM([.A1:.B2]![.B1:.C2])', 'SUM(A1:B2 B1:C2)'],
    ['of:=IF(ISERROR([.A1]);#N/A;COM.MICROSOFT.IFS([.B1]>1;2))', 'IF(ISERROR(A1),#N/A,IFS(B1>1,2))'],
    ['of:=[.#REF!]+1', '#REF!+1'],
    ["of:=['file:///home/a/other.ods'#$Sheet1.A1]", "'[1]another file'!A1"],
    ['of:=SUM([$One.A1:$Three.A1])', "SUM('One:Three'!A1:A1)"],
  ])('%s', (stored, expected) => {
    expect(fromOpenFormula(stored)).toBe(expected);
  });

  it('in another language is told apart', () => {
    expect(fromOpenFormula('oooc:=A1+1')).toBeUndefined();
  });
  it('of a name may come without the name of its language', () => {
    expect(fromOpenExpression('[$Pins.$A$1]*2')).toBe('Pins!$A$1*2');
  });
});
