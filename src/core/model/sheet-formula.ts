import { parseFormula, type Formula } from './grammar.ts';

/** How tightly the sheet's operators bind; a sign binds more than a power there, so -a^2 would be (-a)^2. */
const STRENGTH: Readonly<Record<string, number>> = { '+': 1, '-': 1, '*': 2, '/': 2, '^': 3 };
const ATOM = 9;
const FUNCTIONS: Readonly<Record<string, string>> = {
  min: 'MIN',
  max: 'MAX',
  sqrt: 'SQRT',
  ln: 'LN',
  exp: 'EXP',
  abs: 'ABS',
  floor: 'INT',
};

interface Written {
  readonly text: string;
  readonly strength: number;
}

/** A number as a spreadsheet reads it, with all its digits. */
export const sheetNumber = (value: number): string => String(value).toUpperCase();

/**
 * A step's formula as an ordinary spreadsheet formula, without `=`. `cellOf` gives what stands for a symbol: an address.
 * With m in A1, t in A2 and s in A3, `m * t / (1 - s)` is `A1*A2/(1-A3)`.
 */
export function sheetFormula(expression: string, cellOf: (symbol: string) => string): string {
  return write(parseFormula(expression), cellOf).text;
}

function write(formula: Formula, cellOf: (symbol: string) => string): Written {
  const inside = (f: Formula): string => write(f, cellOf).text;
  const within = (f: Formula, least: number): string => {
    const { text, strength } = write(f, cellOf);
    return strength < least ? `(${text})` : text;
  };
  const atom = (text: string): Written => ({ text, strength: ATOM });
  switch (formula.kind) {
    case 'number':
      return atom(sheetNumber(formula.value));
    case 'pi':
      return atom('PI()');
    case 'symbol':
      return atom(cellOf(formula.symbol));
    case 'negative':
      return { text: `-${within(formula.of, ATOM)}`, strength: 0 };
    case 'binary': {
      const { operator, left, right } = formula;
      const strength = STRENGTH[operator] as number;
      // All of the sheet's operators read from left to right, powers too.
      return { text: `${within(left, strength)}${operator}${within(right, strength + 1)}`, strength };
    }
    case 'call': {
      const parts = formula.of.map(inside);
      if (formula.name === 'ceil') return { text: `-INT(-(${parts[0] as string}))`, strength: 0 };
      return atom(`${FUNCTIONS[formula.name] as string}(${parts.join(',')})`);
    }
    case 'if': {
      const { left, comparison, right, then, otherwise } = formula;
      return atom(`IF(${inside(left)}${comparison}${inside(right)},${inside(then)},${inside(otherwise)})`);
    }
  }
}
