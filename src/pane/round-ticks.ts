/** Steps between marks that read easily. */
const ROUND = [1, 2, 5, 10];

/** Round numbers from `low` to `high`, both ends counted: at most `most` steps of 1, 2 or 5 times a power of ten; none where there is no span. */
export function roundTicks(low: number, high: number, most = 4): readonly number[] {
  if (!(high > low)) return [];
  const rough = (high - low) / most;
  const power = 10 ** Math.floor(Math.log10(rough) + 1e-9);
  const step = (ROUND.find((m) => m * power >= rough * (1 - 1e-9)) ?? 10) * power;
  const [first, last] = [Math.ceil(low / step - 1e-9), Math.floor(high / step + 1e-9)];
  // Multiplied rather than added up, and cut to the digits that the step has, so that 0.3 stays 0.3.
  return Array.from({ length: last - first + 1 }, (_, i) => Number(((first + i) * step).toPrecision(12)));
}
