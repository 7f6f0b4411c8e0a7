/** Lists as programs and people write them, and bytes that are none. */
import { csvSheet, type CsvForm } from '../../src/files/csv-sheet.ts';
import type { CellContent } from '../../src/sheet/described-workbook.ts';
import type { Chance } from './chance.ts';
import type { Outcome } from './try-workbook.ts';

const WORDS = [
  'Boom foot',
  '3/8',
  '4-1/2"',
  'a;b',
  'a,b',
  'say "no"',
  'two\nlines',
  'é',
  'Größe',
  '=1+1',
  '100 mm',
  '3 1/2',
  '1/2/2026',
  '#5',
  '+',
  '0x10',
  'N/A',
];
const NUMBERS = [0, 4, -2, 3.5, 0.125, 1234.5, 1e6, 4250, -0.75, 12, 1e-7, 999999.999];

interface Written {
  readonly kind: string;
  readonly bytes: Uint8Array;
  readonly form: CsvForm;
  readonly cells: readonly (readonly CellContent[])[];
}

/** A list, with what it holds and the form it was written in. */
export function csvFile(chance: Chance): Written {
  const separator = chance.one([',', ';', '\t']);
  const decimal = separator === ',' ? '.' : chance.one(['.', ',']);
  const encoding = chance.one(['utf-8', 'utf-8 with mark', 'utf-16le', 'utf-16be', 'windows-1252']);
  const end = chance.one(['\n', '\r\n']);
  const columns = 2 + chance.below(4);
  const heading = Array.from({ length: columns }, (_, c): CellContent => ({ text: `column ${c + 1}` }));
  const rows = chance.times(12, () =>
    Array.from({ length: columns }, (): CellContent =>
      chance.in(2) ? chance.one(NUMBERS) : { text: chance.one(WORDS) },
    ),
  );
  const cells = [heading, ...rows].map((row) => row.map(asTyped));
  const field = (cell: CellContent): string => {
    const text =
      typeof cell === 'number'
        ? String(cell).replace('.', decimal)
        : typeof cell === 'string'
          ? cell
          : (cell as { text: string }).text;
    return (/[",;\t\r\n]/.test(text) && !(typeof cell === 'number' && !text.includes(separator))) || chance.in(9)
      ? `"${text.replaceAll('"', '""')}"`
      : text;
  };
  const text = cells.map((row) => row.map(field).join(separator) + end).join('');
  return {
    kind: `${encoding}, ${separator === '\t' ? 'tab' : separator}, decimal ${decimal}`,
    bytes: encoded(text, encoding),
    form: { encoding: encoding.replace(' with mark', ''), separator: separator === '\t' ? 'tab' : separator, decimal },
    cells,
  };
}

const asTyped = (cell: CellContent): CellContent =>
  typeof cell === 'object' && cell !== null && 'text' in cell && cell.text.startsWith('=') ? cell.text : cell;

function encoded(text: string, encoding: string): Uint8Array {
  if (encoding === 'utf-8') return Buffer.from(text);
  if (encoding === 'utf-8 with mark') return Buffer.from(`\ufeff${text}`);
  if (encoding === 'windows-1252') return Buffer.from(text, 'latin1');
  const little = Buffer.from(`\ufeff${text}`, 'utf16le');
  return encoding === 'utf-16le' ? little : little.swap16();
}

/** Reads a list by the form it has, which must give what was written; and by nothing, which may be taken otherwise, but never without a word. */
export function tryCsv({ kind, bytes, form, cells }: Written): Outcome {
  const wanted = JSON.stringify(cells);
  try {
    const told = csvSheet(bytes, form);
    if (JSON.stringify(told.rows) !== wanted)
      return { came: 'other', fault: `${kind}, read as told: ${JSON.stringify(told.rows)} in place of ${wanted}` };
    const found = csvSheet(bytes);
    if (JSON.stringify(found.rows) === wanted) return { came: 'same' };
    return found.taken === ''
      ? { came: 'other', fault: `${kind}, without a word: ${JSON.stringify(found.rows)} in place of ${wanted}` }
      : { came: 'otherwise, and told' };
  } catch (thrown) {
    return { came: 'thrown', fault: `${kind}: ${thrown instanceof Error ? (thrown.stack ?? '') : String(thrown)}` };
  }
}

/** Bytes of no list. Read or refused in one line. */
export function tryBytes(chance: Chance): Outcome {
  const signs = ['"', '"', ',', ';', '\t', '\n', '\r', '=', '\u0000', 'é', '1', 'a', '\ufeff', '-'];
  const bytes = chance.in(2)
    ? Buffer.from(chance.times(400, () => chance.below(256)))
    : Buffer.from(chance.times(400, () => chance.one(signs)).join(''));
  try {
    csvSheet(bytes);
    return { came: 'read' };
  } catch (thrown) {
    const { message = String(thrown), name = '' } = thrown instanceof Error ? thrown : {};
    if (/TypeError|ReferenceError/.test(name) || message.includes('\n')) return { came: 'thrown', fault: message };
    return { came: 'refused' };
  }
}
