import * as messages from '../messages.ts';

/** A hole to pierce, with how much rod [m] it takes to get down to y [m]: rising, 0 at 0. */
export interface ListedHole {
  readonly depth: number;
  readonly consumed: (y: number) => number;
  /** Depth down to which a fresh rod, of which so much can burn [m], gets from a depth: there it just reaches with its stub. */
  readonly end: (from: number, burns: number) => number;
}

/** Part of a hole that one rod burns. */
export interface ListedPiece {
  /** Index of the hole in the list. */
  readonly hole: number;
  readonly from: number;
  readonly to: number;
  /** Length of rod it takes. */
  readonly burned: number;
}

export interface ListedRod {
  /** As stocked. */
  readonly length: number;
  readonly pieces: readonly ListedPiece[];
  readonly burned: number;
  /** Thrown away: the stub, and what no hole of the list could use. */
  readonly left: number;
}

export interface CutList {
  readonly rods: readonly ListedRod[];
  /** Rods that no plan can do without, however holes are shared among rods. */
  readonly bound: number;
  /** Whether the search was completed: no plan that ends each hole with one rod has fewer rods, or as few and shorter. */
  readonly exhausted: boolean;
}

interface Piece extends ListedPiece {
  readonly depth: number;
}

/** A rod while the plan is made: what it has burned, and the length it must have. */
interface Bin {
  burned: number;
  needs: number;
  readonly pieces: Piece[];
}

/** Rods looked at before the search is given up, once it has a plan: some 10 ms. */
const MOST_LOOKS = 100_000;
/** Holes of a longer list are not searched but placed once, each on the fullest rod it fits. */
const MOST_SEARCHED = 1000;
/** Depths of holes at which the bound is looked for; of more, as many are taken evenly. */
const MOST_LEVELS = 400;
const SLACK = 1e-9;

/**
 * Least rods, then least length of them, that pierce a list of holes with stubs left, by branch and bound.
 *
 * At depth y a rod must still reach from the holder outside to the face with its stub: remaining length >= stub + y. So
 * on one rod deeper holes come first, and pieces j in that order fit on a rod of length S where for each
 *
 *     sum over i <= j of burned_i + depth_j + stub <= S
 *
 * (earliest deadline first, Jackson 1955). A hole that one fresh rod cannot finish is begun with fresh rods, each burned
 * as deep as it reaches; every other hole is done by one rod. Among such plans the search is exact unless it is given
 * up. Whatever the plan, all that is burned deeper than y falls on the first S - stub - y of the rods, so
 *
 *     bound = max over y of ceil(burned deeper than y / (S - stub - y))
 *
 * `lengths` stocked, of one kind of rod, and `stub` in m. `#N/A` where the longest rod does not reach a hole's end.
 */
export function cutList(
  holes: readonly ListedHole[],
  lengths: readonly number[],
  stub: number,
  shownRod: string,
  shown: (x: number) => string,
): CutList {
  const stock = [...new Set(lengths)].sort((x, y) => x - y);
  const longest = stock[stock.length - 1] ?? NaN;
  for (const { depth } of holes)
    if (!(longest - stub > depth * (1 + SLACK)))
      throw messages.rodTooShort(shownRod, shown(longest - stub), shown(depth));
  const begun: Bin[] = [];
  const pieces = holes
    .map((hole, i) => lastPiece(hole, i, longest - stub, stub, begun))
    .sort((x, y) => y.depth - x.depth || y.burned - x.burned);
  const bound = leastRods(holes, longest - stub);
  const { bins, exhausted } = search(pieces, begun, stock, stub, bound);
  const fitting = (needs: number): number => stock.find((l) => l >= needs * (1 - SLACK)) ?? longest;
  const rods = bins.map((bin): ListedRod => {
    const length = fitting(bin.needs);
    return {
      length,
      pieces: bin.pieces.map(({ hole, from, to, burned }) => ({ hole, from, to, burned })),
      burned: bin.burned,
      left: length - bin.burned,
    };
  });
  return { rods, bound, exhausted };
}

/** The piece that ends a hole; rods that begin it, where it takes several, are put into `begun`. */
function lastPiece(
  { depth, consumed, end }: ListedHole,
  hole: number,
  reach: number,
  stub: number,
  begun: Bin[],
): Piece {
  let from = 0;
  for (;;) {
    const before = consumed(from);
    const spare = reach - depth - (consumed(depth) - before);
    if (spare >= -SLACK * reach) return { hole, from, to: depth, burned: consumed(depth) - before, depth };
    const to = Math.min(end(from, reach), depth);
    if (!(to > from)) throw messages.noSolution('a fresh rod gets no deeper: the rod is too short for the depth');
    const burned = consumed(to) - before;
    begun.push({ burned, needs: reach + stub, pieces: [{ hole, from, to, burned, depth: to }] });
    from = to;
  }
}

/** The bound of `cutList`; the most is taken over every depth at which a hole begins or ends, and steps between. */
function leastRods(holes: readonly ListedHole[], reach: number): number {
  const deepest = holes.reduce((most, h) => Math.max(most, h.depth), 0);
  const steps = 64;
  const depths = [...new Set(holes.map((h) => h.depth))].sort((x, y) => x - y);
  const every = Math.ceil(depths.length / MOST_LEVELS);
  const levels = [
    ...new Set([
      ...depths.filter((_, i) => i % every === 0),
      ...Array.from({ length: steps }, (_, i) => (deepest * i) / steps),
    ]),
  ].filter((y) => y < deepest);
  const most = Math.max(
    ...levels.map(
      (y) =>
        holes.reduce((sum, { depth, consumed }) => (depth > y ? sum + consumed(depth) - consumed(y) : sum), 0) /
        (reach - y),
    ),
  );
  return Math.max(1, Math.ceil(most - SLACK));
}

/** Each piece, deepest first, on the fullest rod it fits, or on a new one. */
function placedOnce(pieces: readonly Piece[], begun: readonly Bin[], longest: number, stub: number): readonly Bin[] {
  const bins: Bin[] = begun.map((b) => ({ ...b, pieces: [...b.pieces] }));
  for (const piece of pieces) {
    const end = piece.burned + piece.depth + stub;
    let fullest: Bin | undefined;
    for (const bin of bins)
      if (bin.burned + end <= longest * (1 + SLACK) && bin.burned > (fullest?.burned ?? -Infinity)) fullest = bin;
    if (fullest) {
      fullest.needs = Math.max(fullest.needs, fullest.burned + end);
      fullest.burned += piece.burned;
      fullest.pieces.push(piece);
    } else bins.push({ burned: piece.burned, needs: end, pieces: [piece] });
  }
  return bins;
}

/** Depth-first search over the pieces, deepest first: each goes on a rod it fits, or on a new one. */
function search(
  pieces: readonly Piece[],
  begun: readonly Bin[],
  stock: readonly number[],
  stub: number,
  bound: number,
): { readonly bins: readonly Bin[]; readonly exhausted: boolean } {
  const longest = stock[stock.length - 1] ?? NaN;
  const shortest = stock[0] ?? NaN;
  const lengthFor = (needs: number): number => stock.find((l) => l >= needs * (1 - SLACK)) ?? longest;
  const lengthOf = (plan: readonly Bin[]): number => plan.reduce((sum, b) => sum + lengthFor(b.needs), 0);
  /** Whether no plan can be better than one of so many rods and such a length. */
  const isLeast = (count: number, length: number): boolean =>
    count <= bound && (stock.length === 1 || length <= count * shortest * (1 + SLACK));
  if (pieces.length > MOST_SEARCHED) {
    const placed = placedOnce(pieces, begun, longest, stub);
    return { bins: placed, exhausted: isLeast(placed.length, lengthOf(placed)) };
  }
  const bins: Bin[] = begun.map((b) => ({ ...b, pieces: [...b.pieces] }));
  let best: Bin[] | undefined;
  let bestLength = Infinity;
  let looks = 0;
  const total = (): number => lengthOf(bins);
  const isBetter = (count: number, length: number): boolean =>
    !best || count < best.length || (count === best.length && length < bestLength - SLACK);
  /** Whether nothing can be better than what was found. */
  const done = (): boolean => best !== undefined && isLeast(best.length, bestLength);
  const remaining = new Float64Array(pieces.length + 1);
  for (let i = pieces.length - 1; i >= 0; i--) remaining[i] = (remaining[i + 1] ?? 0) + (pieces[i]?.burned ?? 0);
  const givenUp = (): boolean => best !== undefined && looks > MOST_LOOKS;
  const place = (i: number, floor: number): void => {
    looks += 1 + bins.length;
    if (givenUp() || done()) return;
    const piece = pieces[i];
    if (!piece) {
      if (isBetter(bins.length, total())) {
        best = bins.map((b) => ({ ...b, pieces: [...b.pieces] }));
        bestLength = total();
      }
      return;
    }
    // What is left must fit into what the rods have to spare, or it takes new rods.
    const spare = bins.reduce((sum, b) => sum + Math.max(0, longest - stub - b.burned), 0);
    const further = Math.max(0, Math.ceil(((remaining[i] ?? 0) - spare) / (longest - stub) - SLACK));
    if (!isBetter(bins.length + further, total() + further * shortest)) return;
    const before = pieces[i - 1];
    const alike = before !== undefined && before.depth === piece.depth && before.burned === piece.burned;
    const tried = new Set<string>();
    const candidates = bins
      .map((bin, at) => ({ bin, at, needs: Math.max(bin.needs, bin.burned + piece.burned + piece.depth + stub) }))
      .filter(({ at, needs }) => needs <= longest * (1 + SLACK) && (!alike || at >= floor))
      .sort((x, y) => y.bin.burned - x.bin.burned);
    for (const { bin, at, needs } of candidates) {
      const state = `${bin.burned} ${bin.needs}`;
      if (tried.has(state) && !alike) continue;
      tried.add(state);
      const { burned, needs: had } = bin;
      bin.burned += piece.burned;
      bin.needs = needs;
      bin.pieces.push(piece);
      place(i + 1, at);
      bin.pieces.pop();
      bin.burned = burned;
      bin.needs = had;
    }
    bins.push({ burned: piece.burned, needs: piece.burned + piece.depth + stub, pieces: [piece] });
    place(i + 1, bins.length - 1);
    bins.pop();
  };
  place(0, 0);
  return { bins: best ?? bins, exhausted: !givenUp() || done() };
}
