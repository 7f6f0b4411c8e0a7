import type { Cell } from '../catalogue/cell.ts';
import { parseArithmetic, type Arithmetic } from './arithmetic.ts';
import { isOperator, textOf, TYPES, type FormulaToken } from './formula-tokens.ts';
import { callOf, type FormulaCall } from './formula-calls.ts';

/** What stands in one argument of a call. */
export type Operand =
  | { readonly kind: 'omitted'; readonly text: string }
  | { readonly kind: 'value'; readonly text: string; readonly value: Cell }
  | { readonly kind: 'array'; readonly text: string; readonly rows: readonly (readonly Cell[])[] }
  | { readonly kind: 'reference'; readonly text: string }
  | { readonly kind: 'arithmetic'; readonly text: string; readonly of: Arithmetic }
  | { readonly kind: 'call'; readonly text: string; readonly call: FormulaCall }
  /** A formula that only the sheet can calculate. */
  | { readonly kind: 'formula'; readonly text: string };

const REFERENCES: readonly string[] = [TYPES.REF_RANGE, TYPES.REF_BEAM, TYPES.REF_NAMED, TYPES.REF_STRUCT];
const isReference = (token: FormulaToken): boolean => REFERENCES.includes(token.type);

export function operandOf(tokens: readonly FormulaToken[]): Operand {
  const text = textOf(tokens);
  // A space between two references is the sheet's intersection and fails below, as two operands without an operator.
  const inner = unwrapped(tokens.filter((t) => t.type !== TYPES.WHITESPACE));
  const [first, second] = inner;
  if (!first) return { kind: 'omitted', text };
  if (inner.length === 1) {
    const value = literal(first);
    if (value !== undefined) return { kind: 'value', text, value };
    if (isReference(first)) return { kind: 'reference', text: first.text };
  }
  if (inner.length === 2 && isReference(first) && isOperator(second, '#'))
    return { kind: 'reference', text: `${first.text}#` };
  if (isOperator(first, '{')) {
    const rows = arrayConstant(inner);
    return rows ? { kind: 'array', text, rows } : { kind: 'formula', text };
  }
  const call = callOf(tokens);
  if (call) return { kind: 'call', text, call };
  const value = signedNumber(inner);
  if (value !== undefined) return { kind: 'value', text, value };
  const of = parseArithmetic(inner);
  return of ? { kind: 'arithmetic', text, of } : { kind: 'formula', text };
}

/** Without brackets that enclose all of it and no list. */
function unwrapped(tokens: readonly FormulaToken[]): readonly FormulaToken[] {
  if (!isOperator(tokens[0], '(') || !isOperator(tokens.at(-1), ')')) return tokens;
  let depth = 0;
  for (const [i, t] of tokens.entries()) {
    if (isOperator(t, '(')) depth++;
    if (isOperator(t, ')')) depth--;
    if (depth === 0 && i < tokens.length - 1) return tokens;
    if (depth === 1 && isOperator(t, ',')) return tokens;
  }
  return unwrapped(tokens.slice(1, -1));
}

function literal(token: FormulaToken): Cell | undefined {
  switch (token.type) {
    case TYPES.NUMBER:
      return Number(token.value);
    case TYPES.STRING:
      return token.value.replace(/^"|"$/g, '').replaceAll('""', '"');
    case TYPES.BOOLEAN:
      return token.value.toUpperCase() === 'TRUE';
    case TYPES.ERROR:
      return { error: token.value.toUpperCase(), message: '' };
    default:
      return undefined;
  }
}

/** A number with signs before it and percent signs after it. */
function signedNumber(tokens: readonly FormulaToken[]): number | undefined {
  const [first, ...rest] = tokens;
  if (!first) return undefined;
  if (isOperator(first, '-', '+')) {
    const of = signedNumber(rest);
    return of === undefined || first.value === '+' ? of : -of;
  }
  if (first.type !== TYPES.NUMBER || !rest.every((t) => isOperator(t, '%'))) return undefined;
  return Number(first.value) / 100 ** rest.length;
}

/** `{1,2;3,4}` by rows; undefined where it holds anything but constants or its rows differ. */
function arrayConstant(tokens: readonly FormulaToken[]): readonly (readonly Cell[])[] | undefined {
  if (!isOperator(tokens.at(-1), '}')) return undefined;
  const rows: Cell[][] = [[]];
  let entry: FormulaToken[] = [];
  for (const token of tokens.slice(1)) {
    if (!isOperator(token, ',', ';', '}')) {
      entry.push(token);
      continue;
    }
    const [only] = entry;
    const value = (entry.length === 1 && only ? literal(only) : undefined) ?? signedNumber(entry);
    if (value === undefined) return undefined;
    rows.at(-1)?.push(value);
    entry = [];
    if (isOperator(token, ';')) rows.push([]);
  }
  return rows.every((row) => row.length === rows[0]?.length) ? rows : undefined;
}
