import { formulaTokens, isOperator, textOf, TYPES, type FormulaToken } from './formula-tokens.ts';
import { operandOf, type Operand } from './operand.ts';

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

/** The calls of our functions in a formula, in the order they begin: an outer call before those inside it. */
export function findCalls(formula: string): readonly FormulaCall[] {
  if (!formula.startsWith('=')) return [];
  const tokens = formulaTokens(formula).filter((t) => t.type !== TYPES.FX_PREFIX);
  return tokens.flatMap((token, i) => {
    if (!isOurs(token)) return [];
    const end = closing(tokens, i + 1);
    return end === undefined ? [] : [readCall(tokens.slice(i, end + 1), isAll(tokens, i, end))];
  });
}

/** The call that these tokens are and nothing else, if they are one. */
export function callOf(tokens: readonly FormulaToken[]): FormulaCall | undefined {
  const at = tokens.findIndex((t) => t.type !== TYPES.WHITESPACE);
  const first = tokens[at];
  if (!first || !isOurs(first)) return undefined;
  const end = closing(tokens, at + 1);
  return end !== undefined && isAll(tokens, at, end) ? readCall(tokens.slice(at, end + 1), true) : undefined;
}

const isOurs = (t: FormulaToken): boolean => t.type === TYPES.FUNCTION && t.value.toUpperCase().startsWith('BURN.');

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
  return tokens.every(
    (t, i) => (i >= from && i <= to) || t.type === TYPES.WHITESPACE || (i < from && isOperator(t, '@')),
  );
}

function readCall(tokens: readonly FormulaToken[], whole: boolean): FormulaCall {
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
  return {
    name: (tokens[0]?.value ?? '').toUpperCase(),
    text: textOf(tokens),
    operands: none ? [] : parts.map(operandOf),
    whole,
  };
}
