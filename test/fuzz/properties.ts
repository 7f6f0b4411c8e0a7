/** What must hold for the result of any call at all. */
import { isCellError, type Cell } from '../../src/catalogue/cell.ts';
import { isRowsFunction, isTableFunction, type Declaration } from '../../src/catalogue/declaration.ts';
import type { QuantityName } from '../../src/core/units/quantities.ts';

/** Longest text that a cell of the host can hold; documented by its vendor under its specifications and limits. */
const CELL_TEXT = 32_767;
/** Longest message: what fits a card beside a cell and can be read at one glance, ours. */
export const LONGEST_MESSAGE = 400;

/** Quantities that cannot be negative. */
const NEVER_NEGATIVE: readonly (QuantityName | 'text')[] = [
  'count',
  'oxygen',
  'flow',
  'time',
  'hours',
  'mass',
  'airflow',
  'percent',
];

const GARBAGE = /\bNaN\b|undefined|\[object |Infinity/;

/** What is wrong with a result; empty where nothing is. */
export function faults(d: Declaration, result: unknown): readonly string[] {
  if (!Array.isArray(result) || result.length === 0) return ['the result is no matrix with a row'];
  const rows = result as readonly unknown[];
  const width = Array.isArray(rows[0]) ? (rows[0] as readonly unknown[]).length : 0;
  if (width === 0 || rows.some((row) => !Array.isArray(row) || row.length !== width))
    return ['the result is not rectangular'];
  return (rows as readonly (readonly Cell[])[]).flatMap((row, r) =>
    row.flatMap((cell, c) =>
      cellFaults(cell)
        .map((fault) => `row ${r + 1}, column ${c + 1}: ${fault}`)
        .concat(quantityFaults(d, cell, r, c)),
    ),
  );
}

function cellFaults(cell: unknown): readonly string[] {
  switch (typeof cell) {
    case 'number':
      return Number.isFinite(cell) ? [] : [`the number ${String(cell)}`];
    case 'string':
      return [
        ...(GARBAGE.test(cell) ? [`the text ${cell.slice(0, 200)}`] : []),
        ...(cell.length > CELL_TEXT ? [`a text of ${cell.length} characters`] : []),
        ...(/^#(VALUE!|N\/A|NUM!|DIV\/0!|REF!|NAME\?)/.test(cell) ? [`an error as text: ${cell}`] : []),
      ];
    case 'boolean':
      return [];
    case 'object':
      return cell === null
        ? []
        : isCellError(cell as Cell)
          ? errorFaults(cell as Record<string, unknown>)
          : ['an object'];
    default:
      return [`a ${typeof cell}`];
  }
}

function errorFaults({ error, message, ...more }: Record<string, unknown>): readonly string[] {
  if (error !== '#VALUE!' && error !== '#N/A') return [`the error ${String(error)}`];
  if (typeof message !== 'string' || message.trim() === '') return ['an error without a message'];
  return [
    ...(GARBAGE.test(message) ? [`the message ${message.slice(0, 200)}`] : []),
    ...(message.length > LONGEST_MESSAGE
      ? [`a message of ${message.length} characters: ${message.slice(0, 200)}`]
      : []),
    ...(/please report/.test(message) ? [`a fault of ours: ${message.slice(0, 300)}`] : []),
    ...(Object.keys(more).length > 0 ? ['an error with more than code and message'] : []),
  ];
}

/** Counts are whole, and what cannot be negative is not. */
function quantityFaults(d: Declaration, cell: Cell, r: number, c: number): readonly string[] {
  if (typeof cell !== 'number') return [];
  const quantity = quantityOf(d, r, c);
  if (quantity === undefined) return [];
  return [
    ...(quantity === 'count' && !Number.isInteger(cell) ? [`a count of ${cell}`] : []),
    ...(NEVER_NEGATIVE.includes(quantity) && cell < 0 ? [`${cell} as ${quantity}`] : []),
  ];
}

function quantityOf(d: Declaration, r: number, c: number): QuantityName | 'text' | undefined {
  if (!isRowsFunction(d) && !isTableFunction(d)) return d.result.quantity;
  return r === 0 && !('headless' in d.result) ? undefined : d.result.columns[c]?.quantity;
}
