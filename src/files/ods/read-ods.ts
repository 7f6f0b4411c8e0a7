/**
 * What is kept of a workbook in the OpenDocument format, as LibreOffice saves it: cells with their values and formulas,
 * names. Source: OASIS OpenDocument 1.3, part 3, 9 (tables) and 19.385 (types of values).
 */
import type { Cell } from '../../sheet/host-function.ts';
import { LAST_COLUMN, LAST_ROW, readArea } from '../xlsx/address.ts';
import { shiftFormula } from '../xlsx/formula-tokens.ts';
import { LIMITS } from '../xlsx/limits.ts';
import type { SavedCell, SavedFormula, SavedName, SavedSheet, SavedWorkbook } from '../xlsx/saved-workbook.ts';
import { UnreadableFile } from '../xlsx/unreadable.ts';
import { partText, readXml } from '../xlsx/xml.ts';
import type { Archive } from '../xlsx/zip.ts';
import { fromOpenExpression, fromOpenFormula, reference } from './open-formula.ts';

const CONTENT = 'content.xml';
const MANIFEST = 'META-INF/manifest.xml';
const TYPE = 'application/vnd.oasis.opendocument.spreadsheet';
/** What LibreOffice shows for errors of its own that the other host has no code for. */
const OWN_ERROR = /^Err:\d+$/;
const DAY = 86_400_000;
/** Day 0 of the sheet, where the file does not name another. */
const FIRST_DAY = Date.UTC(1899, 11, 30);
const DAY_IN_1904 = Date.UTC(1904, 0, 1);

export const isOpenDocument = (archive: Archive): boolean => archive.has(CONTENT) && archive.has('mimetype');

/** Throws UnreadableFile. */
export function readOpenDocument(archive: Archive): SavedWorkbook {
  const type = new TextDecoder('latin1').decode(archive.read('mimetype')).trim();
  if (!type.startsWith(TYPE))
    throw new UnreadableFile(`it is an OpenDocument file, but no workbook (${type.slice(0, 80)})`);
  if (archive.has(MANIFEST) && partText(MANIFEST, archive.read(MANIFEST)).includes('encryption-data'))
    throw new UnreadableFile(
      'it is protected by a password; open it in the spreadsheet program and save a copy without one',
    );
  const reading = new Reading();
  readXml(CONTENT, partText(CONTENT, archive.read(CONTENT)), reading);
  const { sheets, names } = reading;
  if (sheets.length === 0) throw new UnreadableFile('it has no sheet with cells');
  return {
    archive,
    sheets,
    names,
    tables: [],
    daysFrom1904: reading.firstDay === DAY_IN_1904,
    macros: archive.names.some((name) => /^(Basic|Scripts)\//i.test(name)),
  };
}

type Attributes = Readonly<Record<string, string>>;

interface OpenCell {
  readonly attributes: Attributes;
  readonly paragraphs: string[];
}

/** Follows the elements of the content; names come without their namespaces. */
class Reading {
  readonly sheets: SavedSheet[] = [];
  readonly names: SavedName[] = [];
  firstDay = FIRST_DAY;
  private cells: SavedCell[] | undefined;
  private total = 0;
  private row = 0;
  private column = 0;
  private rowsRepeated = 1;
  private line: SavedCell[] = [];
  private cell: OpenCell | undefined;
  /** Depth inside something that holds no cells of the sheet, such as a remark or the history of changes. */
  private aside = 0;
  private inText = 0;

  open = (element: string, attributes: Attributes): void => {
    const name = bare(element);
    if (this.aside > 0 || ASIDE.has(name)) {
      this.aside++;
      return;
    }
    if (name === 'table') this.openSheet(attributes);
    else if (name === 'null-date') this.nullDate(value(attributes, 'date-value'));
    else if (name === 'named-range' || name === 'named-expression') this.name(name, attributes);
    else if (name === 'table-row') {
      this.rowsRepeated = count(attributes, 'number-rows-repeated');
      this.column = 0;
      this.line = [];
    } else if (name === 'table-cell' || name === 'covered-table-cell') this.cell = { attributes, paragraphs: [] };
    else if (this.cell) this.openText(name, attributes, this.cell);
  };

  text = (piece: string): void => {
    if (!this.cell || this.inText === 0 || this.aside > 0) return;
    append(this.cell, piece);
  };

  close = (element: string): void => {
    if (this.aside > 0) {
      this.aside--;
      return;
    }
    const name = bare(element);
    if (name === 'p' && this.cell) this.inText--;
    else if (name === 'table-cell' || name === 'covered-table-cell') this.closeCell();
    else if (name === 'table-row') this.closeRow();
    else if (name === 'table') this.cells = undefined;
  };

  private nullDate(date: string | undefined): void {
    const day = Date.parse(`${date ?? '1899-12-30'}T00:00:00Z`);
    if (day !== FIRST_DAY && day !== DAY_IN_1904)
      throw new UnreadableFile(`its days are counted from ${date ?? ''}, which is not done here`);
    this.firstDay = day;
  }

  private openSheet(attributes: Attributes): void {
    const name = value(attributes, 'name') ?? '';
    this.cells = [];
    this.row = 0;
    // What other files held when they were last looked at is kept as tables too.
    if (/^'?file:/i.test(name)) return;
    this.sheets.push({ name, part: CONTENT, text: '', cells: this.cells, rows: [], afterRows: undefined });
  }

  private name(kind: string, attributes: Attributes): void {
    const range = value(attributes, 'cell-range-address');
    const formula =
      kind === 'named-range'
        ? reference(dotted(range ?? ''))
        : fromOpenExpression(value(attributes, 'expression') ?? '');
    const base = readArea(
      reference(dotted(value(attributes, 'base-cell-address') ?? ''))
        .split('!')
        .pop()
        ?.replaceAll('$', '') ?? '',
    );
    this.names.push({
      name: value(attributes, 'name') ?? '',
      sheet: this.cells === undefined ? undefined : this.sheets.length - 1,
      // Told as seen from its base; kept as seen from A1.
      formula: base ? shiftFormula(formula, -base.top, -base.left) : formula,
    });
  }

  private openText(name: string, attributes: Attributes, cell: OpenCell): void {
    if (name === 'p') {
      cell.paragraphs.push('');
      this.inText++;
    }
    if (this.inText === 0) return;
    if (name === 's') append(cell, ' '.repeat(count(attributes, 'c')));
    if (name === 'tab') append(cell, '\t');
    if (name === 'line-break') append(cell, '\n');
  }

  private closeCell(): void {
    const { attributes, paragraphs } = this.cell ?? { attributes: {}, paragraphs: [] };
    this.cell = undefined;
    const repeated = count(attributes, 'number-columns-repeated');
    const held = cellValue(attributes, paragraphs, this.firstDay);
    const stored = value(attributes, 'formula');
    if (held !== null || stored !== undefined) {
      if (this.column + repeated - 1 > LAST_COLUMN) throw new UnreadableFile('a cell lies beyond the last column');
      this.bound(repeated);
      for (let i = 0; i < repeated; i++) {
        const column = this.column + i;
        const formula = stored === undefined ? undefined : cellFormula(stored, attributes, this.row, column);
        this.line.push({
          row: this.row,
          column,
          value: held,
          style: 0,
          start: 0,
          end: 0,
          ...(formula ? { formula } : {}),
        });
      }
    }
    this.column += repeated;
  }

  private closeRow(): void {
    if (this.line.length > 0) {
      if (this.row + this.rowsRepeated - 1 > LAST_ROW) throw new UnreadableFile('a cell lies beyond the last row');
      this.bound(this.line.length * (this.rowsRepeated - 1));
      for (let i = 0; i < this.rowsRepeated; i++)
        for (const cell of this.line) this.cells?.push({ ...cell, row: cell.row + i });
    }
    this.row += this.rowsRepeated;
  }

  /** A few bytes may say that a cell stands there a million times. */
  private bound(more: number): void {
    this.total += more;
    if (this.total > LIMITS.cells) throw new UnreadableFile(`it has more than ${LIMITS.cells} cells`);
  }
}

const ASIDE: ReadonlySet<string> = new Set(['annotation', 'tracked-changes', 'shapes', 'detective', 'dde-links']);

/** Without prefix or namespace. */
const bare = (name: string): string => name.slice(Math.max(name.lastIndexOf('}'), name.lastIndexOf(':')) + 1);

function append({ paragraphs }: OpenCell, piece: string): void {
  paragraphs.push(`${paragraphs.pop() ?? ''}${piece}`);
}

function value(attributes: Attributes, name: string): string | undefined {
  return Object.entries(attributes).find(([key]) => bare(key) === name)?.[1];
}

function count(attributes: Attributes, name: string): number {
  const number = Number(value(attributes, name) ?? 1);
  if (!Number.isInteger(number) || number < 1) throw new UnreadableFile(`${name} is ${number} in it`);
  return number;
}

/** An address outside a formula may name its sheet without a period before its cell being all there is. */
const dotted = (address: string): string => (address.includes('.') ? address : `.${address}`);

function cellFormula(stored: string, attributes: Attributes, row: number, column: number): SavedFormula {
  const text = fromOpenFormula(stored) ?? stored;
  const rows = value(attributes, 'number-matrix-rows-spanned');
  const columns = value(attributes, 'number-matrix-columns-spanned');
  const bottom = row + Number(rows ?? 1) - 1;
  const right = column + Number(columns ?? 1) - 1;
  if (!(bottom >= row && bottom <= LAST_ROW && right >= column && right <= LAST_COLUMN))
    throw new UnreadableFile('a formula fills cells beyond the sheet');
  return {
    text,
    kind: rows === undefined && columns === undefined ? 'plain' : 'array',
    area: { top: row, left: column, bottom, right },
  };
}

function cellValue(attributes: Attributes, paragraphs: readonly string[], firstDay: number): Cell {
  const types = Object.entries(attributes).flatMap(([key, type]) => (bare(key) === 'value-type' ? [type] : []));
  const text = paragraphs.join('\n');
  if (types.includes('error')) return { error: OWN_ERROR.test(text) ? '#VALUE!' : text, message: '' };
  const number = (stored: string | undefined): Cell => {
    const found = Number(stored);
    return stored === undefined || stored.trim() === '' || !Number.isFinite(found) ? null : found;
  };
  switch (types[0]) {
    case 'float':
    case 'percentage':
    case 'currency':
      return number(value(attributes, 'value'));
    case 'boolean':
      return value(attributes, 'boolean-value') === 'true';
    case 'date':
      return dayOf(value(attributes, 'date-value') ?? '', firstDay);
    case 'time':
      return timeOf(value(attributes, 'time-value') ?? '');
    case 'string':
      return value(attributes, 'string-value') ?? text;
    default:
      return paragraphs.length > 0 && text !== '' ? text : null;
  }
}

/** The number of a date, `2026-03-08` or with a time after a T. */
function dayOf(date: string, firstDay: number): Cell {
  const at = Date.parse(date.includes('T') ? `${date}Z` : `${date}T00:00:00Z`);
  return Number.isNaN(at) ? null : (at - firstDay) / DAY;
}

/** The part of a day of a length of time, `PT01H30M00S`. */
function timeOf(time: string): Cell {
  const found = /^PT(?:(\d+)H)?(?:(\d+)M)?(?:(\d+(?:\.\d+)?)S)?$/.exec(time);
  if (!found) return null;
  const [, hours = 0, minutes = 0, seconds = 0] = found;
  return (Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds)) / 86_400;
}
