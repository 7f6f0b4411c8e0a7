import { power } from '../model/power.ts';

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

/** How much slag holds a pierce up at a depth [m], beside the heat: the power of the one time over the other. */
const slagAt = ({ advance: v, limit: c, halving: s, sharpness: n }: Pierce, y: number): number =>
  power((v / c) * (1 + y / (2 * s)), n);

/** Length of rod burned for each metre of a pierce, on the whole way down. */
const paceOf = ({ burnOff: u, advance: v, sharpness: n }: Pierce, slag: number): number =>
  (u / v) * power(1 + slag, 1 / n);

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
export const rodBurned = (pierce: Pierce, y: number): number => y * paceOf(pierce, slagAt(pierce, y));

/** Steps at most, of which two or three are taken. */
const MOST_STEPS = 50;

/**
 * Depth [m] at which depth and length burned down to it are `all` together, from a depth near it, by Halley's steps: the slope of
 * the pace is P' = P a / (2 s + y), a = slag / (1 + slag), and that of its slope P'' = P' (1 - a) (n - 1) / (2 s + y).
 */
function depthOf(pierce: Pierce, all: number, from: number): number {
  let to = from;
  for (let i = 0; i < MOST_STEPS; i++) {
    const slag = slagAt(pierce, to);
    const pace = paceOf(pierce, slag);
    const over = to * (1 + pace) - all;
    const near = 1 / (2 * pierce.halving + to);
    const rise = (pace * near * slag) / (1 + slag);
    const bend = (rise * near * (pierce.sharpness - 1)) / (1 + slag);
    const slope = 1 + pace + to * rise;
    to -= over / (slope - (over * (2 * rise + to * bend)) / (2 * slope));
    // Each step cubes what is left over: the next would be beyond the last bits.
    if (!(Math.abs(over) > 3e-6 * all)) break;
  }
  return to;
}

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
  const all = burns + rodBurned(pierce, from);
  // The pace only slows with depth.
  return depthOf(pierce, all, all / (1 + paceOf(pierce, slagAt(pierce, from))));
}

/** What is burned up on the way down one pierce: rods, each until it is its stub and the depth long, and the length they burn [m]. */
export interface Deep {
  readonly rods: number;
  readonly burned: number;
}

/** What is burned up on the way to a depth that no rod reaches. */
export const NO_NUMBER_OF_RODS: Deep = { rods: Infinity, burned: 0 };

/** Rods that are saved by ending less deep than the last one, which can burn `end` [m]. */
export const rodsSaved = ({ rods, burned }: Deep, end: number): number => burned / end - rods;

/**
 * Rods that a pierce of a depth [m] uses up before the one that ends it.
 *
 * @param burns length of a rod but its stub [m]; no number of rods is enough where it is not more than the depth
 * @example rodsOnTheWay({ burnOff: 0.02, advance: 0.01, limit: 1, halving: 10, sharpness: 3 }, 0.55, 0.9).rods // 2
 */
export function rodsOnTheWay(pierce: Pierce, depth: number, burns: number): Deep {
  if (!(burns > depth)) return NO_NUMBER_OF_RODS;
  const pace = paceOf(pierce, slagAt(pierce, depth));
  const last = depth * (1 + pace);
  let [rods, from, burned] = [0, 0, 0];
  // As if the pace of the whole way held from the mouth on; then as if it went on slowing as it did by the rod before.
  let ahead = 1 / (1 + pace);
  let slowing = 1;
  // A fresh rod ends the pierce where it is long enough at its end: that needs no solving.
  while (last - burned - burns > 1e-12 * burns && rods < MOST_RODS) {
    const to = depthOf(pierce, burns + burned, from + (burns - from) * ahead * slowing);
    if (!(to > from)) break;
    const went = (to - from) / (burns - from);
    slowing = Math.min(1, went / ahead);
    ahead = went;
    burned += burns - to;
    from = to;
    rods++;
  }
  return { rods, burned };
}
