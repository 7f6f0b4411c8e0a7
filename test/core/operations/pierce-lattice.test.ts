/** Rods on the way down pierces, read on a lattice, against those whose ends are found one by one. */
import { describe, expect, it } from 'vitest';
import { PierceLattice } from '../../../src/core/operations/pierce-lattice.ts';
import { rodBurned, rodsOnTheWay, rodsSaved, type Pierce } from '../../../src/core/operations/pierce-rods.ts';
import { seeded } from '../../../src/core/spread/seeded.ts';

const { uniform: random } = seeded(20261130);
const LENGTH = 0.84;
/** Rods of a pierce, read on a lattice, against those found one by one; 0 where one rod is enough, or too many are asked for. */
function off(pierce: Pierce, depth: number, lattice: PierceLattice): number {
  const lacks = depth + rodBurned(pierce, depth) - LENGTH;
  if (!(lacks > 0)) return 0;
  const end = LENGTH - depth;
  const rods = (saved: number): number => rodBurned(pierce, depth) / end - saved;
  const way = rodsOnTheWay(pierce, depth, LENGTH);
  if (way.rods > 1000) return 0;
  const found = rods(rodsSaved(way, end));
  return Math.abs(rods(lattice.saved(pierce.advance / pierce.limit, lacks, end)) / found - 1);
}

/** The worst of many pierces of all depths and pressures. */
function worst(sharpness: number): number {
  let most = 0;
  for (let i = 0; i < 60; i++) {
    const [pace, limit, halving] = [0.4 + 8 * random(), 0.004 + 0.02 * random(), 0.05 + 0.4 * random()];
    const lattice = new PierceLattice(LENGTH, pace, halving, sharpness);
    for (let j = 0; j < 60; j++) {
      const advance = limit * Math.exp(6 * random() - 3);
      const pierce = { burnOff: pace * advance, advance, limit, halving, sharpness };
      most = Math.max(most, off(pierce, 0.97 * LENGTH * random(), lattice));
    }
  }
  return most;
}

describe('rods on the way down, read on a lattice', () => {
  it('are those found one by one, to 1e-9 of the rods of a pierce', () => {
    for (const sharpness of [1, 2, 3, 6]) expect(worst(sharpness), String(sharpness)).toBeLessThan(1e-9);
  });

  it('are so many at a change from one number of rods to the next', () => {
    const pierce = { burnOff: 0.02, advance: 0.01, limit: 0.012, halving: 0.1, sharpness: 3 };
    const lattice = new PierceLattice(LENGTH, 2, 0.1, 3);
    for (let depth = 0.1; depth < 0.8; depth += 1e-4) expect(off(pierce, depth, lattice)).toBeLessThan(1e-9);
  });

  it('have no answer where there are too many', () => {
    const lattice = new PierceLattice(LENGTH, 8, 0.05, 3);
    const pierce = { burnOff: 0.08, advance: 0.01, limit: 0.01, halving: 0.05, sharpness: 3 };
    const depth = LENGTH * (1 - 1e-6);
    const lacks = depth + rodBurned(pierce, depth) - LENGTH;
    expect(lattice.saved(1, lacks, LENGTH - depth)).toBeNaN();
  });
});
