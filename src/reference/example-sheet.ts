import { serializeRange } from '@univerjs/engine-formula';
import { findFunction } from '../catalogue/catalogue.ts';
import { asGrid } from '../sheet/broadcast.ts';
import { hostFunction } from '../sheet/as-host-function.ts';
import type { Cell } from '../sheet/host-function.ts';
import { findCalls, type FormulaCall, type Operand } from '../formula/formula-calls.ts';
import { resolveOperands } from '../pane/resolve-operands.ts';
import type { CellContent } from '../sheet/described-workbook.ts';

/** A part of an example's sheet: data typed into cells, or a formula with its result. Rows and columns count from 0. */
export interface Block {
  readonly row: number;
  readonly column: number;
  /** What a typed range stands for; the name of the argument. */
  readonly label: string;
  /** Rows typed in, from the row below the label. */
  readonly typed?: readonly (readonly Cell[])[];
  readonly formula?: string;
}

/** An example with its data in cells, as a user would have it: the ranges first, the formula below or beside them. */
export interface ExampleSheet {
  /** As declared, with its data inside. */
  readonly formula: string;
  /** Bands of the sheet from the top; blocks of a band stand side by side. */
  readonly bands: readonly (readonly Block[])[];
  readonly cells: Readonly<Record<string, CellContent>>;
}

export const addressOf = (row: number, column: number): string =>
  serializeRange({ startRow: row, endRow: row, startColumn: column, endColumn: column });
const rangeOf = (row: number, column: number, rows: number, columns: number): string =>
  serializeRange({ startRow: row, startColumn: column, endRow: row + rows - 1, endColumn: column + columns - 1 });

/** For a formula that stands by itself. */
export const nothingToRead = (reference: string): Promise<never> =>
  Promise.reject(new Error(`${reference} is a cell of no sheet`));

/** Puts the array constants of a declared example, and the calls inside it, into cells of a sheet. */
export async function exampleSheet(formula: string): Promise<ExampleSheet> {
  const bands: Block[][] = [];
  const cells: Record<string, CellContent> = {};
  let row = 0;

  /** Places the ranges of a call and the calls inside it; gives the call as it then stands in a cell. */
  async function place(call: FormulaCall): Promise<string> {
    const names = parameterNames(call.name);
    const texts: string[] = [];
    let band: Block[] | undefined;
    let [column, height] = [0, 0];
    for (const [i, operand] of call.operands.entries()) {
      if (operand.kind === 'array') {
        const [rows, columns] = [operand.rows.length, operand.rows[0]?.length ?? 0];
        if (!band || height !== rows) {
          band = [];
          bands.push(band);
          [column, height] = [0, rows];
          row += rows + 1;
        }
        const top = row - rows - 1;
        band.push({ row: top, column, label: names[i] ?? '', typed: operand.rows });
        cells[addressOf(top, column)] = { text: names[i] ?? '' };
        operand.rows.forEach((cellsOfRow, r) =>
          cellsOfRow.forEach(
            (cell, c) =>
              void (cells[addressOf(top + 1 + r, column + c)] = typeof cell === 'string' ? { text: cell } : cell),
          ),
        );
        texts.push(rangeOf(top + 1, column, rows, columns));
        column += columns;
      } else if (operand.kind === 'call') {
        band = undefined;
        const inner = `=${await place(operand.call)}`;
        const size = await sizeOf(operand);
        bands.push([{ row, column: 0, label: names[i] ?? '', formula: inner }]);
        cells[addressOf(row, 0)] = inner;
        texts.push(size.rows === 1 && size.columns === 1 ? addressOf(row, 0) : `${addressOf(row, 0)}#`);
        row += size.rows + 1;
      } else texts.push(operand.text);
    }
    return `${call.name}(${texts.join(',')})`;
  }

  const call = findCalls(formula).find((c) => c.whole);
  if (!call) throw new Error(`${formula} is no call of a function of ours`);
  const placed = `=${await place(call)}`;
  const beside = resultBeside(call, bands);
  const at = beside ?? { row, column: 0 };
  const block: Block = { ...at, label: '', formula: placed };
  if (beside) bands[0]?.push(block);
  else bands.push([block]);
  cells[addressOf(at.row, at.column)] = placed;
  return { formula, bands, cells };
}

/** A value for each row of one band of data stands beside its row. */
function resultBeside(
  call: FormulaCall,
  bands: readonly (readonly Block[])[],
): { readonly row: number; readonly column: number } | undefined {
  const d = findFunction(call.name);
  const [band, ...others] = bands;
  if (
    !d ||
    !band?.every((b) => b.typed) ||
    others.length > 0 ||
    call.operands.some((o) => o.kind === 'array' && o.rows.length === 1)
  )
    return undefined;
  const kinds = Object.values(d.parameters).map((p) => p.kind.kind);
  const rowByRow =
    d.result.kind === 'value'
      ? !call.operands.some((o, i) => o.kind === 'array' && kinds[i] === 'cells')
      : d.result.kind === 'table' && d.result.headless && d.result.columns.length === 1;
  if (!rowByRow) return undefined;
  return { row: 1, column: Math.max(...band.map((b) => b.column + (b.typed?.[0]?.length ?? 0))) };
}

function parameterNames(name: string): readonly string[] {
  const d = findFunction(name);
  return d ? hostFunction(d).parameters.map((p) => p.name) : [];
}

async function sizeOf(operand: Operand): Promise<{ readonly rows: number; readonly columns: number }> {
  const [read] = await resolveOperands([operand], nothingToRead);
  if (read?.problem !== undefined) throw new Error(read.problem);
  const grid = asGrid(read?.argument) ?? [[null]];
  return { rows: grid.length, columns: grid[0]?.length ?? 0 };
}
