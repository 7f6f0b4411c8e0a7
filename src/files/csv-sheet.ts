import type { CellContent } from '../sheet/described-workbook.ts';
import { readCsv } from './read-csv.ts';

export interface CsvSheet {
  readonly rows: readonly (readonly CellContent[])[];
  /** What was found out about the file and is not what most have; '' where it is. */
  readonly taken: string;
}

/** What the user says of a file; the rest is found out. */
export interface CsvForm {
  readonly encoding?: string | undefined;
  readonly separator?: string | undefined;
  readonly decimal?: string | undefined;
}

const ERROR = /^#(NULL!|DIV\/0!|VALUE!|REF!|NAME\?|NUM!|N\/A)$/;
const SEPARATORS = ['\t', ';', ','] as const;
const NAMES: Readonly<Record<string, string>> = { '\t': 'tabs', ';': 'semicolons', ',': 'commas' };
/** As much of a file as is looked at to find out its form. */
const SAMPLE = 64_000;

/**
 * The cells of a CSV file. Numbers, TRUE, FALSE, error codes and formulas are taken as a sheet takes them when
 * typed, except that nothing becomes a date: 3/8 stays the text it is. Throws where the file cannot be read so.
 */
export function csvSheet(bytes: Uint8Array, form: CsvForm = {}): CsvSheet {
  const encoding = form.encoding ?? encodingOf(bytes);
  const whole = decoded(bytes, encoding);
  // The host's own way of naming the separator.
  const [line = '', named] = /^sep=(.)\r?\n/i.exec(whole) ?? [];
  const text = whole.slice(line.length);
  const separator = form.separator === undefined ? (named ?? separatorOf(text)) : separatorNamed(form.separator);
  const records = readCsv(text, separator);
  const found = decimalOf(records, separator);
  const decimal = form.decimal ?? found.decimal;
  if (decimal !== '.' && decimal !== ',') throw new Error(`the decimal sign can be . or , but not ${decimal}`);
  const number = numberReader(decimal);
  const plain = /^utf-?8$/i.test(encoding) && separator === ',' && decimal === '.';
  const unsure = form.decimal === undefined ? found.unsure : undefined;
  return {
    rows: records.map((record) => record.map((field) => content(field, number))),
    taken:
      plain && unsure === undefined
        ? ''
        : `taken as ${encoding}, ${NAMES[separator] ?? separator} between fields, decimal ${decimal === '.' ? 'points' : 'commas'}` +
          (unsure === undefined ? '' : `; ${unsure} is ${number(unsure) ?? 'a text'}: if it is not, give --decimal`),
  };
}

/** By a byte order mark, else by where the zeros stand, else UTF-8 where the bytes allow it, else what older programs write. */
function encodingOf(bytes: Uint8Array): string {
  const [a, b, c] = bytes;
  if (a === 0xff && b === 0xfe) return 'utf-16le';
  if (a === 0xfe && b === 0xff) return 'utf-16be';
  if (a === 0xef && b === 0xbb && c === 0xbf) return 'utf-8';
  const sample = bytes.subarray(0, SAMPLE);
  const zeros = (from: number): number => sample.filter((byte, i) => byte === 0 && i % 2 === from).length;
  if (zeros(1) > sample.length / 4) return 'utf-16le';
  if (zeros(0) > sample.length / 4) return 'utf-16be';
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    return 'utf-8';
  } catch {
    return 'windows-1252';
  }
}

function decoded(bytes: Uint8Array, encoding: string): string {
  let decoder: TextDecoder;
  try {
    decoder = new TextDecoder(encoding, { fatal: true });
  } catch {
    throw new Error(`there is no encoding ${encoding}`);
  }
  try {
    return decoder.decode(bytes);
  } catch {
    throw new Error(`it is not in ${encoding}`);
  }
}

/** The one that stands equally often in every line, or else the commonest in the first lines. */
function separatorOf(text: string): string {
  const lines = text
    .slice(0, SAMPLE)
    .replace(/"(?:[^"]|"")*"/g, '""')
    .split(/\r\n|\n|\r/)
    .filter((line) => line.trim() !== '')
    .slice(0, 50);
  const counts = SEPARATORS.map((separator) => ({
    separator,
    inLines: lines.map((line) => line.split(separator).length - 1),
  }));
  const even = counts.find(({ inLines: [first = 0, ...rest] }) => first > 0 && rest.every((n) => n === first));
  const everywhere = counts.find(({ inLines }) => inLines.length > 0 && inLines.every((n) => n > 0));
  const total = (inLines: readonly number[]): number => inLines.reduce((sum, n) => sum + n, 0);
  const commonest = [...counts].reverse().reduce((a, b) => (total(b.inLines) > total(a.inLines) ? b : a));
  return (even ?? everywhere ?? commonest).separator;
}

function separatorNamed(name: string): string {
  const separator = /^(tab|\\t)$/i.test(name) ? '\t' : name;
  if (separator.length !== 1 || /["\r\n]/.test(separator)) throw new Error(`${name} cannot separate fields`);
  return separator;
}

/**
 * The decimal sign: by numbers that can only be read one way, as 3,5 or 1,234.5. Where none can, and some might be
 * either, as 4,250, it goes by the separator: with semicolons people write decimal commas.
 */
function decimalOf(
  records: readonly (readonly string[])[],
  separator: string,
): { readonly decimal: '.' | ','; readonly unsure?: string } {
  let points = false;
  let commas = false;
  const either: Partial<Record<'.' | ',', string>> = {};
  for (const record of records) {
    for (const field of record) {
      const text = field.trim();
      if (ONLY_COMMA.test(text)) commas = true;
      else if (ONLY_POINT.test(text)) points = true;
      else if (/^[+-]?[1-9]\d{0,2}[.,]\d{3}$/.test(text)) either[text.includes(',') ? ',' : '.'] ??= text;
    }
  }
  if (commas !== points) return { decimal: commas ? ',' : '.' };
  const decimal = separator === ';' ? ',' : '.';
  const unsure = either[decimal === ',' ? '.' : ','];
  return unsure === undefined ? { decimal } : { decimal, unsure };
}

/** Numbers that are read one way only: a sign that is not before three digits, or both signs in one. */
const ONLY_COMMA = /^[+-]?(?:\d*,(?:\d{1,2}|\d{4,})|0*,\d+|\d{4,},\d+|\d{1,3}(?:\.\d{3})+,\d+)$/;
const ONLY_POINT = /^[+-]?(?:\d*\.(?:\d{1,2}|\d{4,})|0*\.\d+|\d{4,}\.\d+|\d{1,3}(?:,\d{3})+\.\d+)$/;

/** Reads a field as a number; undefined where it is none. */
function numberReader(decimal: '.' | ','): (field: string) => number | undefined {
  const [point, group] = decimal === '.' ? ['\\.', ','] : [',', '\\.'];
  const form = new RegExp(
    `^[+-]?(?:\\d+${point}?\\d*|${point}\\d+|\\d{1,3}(?:${group}\\d{3})+(?:${point}\\d+)?)(?:e[+-]?\\d+)?$`,
    'i',
  );
  const groups = new RegExp(group, 'g');
  return (field) => (form.test(field) ? Number(field.replace(groups, '').replace(decimal, '.')) : undefined);
}

/** A field as a sheet takes it that is typed in. */
export function fieldContent(field: string): CellContent {
  return content(field, numberReader('.'));
}

function content(field: string, number: (field: string) => number | undefined): CellContent {
  const trimmed = field.trim();
  if (trimmed === '') return null;
  const value = number(trimmed);
  if (value !== undefined) return value;
  if (/^(true|false)$/i.test(trimmed)) return trimmed.toUpperCase() === 'TRUE';
  if (ERROR.test(trimmed)) return { error: trimmed, message: '' };
  return trimmed.startsWith('=') ? trimmed : { text: field };
}
