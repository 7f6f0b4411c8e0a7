import type { CalcError } from '../errors.ts';
import { eitherMark } from '../messages.ts';

/** A number at the start, perhaps after the sign of a diameter, and nothing but numbers and units. */
const SIZE = /^\s*(?:[ø⌀∅φ]|dia\.?)?\s*[-+\u2212]?[\d,，][\d\s,，./'"′″a-zø⌀°%()²³-]{0,40}$/i;

/**
 * A text of a sheet whose decimal mark is a comma, with a point for it: `4,5 mm` is `4.5 mm`. Other texts stay. A point before
 * three digits could part thousands there: such a text gives its error.
 *
 * @example Number(withPoints("4,5")) // 4.5
 */
export function withPoints(text: string): string | CalcError {
  if (!SIZE.test(text)) return text;
  if (/\d\.\d{3}(?!\d)/.test(text)) return eitherMark(text.trim());
  return text.replace(/(\d|^|\s)[,，](?=\d)/g, '$1.');
}
