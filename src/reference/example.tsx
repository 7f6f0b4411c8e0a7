import type { Declaration } from '../catalogue/declaration.ts';
import { isCellError } from '../catalogue/cell.ts';
import { plainUnit } from '../core/units/parse-quantity.ts';
import { showCell } from '../pane/show-cell.ts';
import type { CalculatedExample, FilledBlock } from './entries.ts';
import { addressOf } from './example-sheet.ts';
import { SheetTable, type ShownCell } from './sheet-table.tsx';

/** Rows of a long result that are shown. */
const MOST_ROWS = 14;

const bottomOf = (b: FilledBlock): number => b.row + b.values.length + (b.typed ? 1 : 0);

/** The cells of a band as they stand in the sheet, cut after the first rows. */
function cellsOf(band: readonly FilledBlock[]): {
  readonly rows: readonly (readonly ShownCell[])[];
  readonly row: number;
  readonly column: number;
  readonly cut: number;
} {
  const row = Math.min(...band.map((b) => b.row));
  const column = Math.min(...band.map((b) => b.column));
  const height = Math.max(...band.map(bottomOf)) - row;
  const width = Math.max(...band.map((b) => b.column + (b.values[0]?.length ?? 1))) - column;
  const shown = height > MOST_ROWS + 2 ? MOST_ROWS : height;
  const rows = Array.from({ length: shown }, () => Array.from({ length: width }, (): ShownCell => ({ value: null })));
  const put = (r: number, c: number, cell: ShownCell): void => {
    const line = rows[r - row];
    if (line) line[c - column] = cell;
  };
  for (const b of band) {
    const down = b.typed ? 1 : 0;
    if (b.typed) put(b.row, b.column, { value: b.label, is: 'label' });
    b.values.forEach((line, r) =>
      line.forEach((value, c) =>
        put(b.row + down + r, b.column + c, {
          value,
          ...(b.typed ? { is: 'typed' as const } : r === 0 && c === 0 ? { is: 'holds' as const } : {}),
        }),
      ),
    );
  }
  return { rows, row, column, cut: height - shown };
}

const captionOf = (band: readonly FilledBlock[]): string => {
  const typed = band.filter((b) => b.typed).map((b) => b.label);
  const formulas = band
    .filter((b) => b.formula !== undefined)
    .map((b) => `in ${addressOf(b.row, b.column)}: ${b.formula ?? ''}`);
  const said = [...(typed.length > 0 ? [`typed: ${typed.join(', ')}`] : []), ...formulas].join('; ');
  return said.charAt(0).toUpperCase() + said.slice(1);
};

/** The single number or text that an example gives, with its unit. */
export function single(d: Declaration, { bands }: CalculatedExample): string | undefined {
  const result = bands.at(-1)?.at(-1);
  if (d.result.kind !== 'value' || !result || result.values.length > 1 || (result.values[0]?.length ?? 0) > 1)
    return undefined;
  const [[value = null] = []] = result.values;
  if (isCellError(value)) return `${value.error} ${value.message}`;
  const unit = d.result.quantity === 'text' ? '' : plainUnit(d.result.quantity, 'US');
  return `${showCell(value)}${unit === '' ? '' : unit === '%' ? '%' : ` ${unit}`}`;
}

/** An example with its data and its result in the cells of a sheet. */
export function Example({ d, example }: { readonly d: Declaration; readonly example: CalculatedExample }) {
  const one = single(d, example);
  return (
    <div data-example={example.formula}>
      <code class="formula">{example.formula}</code>
      {one !== undefined && (
        <p>
          gives <b>{one}</b>.
        </p>
      )}
      {example.bands.map((band) => {
        const { rows, row, column, cut } = cellsOf(band);
        return (
          <>
            <SheetTable rows={rows} row={row} column={column} caption={captionOf(band)} />
            {cut > 0 && <p class="fine">And {cut} more rows.</p>}
          </>
        );
      })}
    </div>
  );
}
