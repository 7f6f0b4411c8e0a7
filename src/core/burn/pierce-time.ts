/**
 * Burning time [s] of a pierce whose advance is limited by slag getting out.
 *
 *     t = integral from 0 to x of dy / min(v, c / (1 + y / s))
 *       = x* / v + [(x - x*) + (x^2 - x*^2) / (2 s)] / c,   x* = clamp((c / v - 1) s, 0, x)
 *
 * `depth` x [m]; `advance` v [m/s], what the heat could remove; `limit` c [m/s], the advance slag allows at the
 * mouth; `halving` s [m], the depth at which slag has halved it. Source: common practice for the limit.
 */
export function pierceTime(depth: number, advance: number, limit: number, halving: number): number {
  const free = Math.min(Math.max((limit / advance - 1) * halving, 0), depth);
  return free / advance + (depth - free + (depth * depth - free * free) / (2 * halving)) / limit;
}
