import type { Cell } from '../../sheet/host-function.ts';
import { utf8 } from './bytes.ts';
import { editSheet, stored } from './edit-sheet.ts';
import { addressOf } from './address.ts';
import { readWorkbook } from './read-workbook.ts';
import { relationships } from './relationships.ts';
import type { SavedSheet } from './saved-workbook.ts';
import { UnreadableFile } from './unreadable.ts';
import { escaped, partText } from './xml.ts';
import { newArchive, type Archive } from './zip.ts';

/** Namespaces and types of the two classes of the standard (ISO/IEC 29500-1 and -4). */
const CLASSES = {
  strict: {
    main: 'http://purl.oclc.org/ooxml/spreadsheetml/main',
    links: 'http://purl.oclc.org/ooxml/officeDocument/relationships',
  },
  transitional: {
    main: 'http://schemas.openxmlformats.org/spreadsheetml/2006/main',
    links: 'http://schemas.openxmlformats.org/officeDocument/2006/relationships',
  },
};
const WORKSHEET = 'application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml';

/** A sheet that grows by a row at a time. */
export interface GrowingSheet {
  readonly name: string;
  readonly headings: readonly string[];
  /** Widths of its columns, in characters. */
  readonly widths: readonly number[];
}

/**
 * The workbook with one more row on a sheet, which is made, as the last, where there is none with these headings. A sheet of
 * that name with other headings is left alone; ours gets a number. What comes out is read back before it is given. Throws UnreadableFile.
 */
export function withRow(file: Uint8Array, sheet: GrowingSheet, row: readonly Cell[]): Uint8Array {
  const { archive, sheets } = readWorkbook(file);
  const own = sheets.find((s) => isOwn(s, sheet));
  const written = own
    ? archive.with(new Map([[own.part, utf8(grown(own, row))]]))
    : withSheet(archive, sheets, sheet, row);
  const last = readWorkbook(written)
    .sheets.find((s) => isOwn(s, sheet))
    ?.cells.at(-1);
  if (!last) throw new Error(`the written workbook has no row on ${sheet.name}`);
  return written;
}

const isOwn = ({ name, cells }: SavedSheet, { name: wanted, headings }: GrowingSheet): boolean =>
  name.startsWith(wanted) &&
  headings.every((heading, column) => cells.some((c) => c.row === 0 && c.column === column && c.value === heading));

function grown(sheet: SavedSheet, row: readonly Cell[]): string {
  const next = (sheet.cells.at(-1)?.row ?? 0) + 1;
  return editSheet(
    sheet,
    row.map((value, column) => ({ row: next, column, value })),
  );
}

function withSheet(
  archive: Archive,
  sheets: readonly SavedSheet[],
  { name: wanted, headings, widths }: GrowingSheet,
  row: readonly Cell[],
): Uint8Array {
  const main = relationships(archive, '').find((r) => r.type === 'officeDocument')?.target ?? '';
  const folder = main.slice(0, main.lastIndexOf('/') + 1);
  const links = `${folder}_rels/${main.slice(folder.length)}.rels`;
  const text = partText(main, archive.read(main));
  const of = text.includes(CLASSES.strict.main) ? CLASSES.strict : CLASSES.transitional;
  const part = free(
    (n) => `${folder}worksheets/history${n}.xml`,
    (each) => archive.has(each),
  );
  const id = free(
    (n) => `rIdHistory${n}`,
    (each) => relationships(archive, main).some((r) => r.id === each),
  );
  const taken = new Set(
    [...text.matchAll(/<(?:[\w.-]+:)?sheet\s[^>]*\bname="([^"]*)"/g)].map((m) => m[1]!.toLowerCase()),
  );
  for (const s of sheets) taken.add(s.name.toLowerCase());
  const name = free(
    (n) => (n === 1 ? wanted : `${wanted} ${n}`),
    (each) => taken.has(each.toLowerCase()),
  );
  const ids = [...text.matchAll(/\bsheetId="(\d+)"/g)].map((m) => Number(m[1]));
  const closing = /<\/((?:[\w.-]+:)?)sheets\s*>/.exec(text);
  if (!closing) throw new UnreadableFile(`the part ${main} lists no sheets`);
  const [, prefix = ''] = closing;
  const entry = `<${prefix}sheet name="${escaped(name)}" sheetId="${Math.max(0, ...ids) + 1}" xmlns:h="${of.links}" h:id="${id}"/>`;
  const all = new Map<string, Uint8Array>(archive.names.map((each) => [each, archive.read(each)]));
  const put = (each: string, before: string, added: string): void => {
    const whole = partText(each, archive.read(each));
    const at = whole.lastIndexOf(before);
    if (at < 0) throw new UnreadableFile(`the part ${each} has no ${before}`);
    all.set(each, utf8(`${whole.slice(0, at)}${added}${whole.slice(at)}`));
  };
  put(main, closing[0], entry);
  put('[Content_Types].xml', '</Types>', `<Override PartName="/${part}" ContentType="${WORKSHEET}"/>`);
  put(links, '</Relationships>', `<Relationship Id="${id}" Type="${of.links}/worksheet" Target="/${part}"/>`);
  const line = (values: readonly Cell[], at: number): string =>
    `<row r="${at + 1}">${values
      .map((value, column) => {
        const [type, content] = stored(value);
        return `<c r="${addressOf(at, column)}"${type}>${content}</c>`;
      })
      .join('')}</row>`;
  const columns = widths
    .map((width, i) => `<col min="${i + 1}" max="${i + 1}" width="${width}" customWidth="1"/>`)
    .join('');
  all.set(
    part,
    utf8(
      `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<worksheet xmlns="${of.main}"><cols>${columns}</cols><sheetData>${line(headings, 0)}${line(row, 1)}</sheetData></worksheet>`,
    ),
  );
  return newArchive(all);
}

/** The first of a numbered series, from 1, that is not taken. */
function free(make: (n: number) => string, isTaken: (each: string) => boolean): string {
  for (let n = 1; ; n++) if (!isTaken(make(n))) return make(n);
}
