import type { SheetDescription } from '../../sheet/described-workbook.ts';
import { columnName, LAST_COLUMN, readArea } from './address.ts';
import type { NewSheet, Validation } from './new-workbook.ts';
import type { SavedSheet } from './saved-workbook.ts';
import { readXml } from './xml.ts';

/** Pixels of a character of the standard face, and of a point. */
const CHARACTER = 7;
const PIXELS_A_POINT = 4 / 3;
/** Height of a row of one line of any usual face, points. */
const ONE_LINE = 18;

export interface ReadLayout
  extends
    Pick<
      SheetDescription,
      'widths' | 'heights' | 'frozenRows' | 'frozenColumns' | 'merged' | 'hiddenRows' | 'hiddenColumns'
    >,
    Pick<NewSheet, 'landscape' | 'validations'> {
  /** What the sheet has besides that is not kept. */
  readonly notKept: readonly string[];
}

const TYPED = 'rules for what may be typed';
/** Elements beside the cells that are not kept, in words. */
const NOT_KEPT: Readonly<Record<string, string>> = {
  conditionalFormatting: 'conditional formats',
  autoFilter: 'filters',
  hyperlink: 'links of cells',
  drawing: 'pictures, charts and shapes',
  legacyDrawing: 'comments',
  picture: 'a background picture',
  oleObject: 'embedded objects',
  control: 'buttons and other controls',
  sheetProtection: 'protection of a sheet',
  protectedRange: 'protection of a sheet',
  scenario: 'scenarios',
  brk: 'page breaks set by hand',
  oddHeader: 'page headers and footers',
  oddFooter: 'page headers and footers',
  evenHeader: 'page headers and footers',
  evenFooter: 'page headers and footers',
  firstHeader: 'page headers and footers',
  firstFooter: 'page headers and footers',
  tabColor: 'colours of tabs',
  sparkline: 'small charts in cells',
  slicer: 'slicers',
};

/** Widths, heights, merged and frozen cells of a sheet, and what is told to be lost of it. */
export function readLayout({ part, text, rows }: SavedSheet): ReadLayout {
  const widths: Record<string, number> = {};
  const hiddenColumns: string[] = [];
  const merged: string[] = [];
  const notKept = new Set<string>();
  const validations: Record<string, Validation> = {};
  let frozen: Pick<SheetDescription, 'frozenRows' | 'frozenColumns'> = {};
  let landscape = false;
  let validation: { readonly attributes: Readonly<Record<string, string>>; formula: string } | undefined;
  let inFormula = false;
  readXml(part, aroundCells(text), {
    open: (element, attributes) => {
      // What extensions hold is lost under the name that it has in the sheet itself.
      const bare = element.replace(/^\{[^}]*\}/, '');
      const lost = NOT_KEPT[bare] ?? (bare !== element && bare === 'dataValidation' ? TYPED : undefined);
      if (lost !== undefined) notKept.add(lost);
      if (element === 'col') {
        const from = Number(attributes['min']) - 1;
        const to = Math.min(Number(attributes['max']) - 1, LAST_COLUMN);
        const letters = from === to ? columnName(from) : `${columnName(from)}:${columnName(to)}`;
        // A width to the last column is how programs say a width of all; beyond some it is of no use.
        const bounded = to - from > MOST_COLUMNS ? `${columnName(from)}:${columnName(from + MOST_COLUMNS)}` : letters;
        if (attributes['width'] !== undefined) widths[bounded] = Math.round(Number(attributes['width']) * CHARACTER);
        if (isOn(attributes['hidden']))
          for (let c = from; c <= Math.min(to, from + MOST_COLUMNS); c++) hiddenColumns.push(columnName(c));
      } else if (element === 'pane') {
        if (/^frozen/.test(attributes['state'] ?? ''))
          frozen = { frozenRows: Number(attributes['ySplit'] ?? 0), frozenColumns: Number(attributes['xSplit'] ?? 0) };
        else notKept.add('split windows');
      } else if (element === 'mergeCell' && readArea(attributes['ref'] ?? '')) merged.push(attributes['ref'] ?? '');
      else if (element === 'pageSetup') landscape ||= attributes['orientation'] === 'landscape';
      else if (element === 'dataValidation') validation = { attributes, formula: '' };
      inFormula = element === 'formula1';
    },
    text: (piece) => {
      if (inFormula && validation) validation.formula += piece;
    },
    close: (element) => {
      inFormula = false;
      if (element !== 'dataValidation' || !validation) return;
      const kept = readValidation(validation.attributes, validation.formula);
      for (const range of kept ? (validation.attributes['sqref'] ?? '').split(/\s+/) : []) validations[range] = kept!;
      if (!kept) notKept.add(TYPED);
      validation = undefined;
    },
  });
  const heights: Record<number, number> = {};
  const hiddenRows: number[] = [];
  for (const { row, start, inside, empty } of rows) {
    const end = empty ? inside : text.indexOf('>', start) + 1;
    const tag = text.slice(start, end);
    const height = /\sht\s*=\s*["']([\d.]+)["']/.exec(tag)?.[1];
    // Programs that do not fit a row to its text by themselves say its height; one line is what they would give it.
    const said = /\scustomHeight\s*=\s*["'](1|true)["']/.test(tag) || Number(height) > ONE_LINE;
    if (height !== undefined && said) heights[row + 1] = Math.round(Number(height) * PIXELS_A_POINT);
    if (/\shidden\s*=\s*["'](1|true)["']/.test(tag)) hiddenRows.push(row + 1);
  }
  return {
    widths,
    heights,
    merged,
    hiddenRows,
    hiddenColumns,
    ...frozen,
    landscape,
    validations,
    notKept: [...notKept],
  };
}

const MOST_COLUMNS = 256;
const isOn = (value: string | undefined): boolean => value === '1' || value === 'true';

/** The part without its rows, which are read apart. */
function aroundCells(text: string): string {
  const from = /<(?:[\w.-]+:)?sheetData[\s>]/.exec(text);
  const closing = /<\/(?:[\w.-]+:)?sheetData\s*>/.exec(from ? text.slice(from.index) : '');
  if (!from || !closing) return text;
  return text.slice(0, from.index) + text.slice(from.index + closing.index + closing[0].length);
}

/** A rule of the kinds that are written here; undefined for others. */
function readValidation(
  { type, operator, errorStyle, error, allowBlank, prompt, errorTitle }: Readonly<Record<string, string>>,
  formula: string,
): Validation | undefined {
  if (errorStyle !== 'warning' || !isOn(allowBlank) || prompt !== undefined || errorTitle !== undefined)
    return undefined;
  const message = error ?? '';
  if (type === 'decimal' && operator === 'greaterThan' && formula === '0') return { message };
  if (type !== 'list') return undefined;
  const literal = /^"([^"]*)"$/.exec(formula)?.[1];
  return literal === undefined ? { from: formula, message } : { list: literal.split(','), message };
}
