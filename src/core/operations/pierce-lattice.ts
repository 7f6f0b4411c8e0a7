import type { Basis } from '../basis.ts';
import { valueAt, type Column, type Evaluation } from '../model/evaluation.ts';
import { ROUND, weighed, weightsAt } from '../model/smooth-lattice.ts';
import { NO_NUMBER_OF_RODS, endOfRod, rodsOnTheWay, rodsSaved, type Pierce } from './pierce-rods.ts';

/** Step of the lattice in ln q. */
const STEP = 1 / 64;
/** Rods used up on the way that are found at first, and at most; beyond, the ends of each pierce are found one by one. */
const [FEW, MOST] = [16, 1024];

/** Length [m] that so many rods burn which are used up on the way, at the six points round a stretch of the lattice, rod by rod. */
interface Stretch {
  readonly rods: number;
  readonly burned: Float64Array;
}

/**
 * What rods burn that are used up on the way down pierces by one rod on one material, read on a lattice.
 *
 * Where rods end does not depend on how deep the pierce goes on, and of all that it depends on only one number goes with the tip
 * pressure: q = v / c, what the heat could advance over what slag lets out at the mouth. Burn-off and heat go with the flow alike.
 * So the ends are found at fixed places of ln q and read between them, by the polynomial of degree 5 through six: to 1e-9 of
 * themselves up to a sharpness of 6 (`test/core/operations/pierce-lattice.test.ts`).
 */
export class PierceLattice {
  private readonly points = new Map<number, { burned: number[]; end: number }>();
  private readonly stretches = new Map<number, Stretch>();
  private readonly weights = new Float64Array(ROUND);

  /**
   * @param burns length of a rod but its stub [m]
   * @param pace burn-off of the rod over the advance that the heat allows
   */
  constructor(
    private readonly burns: number,
    private readonly pace: number,
    private readonly halving: number,
    private readonly sharpness: number,
  ) {}

  /**
   * Rods saved on the way down; NaN where more are used up than are read.
   *
   * @param q advance that the heat allows over the limit at the mouth
   * @param lacks what a rod lacks at the end of the pierce [m], positive
   * @param end what a rod can burn with its end at the far end [m]
   */
  saved(q: number, lacks: number, end: number): number {
    const at = Math.log(q) / STEP;
    const k = Math.floor(at);
    let stretch = this.stretches.get(k) ?? this.stretch(k, FEW);
    weightsAt(at - k, this.weights);
    let rods = 1;
    let burned = 0;
    for (;;) {
      while (rods < stretch.rods && stretch.burned[rods * ROUND + 2]! < lacks) rods++;
      burned = this.read(stretch, rods);
      while (rods < stretch.rods && burned < lacks) burned = this.read(stretch, ++rods);
      if (!(burned < lacks) || rods >= MOST) break;
      stretch = this.stretch(k, 2 * rods);
    }
    if (!(burned >= lacks)) return NaN;
    for (let before = 0; rods > 1 && (before = this.read(stretch, rods - 1)) >= lacks; rods--) burned = before;
    return burned / end - rods;
  }

  private read({ burned }: Stretch, rods: number): number {
    return weighed(burned, rods * ROUND, this.weights);
  }

  private stretch(k: number, rods: number): Stretch {
    const burned = new Float64Array((rods + 1) * ROUND);
    for (let i = 0; i < ROUND; i++) {
      const at = this.point(k + i - 2, rods);
      for (let rod = 1; rod <= rods; rod++) burned[rod * ROUND + i] = at[rod]!;
    }
    const made = { rods, burned };
    this.stretches.set(k, made);
    return made;
  }

  private point(k: number, rods: number): readonly number[] {
    const { burns, pace, halving, sharpness, points } = this;
    let point = points.get(k);
    if (!point) points.set(k, (point = { burned: [0], end: 0 }));
    const pierce: Pierce = { burnOff: pace, advance: 1, limit: Math.exp(-k * STEP), halving, sharpness };
    const { burned } = point;
    while (burned.length <= rods) {
      point.end = endOfRod(pierce, point.end, burns);
      burned.push(burned.at(-1)! + burns - point.end);
    }
    return burned;
  }
}

/** What the rods of a pierce rest on, in the order of the step `N_less`. */
const SYMBOLS = ['L_burn', 'x', 'u_rod', 'scatter', 'v', 'c', 's', 'sharp'];

function isAlike(column: Float64Array): boolean {
  for (let i = 1; i < column.length; i++) if (column[i] !== column[0]) return false;
  return true;
}

/** To 39 bits: what differs in the last ones alone is the same. */
function rounded(x: number): number {
  const over = x * (2 ** 14 + 1);
  return over - (over - x);
}

/**
 * Fills in the step `N_less` of many items. Those that go as the first does but for depth and flow are read from a lattice;
 * the ends of the others' rods are found one by one.
 */
export function fillRodsSaved(at: Evaluation, basis: Basis): void {
  if (!at.list.has('N_less')) return;
  // The width of a pilot seldom hangs on the item: what follows from a number alone is worked out once for all.
  const width = at.column('w');
  if (typeof width === 'object' && isAlike(width)) at.fill('w', width[0]!);
  const lacks = at.column('l_over');
  if (typeof lacks === 'number') return;
  const [burns, depth, burnOff, scatter, advance, limit, halving, sharpness] = SYMBOLS.map((symbol) =>
    at.column(symbol),
  ) as [Column, Column, Column, Column, Column, Column, Column, Column];
  const first = lacks.findIndex((lack) => lack > 0);
  if (first < 0) return;
  const saved = new Float64Array(lacks.length);
  // The same for all that go as the first does: numbers by themselves, since a list would cost more than what is read.
  const pace = (i: number): number => rounded((valueAt(burnOff, i) * valueAt(scatter, i)) / valueAt(advance, i));
  const half = (i: number): number => rounded(valueAt(halving, i));
  const [all, like, deep, sharp] = [valueAt(burns, first), pace(first), half(first), valueAt(sharpness, first)];
  const lattice = basis.reading(
    `pierces ${all} ${like} ${deep} ${sharp}`,
    () => new PierceLattice(all, like, deep, sharp),
  );
  for (let i = first; i < saved.length; i++) {
    const lack = lacks[i]!;
    if (!(lack > 0)) continue;
    const end = valueAt(burns, i) - valueAt(depth, i);
    if (!(end > 0)) {
      saved[i] = rodsSaved(NO_NUMBER_OF_RODS, end);
      continue;
    }
    const alike = valueAt(burns, i) === all && pace(i) === like && half(i) === deep && valueAt(sharpness, i) === sharp;
    let read = NaN;
    if (alike) read = lattice.saved(valueAt(advance, i) / valueAt(limit, i), lack, end);
    if (Number.isNaN(read)) {
      const pierce = {
        burnOff: valueAt(burnOff, i) * valueAt(scatter, i),
        advance: valueAt(advance, i),
        limit: valueAt(limit, i),
        halving: valueAt(halving, i),
        sharpness: valueAt(sharpness, i),
      };
      read = rodsSaved(rodsOnTheWay(pierce, valueAt(depth, i), valueAt(burns, i)), end);
    }
    saved[i] = read;
  }
  at.fill('N_less', saved);
}
