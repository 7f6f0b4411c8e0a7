/** How a rod burns off as it pierces: what it burns of itself in a time, and how fast it gets deeper. SI. */
export interface Pierce {
  /** Length of rod burned in a time [m/s]. */
  readonly burnOff: number;
  /** Advance that the heat allows [m/s]. */
  readonly advance: number;
  /** Advance that slag allows at the mouth [m/s], and the depth at which it has halved it [m]. */
  readonly limit: number;
  readonly halving: number;
}

/** Rods that no pierce takes: the rest is counted as if it were done from there. */
const MOST_RODS = 1e4;

/**
 * Length of rod [m] burned in piercing down to a depth y [m].
 *
 *     l(y) = u y* / v + u (y - y*) (1 + (y + y*) / (2 s)) / c,   y* = clamp((c / v - 1) s, 0, y)
 *
 * u burn-off of the rod, v the advance of the heat, c that of the slag at the mouth, s the depth that halves it. Source: the
 * steps of burning; common practice for the limit.
 *
 * @example rodBurned({ burnOff: 0.02, advance: 0.01, limit: 0.02, halving: 0.05 }, 0.1) // 0.225
 */
export function rodBurned({ burnOff: u, advance: v, limit: c, halving: s }: Pierce, y: number): number {
  const free = Math.min(Math.max((c / v - 1) * s, 0), y);
  return u * (free / v + ((y - free) * (1 + (y + free) / (2 * s))) / c);
}

/**
 * Depth [m] down to which a fresh rod pierces on from a depth [m]: there its length is the stub and that depth, so that it no
 * longer reaches from the holder to the face.
 *
 *     to + l(to) - l(from) = L - stub
 *
 * @param burns length of a rod but its stub [m]
 * @example endOfRod({ burnOff: 0.02, advance: 0.01, limit: 1, halving: 10 }, 0, 0.9) // 0.3
 */
export function endOfRod(pierce: Pierce, from: number, burns: number): number {
  const { burnOff: u, advance: v, limit: c, halving: s } = pierce;
  const before = rodBurned(pierce, from);
  const freed = (burns + before) / (1 + u / v);
  const free = Math.max((c / v - 1) * s, 0);
  if (freed <= free) return freed;
  // u y^2 / (2 s c) + (1 + u / c) y = burns + l(from) + what the slag's law would have counted more down to `free`.
  const [square, plain] = [u / (2 * s * c), 1 + u / c];
  const rest = burns + before - (u * free) / v + (u * free * (1 + free / (2 * s))) / c;
  return (2 * rest) / (plain + Math.sqrt(plain * plain + 4 * square * rest));
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
 * @example rodsOnTheWay({ burnOff: 0.02, advance: 0.01, limit: 1, halving: 10 }, 0.55, 0.9).rods // 2
 */
export function rodsOnTheWay(pierce: Pierce, depth: number, burns: number): Deep {
  if (!(burns > depth)) return { rods: Infinity, burned: 0 };
  let [rods, from] = [0, 0];
  for (;;) {
    const to = endOfRod(pierce, from, burns);
    if (!(to > from && to < depth * (1 - 1e-12)) || rods >= MOST_RODS) return { rods, burned: rodBurned(pierce, from) };
    from = to;
    rods++;
  }
}
