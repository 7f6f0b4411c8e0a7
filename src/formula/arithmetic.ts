import { isOperator, TYPES, type FormulaToken } from './formula-tokens.ts';

/** Plain arithmetic of numbers and single cells, such as `3+1/2` or `A5/25.4`. */
export type Arithmetic =
  | { readonly number: number }
  | { readonly reference: string }
  | { readonly operator: string; readonly operands: readonly Arithmetic[] };

/** Binding strength of the sheet's operators; a sign binds more than a power there: -2^2 is 4. */
const STRENGTH: Readonly<Record<string, number>> = { '+': 1, '-': 1, '*': 2, '/': 2, '^': 3 };

/** Reads tokens without blanks; undefined where they are anything but such arithmetic. */
export function parseArithmetic(tokens: readonly FormulaToken[]): Arithmetic | undefined {
  let at = 0;

  function binary(least: number): Arithmetic | undefined {
    let left = postfix();
    while (left) {
      const sign = tokens[at];
      const strength = sign && isOperator(sign, '+', '-', '*', '/', '^') ? STRENGTH[sign.value] : undefined;
      if (!sign || strength === undefined || strength < least) return left;
      at++;
      const right = binary(strength + 1);
      left = right && { operator: sign.value, operands: [left, right] };
    }
    return undefined;
  }

  function postfix(): Arithmetic | undefined {
    let of = prefix();
    while (of && isOperator(tokens[at], '%')) {
      at++;
      of = { operator: '/', operands: [of, { number: 100 }] };
    }
    return of;
  }

  function prefix(): Arithmetic | undefined {
    const token = tokens[at++];
    if (!token) return undefined;
    if (token.type === TYPES.NUMBER) return { number: Number(token.value) };
    if (token.type === TYPES.REF_RANGE || token.type === TYPES.REF_NAMED || token.type === TYPES.REF_STRUCT)
      return { reference: token.text };
    if (isOperator(token, '(')) {
      const of = binary(0);
      return isOperator(tokens[at++], ')') ? of : undefined;
    }
    if (!isOperator(token, '-', '+')) return undefined;
    const of = prefix();
    return of && (token.value === '+' ? of : { operator: '-', operands: [{ number: 0 }, of] });
  }

  const all = binary(0);
  return at === tokens.length ? all : undefined;
}

/** The value, with `cell` giving the number of a single cell; as in the sheet, undefined where it divides by zero or leaves the numbers. */
export async function evaluateArithmetic(
  of: Arithmetic,
  cell: (reference: string) => Promise<number>,
): Promise<number | undefined> {
  if ('number' in of) return of.number;
  if ('reference' in of) return cell(of.reference);
  const [a, b] = [await evaluateArithmetic(of.operands[0]!, cell), await evaluateArithmetic(of.operands[1]!, cell)];
  if (a === undefined || b === undefined) return undefined;
  const value = apply(of.operator, a, b);
  return Number.isFinite(value) ? value : undefined;
}

function apply(operator: string, a: number, b: number): number {
  switch (operator) {
    case '+':
      return a + b;
    case '-':
      return a - b;
    case '*':
      return a * b;
    case '/':
      return a / b;
    default:
      return a ** b;
  }
}
