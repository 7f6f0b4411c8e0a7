/** Multipliers of `mix32`. */
export const MIX = [0x85ebca6b, 0xc2b2ae35] as const;

/**
 * Scatters the bits of a 32-bit integer so that neighbouring inputs give unrelated outputs; one to one.
 *
 * @returns unsigned 32-bit integer
 * Source: finaliser of MurmurHash3 (Appleby, public domain), constants included.
 */
export function mix32(n: number): number {
  let h = n;
  h = Math.imul(h ^ (h >>> 16), MIX[0]);
  h = Math.imul(h ^ (h >>> 13), MIX[1]);
  return (h ^ (h >>> 16)) >>> 0;
}

/** 2^32 divided by the golden ratio, an increment that spreads successive seeds. */
export const GOLDEN_INCREMENT = 0x9e3779b9;
