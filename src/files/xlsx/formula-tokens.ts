import { parseA1Ref, stringifyA1Ref, tokenize, tokenTypes, type RangeA1, type ReferenceA1Xlsx } from '@borgar/fx/xlsx';
import { LAST_COLUMN, LAST_ROW } from './address.ts';
import { LIMITS } from './limits.ts';

export interface FormulaToken {
  readonly type: string;
  readonly value: string;
  readonly unterminated: boolean;
}

export const TYPES = tokenTypes;

/** The pieces of a formula as stored, without `=`. */
export function formulaTokens(text: string): readonly FormulaToken[] {
  return tokenize(text, { negativeNumbers: false, withLocation: false }).map(({ type, value, unterminated }) => ({
    type,
    value,
    unterminated: unterminated === true,
  }));
}

export const isOperator = (token: FormulaToken | undefined, value: string): boolean =>
  token?.type === TYPES.OPERATOR && token.value === value;
export const isRange = (token: FormulaToken): boolean =>
  token.type === TYPES.REF_RANGE || token.type === TYPES.REF_BEAM;

/** A reference to cells; undefined where the text is none. */
export function readReference(text: string): ReferenceA1Xlsx | undefined {
  const found = parseA1Ref(text);
  return found && 'range' in found ? found : undefined;
}

/** The text of a reference whose parts without `$` are moved; past an edge of the sheet they come in at the other. */
export function shiftReference(text: string, rows: number, columns: number): string {
  const reference = readReference(text);
  return reference ? stringifyA1Ref({ ...reference, range: shiftRange(reference.range, rows, columns) }) : text;
}

function shiftRange(range: RangeA1, rows: number, columns: number): RangeA1 {
  const moved = (
    at: number | null | undefined,
    fixed: boolean | null | undefined,
    by: number,
    last: number,
  ): number | null =>
    at === null || at === undefined ? null : fixed ? at : (((at + by) % (last + 1)) + last + 1) % (last + 1);
  const top = moved(range.top, range.$top, rows, LAST_ROW);
  const bottom = moved(range.bottom, range.$bottom, rows, LAST_ROW);
  const left = moved(range.left, range.$left, columns, LAST_COLUMN);
  const right = moved(range.right, range.$right, columns, LAST_COLUMN);
  return { ...range, top, bottom, left, right };
}

/** A formula as it reads some rows and columns farther on: how the cells of a shared formula are told from its first. */
export function shiftFormula(text: string, rows: number, columns: number): string {
  if (text.length > LIMITS.formula) return text;
  return formulaTokens(text)
    .map((t) => (isRange(t) ? shiftReference(t.value, rows, columns) : t.value))
    .join('');
}

/** Why a formula is too much for the host; undefined where it is not. */
export function formulaProblem(text: string): string | undefined {
  if (text.length > LIMITS.formula) return tooLong(text.length);
  let deep = 0;
  for (const token of formulaTokens(text)) {
    if (isOperator(token, '(') && ++deep > LIMITS.nesting) return tooDeep();
    if (isOperator(token, ')')) deep--;
  }
  return undefined;
}

export const tooLong = (length: number): string =>
  `the formula has ${length.toLocaleString('en-US')} characters; the host takes ${LIMITS.formula.toLocaleString('en-US')}`;

export const tooDeep = (): string =>
  `its functions or parentheses stand more than ${LIMITS.nesting} deep inside one another`;
