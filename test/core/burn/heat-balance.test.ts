import { describe, expect, it } from 'vitest';
import { BALANCE_LINES, PURITY_STEPS, heatBalanceSteps } from '../../../src/core/burn/heat-balance.ts';
import {
  MAGNETITE_FUSION,
  ironEnthalpy,
  moltenOxideEnthalpy,
  oxygenGasEnthalpy,
  splitOxidationHeat,
  splitOxideEnthalpy,
  splitOxygenDemand,
} from '../../../src/core/burn/iron-heat.ts';
import { findMaterial } from '../../../src/core/burn/materials.ts';
import { findRod } from '../../../src/core/burn/rods.ts';
import { CalcError } from '../../../src/core/errors.ts';
import { readSteps } from '../model/read-steps.ts';

const STEPS = [...heatBalanceSteps(findRod('3/8').rod, findMaterial('carbon steel')), ...BALANCE_LINES];

interface BurnInputs {
  readonly feedRatio: number;
  readonly oxygenBurnt: number;
  readonly monoxideShare: number;
  readonly heatLost: number;
  readonly slagTemperature: number;
  readonly workHeat: number;
  readonly workBurns: number;
  readonly heatPart: number;
  readonly freeTemperature: number;
}

/** The balance on these numbers. */
function burnProcess(inputs: BurnInputs): {
  readonly removed: number;
  readonly fed: number;
  readonly burnt: number;
  readonly burntShare: number;
  readonly rest: number;
} {
  const at = readSteps(STEPS, {
    lambda: inputs.feedRatio,
    eta: inputs.oxygenBurnt,
    FeO: inputs.monoxideShare,
    f: inputs.heatLost,
    T: inputs.slagTemperature,
    h_work: inputs.workHeat,
    burns: inputs.workBurns,
    h_part: inputs.heatPart,
    T_free: inputs.freeTemperature,
    rho: 7850,
  });
  const burntShare = at.number('share');
  return {
    removed: at.number('k'),
    fed: at.number('lambda'),
    burnt: at.number('B'),
    burntShare,
    rest: at.number('e_rest'),
  };
}

const short: BurnInputs = {
  feedRatio: 0.5,
  oxygenBurnt: 0.4,
  monoxideShare: 0.5,
  heatLost: 0.06,
  slagTemperature: 2100,
  workHeat: ironEnthalpy(2100),
  workBurns: 1,
  heatPart: 0.8e6,
  freeTemperature: 1200,
};

/** What leaves for a kilogram of oxygen, added up apart from the steps [J]. */
function leaves(inputs: BurnInputs, { removed, fed, burnt }: ReturnType<typeof burnProcess>): number {
  const iron = ironEnthalpy(inputs.slagTemperature);
  const metal = removed * inputs.workHeat + (fed - burnt) * iron;
  const oxide = burnt * moltenOxideEnthalpy(inputs.slagTemperature, inputs.monoxideShare);
  const unburnt = 1 - burnt * splitOxygenDemand(inputs.monoxideShare);
  const free = unburnt * oxygenGasEnthalpy(inputs.freeTemperature);
  const lost = inputs.heatLost * burnt * splitOxidationHeat(inputs.monoxideShare);
  return metal + oxide + free + lost + removed * inputs.heatPart;
}

describe('the heat balance of burning', () => {
  it.each([
    ['as assumed', short],
    ['with cool oxygen', { ...short, freeTemperature: 700 }],
    ['with little burnt', { ...short, oxygenBurnt: 0.25, freeTemperature: 700 }],
    ['on work that only melts', { ...short, feedRatio: 2, oxygenBurnt: 0.7, workHeat: 2e6, workBurns: 0 }],
  ] as const)('closes %s: heat set free equals what metal, oxide, oxygen, part and surroundings take', (_, inputs) => {
    const found = burnProcess(inputs);
    const free = found.burnt * splitOxidationHeat(inputs.monoxideShare);
    expect(leaves(inputs, found) / free).toBeCloseTo(1, 12);
    expect(Math.abs(found.rest) / free).toBeLessThan(1e-12);
  });

  it('counts the fusion of Fe3O4: 138 kJ/mol, JANAF (from memory), of 231.5 g/mol', () => {
    expect(MAGNETITE_FUSION / (138e3 / 0.231533)).toBeCloseTo(1, 4);
    expect(moltenOxideEnthalpy(2100, 1)).toBe(splitOxideEnthalpy(2100, 1));
    expect(moltenOxideEnthalpy(2100, 0) - splitOxideEnthalpy(2100, 0)).toBeCloseTo(1.382 * MAGNETITE_FUSION, -4);
  });

  it('never burns more iron than the oxygen allows', () => {
    for (const oxygenBurnt of [0.25, 0.4, 0.6]) {
      const { burnt } = burnProcess({ ...short, oxygenBurnt });
      expect(burnt * splitOxygenDemand(0.5)).toBeLessThanOrEqual(oxygenBurnt + 1e-12);
    }
  });

  it('removes more with more oxygen burnt, less with more lost, fed or hotter slag', () => {
    const base = burnProcess(short).removed;
    expect(burnProcess({ ...short, oxygenBurnt: 0.45 }).removed).toBeGreaterThan(base);
    expect(burnProcess({ ...short, heatLost: 0.12 }).removed).toBeLessThan(base);
    expect(burnProcess({ ...short, heatPart: 1e6 }).removed).toBeLessThan(base);
    expect(burnProcess({ ...short, freeTemperature: 1500 }).removed).toBeLessThan(base);
    expect(burnProcess({ ...short, feedRatio: 0.6 }).removed).toBeLessThan(base);
    expect(burnProcess({ ...short, slagTemperature: 2200, workHeat: ironEnthalpy(2200) }).removed).toBeLessThan(base);
  });

  it('limits the iron burnt to the rod where the work does not burn', () => {
    const { burnt } = burnProcess({ ...short, feedRatio: 1.6, oxygenBurnt: 0.7, workHeat: 2e6, workBurns: 0 });
    expect(burnt).toBeCloseTo(1.6, 12);
  });

  // Concrete and the like: burning does not carry itself, and oxygen would suffice for more than rod and reinforcement.
  it.each([0.1, 0.3, 0.35])(
    'limits the iron burnt to the rod and the share of the work that may burn, %f of it',
    (workBurns) => {
      const inputs = { ...short, feedRatio: 1, oxygenBurnt: 1, workHeat: 2e6, workBurns };
      const { removed, burnt, burntShare } = burnProcess(inputs);
      expect(burnt).toBeCloseTo(1 + workBurns * removed, 12);
      expect(burnt * splitOxygenDemand(0.5)).toBeLessThan(1);
      expect(leaves(inputs, burnProcess(inputs)) / (burnt * splitOxidationHeat(0.5))).toBeCloseTo(1, 12);
      expect(burntShare * (1 + removed)).toBeCloseTo(burnt, 12);
      // As much oxygen as that, and burning is limited by it instead, with the same result.
      const less = burnProcess({ ...inputs, oxygenBurnt: burnt * splitOxygenDemand(0.5) - 1e-9 });
      expect(less.burnt).toBeCloseTo(burnt, 7);
      expect(less.removed).toBeCloseTo(removed, 7);
    },
  );

  it('burns all that the oxygen allows where the work burns and carries itself', () => {
    const { burnt } = burnProcess({ ...short, oxygenBurnt: 0.5 });
    expect(burnt * splitOxygenDemand(0.5)).toBeCloseTo(0.5, 12);
  });

  it('says so where no heat is left for the work', () => {
    expect(() => burnProcess({ ...short, oxygenBurnt: 0.1, feedRatio: 1 })).toThrow(CalcError);
    expect(() => burnProcess({ ...short, oxygenBurnt: 0.1, feedRatio: 1 })).toThrow(
      /nothing is left to remove carbon steel/,
    );
  });

  it('refuses assumptions that burn more metal than leaves', () => {
    expect(() => burnProcess({ ...short, oxygenBurnt: 0.9, feedRatio: 0.05, heatPart: 3e6 })).toThrow(
      /burn 1\.\d* of the metal that leaves; it cannot be more than 1/,
    );
  });
});

describe('the purity of oxygen', () => {
  const removal = (purity: number, loss = 0.2): number =>
    readSteps(PURITY_STEPS, { purity, loss_pure: loss }).number('r_pure');

  it('takes a quarter more oxygen for a percent less: 98.5 for 99.5 % (a welding course text, read as a web copy, secondary)', () => {
    expect(1 / removal(0.985)).toBeCloseTo(1.25, 9);
    // The same text has 15 % off the speed, the low end of the loss.
    expect(removal(0.985, 0.15)).toBeCloseTo(0.85, 9);
    expect(removal(0.995)).toBe(1);
    expect(removal(1)).toBe(1);
  });

  it('cuts nothing below 95 % (same text)', () => {
    expect(removal(0.9501)).toBeGreaterThan(0);
    expect(() => removal(0.9499)).toThrow(/oxygen no longer cuts/);
  });
});
