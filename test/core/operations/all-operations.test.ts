/** What holds for every operation of the list, a new one included. */
import { describe, expect, it } from 'vitest';
import type { Override } from '../../../src/core/assumptions/assumptions.ts';
import type { NumberName } from '../../../src/core/assumptions/registry.ts';
import {
  burnedShareWithoutLoss,
  ironEnthalpy,
  splitOxidationHeat,
  splitOxygenDemand,
} from '../../../src/core/burn/iron-heat.ts';
import { MATERIAL_NAMES } from '../../../src/core/assumptions/material-names.ts';
import { findMaterial, substanceOf } from '../../../src/core/burn/materials.ts';
import { RODS, findRod, rodMassPerLength, rodName } from '../../../src/core/burn/rods.ts';
import { OPERATION_IDS, operationOf } from '../../../src/core/operations/all.ts';
import { ratesInForce } from '../../../src/core/operations/consumption.ts';
import { spreadItem } from '../../../src/core/operations/spread-item.ts';
import { recorder } from '../../../src/core/model/trace.ts';
import { parseQuantity } from '../../../src/core/units/parse-quantity.ts';
import { replay } from '../model/replay.ts';
import { IN, basisOf, set, sized, word } from './sized.ts';

const SITES: readonly (readonly Override[])[] = [
  [],
  [word('position', 'overhead')],
  [word('position', 'vertical down'), word('access', 'tight')],
  [word('position', 'underwater'), set('water depth', 18)],
  [word('coupled rods', 'yes')],
  [word('coupled rods', 'yes'), set('string rods', 3)],
  [word('kerf technique', 'saw'), word('cut method', 'kerf')],
  [word('cut method', 'row of holes'), set('hole taper', 0)],
  [word('cut method', 'row of holes')],
];

describe.each(OPERATION_IDS)('%s', (id) => {
  const operation = operationOf(id);
  const sizes = operation.order.map(
    (name) => parseQuantity(operation.sizes[name]?.example ?? '', operation.sizes[name]?.quantity ?? 'length') ?? NaN,
  );

  it.each(
    SITES.map(
      (site) =>
        [site.map((o) => ('word' in o ? o.word : `${o.name} ${o.value}`)).join(', ') || 'by default', site] as const,
    ),
  )('replays its working %s', (_, site) => {
    for (const material of MATERIAL_NAMES) {
      const trace = recorder();
      const basis = basisOf(...site);
      const s = sized(operation, sizes, { material, basis, trace });
      expect(s, 'the same with and without a working').toEqual(
        sized(operation, sizes, { material, basis: basisOf(...site) }),
      );
      const symbols = trace.steps.map((step) => step.symbol);
      expect(new Set(symbols).size, symbols.join(' ')).toBe(symbols.length);
      const replayed = replay(trace.steps);
      for (const { step, value } of replayed) {
        // What cancels, such as the taper of a hole without one, may differ in the last bits of what it is made of.
        expect(
          Math.abs(value - (step.value as number)),
          `${material}: ${step.symbol} = ${step.expression ?? ''}`,
        ).toBeLessThanOrEqual(1e-11 * Math.abs(value) + 1e-18);
      }
      const value = (symbol: string): number => trace.steps.find((step) => step.symbol === symbol)?.value as number;
      expect([value('N'), value('O'), value('t'), value('t_crew'), value('p'), value('M')]).toEqual([
        s.rods,
        s.oxygen,
        s.burnTime,
        s.crewTime,
        s.pressure,
        s.removed,
      ]);
    }
  });

  it('closes its heat balance: heat of the iron burnt = lost + rod + work', () => {
    for (const name of MATERIAL_NAMES) {
      const material = findMaterial(name);
      const basis = basisOf();
      const { a } = basis;
      const s = sized(operation, sizes, { material: name, basis });
      const { process } = ratesInForce(s.rod.rod, material, basis);
      const T = a.value('slag temperature');
      const { heat, heatLost } = substanceOf(material, (n) => a.value(n), T, a.value('heat lost share'));
      const made = splitOxidationHeat(0.5) * process.burnt;
      expect(made - heatLost * made - process.fed * ironEnthalpy(T) - process.removed * heat, name).toBeCloseTo(0, 6);
    }
  });

  it('has the same work drawn all at once as draw by draw', () => {
    if (!operation.draw) return;
    const { a } = basisOf();
    // Some draw of every assumption, each about its value in its own way.
    const columns = new Map<NumberName, Float64Array>();
    const drawn = (name: NumberName): Float64Array => {
      const column =
        columns.get(name) ??
        Float64Array.from(
          [0.7, 0.9, 1, 1.2, 1.6],
          (k, i) => a.value(name) * k * (1 + 0.1 * Math.sin(name.length + 3 * i)),
        );
      columns.set(name, column);
      return column;
    };
    for (const method of operation.methods?.names ?? [undefined]) {
      for (const [times, rod] of [
        [1, '1/4 x 36'],
        [2.5, '3/8 x 36'],
      ] as const) {
        const planned = operation.plan(
          Object.fromEntries(
            operation.order.map((name, i) => [name, (sizes[i] as number) * (operation.sizes[name]?.whole ? 1 : times)]),
          ),
          a,
        );
        const inForce = operation.work(planned, findRod(rod).rod, (name) => a.value(name), a, undefined, method);
        const filled = (x: number): Float64Array => new Float64Array(5).fill(x);
        const tasks = Float64Array.from(
          { length: 5 },
          (_, i) => inForce.tasks?.reduce((sum, { time, count }) => sum + count * (drawn(time)[i] as number), 0) ?? 0,
        );
        const into = {
          pierceWidth: filled(inForce.pierceWidth),
          pierces: filled(inForce.pierces),
          freeVolume: filled(inForce.freeVolume),
          starts: filled(inForce.starts ?? 0),
          tasks,
        };
        operation.draw(planned, findRod(rod).rod, drawn, a, into, method);
        for (let i = 0; i < 5; i++) {
          const read = (name: NumberName): number => drawn(name)[i] as number;
          const one = operation.work(planned, findRod(rod).rod, read, a, undefined, method);
          const time = one.tasks?.reduce((sum, task) => sum + task.count * read(task.time), 0) ?? 0;
          const all = [
            into.pierceWidth[i],
            into.pierces[i],
            into.freeVolume[i],
            into.starts[i],
            into.tasks[i],
          ] as const;
          [one.pierceWidth, one.pierces, one.freeVolume, one.starts ?? 0, time].forEach((x, k) =>
            expect(all[k], `${method ?? ''} draw ${i}, ${k}`).toBeCloseTo(x, 12),
          );
        }
      }
      expect(
        [...columns.keys()].filter((name) => name !== 'pierce width' && !operation.factors?.includes(name)),
        'drawn, and no factor of the spread',
      ).toEqual([]);
    }
  });

  it('never takes less oxygen than the iron burnt binds, and burns at least the share that thermochemistry asks for', () => {
    // Stoichiometry and least share from the NASA polynomials (Cantera's nasa_condensed): 0.3342 kg/kg at an even split.
    const s = sized(operation, sizes, { material: 'carbon steel' });
    const basis = basisOf();
    const { process } = ratesInForce(s.rod.rod, s.material, basis);
    const oxygenBurning = (s.consumed * rodMassPerLength(s.rod.rod)) / process.fed;
    expect(s.oxygen).toBeGreaterThan(process.burnt * oxygenBurning * splitOxygenDemand(0.5));
    expect(process.burntShare).toBeGreaterThan(burnedShareWithoutLoss(basis.a.value('slag temperature'), 0.5));
    expect(process.burntShare).toBeLessThan(1);
  });

  it('takes no less of anything when a size grows', () => {
    // A pin wide enough for each of its holes.
    const start = id === 'PIN' ? [12, 10, 2.5].map((x) => x * IN) : sizes;
    start.forEach((_, i) => {
      let before = sized(operation, start, { rod: '1/4 x 36 coupled' });
      for (const times of [1.5, 2, 3]) {
        const now = sized(
          operation,
          start.map((x, k) => (k === i ? x * times : x)),
          { rod: '1/4 x 36 coupled' },
        );
        for (const of of ['oxygen', 'burnTime', 'crewTime', 'rods', 'removed', 'pressure'] as const)
          expect(now[of], `${operation.order[i] ?? ''} x ${times}: ${of}`).toBeGreaterThanOrEqual(before[of]);
        before = now;
      }
    });
  });

  it('has its planned values between its low and its high', () => {
    const basis = basisOf();
    const s = sized(operation, sizes, { basis });
    const spread = spreadItem(operation, s, basis);
    expect(spread.lowOxygen).toBeLessThan(s.oxygen);
    expect(spread.highOxygen).toBeGreaterThan(s.oxygen);
    expect(spread.lowRods).toBeLessThanOrEqual(s.rods);
    expect(spread.highRods).toBeGreaterThanOrEqual(s.rods);
    expect(spread.lowCrewTime).toBeLessThan(s.crewTime);
    expect(spread.highCrewTime).toBeGreaterThan(s.crewTime);
  });

  it('takes every rod of the register where it fits, or says why not', () => {
    for (const rod of RODS) {
      const name = rodName(rod, rod.lengths.at(-1), false);
      try {
        const s = sized(operation, sizes, { rod: name });
        expect(s.rods, name).toBeGreaterThanOrEqual(1);
        expect(s.oxygen).toBeGreaterThan(0);
      } catch (e) {
        expect((e as Error).message, name).toMatch(/wide|reaches/);
      }
    }
  });
});
