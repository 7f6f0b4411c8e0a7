/** Sobol points: numbers that fill the unit cube more evenly than random ones, so that averages settle with far fewer draws. */
import { notWhole, tooHigh, tooLow } from '../messages.ts';
import { GOLDEN_INCREMENT, MIX, mix32 } from './mix32.ts';

/**
 * Primitive polynomial and first direction numbers of dimensions 2 to 64: [a, m1, m2, ...]; the degree is the count of m.
 *
 * Source: Joe and Kuo, "Constructing Sobol sequences with better two-dimensional projections", SIAM Journal on
 * Scientific Computing 30 (2008) 2635, table new-joe-kuo-6 as published by the authors.
 */
const DIRECTIONS: readonly (readonly [number, ...number[]])[] = [
  [0, 1],
  [1, 1, 3],
  [1, 1, 3, 1],
  [2, 1, 1, 1],
  [1, 1, 1, 3, 3],
  [4, 1, 3, 5, 13],
  [2, 1, 1, 5, 5, 17],
  [4, 1, 1, 5, 5, 5],
  [7, 1, 1, 7, 11, 19],
  [11, 1, 1, 5, 1, 1],
  [13, 1, 1, 1, 3, 11],
  [14, 1, 3, 5, 5, 31],
  [1, 1, 3, 3, 9, 7, 49],
  [13, 1, 1, 1, 15, 21, 21],
  [16, 1, 3, 1, 13, 27, 49],
  [19, 1, 1, 1, 15, 7, 5],
  [22, 1, 3, 1, 15, 13, 25],
  [25, 1, 1, 5, 5, 19, 61],
  [1, 1, 3, 7, 11, 23, 15, 103],
  [4, 1, 3, 7, 13, 13, 15, 69],
  [7, 1, 1, 3, 13, 7, 35, 63],
  [8, 1, 3, 5, 9, 1, 25, 53],
  [14, 1, 3, 1, 13, 9, 35, 107],
  [19, 1, 3, 1, 5, 27, 61, 31],
  [21, 1, 1, 5, 11, 19, 41, 61],
  [28, 1, 3, 5, 3, 3, 13, 69],
  [31, 1, 1, 7, 13, 1, 19, 1],
  [32, 1, 3, 7, 5, 13, 19, 59],
  [37, 1, 1, 3, 9, 25, 29, 41],
  [41, 1, 3, 5, 13, 23, 1, 55],
  [42, 1, 3, 7, 3, 13, 59, 17],
  [50, 1, 3, 1, 3, 5, 53, 69],
  [55, 1, 1, 5, 5, 23, 33, 13],
  [56, 1, 1, 7, 7, 1, 61, 123],
  [59, 1, 1, 7, 9, 13, 61, 49],
  [62, 1, 3, 3, 5, 3, 55, 33],
  [14, 1, 3, 1, 15, 31, 13, 49, 245],
  [21, 1, 3, 5, 15, 31, 59, 63, 97],
  [22, 1, 3, 1, 11, 11, 11, 77, 249],
  [38, 1, 3, 1, 11, 27, 43, 71, 9],
  [47, 1, 1, 7, 15, 21, 11, 81, 45],
  [49, 1, 3, 7, 3, 25, 31, 65, 79],
  [50, 1, 3, 1, 1, 19, 11, 3, 205],
  [52, 1, 1, 5, 9, 19, 21, 29, 157],
  [56, 1, 3, 7, 11, 1, 33, 89, 185],
  [67, 1, 3, 3, 3, 15, 9, 79, 71],
  [70, 1, 3, 7, 11, 15, 39, 119, 27],
  [84, 1, 1, 3, 1, 11, 31, 97, 225],
  [97, 1, 1, 1, 3, 23, 43, 57, 177],
  [103, 1, 3, 7, 7, 17, 17, 37, 71],
  [115, 1, 3, 1, 5, 27, 63, 123, 213],
  [122, 1, 1, 3, 5, 11, 43, 53, 133],
  [8, 1, 3, 5, 5, 29, 17, 47, 173, 479],
  [13, 1, 3, 3, 11, 3, 1, 109, 9, 69],
  [16, 1, 1, 1, 5, 17, 39, 23, 5, 343],
  [22, 1, 3, 1, 5, 25, 15, 31, 103, 499],
  [25, 1, 1, 1, 11, 11, 17, 63, 105, 183],
  [44, 1, 1, 5, 11, 9, 29, 97, 231, 363],
  [47, 1, 1, 5, 15, 19, 45, 41, 7, 383],
  [52, 1, 3, 7, 7, 31, 19, 83, 137, 221],
  [55, 1, 1, 1, 3, 23, 15, 111, 223, 83],
  [59, 1, 1, 5, 13, 31, 15, 55, 25, 161],
  [62, 1, 1, 3, 13, 25, 47, 39, 87, 257],
];

const BITS = 32;
export const SOBOL_DIMENSIONS = DIRECTIONS.length + 1;

/** The first direction integers of one dimension, counted from 0, by the recurrence of Sobol with the polynomial's coefficients. */
function directionIntegers(dimension: number, many = BITS): Uint32Array {
  const v = new Uint32Array(many);
  const [a, ...m] = DIRECTIONS[dimension - 1] ?? [0];
  const degree = m.length;
  for (let k = 0; k < many; k++) {
    if (k < degree || degree === 0) {
      v[k] = (m[k] ?? 1) << (BITS - 1 - k);
      continue;
    }
    const back = v[k - degree] ?? 0;
    let next = back ^ (back >>> degree);
    for (let i = 1; i < degree; i++) if ((a >>> (degree - 1 - i)) & 1) next ^= v[k - i] ?? 0;
    v[k] = next;
  }
  return v;
}

/** Digits scrambled one by one; the rest of a number is flipped by one hash of these, which keeps it uniform in its cell of 2^-12. */
const NESTED = 12;
/** Of these, digits whose flips are worked out once for all points. */
const TABLED = 10;

/** Cells of equal width in which a point's tabled digits place it. */
export const SOBOL_CELLS = 2 ** TABLED;

/** The hash of each place in the binary tree of digits, the same under every key; made when it is first asked for. */
let mixed: Int32Array | undefined;

/**
 * Flips of the tabled digits by the place of a cell: the coin of each level is the first bit of the hash of the digits above it and
 * the key. The hash is `mix32` but for its last line, which leaves the first bit as it is.
 */
function tabledFlips(key: number): Int32Array {
  const nodes = (mixed ??= Int32Array.from({ length: SOBOL_CELLS }, (_, node) => mix32(node)));
  const flips = new Int32Array(SOBOL_CELLS);
  for (let first = 1; first < SOBOL_CELLS; first *= 2) flipLevel(flips, nodes, key, first);
  return flips;
}

/** The flips of one more digit, before which so many may stand. A function of its own, so that an engine compiles it once, and not in the middle of its loop. */
function flipLevel(flips: Int32Array, nodes: Int32Array, key: number, first: number): void {
  const { imul } = Math;
  const by = MIX[0] | 0;
  const then = MIX[1] | 0;
  const digit = SOBOL_CELLS / 2 / first;
  // From the last prefix down, as two prefixes of the next level take the place of one.
  for (let prefix = first - 1; prefix >= 0; prefix--) {
    let h = nodes[first + prefix]! ^ key;
    h = imul(h ^ (h >>> 16), by);
    h = imul(h ^ (h >>> 13), then);
    const flip = flips[prefix]! + (h < 0 ? digit : 0);
    flips[2 * prefix] = flip;
    flips[2 * prefix + 1] = flip;
  }
}

/**
 * Owen's nested scramble: the digit at each level is flipped or kept by a coin that depends on all digits above it.
 * The coins are the hash of the place in the binary tree of digits and the key.
 */
function nestedScramble(key: number): (x: number) => number {
  const hash = (node: number): number => mix32(mix32(node) ^ key);
  const flips = tabledFlips(key);
  return (x) => {
    let flip = flips[x >>> (BITS - TABLED)]! << (BITS - TABLED);
    for (let level = TABLED; level < NESTED; level++)
      flip |= (hash((1 << level) | ((x >>> 1) >>> (BITS - 1 - level))) >>> 31) << (BITS - 1 - level);
    flip |= hash((1 << NESTED) | (x >>> (BITS - NESTED))) >>> NESTED;
    return (x ^ flip) >>> 0;
  };
}

const keyOf = (dimension: number, seed: number): number =>
  mix32(mix32(seed | 0) + Math.imul(dimension + 1, GOLDEN_INCREMENT));

/**
 * One coordinate of the first `count` Sobol points.
 *
 * x(n+1) = x(n) XOR v(c), c the lowest zero bit of n (Gray-code order). With a seed the coordinate is scrambled: it
 * stays as evenly spread and becomes uniform at random within each cell, never 0 or 1. Any power of two as `count`
 * puts exactly one point in each of that many equal intervals.
 *
 * @param dimension coordinate, 0 to 63
 * @param count     number of points, 1 to 2^24
 * @param seed      integer that picks the scramble; without it the plain sequence, which starts at 0
 * Source: Antonov and Saleev, USSR Computational Mathematics and Mathematical Physics 19 (1979) 252 (order); Joe and
 * Kuo 2008 (direction numbers); Owen, "Randomly permuted (t,m,s)-nets and (t,s)-sequences" (1995) (scramble).
 */
export function sobolColumn(dimension: number, count: number, seed?: number): Float64Array {
  if (!Number.isInteger(dimension)) throw notWhole('Sobol dimension', String(dimension));
  if (dimension < 0) throw tooLow('Sobol dimension', String(dimension), '0');
  if (dimension >= SOBOL_DIMENSIONS) throw tooHigh('Sobol dimension', String(dimension), String(SOBOL_DIMENSIONS - 1));
  if (!Number.isInteger(count)) throw notWhole('number of draws', String(count));
  if (count < 1) throw tooLow('number of draws', String(count), '1');
  if (count > 2 ** 24) throw tooHigh('number of draws', String(count), String(2 ** 24));
  const v = directionIntegers(dimension);
  const scramble = seed === undefined ? undefined : nestedScramble(keyOf(dimension, seed));
  const out = new Float64Array(count);
  let x = 0;
  for (let n = 0; n < count; n++) {
    out[n] = scramble ? (scramble(x >>> 0) + 0.5) / 2 ** BITS : (x >>> 0) / 2 ** BITS;
    x ^= v[BITS - 1 - Math.clz32(~n & (n + 1))] ?? 0;
  }
  return out;
}

/** The values of the cells of 1,024 in which the first `count` points lie in one coordinate, scrambled as by `sobolColumn`. */
export function sobolCells(values: Float64Array, dimension: number, count: number, seed: number): Float64Array {
  const v = directionIntegers(dimension, TABLED).map((x) => x >>> (BITS - TABLED));
  const column = new Float64Array(count);
  walk(values, v, tabledFlips(keyOf(dimension, seed)), column);
  return column;
}

/** A loop of its own, so that an engine compiles it once, and little with it. In Gray-code order the points of each power of two run back over those before. */
function walk(values: Float64Array, v: Uint32Array, flips: Int32Array, into: Float64Array): void {
  const cells = new Uint16Array(into.length);
  into[0] = values[flips[0]!]!;
  for (let k = 0, first = 1; first < into.length; k++, first *= 2) {
    const next = v[k]!;
    const end = Math.min(2 * first, into.length);
    for (let from = first - 1, to = first; to < end; from--, to++) {
      const cell = cells[from]! ^ next;
      cells[to] = cell;
      into[to] = values[cell ^ flips[cell]!]!;
    }
  }
}
