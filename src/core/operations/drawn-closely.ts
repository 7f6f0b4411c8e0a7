/** How many draws something is worked out from. */
import type { Percentile } from '../spread/draw-percentile.ts';
import { DRAWS } from './spread-item.ts';

/** Times that the draws are multiplied by, and how many are the most. */
const MORE = 4;
const MOST = 16 * DRAWS;

/**
 * What is worked out from draws, of as many as bring it close enough: first those of a plan, then four times as many and again, as far
 * as a power of two goes; the same ones every time.
 *
 * @param most draws at the most, where fewer than 16,384
 * Source: JCGM 101:2008, 7.9, of memory.
 */
export function drawnClosely<T>(
  from: (count: number) => T,
  parts: (found: T) => readonly Pick<Percentile, 'close'>[],
  most = Infinity,
): T {
  const limit = 2 ** Math.floor(Math.log2(Math.min(most, MOST)));
  for (let count = DRAWS; ; count = Math.min(MORE * count, limit)) {
    const found = from(count);
    if (count >= limit || parts(found).every(({ close }) => close)) return found;
  }
}
