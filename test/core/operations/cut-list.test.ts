import { describe, expect, it } from 'vitest';
import { seeded } from '../../../src/core/estimate/seeded.ts';
import { cutList, type CutList, type ListedHole } from '../../../src/core/operations/cut-list.ts';

const shown = (x: number): string => `${x} m`;
/** Holes that take `rate` of rod for each length of depth. */
const holes = (depths: readonly number[], rate = 2): readonly ListedHole[] => depths.map((depth) => ({ depth, consumed: (y) => rate * y }));
const plan = (depths: readonly number[], lengths: readonly number[], stub = 3, rate = 2): CutList => cutList(holes(depths, rate), lengths, stub, 'x', shown);

/** Every way to share whole holes among rods of one length, by trying all partitions. */
function fewestByPartition(depths: readonly number[], length: number, stub: number, rate: number): number {
  let best = Infinity;
  const fits = (group: readonly number[]): boolean => {
    let burned = 0;
    return [...group].sort((x, y) => y - x).every((d) => (burned += rate * d) + d + stub <= length + 1e-9);
  };
  const place = (i: number, groups: readonly (readonly number[])[]): void => {
    if (groups.length >= best) return;
    if (i === depths.length) {
      best = groups.length;
      return;
    }
    const d = depths[i] as number;
    groups.forEach((g, k) => {
      const grown = [...g, d];
      if (fits(grown)) place(i + 1, groups.map((other, j) => (j === k ? grown : other)));
    });
    place(i + 1, [...groups, [d]]);
  };
  place(0, []);
  return best;
}

/** Whether every piece is burned by a rod that still reaches its face with the stub, and every hole gets to its end once. */
function check(depths: readonly number[], { rods }: CutList, stub: number, rate: number): void {
  const reached = depths.map(() => 0);
  for (const rod of rods) {
    let left = rod.length;
    for (const { from, to, burned } of rod.pieces) {
      expect(burned).toBeCloseTo(rate * (to - from), 9);
      left -= burned;
      expect(left).toBeGreaterThanOrEqual(to + stub - 1e-6);
    }
    expect(rod.left).toBeCloseTo(left, 9);
    for (const { hole, from, to } of rod.pieces) reached[hole] = (reached[hole] as number) + (to - from);
  }
  reached.forEach((depth, i) => expect(depth).toBeCloseTo(depths[i] as number, 6));
}

describe('the rods for a list of depths', () => {
  it('is one rod for one shallow hole, and the stub that is left says so', () => {
    const { rods, bound, exhausted } = plan([4], [36]);
    expect(rods).toHaveLength(1);
    expect(rods[0]).toMatchObject({ length: 36, burned: 8, left: 28 });
    expect([bound, exhausted]).toEqual([1, true]);
  });

  it('shares a rod among holes, deepest first, since a rod gets shorter', () => {
    // 2 x 8 + 8 + 3 = 27 for the deep one; then 2 x (8 + 4) + 4 + 3 = 31 with the other. The other way round the deep one would need 2 x 12 + 8 + 3 = 35.
    const { rods } = plan([4, 8], [31]);
    expect(rods).toHaveLength(1);
    expect(rods[0]?.pieces.map((p) => p.hole)).toEqual([1, 0]);
  });

  it('begins a hole that one rod cannot finish with fresh rods, each burned as deep as it reaches', () => {
    // A 36 in rod with a 3 in stub: 2 y + y + 3 = 36 at 11 in; from there 2 (y - 11) + y + 3 = 36 at 55/3 in.
    const depths = [20];
    const list = plan(depths, [36]);
    expect(list.rods.map((r) => r.pieces[0]?.to)).toEqual([expect.closeTo(11, 6), expect.closeTo(55 / 3, 6), 20]);
    check(depths, list, 3, 2);
  });

  it('takes the least that whole holes allow: as trying every way to share them', () => {
    const { uniform: random } = seeded(20261125);
    for (let k = 0; k < 60; k++) {
      const depths = Array.from({ length: 3 + Math.floor(random() * 5) }, () => Math.round((1 + random() * 9) * 4) / 4);
      const list = plan(depths, [36]);
      check(depths, list, 3, 2);
      expect(list.exhausted).toBe(true);
      expect(list.rods.length, depths.join(' ')).toBe(fewestByPartition(depths, 36, 3, 2));
      expect(list.bound).toBeLessThanOrEqual(list.rods.length);
    }
  });

  it('never goes under its bound, and the bound holds for what is burned deep down as for the whole', () => {
    // All of a 30 in hole below 25 in falls on the first 36 - 3 - 25 = 8 in of rods: 5 x 10 in need 7 of them.
    expect(plan([30, 30, 30, 30, 30], [36]).bound).toBeGreaterThanOrEqual(7);
    expect(plan([30], [36], 3, 2).rods.length).toBeGreaterThanOrEqual(plan([30], [36], 3, 2).bound);
  });

  it('takes the shorter rods of a stock where they do', () => {
    const { rods } = plan([4, 9, 9], [24, 36]);
    expect(rods).toHaveLength(2);
    expect(rods.map((r) => r.length).sort()).toEqual([36, 36]);
    expect(plan([2], [24, 36]).rods[0]?.length).toBe(24);
    const sum = (list: CutList): number => list.rods.reduce((total, r) => total + r.length, 0);
    expect(sum(plan([9, 9, 4, 4, 2], [24, 36, 48]))).toBeLessThanOrEqual(sum(plan([9, 9, 4, 4, 2], [48])));
  });

  it('says where no rod reaches', () => {
    expect(() => plan([33.1], [24, 36])).toThrow('a x rod reaches 33 m with its stub; the work is 33.1 m deep');
  });

  it('packs a long list near its bound', () => {
    const depths = Array.from({ length: 300 }, (_, i) => 2 + ((i * 7) % 13) / 1.1);
    const list = plan(depths, [36, 48]);
    check(depths, list, 3, 2);
    expect(list.rods.length).toBeLessThanOrEqual(1.25 * list.bound);
  });
});
