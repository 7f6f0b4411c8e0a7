import { Assumptions } from '../core/assumptions/assumptions.ts';
import { Basis } from '../core/basis.ts';
import type { Grid } from './broadcast.ts';
import type { Argument, CellError } from './host-function.ts';
import { readAssume } from '../catalogue/read-assume.ts';

/** Sets of assumptions that are kept: a workbook seldom has more ranges of them in use at a time. */
const MOST_BASES = 8;
/** A basis with more values in it is let go after the call, so that long lists do not stay in the host's memory. */
const MOST_VALUES = 30_000;

interface Kept {
  readonly assume: Argument;
  readonly defaults: Assumptions;
  readonly basis: Basis;
}

/**
 * What calls of cells share: a sheet filled down calls with one row at a time, always with the same assumptions.
 *
 * A basis is found again by all that its assumptions hold, and its values depend on these alone, so a cell shows the same
 * whichever others were calculated before it.
 */
export class SharedBases {
  /** The last used stands last. */
  private kept: readonly Kept[] = [];

  /** How many sets of assumptions are kept. */
  get size(): number {
    return this.kept.length;
  }

  /** The basis for the rows of an `assume`; throws what reading them throws. */
  of(assume: Argument, defaults: Assumptions = Assumptions.defaults()): Basis {
    const last = this.kept.at(-1);
    const same = (k: Kept): boolean => k.defaults === defaults && sameCells(k.assume, assume);
    // Cell after cell has the same.
    if (last && same(last)) return last.basis;
    const found = this.kept.find(same) ?? {
      // Of its own: whoever calls may go on writing into theirs.
      assume: Array.isArray(assume) ? (assume as Grid).map((row) => [...row]) : assume,
      defaults,
      basis: new Basis(readAssume(assume, defaults)),
    };
    this.kept = [...this.kept.filter((k) => k !== found), found].slice(-MOST_BASES);
    return found.basis;
  }

  /** The same range of assumptions as it is kept. */
  held(assume: Argument): Argument {
    return this.kept.find((k) => sameCells(k.assume, assume))?.assume ?? assume;
  }

  /** To be called after each call. */
  tidy(): void {
    if (this.kept.some(({ basis }) => basis.size > MOST_VALUES))
      this.kept = this.kept.filter(({ basis }) => basis.size <= MOST_VALUES);
  }
}

/** Whether two ranges hold the same. They come anew with each cell: no text is made of them for that. */
export function sameCells(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a)) return Array.isArray(b) && a.length === b.length && a.every((each, i) => sameCells(each, b[i]));
  const [x, y] = [a as CellError, b as CellError];
  return x.error === y.error && x.message === y.message;
}

/** All functions of a host share it, and the pane with them. */
export const SHARED = new SharedBases();
