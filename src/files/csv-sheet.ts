import type { CellContent } from '../sheet/described-workbook.ts';
import { readCsv } from './read-csv.ts';

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+|\d{1,3}(,\d{3})+(\.\d+)?)(e[+-]?\d+)?$/i;
const ERROR = /^#(NULL!|DIV\/0!|VALUE!|REF!|NAME\?|NUM!|N\/A)$/;

/**
 * The cells of a CSV text. Numbers, TRUE, FALSE, error codes and formulas are taken as a sheet takes them when
 * typed, except that nothing becomes a date: 3/8 stays the text it is.
 */
export function csvSheet(text: string): readonly (readonly CellContent[])[] {
  const [firstLine = ''] = text.split(/\r?\n/, 1);
  const delimiter = firstLine.includes(',') ? ',' : ([';', '\t'].find((other) => firstLine.includes(other)) ?? ',');
  return readCsv(text, delimiter).map((record) => record.map(fieldContent));
}

/** A field as a sheet takes it. */
export function fieldContent(field: string): CellContent {
  const trimmed = field.trim();
  if (trimmed === '') return null;
  if (NUMBER.test(trimmed)) return Number(trimmed.replaceAll(',', ''));
  if (/^(true|false)$/i.test(trimmed)) return trimmed.toUpperCase() === 'TRUE';
  if (ERROR.test(trimmed)) return { error: trimmed, message: '' };
  return trimmed.startsWith('=') ? trimmed : { text: field };
}
