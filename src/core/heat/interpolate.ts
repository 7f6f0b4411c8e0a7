/**
 * Straight-line interpolation in a table with rising `x`, held at its ends.
 *
 * @example interpolate([0, 10], [0, 100], 3) // 30
 */
export function interpolate(x: readonly number[], y: readonly number[], at: number): number {
  const last = x.length - 1;
  if (at <= x[0]!) return y[0]!;
  if (at >= x[last]!) return y[last]!;
  let low = 0;
  let high = last;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (x[middle]! <= at) low = middle;
    else high = middle;
  }
  const share = (at - x[low]!) / (x[high]! - x[low]!);
  return y[low]! + share * (y[high]! - y[low]!);
}
