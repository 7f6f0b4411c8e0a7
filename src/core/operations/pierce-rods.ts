/** How a rod burns off as it pierces: what it burns of itself in a time, and how fast it gets deeper. SI. */
export interface Pierce {
  /** Length of rod burned in a time [m/s]. */
  readonly burnOff: number;
  /** Advance that the heat allows [m/s]. */
  readonly advance: number;
  /** Advance that slag allows at the mouth [m/s], and the depth at which it has halved it [m]. */
  readonly limit: number;
  readonly halving: number;
  /** How sharply the slower of the two decides. */
  readonly sharpness: number;
}

/** Rods that no pierce takes: the rest is counted as if it were done from there. */
const MOST_RODS = 1e4;

/** Length of rod [m] burned in piercing down to a depth [m], and how much more for each metre deeper. */
function burnedAt(
  { burnOff: u, advance: v, limit: c, halving: s, sharpness: n }: Pierce,
  y: number,
): readonly [number, number] {
  const deep = 1 + y / (2 * s);
  const slag = ((v / c) * deep) ** n;
  const pace = (u / v) * (1 + slag) ** (1 / n);
  return [y * pace, pace * (1 + ((slag / (1 + slag)) * (deep - 1)) / deep)];
}

/**
 * Length of rod [m] burned in piercing down to a depth y [m].
 *
 *     l(y) = u y (1 / v^n + [(1 + y / (2 s)) / c]^n)^(1/n)
 *
 * u burn-off of the rod, v the advance of the heat, c that of the slag at the mouth, s the depth that halves it, n how sharply
 * the slower of the two decides. Source: the steps of burning; common practice for the limit.
 *
 * @example rodBurned({ burnOff: 0.02, advance: 0.01, limit: 0.02, halving: 0.05, sharpness: 2 }, 0.1) // 0.28284
 */
export const rodBurned = (pierce: Pierce, y: number): number => burnedAt(pierce, y)[0];

/** Newton's steps at most; from above they come down to the root of a curve that bends up. */
const MOST_STEPS = 50;

/**
 * Depth [m] down to which a fresh rod pierces on from a depth [m]: there its length is the stub and that depth, so that it no
 * longer reaches from the holder to the face.
 *
 *     to + l(to) - l(from) = L - stub
 *
 * @param burns length of a rod but its stub [m]
 * @example endOfRod({ burnOff: 0.02, advance: 0.01, limit: 1, halving: 10, sharpness: 3 }, 0, 0.9) // 0.3
 */
export function endOfRod(pierce: Pierce, from: number, burns: number): number {
  const [before, more] = burnedAt(pierce, from);
  // The pace only slows with depth.
  let to = from + (burns - from) / (1 + more);
  for (let i = 0; i < MOST_STEPS; i++) {
    const [burned, rise] = burnedAt(pierce, to);
    const over = to + burned - before - burns;
    to -= over / (1 + rise);
    // Each step squares what is left over: the next would be beyond the last bits.
    if (!(over > 1e-8 * burns)) break;
  }
  return to;
}

/** What is burned up on the way down one pierce: rods, each until it is its stub and the depth long, and the length they burn [m]. */
export interface Deep {
  readonly rods: number;
  readonly burned: number;
}

/**
 * Rods that a pierce of a depth [m] uses up before the one that ends it.
 *
 * @param burns length of a rod but its stub [m]; no number of rods is enough where it is not more than the depth
 * @example rodsOnTheWay({ burnOff: 0.02, advance: 0.01, limit: 1, halving: 10, sharpness: 3 }, 0.55, 0.9).rods // 2
 */
export function rodsOnTheWay(pierce: Pierce, depth: number, burns: number): Deep {
  if (!(burns > depth)) return { rods: Infinity, burned: 0 };
  const all = rodBurned(pierce, depth);
  let [rods, from, burned] = [0, 0, 0];
  // A fresh rod ends the pierce where it is long enough at its end: that needs no solving.
  while (depth + all - burned - burns > 1e-12 * burns && rods < MOST_RODS) {
    const to = endOfRod(pierce, from, burns);
    if (!(to > from)) break;
    burned += burns - to;
    from = to;
    rods++;
  }
  return { rods, burned };
}
