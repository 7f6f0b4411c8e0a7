/**
 * Formulas as an OpenDocument file stores them (OpenFormula), in the writing that workbooks of the other format store.
 *
 *   of:=BURN.PIN.RODS([.A1];[$'Pin list'.$B$1:.B4];{1;2|3;4})   BURN.PIN.RODS(A1,'Pin list'!$B$1:B4,{1,2;3,4})
 *
 * Source: OASIS OpenDocument 1.3, part 4, 5.5 to 5.14 (syntax of formulas, references, inline arrays, names of functions).
 */
import { sheetPrefix } from '../xlsx/address.ts';

const NAMESPACE = /^\s*(?:of|msoxl):=?/;
/** Functions that the standard does not have stand under the domain of whoever made them. */
const FOREIGN_PREFIX = /\b(?:COM\.MICROSOFT|LEGACY)\.(?=[A-Z])/g;

/** The formula without `=`; undefined where it is in another language than OpenFormula. */
export function fromOpenFormula(stored: string): string | undefined {
  if (!NAMESPACE.test(stored)) return undefined;
  return pieces(stored.replace(NAMESPACE, '')).join('');
}

/** What a name stands for; it may be stored without the name of the language. */
export function fromOpenExpression(stored: string): string {
  return pieces(stored.replace(NAMESPACE, '')).join('');
}

/** A text, a reference, anything else up to those. */
const PIECE = /"(?:[^"]|"")*"?|\[(?:[^\]']|'(?:[^']|'')*')*\]?|[^"[]+/g;

function pieces(formula: string): readonly string[] {
  let inList = 0;
  return (formula.match(PIECE) ?? []).map((piece) => {
    if (piece.startsWith('"')) return piece;
    if (piece.startsWith('[')) return reference(piece.replace(/^\[|\]$/g, ''));
    return Array.from(piece.replace(FOREIGN_PREFIX, ''), (c) => {
      if (c === '{') inList++;
      if (c === '}') inList--;
      if (c === ';' || c === '~') return ',';
      if (c === '!') return ' ';
      return c === '|' && inList > 0 ? ';' : c;
    }).join('');
  });
}

/** `$'Sheet'.$A$1`, with another corner after a colon; an unquoted name of a sheet has no period. */
const CORNER = /^(?:(\$?(?:'(?:[^']|'')*'|[^'.:#]+))?\.)?(\$?[A-Z]{1,3}\$?\d+|\$?[A-Z]{1,3}|\$?\d+)$/i;

/** A reference without its brackets, `.A1:.B2`; what cannot be read is given as the error that it would be. */
export function reference(text: string): string {
  const [first = '', second] = corners(text);
  // Another file comes before a `#`.
  if (first.includes('#')) return text.includes('#REF!') ? '#REF!' : "'[1]another file'!A1";
  const start = CORNER.exec(first);
  const end = second === undefined ? undefined : CORNER.exec(second);
  if (!start || end === null) return '#REF!';
  const sheet = sheetName(start[1]);
  const last = end && sheetName(end[1]);
  const through = last === undefined || last === sheet ? sheet : `${sheet ?? ''}:${last}`;
  return `${through === undefined ? '' : sheetPrefix(through)}${start[2] ?? ''}${end ? `:${end[2] ?? ''}` : ''}`;
}

/** Parts at the colon that stands in no quotes. */
function corners(text: string): readonly string[] {
  const found = /^((?:[^':]|'(?:[^']|'')*')*):(.*)$/s.exec(text);
  return found ? [found[1] ?? '', found[2] ?? ''] : [text];
}

function sheetName(stored: string | undefined): string | undefined {
  const bare = stored?.replace(/^\$/, '');
  return bare?.startsWith("'") ? bare.slice(1, -1).replaceAll("''", "'") : bare;
}
