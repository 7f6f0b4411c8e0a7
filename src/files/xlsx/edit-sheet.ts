import { isCellError } from '../../catalogue/cell.ts';
import type { Cell } from '../../sheet/host-function.ts';
import { addressOf, areaName, type Area } from './address.ts';
import type { SavedCell, SavedSheet } from './saved-workbook.ts';
import { escaped, readXml } from './xml.ts';

/** A new value for a cell of a sheet. */
export interface NewValue {
  readonly row: number;
  readonly column: number;
  readonly value: Cell;
  /** The cells that a spilling formula in it now fills. */
  readonly area?: Area;
}

export interface Edit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** The text of a sheet's part with the last results of some cells replaced; every other character stays as it is. */
export function editSheet(sheet: SavedSheet, values: readonly NewValue[]): string {
  const { text, cells } = sheet;
  const there = new Map(cells.map((c) => [addressOf(c.row, c.column), c]));
  const prefix = /^<([\w.-]+:)?/.exec(text.slice(cells[0]?.start ?? 0))?.[1] ?? '';
  const edits: Edit[] = [];
  const added = new Map<number, NewValue[]>();
  for (const each of values) {
    const cell = there.get(addressOf(each.row, each.column));
    if (cell) edits.push({ start: cell.start, end: cell.end, text: withValue(text.slice(cell.start, cell.end), each) });
    else if (each.value !== null && each.value !== '') {
      const row = added.get(each.row);
      if (row) row.push(each);
      else added.set(each.row, [each]);
    }
  }
  const byRow = groupByRow(cells);
  for (const [row, news] of added) edits.push(...addedToRow(sheet, row, byRow.get(row) ?? [], news, prefix));
  return spliced(text, edits);
}

function groupByRow(cells: readonly SavedCell[]): ReadonlyMap<number, readonly SavedCell[]> {
  const rows = new Map<number, SavedCell[]>();
  for (const cell of cells) {
    const row = rows.get(cell.row);
    if (row) row.push(cell);
    else rows.set(cell.row, [cell]);
  }
  return rows;
}

function addedToRow(
  { rows, afterRows, text }: SavedSheet,
  row: number,
  cells: readonly SavedCell[],
  news: readonly NewValue[],
  prefix: string,
): readonly Edit[] {
  const element = (n: NewValue): string => {
    const [type, value] = stored(n.value, prefix);
    return `<${prefix}c r="${addressOf(n.row, n.column)}"${type}>${value}</${prefix}c>`;
  };
  const ordered = [...news].sort((x, y) => x.column - y.column);
  const own = rows.find((r) => r.row === row);
  if (!own) {
    const at = rows.find((r) => r.row > row)?.start ?? afterRows;
    if (at === undefined) throw new Error(`there is no place for row ${row + 1}`);
    return [
      { start: at, end: at, text: `<${prefix}row r="${row + 1}">${ordered.map(element).join('')}</${prefix}row>` },
    ];
  }
  if (own.empty) {
    const opening = text.slice(own.start, own.inside).replace(/\s*\/>$/, '>');
    return [{ start: own.start, end: own.inside, text: `${opening}${ordered.map(element).join('')}</${prefix}row>` }];
  }
  return ordered.map((n) => {
    const at = cells.find((c) => c.column > n.column)?.start ?? own.inside;
    return { start: at, end: at, text: element(n) };
  });
}

/** Edits that stand at the same place stay in their order. */
export function spliced(text: string, edits: readonly Edit[]): string {
  const pieces: string[] = [];
  let at = 0;
  for (const { start, end, text: piece } of [...edits].sort((x, y) => x.start - y.start || x.end - y.end)) {
    pieces.push(text.slice(at, start), piece);
    at = end;
  }
  pieces.push(text.slice(at));
  return pieces.join('');
}

/** A cell's element with another value; its style, formula and extensions stay. What a rich value said goes with it. */
function withValue(element: string, { value, area }: NewValue): string {
  let opening = '';
  let name = '';
  let depth = 0;
  let childStart = 0;
  let formula = '';
  let others = '';
  readXml('cell', element, {
    open: (_, __, end) => {
      if (depth === 0) {
        opening = element.slice(0, end).replace(/\s*\/?>$/, '');
        name = /^<([^\s/>]+)/.exec(opening)?.[1] ?? 'c';
      } else if (depth === 1) childStart = element.lastIndexOf('<', end - 1);
      depth++;
    },
    close: (child, end) => {
      depth--;
      if (depth !== 1) return;
      const whole = element.slice(childStart, end);
      if (child === 'f')
        formula = area ? whole.replace(/(\sref\s*=\s*)("[^"]*"|'[^']*')/, `$1"${areaName(area)}"`) : whole;
      else if (child !== 'v' && child !== 'is') others += whole;
    },
  });
  const prefix = name.includes(':') ? name.slice(0, name.indexOf(':') + 1) : '';
  const [type, content] = stored(formula !== '' && (value === null || value === '') ? '' : value, prefix);
  const kept = opening
    .slice(name.length + 1)
    .replace(/\s+([\w:.-]+)\s*=\s*(?:"[^"]*"|'[^']*')/g, (whole, attribute: string) =>
      attribute === 't' || attribute === 'vm' ? '' : whole,
    );
  const inside = `${formula}${content}${others}`;
  return inside === '' ? `<${name}${kept}${type}/>` : `<${name}${kept}${type}>${inside}</${name}>`;
}

/** Codes that only this engine has stand in the file as the nearest of the host's. */
export function storable(value: Cell): Cell {
  if (!isCellError(value)) return value;
  const known = ['#NULL!', '#DIV/0!', '#VALUE!', '#REF!', '#NAME?', '#NUM!', '#N/A'];
  return known.includes(value.error) ? value : { ...value, error: '#VALUE!' };
}

/** The type attribute and the value element of a value. */
export function stored(value: Cell, prefix = ''): readonly [type: string, element: string] {
  const v = (text: string): string => `<${prefix}v>${text}</${prefix}v>`;
  if (value === null) return ['', ''];
  if (isCellError(value)) return [' t="e"', v(escaped(value.error))];
  if (typeof value === 'number') return ['', v(String(value))];
  if (typeof value === 'boolean') return [' t="b"', v(value ? '1' : '0')];
  return [' t="str"', v(escaped(value))];
}
