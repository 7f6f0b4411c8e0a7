import type { Argument, Cell, HostFunction } from '../../sheet/host-function.ts';

/** A function for the engine alone: the results of an array over a fixed area, as a formula entered with ctrl+shift+enter shows them. */
export const FIT = 'RECHECK.FIT';

const NOTHING_THERE: Cell = { error: '#N/A', message: 'the array is smaller than the cells it was entered over' };

export const fitFunction: HostFunction = {
  name: FIT,
  summary: 'Results of an array over a fixed number of rows and columns',
  parameters: ['array', 'rows', 'columns'].map((name) => ({ name, summary: name, optional: false, example: '1' })),
  call: ([array, rows, columns]) => {
    const grid = asRows(array);
    const width = grid[0]?.length ?? 0;
    return Array.from({ length: Number(rows) }, (_, r) =>
      Array.from({ length: Number(columns) }, (__, c) => {
        const row = grid[grid.length === 1 ? 0 : r];
        const cell = row?.[width === 1 ? 0 : c];
        return cell === undefined ? NOTHING_THERE : cell;
      }),
    );
  },
};

function asRows(argument: Argument): readonly (readonly Cell[])[] {
  return Array.isArray(argument) ? (argument as readonly (readonly Cell[])[]) : [[(argument ?? null) as Cell]];
}
