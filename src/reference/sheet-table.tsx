import { isCellError } from '../catalogue/cell.ts';
import { showCell } from '../pane/show-cell.ts';
import type { Cell } from '../sheet/host-function.ts';
import { addressOf } from './example-sheet.ts';

/** A cell to show, and what it is in the sheet. */
export interface ShownCell {
  readonly value: Cell;
  readonly is?: 'typed' | 'label' | 'holds';
}

interface Props {
  readonly rows: readonly (readonly ShownCell[])[];
  /** Where its first cell stands, from 0. */
  readonly row: number;
  readonly column: number;
  readonly caption: string;
}

/** A table wider than this is shown in parts below each other. */
const WIDEST = 8;
const LONG = 28;

const columnLetter = (column: number): string => addressOf(0, column).replace('1', '');

function Cells({ cell: { value, is } }: { readonly cell: ShownCell }) {
  const text = showCell(value);
  const of = [
    is,
    typeof value === 'number' ? 'number' : text.length > LONG ? 'long' : '',
    isCellError(value) ? 'failed' : '',
  ]
    .filter(Boolean)
    .join(' ');
  return (
    <td class={of === '' ? undefined : of}>
      {text}
      {isCellError(value) && value.message !== '' && ` ${value.message}`}
    </td>
  );
}

/** Part of a sheet with its column letters and row numbers. */
export function SheetTable({ rows, row, column, caption }: Props) {
  const width = Math.max(...rows.map((r) => r.length));
  const parts = Math.ceil(width / WIDEST);
  const size = Math.ceil(width / parts);
  return (
    <figure class={rows.length > 12 ? 'sheet' : 'sheet small'}>
      <figcaption>{caption}</figcaption>
      {Array.from({ length: parts }, (_, part) => {
        const [from, to] = [part * size, Math.min(width, (part + 1) * size)];
        const range = `${addressOf(row, column + from)}:${addressOf(row + rows.length - 1, column + to - 1)}`;
        return (
          <div class="scroll" role="region" aria-label={`Cells ${range}. ${caption}`} tabIndex={0}>
            <table>
              <thead>
                <tr>
                  <td />
                  {Array.from({ length: to - from }, (__, c) => (
                    <th scope="col">{columnLetter(column + from + c)}</th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {rows.map((cells, r) => (
                  <tr>
                    <th scope="row">{row + r + 1}</th>
                    {Array.from({ length: to - from }, (__, c) => (
                      <Cells cell={cells[from + c] ?? { value: null }} />
                    ))}
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        );
      })}
    </figure>
  );
}
