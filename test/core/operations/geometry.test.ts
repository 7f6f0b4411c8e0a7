/** What each operation removes, by hand; and how it is done. */
import { describe, expect, it } from 'vitest';
import type { Override } from '../../../src/core/assumptions/assumptions.ts';
import { BREACH } from '../../../src/core/operations/breach.ts';
import { CUT } from '../../../src/core/operations/cut.ts';
import { GOUGE } from '../../../src/core/operations/gouge.ts';
import { HOLE } from '../../../src/core/operations/hole.ts';
import { STUD } from '../../../src/core/operations/stud.ts';
import { IN, basisOf, set, sized, word } from './sized.ts';

const STEEL = 7850;
/** Volume of a round hole that is `taper` x depth wider at its mouth than at its far end. */
const taperedHole = (width: number, depth: number, taper: number): number => {
  const mouth = width + taper * depth;
  return (Math.PI / 12) * (width * width + width * mouth + mouth * mouth) * depth;
};
const inches = (...xs: readonly number[]): readonly number[] => xs.map((x) => x * IN);

describe('a pierced hole', () => {
  it('removes its cylinder where it has no taper', () => {
    const s = sized(HOLE, inches(1.5, 6), { basis: basisOf(set('hole taper', 0)) });
    expect(s.removed).toBeCloseTo(STEEL * (Math.PI / 4) * (1.5 * IN) ** 2 * 6 * IN, 12);
  });

  it('removes the frustum between its mouth and its far end, mean width kept', () => {
    const s = sized(HOLE, inches(1.5, 6), { basis: basisOf(set('hole taper', 0.05)), rod: '3/8 x 36' });
    const [far, depth] = inches(1.5 - 0.15, 6) as [number, number];
    expect(s.removed).toBeCloseTo(STEEL * taperedHole(far, depth, 0.05), 9);
    // A frustum by the prismoidal formula: depth / 6 (A1 + 4 Am + A2).
    const area = (d: number): number => (Math.PI / 4) * d * d;
    expect(taperedHole(far, depth, 0.05)).toBeCloseTo(
      (depth / 6) * (area(far) + 4 * area(1.5 * IN) + area(far + 0.3 * IN)),
      12,
    );
  });

  it("keeps its far end as wide as the rod's own pierce", () => {
    // A 3/8 rod pierces 3/4 in: a hole of that width has no taper to give, however deep.
    expect(sized(HOLE, inches(0.75, 24), { rod: '3/8 x 36' }).removed).toBeCloseTo(
      STEEL * (Math.PI / 4) * (0.75 * IN) ** 2 * 24 * IN,
      12,
    );
  });

  it('is wider than its rod: a narrower one than twice the rod is refused, and the thinnest rod named', () => {
    expect(() => sized(HOLE, inches(0.7, 6), { rod: '3/8' })).toThrow(
      'hole is 0.7 in; a 3/8 rod pierces 0.75 in wide: choose a thinner rod or a wider hole',
    );
    expect(() => sized(HOLE, inches(0.3, 6))).toThrow(
      'hole is 0.3 in; the thinnest rod in the register, 3/16, pierces 0.375 in wide',
    );
  });

  it("advances at the slag's limit where the heat would be faster", () => {
    const basis = basisOf(
      set('advance limit', (1 * IN) / 60),
      set('limit sharpness', 50),
      set('advance depth', 1e9),
      set('hole taper', 0),
    );
    expect(sized(HOLE, inches(1, 6), { basis }).burnTime).toBeCloseTo(6 * 60, 3);
  });
});

describe('holes through concrete', () => {
  it('take concrete unless something else is named', () => {
    expect(sized(BREACH, [...inches(24, 2.5), 1]).material.name).toBe('reinforced concrete');
    expect(
      sized(BREACH, [...inches(24, 2.5), 1], { basis: basisOf(word('breach material', 'rock')) }).material.name,
    ).toBe('rock');
  });

  it("share rods: n holes take the whole number for n of one's share, at least one rod and at most n times one hole's", () => {
    const one = sized(BREACH, [...inches(24, 2.5), 1], { rod: '1/2 pipe x 120' });
    for (const count of [1, 2, 3, 7, 20]) {
      const all = sized(BREACH, [...inches(24, 2.5), count], { rod: '1/2 pipe x 120' });
      expect(all.consumed / one.consumed).toBeCloseTo(count, 9);
      // A bar goes on to the next hole as long as it still gets to its far end: 120 in less 8 in of stub and 24 in of depth.
      expect(one.consumed).toBeLessThan(88 * IN);
      expect(all.rods).toBe(Math.max(1, Math.ceil((count * one.consumed) / (88 * IN))));
      expect(all.rods).toBeLessThanOrEqual(count * one.rods);
      expect(all.removed / one.removed).toBeCloseTo(count, 9);
    }
  });

  it('are lit anew each, however few rods they take', () => {
    const basis = basisOf(set('idle oxygen share', 0), set('lighting time', 60));
    const s = sized(BREACH, [...inches(1, 2.5), 10], { basis, rod: '3/4 pipe x 120' });
    expect(s.rods).toBeLessThan(10);
    expect(s.oxygen - s.flow * s.burnTime).toBeCloseTo(10 * 60 * s.flow, 9);
  });

  it('want long burning bars where there is room, and short rods where there is none', () => {
    expect(sized(BREACH, [...inches(24, 2.5), 1]).rod.rod.kind).toBe('bar');
    expect(
      sized(BREACH, [...inches(12, 2.5), 1], { basis: basisOf(set('bar access length', 50 * IN)) }).rod.rod.kind,
    ).toBe('short');
    expect(sized(HOLE, inches(2.5, 12), { material: 'rock' }).rod.rod.kind).toBe('bar');
    expect(sized(HOLE, inches(2.5, 12)).rod.rod.kind).toBe('short');
  });
});

describe('a groove', () => {
  it('removes half an ellipse and its overcut', () => {
    const s = sized(GOUGE, inches(0.75, 0.5, 24), { basis: basisOf(set('groove overcut', 1.2)) });
    expect(s.removed).toBeCloseTo(STEEL * 1.2 * (Math.PI / 4) * 0.75 * 0.5 * 24 * IN ** 3, 12);
  });

  it('takes passes side by side and one below the other', () => {
    const passes = (width: number, depth: number): number =>
      sized(GOUGE, inches(width, depth, 24), { rod: '3/8 x 36' }).working('n_pass').value;
    // A 3/8 rod gouges 9/16 in wide; a pass is 1/4 in deep.
    expect([passes(0.5625, 0.25), passes(0.57, 0.25), passes(0.5625, 0.26), passes(1.2, 0.6)]).toEqual([1, 2, 2, 9]);
  });

  it('takes its time between passes as the metal goes, since a groove of few more is of shallower ones', () => {
    const groove = (depth: number): ReturnType<typeof sized> =>
      sized(GOUGE, inches(0.5625, depth, 24), { rod: '3/8 x 36' });
    const between = (depth: number): number => {
      const s = groove(depth);
      return s.timeAtWork - s.burnTime / 0.7 - 45 * Math.max(1, s.used);
    };
    // 0.75 min for each full pass of 1/4 in, and at least one.
    expect(between(0.2)).toBeCloseTo(45, 6);
    expect(between(0.26)).toBeCloseTo(45 * (0.26 / 0.25), 6);
    expect(between(0.5)).toBeCloseTo(90, 6);
  });

  it('must be as wide as the rod makes it', () => {
    expect(() => sized(GOUGE, inches(0.5, 0.25, 24), { rod: '3/8' })).toThrow(
      'width is 0.5 in; a 3/8 rod gouges 0.5625 in wide: choose a thinner rod or a wider width',
    );
    expect(sized(GOUGE, inches(0.4, 0.2, 24)).rod.rod.name).toBe('1/4');
  });

  it('gets 40 psi for a scratch, 90 psi for a full section (common practice, no source)', () => {
    const PSI = 6894.757;
    expect(sized(GOUGE, inches(0.4, 0.001, 24)).pressure / PSI).toBeCloseTo(40, 1);
    expect(sized(GOUGE, inches(2, 1, 24)).pressure / PSI).toBeCloseTo(90, 4);
  });
});

describe('a cut', () => {
  it('removes its kerf: width of the rod, sawed or not, and half the taper', () => {
    const kerf = (thickness: number, ...overrides: readonly Override[]): number =>
      sized(CUT, inches(thickness, 10), { rod: '3/8 x 36', basis: basisOf(word('cut method', 'kerf'), ...overrides) })
        .removed /
      (STEEL * thickness * 10 * IN ** 2) /
      IN;
    expect(kerf(0.75), 'half the drag thickness, all dragged').toBeCloseTo(1.6 * 0.375 + 0.04 * 0.75, 9);
    expect(kerf(1.5), 'as much dragged as sawed').toBeCloseTo(1.15 * 1.6 * 0.375 + 0.04 * 1.5, 9);
    expect(kerf(1.501) / kerf(1.5) - 1, 'a thousandth of an inch makes no other job of it').toBeLessThan(0.001);
    expect(kerf(2.25), 'one and a half of it, all sawed').toBeCloseTo(1.3 * 1.6 * 0.375 + 0.04 * 2.25, 9);
    expect(kerf(4)).toBeCloseTo(1.3 * 1.6 * 0.375 + 0.04 * 4, 9);
    expect(kerf(4, word('kerf technique', 'drag'))).toBeCloseTo(1.6 * 0.375 + 0.04 * 4, 9);
    expect(kerf(1, word('kerf technique', 'saw'))).toBeCloseTo(1.3 * 1.6 * 0.375 + 0.04 * 1, 9);
  });

  it('as a row of holes has as many as stand side by side along it', () => {
    const row = (length: number, pitch: number): number =>
      sized(CUT, inches(8, length), {
        rod: '3/8 x 36',
        basis: basisOf(word('cut method', 'row of holes'), set('hole pitch', pitch)),
      }).working('n_row').value;
    expect([row(24, 1), row(24, 1.25), row(0.1, 1), row(0.75, 1), row(0.76, 1)]).toEqual([32, 26, 1, 1, 2]);
  });

  it('as a row of holes burns as its length goes, since whole holes are set closer to fit', () => {
    const row = (length: number): ReturnType<typeof sized> =>
      sized(CUT, inches(8, length), { rod: '3/8 x 36', basis: basisOf(word('cut method', 'row of holes')) });
    expect(row(24.3).burnTime / row(24).burnTime).toBeCloseTo(24.3 / 24, 9);
    // 33 of them in place of 32, 0.4 min each to go to; rods of 0.75 min apart, not rounded.
    const more = (of: 'timeAtWork' | 'burnTime' | 'used'): number => row(24.3)[of] - row(24)[of];
    expect(more('timeAtWork')).toBeCloseTo(more('burnTime') / 0.7 + 24 + 45 * more('used'), 6);
  });

  it('is a kerf in plate and a row of holes in heavy sections, whichever takes less time, and says what the other would take', () => {
    const thin = sized(CUT, inches(1, 24));
    const heavy = sized(CUT, inches(12, 24));
    expect(thin.method).toBe('kerf');
    expect(heavy.method).toBe('row of holes');
    for (const s of [thin, heavy]) {
      expect(s.otherWays).toHaveLength(1);
      expect(s.otherWays[0]?.time).toBeGreaterThan(s.timeAtWork);
    }
    // The row's time does not depend on how it was come by.
    expect(
      sized(CUT, inches(12, 24), { rod: heavy.name, basis: basisOf(word('cut method', 'row of holes')) }).crewTime,
    ).toBeCloseTo(heavy.crewTime, 6);
  });
});

describe('studs', () => {
  it('remove a kerf across each', () => {
    const s = sized(STUD, [1 * IN, 5], { rod: '1/4 x 36' });
    // 1 in is two thirds of the drag thickness: a sixth of it is sawed.
    expect(s.removed).toBeCloseTo(5 * STEEL * (Math.PI / 4) * IN ** 2 * (1.6 * 0.25 * (1 + 0.3 / 6) + 0.04) * IN, 12);
  });

  it('take 70 psi when thin and 90 psi from 4 in (common practice, no source)', () => {
    const PSI = 6894.757;
    const pressure = (d: number): number => sized(STUD, [d * IN, 1]).pressure / PSI;
    expect(pressure(0.001)).toBeCloseTo(70, 1);
    expect(pressure(2)).toBeCloseTo(80, 2);
    expect(pressure(4)).toBeCloseTo(90, 2);
    expect(pressure(8)).toBeCloseTo(90, 2);
  });

  it('cost the crew their going round once each', () => {
    const one = sized(STUD, [1 * IN, 1], { rod: '1/4 x 36' });
    const ten = sized(STUD, [1 * IN, 10], { rod: '1/4 x 36' });
    expect(ten.timeAtWork - (10 * one.burnTime) / 0.7 - ten.used * 45).toBeCloseTo(10 * 45, 6);
  });
});

describe('coupled rods', () => {
  it('lose one stub a string, and take strings no longer than is said', () => {
    const pierce = (rods: number): ReturnType<typeof sized> =>
      sized(HOLE, inches(3, 20), { rod: '3/8 x 36 coupled', basis: basisOf(set('string rods', rods)) });
    const endless = pierce(0);
    // The end of the string is left: a stub of 3 in, and the depth of 20 in that it must still reach.
    expect(endless.rods).toBe(Math.ceil((endless.consumed / IN + 23) / 36));
    let before = Infinity;
    for (const rods of [1, 2, 4, 100]) {
      const s = pierce(rods);
      expect(s.rods, `strings of ${rods}`).toBeLessThanOrEqual(before);
      expect(s.rods).toBeGreaterThanOrEqual(endless.rods);
      before = s.rods;
    }
    expect(before).toBe(endless.rods);
    expect(pierce(1).rods).toBe(sized(HOLE, inches(3, 20), { rod: '3/8 x 36' }).rods);
    // A kerf takes no pierce: half the mean depth is lost of each string, and its stub.
    const kerf = (rods: number): ReturnType<typeof sized> =>
      sized(CUT, inches(20, 20), {
        rod: '3/8 x 36 coupled',
        basis: basisOf(set('string rods', rods), word('cut method', 'kerf')),
      });
    expect(kerf(0).rods).toBe(Math.ceil((kerf(0).consumed / IN + 8) / 36));
    for (const rods of [1, 2, 4]) {
      const strings = Math.ceil(kerf(rods).consumed / IN / (36 * rods - 8));
      expect(kerf(rods).rods, `strings of ${rods}`).toBe(Math.ceil((kerf(rods).consumed / IN + 8 * strings) / 36));
    }
  });

  it('reach no deeper than their string, as a single rod no deeper than itself', () => {
    const pierce = (
      depth: number,
      rods: number,
      rod: string | undefined,
      ...more: readonly Override[]
    ): ReturnType<typeof sized> =>
      sized(HOLE, inches(3, depth), {
        ...(rod === undefined ? {} : { rod }),
        basis: basisOf(set('string rods', rods), word('coupled rods', 'yes'), ...more),
      });
    // 36 in less a stub of 3 in; 72 in less one.
    expect(pierce(32.9, 1, '3/8 x 36').rods).toBeGreaterThan(0);
    expect(() => pierce(34, 1, '3/8 x 36')).toThrow(
      'a string of 1 3/8 x 36 rod reaches 33 in with its stub; the work is 34 in deep',
    );
    expect(pierce(68.9, 2, '3/8 x 36').rods).toBeGreaterThan(0);
    expect(() => pierce(70, 2, '3/8 x 36')).toThrow(
      'a string of 2 3/8 x 36 rod reaches 69 in with its stub; the work is 70 in deep',
    );
    expect(pierce(70, 0, '3/8 x 36').rods).toBeGreaterThan(0);
    // Of those in reach of the access, 40 in, a picker takes one that reaches, and names the longest where none does.
    expect(pierce(32, 1, undefined).rod.length).toBeCloseTo(36 * IN, 9);
    expect(() => pierce(34, 1, undefined)).toThrow(/a string of 1 \S+ x 36 rod reaches 33 in/);
  });

  it('and single ones burn something where they reach, or are refused', () => {
    // 36 in less 3 in of stub less 33 in is nothing, also where the last bits say otherwise.
    for (const [length, depth] of [
      [18, 15],
      [24, 21],
      [36, 33],
      [48, 45],
    ] as const) {
      expect(() => sized(HOLE, inches(3, depth), { rod: `3/8 x ${length}` })).toThrow(
        `reaches ${depth} in with its stub; the work is ${depth} in deep`,
      );
      expect(() =>
        sized(HOLE, inches(3, depth), { rod: `3/8 x ${length} coupled`, basis: basisOf(set('string rods', 1)) }),
      ).toThrow(`reaches ${depth} in`);
    }
  });
});
