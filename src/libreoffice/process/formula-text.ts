/**
 * Formulas between the pane's writing, the locale-independent one with commas, and the program's, which has semicolons
 * between arguments and parts the rows of a list by `|`. References come from the program as `Sheet!A1` already.
 */
import type { SelectedCell } from '../../pane/port.ts';
import { formulaTokens, isOperator, TYPES, type FormulaToken } from '../../formula/formula-tokens.ts';

/** A formula of the program's, with references as `Sheet!A1`, in the pane's writing. */
export function forPane(formula: string): string {
  let inList = 0;
  return outsideTexts(formula, (c) => {
    if (c === '{') inList++;
    if (c === '}') inList--;
    if (c === ';') return ',';
    return c === '|' && inList > 0 ? ';' : c;
  });
}

/** A cell as the program describes it, with formulas in the pane's writing. */
export function inPaneWriting(cell: SelectedCell): SelectedCell {
  const { formula, spill } = cell;
  return {
    ...cell,
    formula: forPane(formula),
    ...(spill ? { spill: { ...spill, formula: forPane(spill.formula) } } : {}),
  };
}

/** A formula of the pane's in the program's writing. */
export function forProgram(formula: string): string {
  let inList = 0;
  return formulaTokens(formula)
    .map((token) => {
      if (isOperator(token, '{')) inList++;
      if (isOperator(token, '}')) inList--;
      if (isOperator(token, ',')) return ';';
      if (isOperator(token, ';') && inList > 0) return '|';
      return isReference(token) ? programReference(token.value) : token.value;
    })
    .join('');
}

const REFERENCES: readonly string[] = [TYPES.REF_RANGE, TYPES.REF_BEAM, TYPES.REF_NAMED];
const isReference = (token: FormulaToken): boolean => REFERENCES.includes(token.type);

/** `$'Job list'.A1:B9` for `'Job list'!A1:B9`. */
function programReference(text: string): string {
  const at = text.lastIndexOf('!');
  return at === -1 ? text : `$${text.slice(0, at)}.${text.slice(at + 1)}`;
}

/** Each character outside texts and quoted names of sheets by its turn. */
function outsideTexts(formula: string, turn: (c: string) => string): string {
  let quote = '';
  return Array.from(formula, (c) => {
    if (quote !== '') {
      if (c === quote) quote = '';
      return c;
    }
    if (c === '"' || c === "'") quote = c;
    return turn(c);
  }).join('');
}
