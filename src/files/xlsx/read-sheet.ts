import { shiftFormula } from './formula-tokens.ts';
import type { Cell } from '../../sheet/host-function.ts';
import { addressOf, readAddress, readArea } from './address.ts';
import { LIMITS } from './limits.ts';
import type { SavedCell, SavedFormula, SavedRow, SavedSheet } from './saved-workbook.ts';
import { UnreadableFile } from './unreadable.ts';
import { isTrue, readXml } from './xml.ts';

interface OpenCell {
  readonly row: number;
  readonly column: number;
  readonly type: string;
  readonly metadata: number;
  readonly style: number;
  readonly start: number;
  value: string | undefined;
  formula: OpenFormula | undefined;
}

interface OpenFormula {
  readonly type: string;
  readonly reference: string | undefined;
  readonly shared: string | undefined;
  text: string;
}

interface Master {
  readonly row: number;
  readonly column: number;
  readonly text: string;
}

/** Cells of a worksheet part. `most` bounds their number. Throws UnreadableFile. */
export function readSheet(
  part: string,
  text: string,
  sharedTexts: readonly string[],
  dynamic: ReadonlySet<number>,
  most: number,
): Omit<SavedSheet, 'name'> {
  const cells: SavedCell[] = [];
  const rows: SavedRow[] = [];
  const masters = new Map<string, Master>();
  let cell: OpenCell | undefined;
  let into: 'value' | 'formula' | 'text' | undefined;
  let rowStart = 0;
  let row = -1;
  let column = -1;
  let afterRows: number | undefined;
  let aside = 0;

  readXml(part, text, {
    open: (element, attributes, end, empty) => {
      if (element === 'row') {
        row = attributes['r'] === undefined ? row + 1 : Number(attributes['r']) - 1;
        if (!(row >= (rows.at(-1)?.row ?? -1) + 1))
          throw new UnreadableFile(`the part ${part} is damaged: row ${attributes['r'] ?? ''} is out of order`);
        column = -1;
        rowStart = text.lastIndexOf('<', end - 1);
        rows.push({ row, start: rowStart, inside: end, empty, hidden: isTrue(attributes['hidden']) });
      } else if (element === 'c') {
        if (cells.length >= most) throw new UnreadableFile(`it has more than ${LIMITS.cells} cells`);
        const at = attributes['r'] === undefined ? { row, column: column + 1 } : readAddress(attributes['r']);
        if (!at || at.row !== row || at.column <= column)
          throw new UnreadableFile(`the part ${part} is damaged: cell ${attributes['r'] ?? ''} is out of order`);
        column = at.column;
        cell = {
          ...at,
          type: attributes['t'] ?? 'n',
          metadata: Number(attributes['cm'] ?? 0),
          style: Number(attributes['s'] ?? 0),
          start: text.lastIndexOf('<', end - 1),
          value: undefined,
          formula: undefined,
        };
      } else if (cell) {
        if (element === 'rPh') aside++;
        if (element === 'v') into = 'value';
        else if (element === 't' && aside === 0) into = 'text';
        else if (element === 'f') {
          into = 'formula';
          cell.formula = {
            type: attributes['t'] ?? 'normal',
            reference: attributes['ref'],
            shared: attributes['si'],
            text: '',
          };
        }
      }
    },
    text: (piece) => {
      if (!cell || !into) return;
      if (into === 'formula' && cell.formula) cell.formula.text += piece;
      else if (into === 'value' || cell.type === 'inlineStr') cell.value = (cell.value ?? '') + piece;
    },
    close: (element, end) => {
      if (element === 'c' && cell) {
        cells.push(finished(cell, end, sharedTexts, dynamic, masters));
        cell = undefined;
      } else if (element === 'rPh') aside--;
      else if (element === 'row') {
        const last = rows.at(-1);
        if (last && !last.empty) rows[rows.length - 1] = { ...last, inside: text.lastIndexOf('</', end - 1) };
      } else if (element === 'sheetData') {
        const closing = text.lastIndexOf('<', end - 1);
        afterRows = text.startsWith('</', closing) ? closing : undefined;
      }
      into = undefined;
    },
  });
  return { part, text, cells, rows, afterRows };
}

function finished(
  cell: OpenCell,
  end: number,
  sharedTexts: readonly string[],
  dynamic: ReadonlySet<number>,
  masters: Map<string, Master>,
): SavedCell {
  const { row, column, style, start } = cell;
  const formula = cell.formula && savedFormula(cell, cell.formula, dynamic, masters);
  return { row, column, value: savedValue(cell, sharedTexts), style, start, end, ...(formula ? { formula } : {}) };
}

function savedFormula(
  { row, column, metadata }: OpenCell,
  formula: OpenFormula,
  dynamic: ReadonlySet<number>,
  masters: Map<string, Master>,
): SavedFormula | undefined {
  const own = { top: row, left: column, bottom: row, right: column };
  const area = readArea(formula.reference ?? '') ?? own;
  if (formula.type === 'dataTable') return { text: formula.text, kind: 'table', area };
  if (formula.type === 'array')
    return {
      text: formula.text,
      kind: dynamic.has(metadata) ? 'dynamic' : 'array',
      area: { ...area, top: row, left: column },
    };
  if (formula.type === 'shared' && formula.shared !== undefined) {
    const master = masters.get(formula.shared);
    if (formula.text !== '') masters.set(formula.shared, { row, column, text: formula.text });
    else if (master)
      return { text: shiftFormula(master.text, row - master.row, column - master.column), kind: 'plain', area: own };
    else throw new UnreadableFile(`the shared formula of ${addressOf(row, column)} is missing`);
  }
  return formula.text === '' ? undefined : { text: formula.text, kind: 'plain', area: own };
}

function savedValue({ value, type, row, column }: OpenCell, sharedTexts: readonly string[]): Cell {
  if (value === undefined) return type === 'inlineStr' || type === 'str' ? '' : null;
  switch (type) {
    case 's': {
      const text = sharedTexts[Number(value)];
      if (text === undefined) throw new UnreadableFile(`the text of ${addressOf(row, column)} is missing`);
      return text;
    }
    case 'str':
    case 'inlineStr':
    case 'd':
      return value;
    case 'b':
      return value.trim() === '1' || value.trim() === 'true';
    case 'e':
      return { error: value.trim(), message: '' };
    default: {
      const number = Number(value);
      return value.trim() === '' ? null : Number.isFinite(number) ? number : null;
    }
  }
}
