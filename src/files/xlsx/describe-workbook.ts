import type { CellContent, CellLook } from '../../sheet/described-workbook.ts';
import type { HostFunction } from '../../sheet/host-function.ts';
import { addressOf, sheetPrefix } from './address.ts';
import type { NewSheet, NewWorkbook } from './new-workbook.ts';
import { readColours } from './read-colours.ts';
import { readLayout } from './read-layout.ts';
import { readStyles } from './read-styles.ts';
import { relationships } from './relationships.ts';
import type { SavedCell, SavedWorkbook } from './saved-workbook.ts';
import { standingCells } from './standing-cells.ts';
import { FormulaReader } from './stored-formula.ts';
import { partText, readXml, referenceOf } from './xml.ts';
import type { Archive } from './zip.ts';

export interface DescribedFile {
  readonly workbook: NewWorkbook;
  /** What the file holds that a workbook written from this description will not; one sentence each. */
  readonly notKept: readonly string[];
}

/** Rows and columns left free below and beside what is filled. */
const SPARE_ROWS = 2_000;
const SPARE_COLUMNS = 60;
/** Places named of a loss that meets many cells. */
const MOST_NAMED = 3;

/** A workbook file that was read, as something to show and work on. Throws UnreadableFile. */
export function describeWorkbook(
  saved: SavedWorkbook,
  title: string,
  functions: readonly HostFunction[],
  sheetFunctions: ReadonlySet<string>,
): DescribedFile {
  const { archive } = saved;
  const main = mainPart(archive);
  const links = relationships(archive, main);
  const partOf = (type: string): string | undefined => links.find((link) => link.type === type)?.target;
  const styles = readStyles(archive, partOf('styles'), readColours(archive, partOf('theme')));
  const view = readView(archive, main);
  const losses = new Losses();
  for (const what of styles.notKept) losses.add(what);
  workbookLosses(saved, archive, losses);
  const sizes = saved.sheets.map(({ cells }) => ({
    row: cells.reduce((most, cell) => Math.max(most, cell.row, cell.formula?.area.bottom ?? 0), 0) + SPARE_ROWS,
    column: cells.reduce((most, cell) => Math.max(most, cell.column, cell.formula?.area.right ?? 0), 0) + SPARE_COLUMNS,
  }));
  const reader = new FormulaReader(saved, functions, sheetFunctions, { keepNames: true, ends: sizes });
  const sheets = saved.sheets.map((sheet, index): NewSheet => {
    const { notKept, ...layout } = readLayout(sheet);
    for (const what of notKept) losses.add(what, sheet.name);
    const looks: Record<string, CellLook> = {};
    const cells: Record<string, CellContent> = {};
    for (const cell of sheet.cells) {
      const look = styles.looks[cell.style];
      if (look && Object.keys(look).length > 0) looks[addressOf(cell.row, cell.column)] = look;
    }
    for (const cell of standingCells(sheet)) {
      const content = contentOf(cell, index, reader, losses, sheet.name);
      if (content !== null) cells[addressOf(cell.row, cell.column)] = content;
    }
    const { row = SPARE_ROWS, column = SPARE_COLUMNS } = sizes[index] ?? {};
    const { hidden = false, printedHeading } = view.sheets[index] ?? {};
    return {
      name: sheet.name,
      cells,
      looks,
      ...layout,
      size: [row + 1, column + 1],
      hidden,
      ...(printedHeading === undefined ? {} : { printedHeading }),
    };
  });
  const names = saved.names.filter((name) => name.sheet === undefined);
  for (const name of saved.names) if (name.sheet !== undefined) losses.add('names that belong to one sheet', name.name);
  return {
    workbook: { title, sheets, definedNames: Object.fromEntries(names.map((n) => [n.name, n.formula])) },
    notKept: losses.sentences(),
  };
}

function contentOf(
  cell: SavedCell,
  sheet: number,
  reader: FormulaReader,
  losses: Losses,
  sheetName: string,
): CellContent {
  const value: CellContent = typeof cell.value === 'string' ? textOf(cell.value) : cell.value;
  if (!cell.formula) return value;
  const place = sheetPrefix(sheetName) + addressOf(cell.row, cell.column);
  const keep = (why: string): CellContent => {
    losses.add(`the formula: ${why}; its last value stands in its place`, place);
    return value;
  };
  if (cell.formula.kind === 'table') return keep('it is a what-if table');
  const read = reader.read(cell.formula.text, { sheet, row: cell.row, column: cell.column });
  if (read.engine === undefined)
    return read.ours.length > 0 ? `=${cell.formula.text}` : keep(read.problem ?? 'it cannot be read');
  if (read.lacking !== undefined && read.ours.length === 0) return keep(read.lacking);
  return read.engine.replace(/\bANCHORARRAY\(([^()"]+)\)/g, '$1#');
}

/** A text that shall stay one, whatever it looks like; an empty one is no content. */
const textOf = (text: string): CellContent => (text === '' ? null : { text });

/** Counts what is not kept, and where. */
class Losses {
  private readonly places = new Map<string, string[]>();

  add(what: string, place?: string): void {
    const places = this.places.get(what) ?? [];
    this.places.set(what, places);
    if (place !== undefined && !places.includes(place)) places.push(place);
  }

  sentences(): readonly string[] {
    return [...this.places].map(([what, places]) => {
      if (places.length === 0) return what;
      const more = places.length - MOST_NAMED;
      return `${what} (${places.slice(0, MOST_NAMED).join(', ')}${more > 0 ? ` and ${more} more` : ''})`;
    });
  }
}

function mainPart(archive: Archive): string {
  return relationships(archive, '').find((link) => link.type === 'officeDocument')?.target ?? '';
}

interface View {
  /** Of the sheets that hold cells, in the order in which they are read. */
  readonly sheets: readonly { readonly hidden: boolean; readonly printedHeading: number | undefined }[];
}

/** Which sheets are hidden, and which rows are printed on each page. */
function readView(archive: Archive, main: string): View {
  const withCells = new Set(
    relationships(archive, main).flatMap((link) => (link.type === 'worksheet' ? [link.id] : [])),
  );
  const sheets: { id: string; hidden: boolean; printedHeading: number | undefined }[] = [];
  let titlesOf: number | undefined;
  let titles = '';
  readXml(main, partText(main, archive.read(main)), {
    open: (element, attributes) => {
      if (element === 'sheet')
        sheets.push({
          id: referenceOf(attributes) ?? '',
          hidden: /hidden/i.test(attributes['state'] ?? ''),
          printedHeading: undefined,
        });
      if (element === 'definedName' && attributes['name'] === '_xlnm.Print_Titles') {
        titlesOf = Number(attributes['localSheetId'] ?? -1);
        titles = '';
      }
    },
    text: (piece) => {
      if (titlesOf !== undefined) titles += piece;
    },
    close: (element) => {
      if (element !== 'definedName' || titlesOf === undefined) return;
      const rows = /\$1:\$(\d+)$/.exec(titles)?.[1];
      const sheet = sheets[titlesOf];
      if (rows !== undefined && sheet) sheet.printedHeading = Number(rows);
      titlesOf = undefined;
    },
  });
  return { sheets: sheets.filter((sheet) => withCells.has(sheet.id)) };
}

/** Parts of a package that are not kept, by what stands in their name. */
const PARTS: readonly (readonly [pattern: RegExp, what: string])[] = [
  [/externalLinks\/[^/]+\.xml$/i, 'links to other workbooks'],
  [/pivotTables\//i, 'pivot tables'],
  [/connections\.xml$|queryTables\//i, 'connections to data'],
  [/customXml\//i, 'data of other programs'],
  [/chartsheets\//i, 'sheets that hold a chart only'],
  [/docProps\/custom\.xml$/i, 'properties of the file'],
  [/threadedComments\//i, 'threads of comments'],
  [/activeX\//i, 'buttons and other controls'],
];

function workbookLosses({ macros, tables, sheets }: SavedWorkbook, archive: Archive, losses: Losses): void {
  if (macros) losses.add('macros');
  for (const table of tables)
    losses.add(
      'tables, which become plain cells',
      sheets[table.sheet] ? `${table.name} on ${sheets[table.sheet]!.name}` : table.name,
    );
  for (const name of archive.names) for (const [pattern, what] of PARTS) if (pattern.test(name)) losses.add(what);
  const texts = archive.names.find((name) => /sharedStrings\.xml$/i.test(name));
  if (texts !== undefined && /<(?:\w+:)?rPr[\s>/]/.test(partText(texts, archive.read(texts))))
    losses.add('looks of parts of a text');
}
