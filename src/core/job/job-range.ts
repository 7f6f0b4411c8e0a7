/** A value with what it stays above in nine cases of ten, and under in nine of ten. */
export interface Ranged {
  readonly value: number;
  /** P10. */
  readonly low: number;
  /** P90; Infinity where it is beyond reach. */
  readonly high: number;
}

/** One item of a list: its range, and how far its own scatter alone takes it down and up (P10, P90). */
export interface RangedItem extends Ranged {
  readonly ownDown: number;
  readonly ownUp: number;
}

/**
 * Range of the sum of a list whose items share crew and gas and have their own scatter besides.
 *
 * The shared part of each item's range moves with that of all others and adds up; the own part is independent and adds
 * up in squares: down = sqrt( (sum of sqrt(d_i^2 - o_i^2))^2 + sum of o_i^2 ), d_i the item's value - low, o_i its own
 * part; the same upwards. One item keeps its range; a list lies between the sum of the lows and that of the highs.
 *
 * Range of validity: scatter well below the value, near normal. For the whole truth draw the job (`jobStock`).
 */
export function jobRange(items: readonly RangedItem[]): Ranged {
  const value = items.reduce((sum, i) => sum + i.value, 0);
  const reach = (departure: (i: RangedItem) => number, own: (i: RangedItem) => number): number => {
    let shared = 0;
    let squares = 0;
    for (const i of items) {
      const all = Math.max(0, departure(i));
      if (all === Infinity) return Infinity;
      const alone = Math.min(own(i), all);
      shared += Math.sqrt(all * all - alone * alone);
      squares += alone * alone;
    }
    return Math.sqrt(shared * shared + squares);
  };
  return {
    value,
    low:
      value -
      reach(
        (i) => i.value - i.low,
        (i) => i.ownDown,
      ),
    high:
      value +
      reach(
        (i) => i.high - i.value,
        (i) => i.ownUp,
      ),
  };
}
