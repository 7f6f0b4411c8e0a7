import { expect } from 'vitest';
import { PLAN_COLUMNS } from '../../../src/catalogue/plan-line.ts';
import type { Cell } from '../../../src/sheet/host-function.ts';

/** Operations whose low and high are read between points of a lattice; those of the others jump with whole passes, holes or starts. */
const READ = ['PIN', 'HOLE'];
/** What is read so; the others between points of a lattice of pressures, or not at all. */
const DRAWN = ['oxygen low', 'oxygen high', 'crew low', 'crew high'];
const WHOLE = ['rods low', 'rods high'];
/** What all items of a list decide together. */
const SHARED = ['cylinders so far', 'left in cylinder'];

const OXYGEN = PLAN_COLUMNS.findIndex(({ heading }) => heading === 'oxygen');

/** Rows of plans as a long list has them beside those of their items by themselves, as far apart as they may be. */
export class RowsAlike {
  private readonly drawn: number[] = [];
  private whole = 0;
  private otherRods = 0;

  /** @param lists rows of a list that shares its cylinders */
  constructor(private readonly lists: boolean) {}

  compare(id: string, where: string, long: readonly unknown[], alone: readonly Cell[]): void {
    const isRead = READ.includes(id);
    PLAN_COLUMNS.forEach(({ heading }, k) => {
      const [expected, found] = [alone[k], long[k]];
      if (this.lists && SHARED.includes(heading)) return;
      if (typeof expected !== 'number' || typeof found !== 'number') {
        expect(found, `${where} ${heading}`).toEqual(expected);
      } else if (isRead && WHOLE.includes(heading)) {
        expect(Math.abs(found - expected), `${where} ${heading}`).toBeLessThanOrEqual(1);
        this.whole++;
        if (found !== expected) this.otherRods++;
      } else {
        // What is left is what cylinders hold less the oxygen, so it is off by as much as that.
        const of = heading === SHARED[1] ? (alone[OXYGEN] as number) : 1e-300;
        const off = Math.abs(found - expected) / Math.max(Math.abs(expected), of);
        if (isRead && DRAWN.includes(heading)) this.drawn.push(off);
        else expect(off, `${where} ${heading}`).toBeLessThan(3e-7);
      }
    });
  }

  /** Low and high of how many rows were read between points of a lattice. */
  get read(): number {
    return this.drawn.length / DRAWN.length;
  }

  /** How far low and high of them are off, taken together. */
  check(): void {
    const drawn = [...this.drawn].sort((x, y) => x - y);
    expect(drawn[Math.floor(0.95 * drawn.length)], 'nineteen of twenty').toBeLessThan(0.006);
    expect(drawn.at(-1), 'the largest').toBeLessThan(0.02);
    expect(this.otherRods / this.whole).toBeLessThan(0.03);
  }
}
