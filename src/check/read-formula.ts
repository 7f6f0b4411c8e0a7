import { parseA1Ref, tokenize, tokenTypes as TYPES } from '@borgar/fx';
import { ownName } from '../sheet/own-name.ts';
import { LAST_COLUMN, LAST_ROW, type Area } from '../files/xlsx/address.ts';

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
  | { readonly kind: 'blank' }
  | { readonly kind: 'slot'; readonly slot: number }
  | { readonly kind: 'formula'; readonly text: string };

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

interface Open {
  readonly name: string;
  readonly ours: boolean;
  argument: number;
  /** What stands in the argument so far. */
  parts: { readonly text: string; readonly slot?: number }[];
  readonly arguments: Argument[];
}

const SLOT = '\u00b7';
/** Another workbook before a function of ours, as a clash with another add-in leaves it. */
const CLASH = /^('(?:[^']|'')*'|\[[^\]]*\])$/;

/** Takes a formula apart; it may have been written by anybody, and what cannot be read stands in its shape as it is. */
export function readFormula(formula: string): ReadFormula {
  const tokens = tokenize(formula.replace(/^=/, ''), { negativeNumbers: false, withLocation: false }).filter(
    (t) => t.type !== TYPES.WHITESPACE && t.type !== TYPES.NEWLINE,
  );
  const slots: Slot[] = [];
  const calls: Call[] = [];
  const open: Open[] = [];
  let shape = '';
  let braces = 0;
  const add = (text: string, slot?: number): void => {
    shape += slot === undefined ? text : SLOT;
    for (const each of open) each.parts.push(slot === undefined ? { text } : { text, slot });
  };
  for (let i = 0; i < tokens.length; i++) {
    const { type, value } = tokens[i]!;
    if (CLASH.test(value) && tokens[i + 1]?.value === '!' && ownName(tokens[i + 2]?.value ?? '') !== undefined) {
      i++;
    } else if (type === TYPES.FUNCTION) {
      const own = ownName(value);
      const name = own ?? value.toUpperCase().replace(/^_XLFN\.(_XLWS\.)?/, '');
      add(name);
      add('(');
      if (tokens[i + 1]?.value === '(') i++;
      open.push({ name, ours: own !== undefined, argument: 0, parts: [], arguments: [] });
    } else if (type === TYPES.OPERATOR && value === '(') {
      add('(');
      open.push({ name: '', ours: false, argument: 0, parts: [], arguments: [] });
    } else if (type === TYPES.OPERATOR && value === ')') {
      const closed = open.pop();
      add(')');
      if (closed?.ours) {
        endArgument(closed);
        calls.push({ name: closed.name, arguments: closed.arguments });
      }
    } else if (type === TYPES.OPERATOR && value === ',' && braces === 0) {
      add(',');
      const inner = open.at(-1);
      if (!inner) continue;
      inner.parts.pop();
      endArgument(inner);
      inner.argument++;
    } else if (type === TYPES.OPERATOR && (value === '{' || value === '}')) {
      braces += value === '{' ? 1 : -1;
      add(value);
    } else {
      const slot = braces === 0 ? slotOf(type, value) : undefined;
      if (!slot) {
        add(value);
        continue;
      }
      const inner = [...open].reverse().find((o) => o.name !== '');
      slots.push(inner ? { ...slot, within: { name: inner.name, argument: inner.argument } } : slot);
      add(value, slots.length - 1);
    }
  }
  return { shape, slots, calls };
}

function endArgument(open: Open): void {
  const [only, ...more] = open.parts;
  open.arguments.push(
    only === undefined
      ? { kind: 'blank' }
      : more.length === 0 && only.slot !== undefined
        ? { kind: 'slot', slot: only.slot }
        : { kind: 'formula', text: open.parts.map((p) => p.text).join('') },
  );
  open.parts = [];
}

function slotOf(type: string, text: string): Slot | undefined {
  switch (type) {
    case TYPES.NUMBER:
      return { text, value: Number(text) };
    case TYPES.STRING:
      return { text, value: text.replace(/^"|"$/g, '').replaceAll('""', '"') };
    case TYPES.BOOLEAN:
      return { text, value: text.toUpperCase() === 'TRUE' };
    case TYPES.REF_RANGE:
    case TYPES.REF_BEAM: {
      const reference = referenceOf(text);
      return reference ? { text, reference } : undefined;
    }
    case TYPES.REF_NAMED:
    case TYPES.REF_STRUCT:
      return { text };
    default:
      return undefined;
  }
}

function referenceOf(text: string): Reference | undefined {
  const parsed = parseA1Ref(text);
  // Cells of another workbook are not to be seen from here.
  if (!parsed || !('range' in parsed) || (parsed.context?.length ?? 0) > 1) return undefined;
  const { top, left, bottom, right, $top = false, $left = false, $bottom = false, $right = false } = parsed.range;
  return {
    sheet: parsed.context?.[0],
    area: { top: top ?? 0, left: left ?? 0, bottom: bottom ?? LAST_ROW, right: right ?? LAST_COLUMN },
    whole: top == null || left == null || bottom == null || right == null,
    fixed: { top: $top === true, bottom: $bottom === true, left: $left === true, right: $right === true },
  };
}
