/** Which rod is picked for an item, and why it says so. */
import { describe, expect, it } from 'vitest';
import type { Override } from '../../../src/core/assumptions/assumptions.ts';
import { meanFlow } from '../../../src/core/burn/rod-line.ts';
import { findMaterial } from '../../../src/core/burn/materials.ts';
import { RODS } from '../../../src/core/burn/rods.ts';
import { GOUGE } from '../../../src/core/operations/gouge.ts';
import { HOLE } from '../../../src/core/operations/hole.ts';
import type { Operation } from '../../../src/core/operations/operation.ts';
import { rankChoices } from '../../../src/core/operations/rank-choices.ts';
import type { Sized } from '../../../src/core/operations/sized.ts';
import { STUD } from '../../../src/core/operations/stud.ts';
import { SCF } from '../../../src/core/units/quantities.ts';
import { IN, basisOf, set, sized, word } from './sized.ts';

const hole = (...overrides: readonly Override[]): Sized =>
  sized(HOLE, [1.5 * IN, 6 * IN], { basis: basisOf(...overrides) });
const rock = (...overrides: readonly Override[]): Sized =>
  sized(HOLE, [1.5 * IN, 6 * IN], { material: 'rock', basis: basisOf(...overrides) });

describe('the rods looked at', () => {
  it('are those no longer than the access, one just as long included', () => {
    // What costs least here is a long rod: fewest stubs and changes.
    const lengths = [18, 24, 36, 48].map(
      (access) =>
        sized(HOLE, [1.5 * IN, 10 * IN], { rod: '3/8', basis: basisOf(set('access length', access * IN)) }).rod.length /
        IN,
    );
    expect(lengths.map((l) => Math.round(l))).toEqual([18, 24, 36, 48]);
    expect(() => rock(set('access length', 10 * IN), set('bar access length', 17 * IN))).toThrow('17 in');
    expect(() => rock(set('access length', 17 * IN), set('bar access length', 10 * IN))).toThrow(
      /17 in.*the shortest rod in the register is 18 in/,
    );
  });

  it('are longer than the stub they leave', () => {
    // 24 in is the longest that the access lets in, and all that is longer than a stub of 18 in.
    expect(hole(set('stub', 18 * IN), set('access length', 24 * IN)).rod.length).toBeCloseTo(24 * IN, 12);
    expect(() => hole(set('stub', 50 * IN), set('access length', 60 * IN))).toThrow(
      "stub is 50 in; must be less than the rod's 48 in",
    );
  });

  it('take no more than the supply, one that takes just as much included', () => {
    const free = hole();
    expect(hole(set('supply flow', free.flow)).name).toBe(free.name);
    expect(hole(set('supply flow', 0.999 * free.flow)).flow).toBeLessThan(free.flow);
    // None is fed: the message names the rod that takes least and what it takes.
    const basis = basisOf(set('supply flow', (0.1 * SCF) / 60));
    const { a } = basis;
    const flows = RODS.filter((r) => r.kind === 'short' && !r.insulated).flatMap((r) =>
      r.lengths.filter((l) => l <= 40 * IN).map((l) => ({ name: r.name, flow: meanFlow(r, l, free.pressure, basis) })),
    );
    const least = flows.reduce((x, y) => (x.flow < y.flow ? x : y));
    expect(a.value('access length')).toBeCloseTo(40 * IN, 12);
    expect(() => sized(HOLE, [1.5 * IN, 6 * IN], { basis })).toThrow(
      `the rod that takes least, ${least.name}, takes ${Number(((60 * least.flow) / SCF).toPrecision(6))} scfm`,
    );
  });
});

describe('coupling', () => {
  it('is asked for with the rod or by the assumption, and done where no single rod reaches', () => {
    expect(hole().rod.coupled).toBe(false);
    expect(sized(HOLE, [1.5 * IN, 6 * IN], { rod: '3/8 coupled' }).rod.coupled).toBe(true);
    expect(
      sized(HOLE, [1.5 * IN, 6 * IN], { rod: '3/8 x 36', basis: basisOf(word('coupled rods', 'yes')) }).rod.coupled,
    ).toBe(true);
    const asked = hole(word('coupled rods', 'yes'));
    expect(asked.rod.coupled).toBe(true);
    expect(asked.rod.reason).not.toContain('no single rod reaches');
    const must = sized(HOLE, [1.5 * IN, 40 * IN]);
    expect(must.rod.coupled).toBe(true);
    expect(must.rod.reason).toContain('; coupled, since no single rod reaches');
    expect(hole().rod.reason).not.toContain('; coupled');
  });
});

describe('the reason', () => {
  it('is what the rod makes of the opening, and how many it was picked from', () => {
    // Three bare rods of 18, 24 and 36 in: all pass 1.5 in, reach 6 in and are fed.
    expect(hole().rod.reason).toMatch(
      /^it pierces 0.75 in wide, within the hole of 1.5 in; its work costs least of \d+ that fit an access of 40 in: [\d.]+, against [\d.]+ with 3\/8 x \d+( coupled)? \(crew 150 money\/h, rods 9 money\/lb, oxygen 0.15 money\/scf\)$/,
    );
    expect(sized(GOUGE, [0.5 * IN, 0.25 * IN, 24 * IN]).rod.reason).toMatch(
      /^it gouges 0.375 in wide, within the width of 0.5 in; 3\/8 would make it 0.5625 in; its work costs least of \d+ that fit/,
    );
    expect(sized(STUD, [1 * IN, 4]).rod.reason).toMatch(/^its work costs least of \d+ that fit an access of 40 in/);
  });

  it('names what an insulated rod is for', () => {
    expect(hole(word('work grounded', 'yes')).rod.reason).toMatch(/; insulated, since the work is grounded$/);
    expect(hole(word('position', 'underwater')).rod.reason).toMatch(/; insulated, since the work is under water$/);
  });
});

describe('a pick with its runners-up', () => {
  const choices = (operation: Operation, sizes: Readonly<Record<string, number>>, ...overrides: readonly Override[]) =>
    rankChoices(operation, sizes, undefined, findMaterial('carbon steel'), basisOf(...overrides));

  it('gives the next best, and the best of another size where that is only another length', () => {
    const sizes: readonly (readonly [Operation, Readonly<Record<string, number>>])[] = [
      [HOLE, { hole: 1.5 * IN, depth: 6 * IN }],
      [HOLE, { hole: 0.5 * IN, depth: 3 * IN }],
      [HOLE, { hole: 3 * IN, depth: 12 * IN }],
      [STUD, { diameter: 1 * IN, count: 4 }],
      [GOUGE, { width: 0.6 * IN, depth: 0.25 * IN, length: 24 * IN }],
    ];
    for (const [operation, given] of sizes) {
      const [pick, second, other] = choices(operation, given, word('coupled rods', 'no'));
      // Every rod of the register that can do it, each by itself.
      const all = RODS.filter((r) => r.kind === 'short' && !r.insulated)
        .flatMap((r) =>
          r.lengths
            .filter((l) => l <= 40 * IN)
            .flatMap((l) => {
              try {
                return [
                  {
                    rod: r,
                    cost: sized(
                      operation,
                      operation.order.map((name) => given[name] as number),
                      { rod: `${r.name} x ${Math.round(l / IN)}` },
                    ).cost,
                  },
                ];
              } catch {
                return [];
              }
            }),
        )
        .sort((x, y) => x.cost - y.cost);
      expect(pick?.sized.cost).toBeCloseTo(all[0]?.cost ?? NaN, 9);
      expect(second?.sized.cost).toBeCloseTo(all[1]?.cost ?? NaN, 9);
      const alike = second?.sized.rod.rod === pick?.sized.rod.rod;
      const best = all.find((c) => c.rod !== pick?.sized.rod.rod);
      expect(other?.sized.cost).toBe(alike ? best?.cost : undefined);
      for (const runner of [second, other]) {
        if (!pick || !runner) continue;
        const percent = 100 * (runner.sized.cost / pick.sized.cost - 1);
        const said = Number(/^its work costs ([\d.]+)% more$/.exec(runner.why)?.[1] ?? 0);
        // Tenths below ten, whole ones from there on.
        expect(Math.abs(said - percent), runner.why).toBeLessThanOrEqual(percent < 10 ? 0.051 : 0.51);
        expect(runner.why.includes('.')).toBe(percent >= 0.05 && percent < 10);
      }
    }
  });

  it('says of one that costs no more that it costs as much', () => {
    // With neither burning nor reach between them, a thin rod is as quick as a thick one: nothing but the tasks takes time.
    const all = choices(STUD, { diameter: 0.2 * IN, count: 1 }, set('rod change time', 0), set('stud time', 3600 * 4));
    expect(all.map((c) => c.place)).toContain('runner-up');
    expect(all[1]?.why).toBe('costs as much');
  });
});
