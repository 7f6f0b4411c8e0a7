import { parseA1Ref } from '@borgar/fx';
import { ownName } from '../sheet/own-name.ts';
import { LAST_COLUMN, LAST_ROW, type Area } from '../files/xlsx/address.ts';
import { callsIn, isBlank, isReference, literal, tokensOf, unwrapped } from './formula-calls.ts';
import { isOperator, TYPES, type FormulaToken } from './formula-tokens.ts';

/** A reference to cells, as a formula has it. */
export interface Reference {
  /** Name of its sheet; undefined where it is the formula's own. */
  readonly sheet: string | undefined;
  readonly area: Area;
  /** Whole columns or rows. */
  readonly whole: boolean;
  /** Which of its sides stand under a `$`. */
  readonly fixed: { readonly top: boolean; readonly bottom: boolean; readonly left: boolean; readonly right: boolean };
}

/** A reference or a constant in a formula: what may differ between formulas of one shape. */
export interface Slot {
  readonly text: string;
  readonly reference?: Reference;
  /** The value of a constant. */
  readonly value?: string | number | boolean;
  /** The innermost function round it, in capitals, and which of its arguments it is in, from 0. */
  readonly within?: { readonly name: string; readonly argument: number };
}

/** An argument of a call of ours: nothing, a slot alone, or a formula of its own. */
export type Argument =
  { readonly kind: 'blank' } | { readonly kind: 'slot'; readonly slot: number } | { readonly kind: 'formula' };

/** A call of a function of ours. */
export interface Call {
  readonly name: string;
  readonly arguments: readonly Argument[];
}

/** A formula taken apart. */
export interface ReadFormula {
  /** Its functions and operators, with a sign in place of each slot. */
  readonly shape: string;
  readonly slots: readonly Slot[];
  /** Calls of our functions, those inside others too. */
  readonly calls: readonly Call[];
}

const SLOT = '\u00b7';

/**
 * Takes a formula apart; it may have been written by anybody, and what cannot be read stands in its shape as it is. A reference that
 * names the formula's own sheet is as one without.
 */
export function readFormula(formula: string, ownSheet?: string): ReadFormula {
  const tokens = tokensOf(formula).filter((t) => !isBlank(t));
  const slots: Slot[] = [];
  const slotAt = new Map<FormulaToken, number>();
  const open: { readonly name: string; argument: number }[] = [];
  let braces = 0;
  const shape = tokens.map((token, i) => {
    if (token.type === TYPES.FUNCTION) return functionName(token);
    const before = tokens[i - 1];
    if (isOperator(token, '('))
      open.push({ name: before?.type === TYPES.FUNCTION ? functionName(before) : '', argument: 0 });
    if (isOperator(token, ')')) open.pop();
    if (isOperator(token, '{')) braces++;
    if (isOperator(token, '}')) braces--;
    if (braces > 0) return token.value;
    const inner = open.at(-1);
    if (isOperator(token, ',') && inner) inner.argument++;
    const slot = slotOf(token, ownSheet?.toLowerCase());
    if (!slot) return token.value;
    const within = open.findLast((o) => o.name !== '');
    slotAt.set(token, slots.length);
    slots.push(within ? { ...slot, within: { ...within } } : slot);
    return SLOT;
  });
  const argument = (part: readonly FormulaToken[]): Argument => {
    const inner = unwrapped(part);
    const [only] = inner;
    if (!only) return { kind: 'blank' };
    const slot = inner.length === 1 ? slotAt.get(only) : undefined;
    return slot === undefined ? { kind: 'formula' } : { kind: 'slot', slot };
  };
  const calls = callsIn(tokens).map(({ name, parts }) => ({ name, arguments: parts.map(argument) }));
  return { shape: shape.join(''), slots, calls };
}

const functionName = ({ value }: FormulaToken): string =>
  ownName(value) ?? value.toUpperCase().replace(/^_XLFN\.(_XLWS\.)?/, '');

function slotOf(token: FormulaToken, own: string | undefined): Slot | undefined {
  const { type, value: text } = token;
  if (type === TYPES.REF_NAMED || type === TYPES.REF_STRUCT) return { text };
  if (isReference(token)) {
    const reference = referenceOf(text, own);
    return reference ? { text, reference } : undefined;
  }
  const value = literal(token);
  return value === undefined || value === null || typeof value === 'object' ? undefined : { text, value };
}

function referenceOf(text: string, own: string | undefined): Reference | undefined {
  const parsed = parseA1Ref(text);
  // Cells of another workbook are not to be seen from here.
  if (!parsed || !('range' in parsed) || (parsed.context?.length ?? 0) > 1) return undefined;
  const { top, left, bottom, right, $top = false, $left = false, $bottom = false, $right = false } = parsed.range;
  const sheet = parsed.context?.[0];
  return {
    sheet: sheet?.toLowerCase() === own ? undefined : sheet,
    area: { top: top ?? 0, left: left ?? 0, bottom: bottom ?? LAST_ROW, right: right ?? LAST_COLUMN },
    whole: top == null || left == null || bottom == null || right == null,
    fixed: { top: $top === true, bottom: $bottom === true, left: $left === true, right: $right === true },
  };
}
