import { Assumptions } from '../core/assumptions/assumptions.ts';
import { Basis } from '../core/basis.ts';
import type { Argument } from './host-function.ts';
import { readAssume } from '../catalogue/read-assume.ts';

/** Sets of assumptions that are kept: a workbook seldom has more ranges of them in use at a time. */
const MOST_BASES = 8;
/** A basis with more values in it is let go after the call, so that long lists do not stay in the host's memory. */
const MOST_VALUES = 30_000;

interface Kept {
  readonly assume: string;
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
    const key = assume === undefined ? '' : JSON.stringify(assume);
    const found = this.kept.find((k) => k.assume === key && k.defaults === defaults) ?? {
      assume: key,
      defaults,
      basis: new Basis(readAssume(assume, defaults)),
    };
    this.kept = [...this.kept.filter((k) => k !== found), found].slice(-MOST_BASES);
    return found.basis;
  }

  /** To be called after each call. */
  tidy(): void {
    if (this.kept.some(({ basis }) => basis.size > MOST_VALUES))
      this.kept = this.kept.filter(({ basis }) => basis.size <= MOST_VALUES);
  }
}

/** All functions of a host share it, and the pane with them. */
export const SHARED = new SharedBases();
