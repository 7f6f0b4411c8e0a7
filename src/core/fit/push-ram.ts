import { ramBeyondList } from '../messages.ts';
import type { Trace } from '../model/trace.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { POUND_FORCE } from '../units/quantities.ts';
import { showQuantity } from '../units/show-quantity.ts';

const SHORT_TON = 2000 * POUND_FORCE;

/** Hydraulic rams by rating [short tons]: classes that are commonly hired. Common practice, no source. */
export const RAM_TONS = [5, 10, 15, 20, 25, 30, 50, 60, 75, 100, 150, 200, 250, 300, 400, 500, 600, 800, 1000] as const;

export interface Ram {
  /** Rating of the ram to bring [N]. */
  readonly rating: number;
  /** Force needed over the rating. */
  readonly used: number;
}

/**
 * The ram to bring: the smallest common rating that the force uses only in part.
 *
 * Smallest rating with rating x use >= force.
 * force [N], use [1], ratings [N], rising; result [N]. `#N/A` where the force is beyond the largest.
 * Source: common practice; rams are worked below their rating, since seals, gauge and alignment take their share.
 */
export function pushRam(
  force: number,
  use: number,
  ratings: readonly number[] = RAM_TONS.map((tons) => tons * SHORT_TON),
  system: UnitSystem = 'US',
  trace?: Trace,
): Ram {
  const needed = force / use;
  // A force that fits a rating to within rounding does not need the next one.
  const rating = ratings.find((each) => each * (1 + 1e-9) >= needed);
  const largest = ratings[ratings.length - 1] ?? 0;
  if (rating === undefined)
    throw ramBeyondList(
      showQuantity(force, 'force', system),
      showQuantity(largest * use, 'force', system),
      showQuantity(largest, 'force', system),
    );
  trace?.add({
    name: 'rating needed',
    symbol: 'R_min',
    value: needed,
    quantity: 'force',
    formula: 'force / share of its rating at which a ram is worked',
    expression: 'F / use',
    kind: 'calculated',
    source: 'arithmetic',
  });
  trace?.add({
    name: 'ram',
    symbol: 'R',
    value: rating,
    quantity: 'force',
    formula: 'smallest common rating that is not less',
    kind: 'common practice',
    source: 'common practice',
  });
  return { rating, used: force / rating };
}
