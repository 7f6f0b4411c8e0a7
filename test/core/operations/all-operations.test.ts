/** What holds for every operation of the list, a new one included. */
import { describe, expect, it } from 'vitest';
import type { Override } from '../../../src/core/assumptions/assumptions.ts';
import {
  burnedShareWithoutLoss,
  ironEnthalpy,
  moltenOxideEnthalpy,
  oxygenGasEnthalpy,
  splitOxidationHeat,
  splitOxygenDemand,
} from '../../../src/core/burn/iron-heat.ts';
import { MATERIAL_NAMES } from '../../../src/core/assumptions/material-names.ts';
import { misfits } from '../../../src/core/model/dimensions.ts';
import { substance } from '../burn/substance.ts';
import { RODS, rodMassPerLength, rodName } from '../../../src/core/burn/rods.ts';
import { OPERATION_IDS, operationOf } from '../../../src/core/operations/all.ts';
import { spreadItem } from '../../../src/core/operations/spread-item.ts';
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
      const basis = basisOf(...site);
      const s = sized(operation, sizes, { material, basis });
      const working = s.allSteps();
      expect(misfits(working.evaluation.list), 'dimensions').toEqual([]);
      const steps = working.steps();
      const symbols = steps.map((step) => step.symbol);
      expect(new Set(symbols).size, symbols.join(' ')).toBe(symbols.length);
      const replayed = replay(steps);
      for (const { step, value } of replayed) {
        // What cancels, such as the taper of a hole without one, may differ in the last bits of what it is made of.
        expect(
          Math.abs(value - (step.value as number)),
          `${material}: ${step.symbol} = ${step.expression ?? ''}`,
        ).toBeLessThanOrEqual(1e-11 * Math.abs(value) + 1e-18);
      }
      const value = (symbol: string): number => steps.find((step) => step.symbol === symbol)?.value as number;
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

  it('closes its heat balance: heat of the iron burnt = lost + metal + oxide + unburnt oxygen + part', () => {
    for (const name of MATERIAL_NAMES) {
      const { a } = basisOf();
      const T = a.value('slag temperature');
      const rod = sized(operation, sizes, { material: name }).rod.rod.name;
      const { takes, heatLost, burnt, fed, removed } = substance(name, T, a.value('heat lost share'), rod);
      const made = splitOxidationHeat(0.5) * burnt;
      const metal = (fed - burnt) * ironEnthalpy(T) + removed() * takes;
      const free = (1 - burnt * splitOxygenDemand(0.5)) * oxygenGasEnthalpy(a.value('unburnt oxygen temperature'));
      const out = heatLost * made + metal + burnt * moltenOxideEnthalpy(T, 0.5) + free;
      expect(out / made, name).toBeCloseTo(1, 9);
    }
  });

  it('never takes less oxygen than the iron burnt binds, and burns at least the share that thermochemistry asks for', () => {
    // Stoichiometry and least share from the NASA polynomials (Cantera's nasa_condensed): 0.3342 kg/kg at an even split.
    const s = sized(operation, sizes, { material: 'carbon steel' });
    const basis = basisOf();
    const process = substance('carbon steel', undefined, undefined, s.rod.rod.name);
    const oxygenBurning = (s.consumed * rodMassPerLength(s.rod.rod)) / process.fed;
    expect(s.oxygen).toBeGreaterThan(process.burnt * oxygenBurning * splitOxygenDemand(0.5));
    expect(process.burntShare()).toBeGreaterThan(burnedShareWithoutLoss(basis.a.value('slag temperature'), 0.5));
    expect(process.burntShare()).toBeLessThan(1);
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
    const spread = spreadItem(s, basis);
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
