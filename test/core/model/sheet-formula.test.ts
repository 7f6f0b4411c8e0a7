import { expect, test } from 'vitest';
import { sheetFormula } from '../../../src/core/model/sheet-formula.ts';

const written = (expression: string): string => sheetFormula(expression, (symbol) => symbol.toUpperCase());

test.each([
  // A sign binds more than a power in a spreadsheet: =-2^2 is 4 (ISO/IEC 29500-1, 18.17.2.2, order of operators).
  ['-a ^ 2', '-(A^2)'],
  ['(-a) ^ 2', '(-A)^2'],
  // Powers are read from left to right there: =2^3^2 is 64.
  ['a ^ b ^ c', 'A^(B^C)'],
  ['(a ^ b) ^ c', 'A^B^C'],
  ['a - (b - c)', 'A-(B-C)'],
  ['a - b - c', 'A-B-C'],
  ['a / (b * c)', 'A/(B*C)'],
  ['-a * b', '(-A)*B'],
  ['a * -b', 'A*(-B)'],
  ['max(1, ceil(n - 1e-9))', 'MAX(1,-INT(-(N-1E-9)))'],
  ['floor(a) + ln(b) + exp(c) + sqrt(d) + abs(e)', 'INT(A)+LN(B)+EXP(C)+SQRT(D)+ABS(E)'],
  ['if(a <= b, x, y) * PI', 'IF(A<=B,X,Y)*PI()'],
])('%s is written %s', (expression, expected) => {
  expect(written(expression)).toBe(expected);
});
