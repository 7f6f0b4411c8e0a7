import { describe, expect, it } from 'vitest';
import { seeded } from '../../../src/core/spread/seeded.ts';
import { cutList, type CutList, type ListedHole } from '../../../src/core/operations/cut-list.ts';

const shown = (x: number): string => `${x} m`;
/** Holes that take `rate` of rod for each length of depth. */
const holes = (depths: readonly number[], rate = 2): readonly ListedHole[] =>
  depths.map((depth) => ({
    depth,
    consumed: (y) => rate * y,
    end: (from, burns) => (burns + rate * from) / (1 + rate),
  }));
/** A hole of which no rod is burned on the way. */
const ended = (depth: number, consumed: (y: number) => number): ListedHole => ({ depth, consumed, end: () => depth });
const plan = (depths: readonly number[], lengths: readonly number[], stub = 3, rate = 2): CutList =>
  cutList(holes(depths, rate), lengths, stub, 'x', shown);

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
      if (fits(grown))
        place(
          i + 1,
          groups.map((other, j) => (j === k ? grown : other)),
        );
    });
    place(i + 1, [...groups, [d]]);
  };
  place(0, []);
  return best;
}

/** Least rods, then least length of them, over all partitions into whole holes; each rod as long as its holes, deepest first, ask for. */
function shortestByPartition(
  depths: readonly number[],
  stock: readonly number[],
  stub: number,
  rate: number,
): readonly [number, number] {
  const lengths = [...stock].sort((x, y) => x - y);
  const lengthFor = (group: readonly number[]): number => {
    let burned = 0;
    const needs = Math.max(...[...group].sort((x, y) => y - x).map((d) => (burned += rate * d) + d + stub));
    return lengths.find((l) => l >= needs - 1e-9) ?? Infinity;
  };
  let best: readonly [number, number] = [Infinity, Infinity];
  const place = (i: number, groups: readonly (readonly number[])[]): void => {
    if (i === depths.length) {
      const total = groups.reduce((sum, g) => sum + lengthFor(g), 0);
      if (total < Infinity && (groups.length < best[0] || (groups.length === best[0] && total < best[1])))
        best = [groups.length, total];
      return;
    }
    const d = depths[i] as number;
    groups.forEach((g, k) =>
      place(
        i + 1,
        groups.map((other, j) => (j === k ? [...g, d] : other)),
      ),
    );
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

  it('takes as few rods as trying every way to share whole holes among a stock of several lengths, and of those the shortest', () => {
    const { uniform: random } = seeded(20261126);
    for (let k = 0; k < 150; k++) {
      const [stock, stub, rate] = [
        [[24, 36], 3, 2],
        [[18, 24, 36, 48], 3, 1.5],
        [[30, 20, 25, 20], 2, 3],
      ][k % 3] as [number[], number, number];
      const deepest = (Math.max(...stock) - stub) / (1 + rate);
      // Whole and half sixths, so that many holes are alike and many rods end even.
      const depths = Array.from(
        { length: 2 + Math.floor(random() * 6) },
        () => (Math.ceil(random() * 6) * deepest) / 6,
      );
      const list = plan(depths, stock, stub, rate);
      check(depths, list, stub, rate);
      const total = list.rods.reduce((sum, r) => sum + r.length, 0);
      expect([list.rods.length, total], `${depths.join(' ')} of ${stock.join(' ')}`).toEqual(
        shortestByPartition(depths, stock, stub, rate),
      );
      expect(list.exhausted).toBe(true);
      for (const r of list.rods)
        expect(r.burned).toBeCloseTo(
          r.pieces.reduce((sum, p) => sum + p.burned, 0),
          12,
        );
    }
  });

  it.each([
    // Lists where filling the rods deepest first takes a rod too many, or longer ones.
    [[7, 2, 2, 10, 10, 11, 10, 6], [24, 36], 2],
    [[5, 6, 11, 14, 5, 9, 6], [18, 48], 2],
    [[6, 3, 3, 6, 8, 14, 13], [24, 36], 1],
    [[4, 4, 3, 6, 5, 7], [24, 36], 2],
    [[20, 15, 19, 14, 29, 23, 4, 7], [18, 48], 0.5],
    [[4, 6, 4, 3, 7, 5], [36], 2],
    [[1, 6, 6, 3, 2, 2, 3, 8], [36], 2],
    [[12, 10, 1, 5, 15, 1, 5, 14], [24, 36], 1],
    [[1, 7, 4, 9, 6, 3], [24, 36], 2],
    [[15, 8, 7, 11, 8, 10], [24, 36], 1],
    [[11, 8, 3, 5, 10, 7], [24, 36], 1],
  ] as const)('looks further than the first plan: %j of %j in', (depths, stock, rate) => {
    const list = plan(depths, stock, 3, rate);
    check(depths, list, 3, rate);
    expect([list.rods.length, list.rods.reduce((sum, r) => sum + r.length, 0)]).toEqual(
      shortestByPartition(depths, stock, 3, rate),
    );
  });

  it('has the bound of the depth below which most is burned for the length of rod that gets there', () => {
    // Rate 2: 5 x 60 in of rod on 33 in each is 9.09; from deeper on there is less for each: 25 in, 5 x 10 on 8.
    expect(plan([30, 30, 30, 30, 30], [36]).bound).toBe(10);
    // All is burned between 20 and 21 in: 52.5 in of rod, for which a 36 in rod with a 3 in stub has 13: 4.04 rods, where the whole length would say 1.6.
    const steep = (y: number): number => 52.5 * Math.min(1, Math.max(0, y - 20));
    expect(cutList([ended(21, steep), ended(20, steep)], [36], 3, 'x', shown).bound).toBe(5);
    // A shallow hole takes nothing deep down, and gives nothing back.
    expect(cutList([ended(21, steep), ended(20, steep), ended(1, (y) => 50 * y)], [36], 3, 'x', shown).bound).toBe(5);
    // By itself, from where it is looked at, every 64th of its depth: 52.5 below 60 / 64 of 21 in on 13.3 is 3.94.
    expect(cutList([ended(21, steep)], [36], 3, 'x', shown).bound).toBe(4);
    expect(plan([0.001], [36]).bound).toBe(1);
    // 2 x 16.5 is one rod's 33 to the last bit, which is not more.
    expect(plan([5.5, 5.5, 5.5], [36]).bound).toBe(1);
  });

  it('puts shallow holes on the rods that begin a deep one', () => {
    // The hole of 20 in takes three rods; the first two have burned 22 and 14.7 in of 36. A hole of 2 in needs 4 + 2 + 3 in of what is left.
    const depths = [2, 20, 2];
    const list = plan(depths, [36]);
    check(depths, list, 3, 2);
    expect(list.rods).toHaveLength(3);
    // Those that begin it are the longest there are.
    const begun = plan([20], [31, 36]);
    expect(begun.rods.map((r) => r.length)).toEqual([36, 36, 31]);
    check([20], begun, 3, 2);
  });

  it('stops at its bound, and says so where a list is too long to try all', () => {
    const shallow = Array.from({ length: 40 }, (_, i) => 1.5 + ((i * 37) % 40) / 17);
    // 211.8 in of rod on 33 in each: 6.4.
    expect(plan(shallow, [36])).toMatchObject({ bound: 7, exhausted: true, rods: { length: 7 } });
    const long = plan(
      Array.from({ length: 300 }, (_, i) => 2 + ((i * 7) % 13) / 1.1),
      [36],
    );
    expect(long.rods.length).toBeGreaterThan(long.bound);
    expect(long.exhausted).toBe(false);
  });

  it('says where no rod reaches', () => {
    expect(() => plan([33], [36]), 'with nothing to burn there').toThrow('a x rod reaches 33 m');
    expect(() => plan([33.1], [24, 36])).toThrow('a x rod reaches 33 m with its stub; the work is 33.1 m deep');
  });

  it('packs a long list near its bound', () => {
    const depths = Array.from({ length: 300 }, (_, i) => 2 + ((i * 7) % 13) / 1.1);
    const list = plan(depths, [36, 48]);
    check(depths, list, 3, 2);
    expect(list.rods.length).toBeLessThanOrEqual(1.25 * list.bound);
  });

  it('takes thousands of holes, each of them to its end, on rods that reach', () => {
    const { uniform: random } = seeded(5);
    const depths = Array.from({ length: 5000 }, () => 1 + Math.floor(random() * 1000) / 250);
    for (const [length, stub] of [
      [36, 3],
      [600, 3],
    ] as const) {
      const { rods, bound } = plan(depths, [length], stub);
      const ends = new Map(rods.flatMap((r) => r.pieces.map((p) => [p.hole, p.to] as const)));
      expect(depths.every((depth, i) => ends.get(i) === depth)).toBe(true);
      expect(rods.length).toBeGreaterThanOrEqual(bound);
      expect(rods.length).toBeLessThan(1.15 * bound + 1);
      for (const { pieces } of rods) {
        let burned = 0;
        for (const p of pieces) {
          burned += p.burned;
          expect(burned + p.to + stub).toBeLessThanOrEqual(length * (1 + 1e-9));
        }
      }
    }
  });
});
