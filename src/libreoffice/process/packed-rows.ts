import { isCellError } from '../../catalogue/cell.ts';
import type { Cell } from '../../sheet/host-function.ts';

/**
 * A long result in the form that the program's Python takes apart soonest, column by column: `cells` doubles, then for
 * each of the `others` the place of a cell that is no number and the place of what it holds in `values` or `errors`, as
 * unsigned 32-bit integers; all with the low byte first, as the machines that the program runs on have it.
 */
export interface Packed {
  readonly head: {
    readonly packed: readonly [rows: number, columns: number];
    readonly others: number;
    /** Texts and truths that come in it, each once. */
    readonly values: readonly (string | boolean)[];
    /** Behind these in the same numbering: codes of errors. */
    readonly errors: readonly string[];
  };
  readonly bytes: Uint8Array;
}

export function packedRows(rows: readonly (readonly Cell[])[]): Packed {
  const [height, width] = [rows.length, rows[0]?.length ?? 0];
  const numbers = new Float64Array(height * width);
  const places: number[] = [];
  const held: (string | boolean)[] = [];
  const values = new Map<string | boolean, number>();
  const errors = new Map<string, number>();
  const failed: { readonly at: number; readonly error: number }[] = [];
  const which: number[] = [];
  const numbered = <T>(known: Map<T, number>, value: T, list?: T[]): number => {
    let number = known.get(value);
    if (number === undefined) {
      number = known.size;
      known.set(value, number);
      list?.push(value);
    }
    return number;
  };
  for (let c = 0; c < width; c++) {
    for (let r = 0; r < height; r++) {
      const cell = rows[r]?.[c] ?? '';
      const at = c * height + r;
      // A zero has no sign in a cell.
      if (typeof cell === 'number') numbers[at] = cell || 0;
      else if (isCellError(cell)) failed.push({ at, error: numbered(errors, cell.error) });
      else {
        places.push(at);
        which.push(numbered(values, cell, held));
      }
    }
  }
  for (const { at, error } of failed) {
    places.push(at);
    which.push(held.length + error);
  }
  const others = new Uint32Array([...places, ...which]);
  const bytes = new Uint8Array(numbers.byteLength + others.byteLength);
  bytes.set(new Uint8Array(numbers.buffer));
  bytes.set(new Uint8Array(others.buffer), numbers.byteLength);
  return { head: { packed: [height, width], others: places.length, values: held, errors: [...errors.keys()] }, bytes };
}
