/**
 * Writes a new workbook in the open format (ISO/IEC 29500-1, SpreadsheetML) with formulas as the host stores them and
 * with their values, so that any spreadsheet program shows them.
 *
 * A formula with a function of ours is stored the way the host saves an add-in's: under the prefix `_xldudf_`, `_` for
 * each period, as an array formula whose cell metadata says that it may spill ([MS-XLSX] 2.3.4). A program without the
 * add-in cannot calculate it, and shows the saved value only of formulas that are no arrays; so a sheet to be read
 * everywhere has single values, stored plainly.
 */
import type { Cell } from '../../sheet/host-function.ts';
import type {
  CalculatedWorkbook,
  CellContent,
  CellLook,
  SheetDescription,
  WorkbookDescription,
} from '../../sheet/described-workbook.ts';
import { addressOf, areaName, readArea, readAddress, sheetPrefix } from './address.ts';
import { utf8 } from './bytes.ts';
import { stored } from './edit-sheet.ts';
import { storedForm } from './stored-form.ts';
import { Styles } from './styles.ts';
import { escaped } from './xml.ts';
import { newArchive } from './zip.ts';

/** A choice from a list, or a number above 0, with what to say otherwise. */
export interface Validation {
  readonly list?: readonly string[];
  /** A range that holds the choices. */
  readonly from?: string;
  readonly message: string;
}

export interface Condition {
  readonly range: string;
  /** Without `=`. */
  readonly formula: string;
  readonly look: Pick<CellLook, 'bold' | 'color' | 'background'>;
}

export interface NewSheet extends SheetDescription {
  /** By range; a blank cell is always taken. */
  readonly validations?: Readonly<Record<string, Validation>>;
  /**
   * Whether formulas are stored plainly, so that every program shows their saved values: all, which must then give one
   * value each, or those that give one; by default none with a function of ours.
   */
  readonly plain?: boolean | 'singles';
  /** Whether only cells that are `unlocked` may be typed over, until the protection is taken off; it has no password. */
  readonly protected?: boolean;
  /** Looks that cells of a range take on where a formula holds, written for the range's first cell. */
  readonly conditions?: readonly Condition[];
  readonly landscape?: boolean;
  /** Rows repeated on every printed page, from the first. */
  readonly printedHeading?: number;
}

/** What the formulas of the workbook give. */
type Results = Pick<CalculatedWorkbook, 'valueAt' | 'spilledAt'>;

export interface NewWorkbook extends WorkbookDescription {
  readonly sheets: readonly NewSheet[];
  readonly title: string;
}

const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const RELATIONSHIPS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE_RELATIONSHIPS = 'http://schemas.openxmlformats.org/package/2006/relationships';
const DECLARATION = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
/**
 * The program whose format the file has. Programs take saved texts of formulas for good only where it is named here, and
 * would show an error instead for functions that they do not have.
 */
const FORMAT = 'Microsoft Excel';
/** Number of the format's calculation engine that the host holds for today's: it then shows the saved values and calculates what changes. */
const ENGINE = 191029;
/** Width of a character of the standard face, px. */
const CHARACTER = 7;
/** Width of a column that nothing is said of, px. */
const USUAL_COLUMN = 64;
/** Height of a line of it, points. */
const ROW_HEIGHT = 15;
const POINTS_A_PIXEL = 0.75;

export function newWorkbook(workbook: NewWorkbook, calculated: Results): Uint8Array {
  const styles = new Styles();
  const shown = workbook.sheets.find((sheet) => !sheet.hidden);
  const sheets = workbook.sheets.map((sheet, i) => sheetXml(sheet, i, calculated, styles, shown));
  const parts = new Map<string, string>([
    ['[Content_Types].xml', contentTypes(sheets.length)],
    [
      '_rels/.rels',
      relationships([
        ['officeDocument', 'xl/workbook.xml'],
        ['extended-properties', 'docProps/app.xml'],
        ['http://schemas.openxmlformats.org/package/2006/relationships/metadata/core-properties', 'docProps/core.xml'],
      ]),
    ],
    [
      'docProps/app.xml',
      `<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/extended-properties"><Application>${FORMAT}</Application></Properties>`,
    ],
    [
      'docProps/core.xml',
      `<cp:coreProperties xmlns:cp="http://schemas.openxmlformats.org/package/2006/metadata/core-properties" xmlns:dc="http://purl.org/dc/elements/1.1/"><dc:title>${escaped(workbook.title)}</dc:title><dc:creator>Rodsheet</dc:creator></cp:coreProperties>`,
    ],
    ['xl/workbook.xml', workbookXml(workbook)],
    [
      'xl/_rels/workbook.xml.rels',
      relationships([
        ...sheets.map((_, i): [string, string] => ['worksheet', `worksheets/sheet${i + 1}.xml`]),
        ['styles', 'styles.xml'],
        ['sheetMetadata', 'metadata.xml'],
      ]),
    ],
    ...sheets.map((xml, i): [string, string] => [`xl/worksheets/sheet${i + 1}.xml`, xml]),
    ['xl/styles.xml', styles.xml()],
    ['xl/metadata.xml', METADATA],
  ]);
  return newArchive(new Map([...parts].map(([name, xml]) => [name, utf8(DECLARATION + xml)])));
}

/** One kind of cell metadata, number 1: this array may spill. */
export const METADATA =
  `<metadata xmlns="${MAIN}" xmlns:xda="http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray"><metadataTypes count="1">` +
  '<metadataType name="XLDAPR" minSupportedVersion="120000" copy="1" pasteAll="1" pasteValues="1" merge="1" splitFirst="1" rowColShift="1" clearFormats="1" clearComments="1" assign="1" coerce="1" cellMeta="1"/>' +
  '</metadataTypes><futureMetadata name="XLDAPR" count="1"><bk><extLst><ext uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}"><xda:dynamicArrayProperties fDynamic="1" fCollapsed="0"/></ext></extLst></bk></futureMetadata>' +
  '<cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata></metadata>';

function contentTypes(sheets: number): string {
  const type = (part: string, name: string): string =>
    `<Override PartName="/${part}" ContentType="application/vnd.openxmlformats-${name}+xml"/>`;
  const ml = (part: string, name: string): string => type(part, `officedocument.spreadsheetml.${name}`);
  return (
    '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>' +
    `<Default Extension="xml" ContentType="application/xml"/>${ml('xl/workbook.xml', 'sheet.main')}` +
    Array.from({ length: sheets }, (_, i) => ml(`xl/worksheets/sheet${i + 1}.xml`, 'worksheet')).join('') +
    `${ml('xl/styles.xml', 'styles')}${ml('xl/metadata.xml', 'sheetMetadata')}${type('docProps/app.xml', 'officedocument.extended-properties')}${type('docProps/core.xml', 'package.core-properties')}</Types>`
  );
}

function relationships(targets: readonly (readonly [type: string, target: string])[]): string {
  const one = ([type, target]: readonly [string, string], i: number): string =>
    `<Relationship Id="rId${i + 1}" Type="${type.includes('/') ? type : `${RELATIONSHIPS}/${type}`}" Target="${target}"/>`;
  return `<Relationships xmlns="${PACKAGE_RELATIONSHIPS}">${targets.map(one).join('')}</Relationships>`;
}

function workbookXml({ sheets, definedNames = {} }: NewWorkbook): string {
  const headings = sheets.flatMap((s, i) =>
    s.printedHeading === undefined
      ? []
      : [
          `<definedName name="_xlnm.Print_Titles" localSheetId="${i}">${escaped(`${sheetPrefix(s.name)}$1:$${s.printedHeading}`)}</definedName>`,
        ],
  );
  const names = Object.entries(definedNames).map(
    ([name, meaning]) => `<definedName name="${escaped(name)}">${escaped(meaning)}</definedName>`,
  );
  const all = [...headings, ...names].join('');
  return (
    `<workbook xmlns="${MAIN}" xmlns:r="${RELATIONSHIPS}"><bookViews><workbookView activeTab="${Math.max(
      0,
      sheets.findIndex((s) => !s.hidden),
    )}"/></bookViews><sheets>` +
    sheets
      .map(
        ({ name, hidden }, i) =>
          `<sheet name="${escaped(name)}" sheetId="${i + 1}"${hidden ? ' state="hidden"' : ''} r:id="rId${i + 1}"/>`,
      )
      .join('') +
    `</sheets>${all === '' ? '' : `<definedNames>${all}</definedNames>`}<calcPr calcId="${ENGINE}"/></workbook>`
  );
}

function sheetXml(
  sheet: NewSheet,
  index: number,
  calculated: Results,
  styles: Styles,
  shown: NewSheet | undefined,
): string {
  const looks = new Looks(sheet.looks ?? {});
  const rows = new Map<number, Map<number, string>>();
  const put = (row: number, column: number, element: string): void => {
    const cells = rows.get(row) ?? new Map<number, string>();
    rows.set(row, cells);
    cells.set(column, element);
  };
  const style = (row: number, column: number): string => {
    const id = styles.id(looks.at(row, column));
    return id === 0 ? '' : ` s="${id}"`;
  };
  for (const [r, cells] of looks.rows)
    for (const c of cells.keys()) put(r, c, `<c r="${addressOf(r, c)}"${style(r, c)}/>`);
  for (const [row, column, content] of contents(sheet)) {
    if (typeof content === 'string' && content.startsWith('=') && content.length > 1) {
      const result = calculated.spilledAt(index, row, column);
      result.forEach((values, r) =>
        values.forEach((value, c) =>
          put(
            row + r,
            column + c,
            r === 0 && c === 0
              ? formulaCell(content, row, column, result, style(row, column), sheet.plain ?? false)
              : spilledCell(row + r, column + c, value, style(row + r, column + c)),
          ),
        ),
      );
    } else put(row, column, valueCell(row, column, plain(content), style(row, column)));
  }
  const lines = new Lines(sheet, looks);
  for (const [row, column, content] of contents(sheet)) {
    const value =
      typeof content === 'string' && content.startsWith('=') ? calculated.valueAt(index, row, column) : plain(content);
    if (typeof value === 'string') lines.add(row, column, value);
  }
  const hidden = new Set((sheet.hiddenRows ?? []).map((row) => row - 1));
  const told = [...hidden, ...Object.keys(sheet.heights ?? {}).map((row) => Number(row) - 1)];
  for (const row of told) if (!rows.has(row)) rows.set(row, new Map());
  const data = [...rows]
    .sort(([a], [b]) => a - b)
    .map(
      ([row, cells]) =>
        `<row r="${row + 1}"${lines.height(row)}${hidden.has(row) ? ' hidden="1"' : ''}>${[...cells]
          .sort(([a], [b]) => a - b)
          .map(([, element]) => element)
          .join('')}</row>`,
    )
    .join('');
  return (
    `<worksheet xmlns="${MAIN}">${sheet.landscape ? '<sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>' : ''}<sheetViews><sheetView workbookViewId="0"${sheet === shown ? ' tabSelected="1"' : ''}>${frozen(sheet)}</sheetView></sheetViews>` +
    `<sheetFormatPr defaultRowHeight="${ROW_HEIGHT}"/>${columns(sheet)}<sheetData>${data}</sheetData>${sheet.protected ? PROTECTION : ''}${merged(sheet)}${conditions(sheet, styles)}${validations(sheet)}` +
    `<pageMargins left="0.5" right="0.5" top="0.5" bottom="0.5" header="0.3" footer="0.3"/>${sheet.landscape ? '<pageSetup orientation="landscape" fitToWidth="1" fitToHeight="0"/>' : ''}</worksheet>`
  );
}

/** Widths and heights may be changed, so that a long text can be read. */
const PROTECTION = '<sheetProtection sheet="1" objects="1" scenarios="1" formatColumns="0" formatRows="0"/>';

function conditions({ conditions: all = [] }: NewSheet, styles: Styles): string {
  return all
    .map(
      ({ range, formula, look }, i) =>
        `<conditionalFormatting sqref="${range}"><cfRule type="expression" dxfId="${styles.change(look)}" priority="${i + 1}"><formula>${escaped(formula)}</formula></cfRule></conditionalFormatting>`,
    )
    .join('');
}

function merged({ merged: ranges = [] }: NewSheet): string {
  if (ranges.length === 0) return '';
  return `<mergeCells count="${ranges.length}">${ranges.map((range) => `<mergeCell ref="${range}"/>`).join('')}</mergeCells>`;
}

function contents({ rows = [], cells = {} }: NewSheet): readonly (readonly [number, number, CellContent])[] {
  const found: (readonly [number, number, CellContent])[] = [];
  rows.forEach((row, r) =>
    row.forEach((content, c) => {
      if (content !== null) found.push([r, c, content]);
    }),
  );
  for (const [address, content] of Object.entries(cells)) {
    const at = readAddress(address);
    if (!at) throw new Error(`${address} is no cell`);
    found.push([at.row, at.column, content]);
  }
  return found;
}

const plain = (content: CellContent): Cell =>
  typeof content === 'object' && content !== null && 'text' in content ? content.text : content;

function valueCell(row: number, column: number, value: Cell, style: string): string {
  const at = `r="${addressOf(row, column)}"${style}`;
  if (value === null) return `<c ${at}/>`;
  if (typeof value === 'string')
    return value === ''
      ? `<c ${at}/>`
      : `<c ${at} t="inlineStr"><is><t xml:space="preserve">${escaped(value)}</t></is></c>`;
  const [type, element] = stored(value);
  return `<c ${at}${type}>${element}</c>`;
}

function spilledCell(row: number, column: number, value: Cell, style: string): string {
  const [type, element] = stored(value);
  return `<c r="${addressOf(row, column)}"${style}${type}>${element}</c>`;
}

function formulaCell(
  formula: string,
  row: number,
  column: number,
  result: readonly (readonly Cell[])[],
  style: string,
  plainly: boolean | 'singles',
): string {
  const [type, element] = stored(result[0]?.[0] ?? '');
  const { text, ours, array } = storedForm(formula.slice(1));
  const area = {
    top: row,
    left: column,
    bottom: row + result.length - 1,
    right: column + (result[0]?.length ?? 1) - 1,
  };
  const single = areaName(area) === addressOf(row, column);
  if (plainly === true && !single) throw new Error(`${formula} spills, which it may not here`);
  const spilling = plainly !== true && (!single || array || (ours && plainly !== 'singles'));
  const [metadata, kind] = spilling ? [' cm="1"', ` t="array" ref="${areaName(area)}"`] : ['', ''];
  return `<c r="${addressOf(row, column)}"${style}${type}${metadata}><f${kind}>${escaped(text)}</f>${element}</c>`;
}

class Looks {
  /** By row, then column. */
  readonly rows = new Map<number, Map<number, CellLook>>();

  constructor(looks: Readonly<Record<string, CellLook>>) {
    for (const [range, look] of Object.entries(looks)) {
      const area = readArea(range);
      if (!area) throw new Error(`${range} is no range`);
      for (let r = area.top; r <= area.bottom; r++) {
        const row = this.rows.get(r) ?? new Map<number, CellLook>();
        this.rows.set(r, row);
        for (let c = area.left; c <= area.right; c++) row.set(c, { ...row.get(c), ...look });
      }
    }
  }

  at(row: number, column: number): CellLook {
    return this.rows.get(row)?.get(column) ?? {};
  }
}

/** Heights of the rows that hold wrapped texts, px, by number as shown. */
export function textHeights(sheet: NewSheet): Readonly<Record<number, number>> {
  const lines = new Lines(sheet, new Looks(sheet.looks ?? {}));
  for (const [row, column, content] of contents(sheet)) {
    const value = plain(content);
    if (typeof value === 'string' && !value.startsWith('=')) lines.add(row, column, value);
  }
  return lines.pixels();
}

/** Rows as high as their wrapped texts need, since programs that do not calculate a formula do not measure its text either. */
class Lines {
  private readonly heights: Readonly<Record<number, number>>;
  private readonly most = new Map<number, number>();
  private readonly widths = new Map<number, number>();

  constructor(
    { widths = {}, heights = {} }: NewSheet,
    private readonly looks: Looks,
  ) {
    this.heights = heights;
    for (const { from, to, px } of columnWidths(widths)) for (let c = from; c <= to; c++) this.widths.set(c, px);
  }

  add(row: number, column: number, text: string): void {
    const { wrap, bold } = this.looks.at(row, column);
    const px = this.widths.get(column);
    if (!wrap || px === undefined) return;
    // Words do not fill a line to its end.
    const fitting = Math.max(1, Math.floor((px / CHARACTER) * (bold ? 0.9 : 1) - 1));
    let lines = 1;
    let used = 0;
    for (const word of text.split(/\s+/)) {
      if (used > 0 && used + 1 + word.length > fitting) {
        lines++;
        used = 0;
      }
      used += (used > 0 ? 1 : 0) + word.length;
      lines += Math.floor((used - 1) / fitting);
      used = used > fitting ? used % fitting || fitting : used;
    }
    this.most.set(row, Math.max(this.most.get(row) ?? 1, lines));
  }

  pixels(): Readonly<Record<number, number>> {
    const tall = [...this.most].filter(([, lines]) => lines > 1);
    return Object.fromEntries(tall.map(([row, lines]) => [row + 1, (lines * ROW_HEIGHT) / POINTS_A_PIXEL]));
  }

  height(row: number): string {
    const px = this.heights[row + 1];
    if (px !== undefined) return ` ht="${(px * POINTS_A_PIXEL).toFixed(2)}" customHeight="1"`;
    const lines = this.most.get(row) ?? 1;
    return lines > 1 ? ` ht="${lines * ROW_HEIGHT}"` : '';
  }
}

function frozen({ frozenRows = 0, frozenColumns = 0 }: NewSheet): string {
  if (frozenRows + frozenColumns === 0) return '';
  const pane = frozenRows > 0 && frozenColumns > 0 ? 'bottomRight' : frozenRows > 0 ? 'bottomLeft' : 'topRight';
  const split = `${frozenColumns > 0 ? ` xSplit="${frozenColumns}"` : ''}${frozenRows > 0 ? ` ySplit="${frozenRows}"` : ''}`;
  return `<pane${split} topLeftCell="${addressOf(frozenRows, frozenColumns)}" activePane="${pane}" state="frozen"/>`;
}

function columnWidths(
  widths: Readonly<Record<string, number>>,
): readonly { readonly from: number; readonly to: number; readonly px: number }[] {
  const of = (letters: string): { from: number; to: number } => {
    const [from = '', to = from] = letters.split(':');
    return { from: readAddress(`${from}1`)?.column ?? 0, to: readAddress(`${to}1`)?.column ?? 0 };
  };
  return Object.entries(widths)
    .map(([letters, px]) => ({ ...of(letters), px }))
    .sort((a, b) => a.from - b.from);
}

function columns({ widths = {}, hiddenColumns = [] }: NewSheet): string {
  const hidden = new Set(hiddenColumns.map((letters) => readAddress(`${letters}1`)?.column ?? 0));
  const all = columnWidths(widths).flatMap(({ from, to, px }) =>
    Array.from({ length: to - from + 1 }, (_, i) => ({ column: from + i, px })),
  );
  const told = new Set(all.map(({ column }) => column));
  for (const column of hidden) if (!told.has(column)) all.push({ column, px: USUAL_COLUMN });
  if (all.length === 0) return '';
  all.sort((a, b) => a.column - b.column);
  return `<cols>${all.map(({ column, px }) => `<col min="${column + 1}" max="${column + 1}" width="${(px / CHARACTER).toFixed(2)}"${hidden.has(column) ? ' hidden="1"' : ''} customWidth="1"/>`).join('')}</cols>`;
}

function validations({ validations: all = {} }: NewSheet): string {
  const entries = Object.entries(all);
  if (entries.length === 0) return '';
  const one = ([range, { list, from, message }]: readonly [string, Validation]): string => {
    const [type, formula] =
      list || from
        ? ['type="list"', from ?? `"${list?.join(',') ?? ''}"`]
        : ['type="decimal" operator="greaterThan"', '0'];
    return `<dataValidation ${type} errorStyle="warning" allowBlank="1" showErrorMessage="1" error="${escaped(message)}" sqref="${range}"><formula1>${escaped(formula)}</formula1></dataValidation>`;
  };
  return `<dataValidations count="${entries.length}">${entries.map(one).join('')}</dataValidations>`;
}
