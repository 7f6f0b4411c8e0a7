import { mix32, GOLDEN_INCREMENT } from './mix32.ts';
import { normalQuantile } from './normal.ts';

/** Repeatable random numbers from a seed. */
export interface Seeded {
  /** Unsigned 32-bit integer. */
  readonly bits: () => number;
  /** Uniform number in [0, 1) with 53 bits. */
  readonly uniform: () => number;
  /** Standard normal number. */
  readonly normal: () => number;
}

const rotate = (x: number, k: number): number => (x << k) | (x >>> (32 - k));

/** Generator xoshiro128** in a given state of four 32-bit integers, not all zero. */
export function xoshiro128(state: readonly [number, number, number, number]): Seeded {
  let [a, b, c, d] = state;
  const bits = (): number => {
    const result = Math.imul(rotate(Math.imul(b, 5), 7), 9) >>> 0;
    const t = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= t;
    d = rotate(d, 11);
    return result;
  };
  const uniform = (): number => ((bits() >>> 5) * 2 ** 26 + (bits() >>> 6)) / 2 ** 53;
  const normal = (): number => {
    let p = uniform();
    while (p === 0) p = uniform();
    return normalQuantile(p);
  };
  return { bits, uniform, normal };
}

/**
 * Repeatable random numbers: the same seed gives the same numbers everywhere.
 *
 * @param seed integer; only its low 32 bits count
 * Source: Blackman and Vigna, "Scrambled linear pseudorandom number generators", ACM Transactions on Mathematical
 * Software 47 (2021) 36, xoshiro128** 1.1, public domain. The state is filled from the seed by a counter through `mix32`.
 */
export function seeded(seed: number): Seeded {
  const word = (i: number): number => mix32((seed + Math.imul(i, GOLDEN_INCREMENT)) | 0);
  return xoshiro128([word(1), word(2), word(3), word(4)]);
}
