import { ownName } from '../sheet/own-name.ts';
import type { Cell } from '../catalogue/cell.ts';
import { parseArithmetic, type Arithmetic } from './arithmetic.ts';
import { formulaTokens, isOperator, textOf, TYPES, type FormulaToken } from './formula-tokens.ts';

/** One call of a function of ours in a formula. */
export interface FormulaCall {
  /** In capitals: `BURN.PIN.OXYGEN`. */
  readonly name: string;
  /** The call as it stands in the formula. */
  readonly text: string;
  readonly operands: readonly Operand[];
  /** Whether the call is all of the formula, so that its spill is the call's own. */
  readonly whole: boolean;
}

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

/** A call of ours as it stands among the tokens of a formula. */
export interface CallTokens {
  readonly name: string;
  /** From its name to the bracket that closes it. */
  readonly tokens: readonly FormulaToken[];
  /** The tokens of each argument; none where nothing stands in the brackets. */
  readonly parts: readonly (readonly FormulaToken[])[];
  readonly whole: boolean;
}

/** The tokens of a formula without its `=`, and without a workbook before a function of ours. */
export const tokensOf = (formula: string): readonly FormulaToken[] =>
  formulaTokens(withoutWorkbooks(formula)).filter((t) => t.type !== TYPES.FX_PREFIX);

/** The calls of our functions among the tokens of a formula, in the order they begin: an outer call before those inside it. */
export function callsIn(tokens: readonly FormulaToken[]): readonly CallTokens[] {
  return tokens.flatMap((token, i) => {
    if (!isOurs(token)) return [];
    const end = closing(tokens, i + 1);
    return end === undefined ? [] : [callTokens(tokens.slice(i, end + 1), isAll(tokens, i, end))];
  });
}

/** The calls of our functions in a formula, in the order they begin. */
export const findCalls = (formula: string): readonly FormulaCall[] =>
  formula.startsWith('=') ? callsIn(tokensOf(formula)).map(readCall) : [];

/** Texts in a formula, or a workbook before a function of ours: `[2]!`, as a clash with another add-in leaves it. */
const WORKBOOK = /"(?:[^"]|"")*"|('(?:[^']|'')*'|\[[^\]]*\])!(?=(?:_xl(?:dudf_|l\.|udf\.))?BURN[._])/gi;

const withoutWorkbooks = (formula: string): string =>
  formula.replace(WORKBOOK, (found, workbook?: string) => (workbook === undefined ? found : ''));

/** The formula as it is typed, with the names of our functions as they are called. */
export function asTyped(formula: string): string {
  return formulaTokens(withoutWorkbooks(formula))
    .map((t) => (isOurs(t) ? ownName(t.value) : t.text))
    .join('');
}

/** A formula with each outermost call of ours written by `write`, and all that stands beside them by `other`. */
export function rewritten(
  formula: string,
  write: (call: FormulaCall) => string,
  other: (token: FormulaToken) => string,
): string {
  const tokens = formulaTokens(withoutWorkbooks(formula));
  const pieces: string[] = [];
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i]!;
    const end = isOurs(token) ? closing(tokens, i + 1) : undefined;
    if (end === undefined) pieces.push(other(token));
    else {
      pieces.push(write(readCall(callTokens(tokens.slice(i, end + 1), isAll(tokens, i, end)))));
      i = end;
    }
  }
  return pieces.join('');
}

/** The call that these tokens are and nothing else, if they are one. */
function callOf(tokens: readonly FormulaToken[]): FormulaCall | undefined {
  const at = tokens.findIndex((t) => !isBlank(t));
  const first = tokens[at];
  if (!first || !isOurs(first)) return undefined;
  const end = closing(tokens, at + 1);
  return end !== undefined && isAll(tokens, at, end)
    ? readCall(callTokens(tokens.slice(at, end + 1), true))
    : undefined;
}

const isOurs = (t: FormulaToken): boolean => t.type === TYPES.FUNCTION && ownName(t.value) !== undefined;

/** Place of the bracket that closes the one at `open`. */
function closing(tokens: readonly FormulaToken[], open: number): number | undefined {
  if (!isOperator(tokens[open], '(')) return undefined;
  let depth = 0;
  for (let i = open; i < tokens.length; i++) {
    if (isOperator(tokens[i], '(', '{')) depth++;
    if (isOperator(tokens[i], ')', '}') && --depth === 0) return i;
  }
  return undefined;
}

/** Whether nothing but blanks and the sign for a single value, `@`, stands round a part. */
function isAll(tokens: readonly FormulaToken[], from: number, to: number): boolean {
  return tokens.every((t, i) => (i >= from && i <= to) || isBlank(t) || (i < from && isOperator(t, '@')));
}

function callTokens(tokens: readonly FormulaToken[], whole: boolean): CallTokens {
  const inside = tokens.slice(2, -1);
  const parts: FormulaToken[][] = [[]];
  let depth = 0;
  for (const token of inside) {
    if (isOperator(token, '(', '{')) depth++;
    if (isOperator(token, ')', '}')) depth--;
    if (depth === 0 && isOperator(token, ',')) parts.push([]);
    else parts.at(-1)?.push(token);
  }
  const none = parts.length === 1 && textOf(inside) === '';
  return { name: ownName(tokens[0]?.value ?? '') ?? '', tokens, parts: none ? [] : parts, whole };
}

const readCall = ({ name, tokens, parts, whole }: CallTokens): FormulaCall => ({
  name,
  text: textOf(tokens),
  operands: parts.map(operandOf),
  whole,
});

const REFERENCES: readonly string[] = [TYPES.REF_RANGE, TYPES.REF_BEAM, TYPES.REF_NAMED, TYPES.REF_STRUCT];
export const isReference = (token: FormulaToken): boolean => REFERENCES.includes(token.type);

export const isBlank = ({ type }: FormulaToken): boolean => type === TYPES.WHITESPACE || type === TYPES.NEWLINE;

function operandOf(tokens: readonly FormulaToken[]): Operand {
  const text = textOf(tokens);
  // A space between two references is the sheet's intersection and fails below, as two operands without an operator.
  const inner = unwrapped(tokens.filter((t) => !isBlank(t)));
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
export function unwrapped(tokens: readonly FormulaToken[]): readonly FormulaToken[] {
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

/** The value of a constant; undefined where the token is none. */
export function literal(token: FormulaToken): Cell | undefined {
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
