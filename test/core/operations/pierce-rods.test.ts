/** Rods for a pierce, each of which must keep its stub and the depth at every moment. */
import { describe, expect, it } from 'vitest';
import { findMaterial } from '../../../src/core/burn/materials.ts';
import { findRod } from '../../../src/core/burn/rods.ts';
import { cutList } from '../../../src/core/operations/cut-list.ts';
import { HOLE } from '../../../src/core/operations/hole.ts';
import { listHoles } from '../../../src/core/operations/list-holes.ts';
import { notesOf } from '../../../src/core/operations/notes.ts';
import { PIN } from '../../../src/core/operations/pin.ts';
import { endOfRod, rodBurned, rodsOnTheWay, type Pierce } from '../../../src/core/operations/pierce-rods.ts';
import { seeded } from '../../../src/core/spread/seeded.ts';
import { IN, basisOf, set, sized, word } from './sized.ts';

const { uniform: random } = seeded(20261129);
const pierces: readonly Pierce[] = Array.from({ length: 40 }, () => ({
  burnOff: 0.002 + 0.03 * random(),
  advance: 0.002 + 0.02 * random(),
  limit: 0.004 + 0.02 * random(),
  halving: 0.05 + 0.4 * random(),
  sharpness: 1 + 5 * random(),
}));

describe('the length of rod burned on the way down', () => {
  /** Burned in the time that heat alone takes, and slag alone, by the midpoint rule. */
  const alone = ({ burnOff, advance, limit, halving }: Pierce, depth: number): readonly [number, number] => {
    const n = 20000;
    let [heat, slag] = [0, 0];
    for (let i = 0; i < n; i++) {
      heat += (burnOff / advance) * (depth / n);
      slag += (burnOff / (limit / (1 + ((i + 0.5) * depth) / n / halving))) * (depth / n);
    }
    return [heat, slag];
  };

  it('is the sum of what burns while heat and slag each hold the pierce up, where one waits for the other', () => {
    for (const pierce of pierces) {
      const [heat, slag] = alone(pierce, 0.5);
      expect(rodBurned({ ...pierce, sharpness: 1 }, 0.5) / (heat + slag)).toBeCloseTo(1, 7);
    }
  });

  it('is more than the slower of the two alone asks for and less than both, and that of the slower where it alone counts', () => {
    for (const pierce of pierces) {
      const [heat, slag] = alone(pierce, 0.5);
      const burned = rodBurned({ ...pierce, sharpness: 3 }, 0.5);
      expect(burned).toBeGreaterThan(Math.max(heat, slag) * (1 - 1e-9));
      expect(burned).toBeLessThan(heat + slag);
      expect(burned / Math.cbrt(heat ** 3 + slag ** 3)).toBeCloseTo(1, 7);
      expect(rodBurned({ ...pierce, sharpness: 50 }, 0.5) / Math.max(heat, slag)).toBeLessThan(1.014);
    }
  });
});

describe('a rod', () => {
  it('ends where it is its stub and the depth long, by heat and by slag alike', () => {
    for (const pierce of pierces)
      for (const from of [0, 0.05, 0.4]) {
        const to = endOfRod(pierce, from, 0.84);
        expect(to + rodBurned(pierce, to) - rodBurned(pierce, from)).toBeCloseTo(0.84, 12);
        expect(to).toBeGreaterThan(from);
      }
  });

  it('gets a share of what the depth leaves of it where the heat alone decides', () => {
    // With a burned for each depth, (H - y) falls by a / (1 + a) a rod: a geometric series.
    const pierce = { burnOff: 0.02, advance: 0.01, limit: 1, halving: 10, sharpness: 6 };
    const H = 0.84;
    for (const k of [1, 2, 5, 9]) {
      const depth = H * (1 - (2 / 3) ** k);
      expect(rodsOnTheWay(pierce, depth * (1 - 1e-6), H).rods).toBe(k - 1);
      expect(rodsOnTheWay(pierce, depth * (1 + 1e-6), H).rods).toBe(k);
    }
  });

  it('never gets to the end of all that it could reach', () => {
    const pierce = { burnOff: 0.02, advance: 0.01, limit: 1, halving: 10, sharpness: 6 };
    expect(rodsOnTheWay(pierce, 0.84, 0.84).rods).toBe(Infinity);
    expect(rodsOnTheWay(pierce, 0.84 * (1 - 1e-8), 0.84).rods).toBeGreaterThan(40);
  });
});

const steel = findMaterial('carbon steel');

describe('one hole', () => {
  it('takes as many rods by its operation as by a cut list, whatever its depth and rod', () => {
    const bases = [
      basisOf(),
      basisOf(word('position', 'vertical down')),
      basisOf(set('rod feed ratio', 0.7), set('advance limit', (10 * IN) / 60)),
      basisOf(set('stub', 8 * IN), set('reach loss', 1)),
    ];
    const most: number[] = [];
    for (const [name, longest] of [
      ['3/16', 48],
      ['1/4', 36],
      ['3/8', 24],
      ['3/8', 36],
      ['3/8', 48],
      ['3/8 insulated', 36],
      ['1/2 pipe', 60],
    ] as const) {
      const { rod } = findRod(name);
      for (const basis of bases) {
        const stub = basis.a.value(rod.kind === 'bar' ? 'bar stub' : 'stub') / IN;
        for (let depth = 0.5; depth < longest - stub - 0.01; depth += 0.77) {
          const holes = listHoles([depth * IN], rod, longest * IN, steel, basis);
          const list = cutList(holes, [longest * IN], stub * IN, name, String);
          const item = sized(HOLE, [2 * rod.outsideDiameter, depth * IN], { rod: `${name} x ${longest}`, basis });
          expect(item.rods, `${name} x ${longest}, ${depth} in`).toBe(list.rods.length);
          expect(list.rods.reduce((sum, r) => sum + r.burned, 0) / item.consumed).toBeCloseTo(1, 9);
          most.push(item.rods);
        }
      }
    }
    // Shallow ones, and some that no one should do.
    expect(Math.min(...most)).toBe(1);
    expect(Math.max(...most)).toBeGreaterThan(20);
  });

  it('takes more rods the deeper it is, and the same or less the longer they are', () => {
    let before = 0;
    for (let depth = 1; depth < 32.9; depth += 0.1) {
      const { rods } = sized(HOLE, [0.75 * IN, depth * IN], { rod: '3/8 x 36' });
      expect(rods).toBeGreaterThanOrEqual(before);
      before = rods;
      expect(sized(HOLE, [0.75 * IN, depth * IN], { rod: '3/8 x 48' }).rods).toBeLessThanOrEqual(rods);
    }
  });

  it('takes one string that reaches its end, where rods are coupled', () => {
    for (const depth of [4, 20, 32]) {
      const s = sized(HOLE, [0.75 * IN, depth * IN], { rod: '3/8 x 36 coupled' });
      expect(s.rods).toBe(Math.ceil((s.consumed / IN + depth + 3) / 36));
    }
  });

  it('takes strings rod by rod as it takes long rods', () => {
    const basis = basisOf(set('string rods', 2));
    for (let depth = 2; depth < 69; depth += 1.7) {
      const strings = sized(HOLE, [0.75 * IN, depth * IN], { rod: '3/8 x 36 coupled', basis });
      // A string of two is as long as one of 72 in; the flow is that through 36 in.
      const list = listHoles([depth * IN], findRod('3/8').rod, 36 * IN, steel, basis);
      const { rods } = cutList(list, [72 * IN], 3 * IN, '3/8', String);
      const last = rods.at(-1)!.pieces[0]!;
      const lastRods = Math.ceil((last.burned + last.to + 3 * IN) / (36 * IN) - 1e-9);
      expect(strings.rods, `${depth} in`).toBe(2 * (rods.length - 1) + lastRods);
    }
  });
});

describe('a depth that is unreasonable for a rod', () => {
  const said = (depth: number, rod: string): string =>
    notesOf(sized(HOLE, [0.75 * IN, depth * IN], { rod }), basisOf()).join('; ');

  it('is said', () => {
    expect(said(30, '3/8 x 36')).toContain(
      '30 in is deep for single rods of 36 in, which must keep their stub and the depth: 12 of them, where 4 coupled ones would do; take longer or coupled rods',
    );
    for (const [depth, rod] of [
      [10, '3/8 x 36'],
      [20, '3/8 x 48'],
      [30, '3/8 x 36 coupled'],
    ] as const)
      expect(said(depth, rod), rod).not.toContain('deep for');
  });

  it('is not said where most is burned in widening, with what the rods of the pilot have left', () => {
    const pin = sized(PIN, [6 * IN, 30 * IN], { rod: '3/8 x 36' });
    expect(pin.rods).toBeGreaterThan(14);
    expect(notesOf(pin, basisOf()).join()).not.toContain('deep for');
  });
});
