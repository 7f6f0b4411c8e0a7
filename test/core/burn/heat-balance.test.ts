import { describe, expect, it } from 'vitest';
import { heatBalanceSteps } from '../../../src/core/burn/heat-balance.ts';
import { ironEnthalpy, splitOxidationHeat, splitOxygenDemand } from '../../../src/core/burn/iron-heat.ts';
import { findMaterial } from '../../../src/core/burn/materials.ts';
import { findRod } from '../../../src/core/burn/rods.ts';
import { CalcError } from '../../../src/core/errors.ts';
import { readSteps } from '../model/read-steps.ts';

const STEPS = heatBalanceSteps(findRod('3/8').rod, findMaterial('carbon steel'));

interface BurnInputs {
  readonly feedRatio: number;
  readonly oxygenBurnt: number;
  readonly monoxideShare: number;
  readonly heatLost: number;
  readonly slagTemperature: number;
  readonly workHeat: number;
  readonly workBurns: number;
}

/** The balance on these numbers. */
function burnProcess(inputs: BurnInputs): {
  readonly removed: number;
  readonly fed: number;
  readonly burnt: number;
  readonly burntShare: number;
} {
  const at = readSteps(STEPS, {
    lambda: inputs.feedRatio,
    eta: inputs.oxygenBurnt,
    FeO: inputs.monoxideShare,
    f: inputs.heatLost,
    T: inputs.slagTemperature,
    h_work: inputs.workHeat,
    burns: inputs.workBurns,
    rho: 7850,
  });
  const burntShare = at.number('share');
  return { removed: at.number('k'), fed: at.number('lambda'), burnt: at.number('B'), burntShare };
}

const short: BurnInputs = {
  feedRatio: 0.5,
  oxygenBurnt: 0.25,
  monoxideShare: 0.5,
  heatLost: 0.3,
  slagTemperature: 2100,
  workHeat: ironEnthalpy(2100),
  workBurns: 1,
};

describe('the heat balance of burning', () => {
  it('closes: heat made and not lost equals what rod and work take away', () => {
    const { removed, fed, burnt } = burnProcess(short);
    expect(burnt * splitOxidationHeat(0.5) * 0.7).toBeCloseTo((fed + removed) * ironEnthalpy(2100), 3);
  });

  it('never burns more iron than the oxygen allows', () => {
    for (const oxygenBurnt of [0.15, 0.25, 0.4]) {
      const { burnt } = burnProcess({ ...short, oxygenBurnt });
      expect(burnt * splitOxygenDemand(0.5)).toBeLessThanOrEqual(oxygenBurnt + 1e-12);
    }
  });

  it('removes more with more oxygen burnt, less with more lost, fed or hotter slag', () => {
    const base = burnProcess(short).removed;
    expect(burnProcess({ ...short, oxygenBurnt: 0.3 }).removed).toBeGreaterThan(base);
    expect(burnProcess({ ...short, heatLost: 0.35 }).removed).toBeLessThan(base);
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
      expect(burnt * splitOxidationHeat(0.5) * 0.7).toBeCloseTo(ironEnthalpy(2100) + removed * 2e6, 3);
      expect(burntShare * (1 + removed)).toBeCloseTo(burnt, 12);
      // As much oxygen as that, and burning is limited by it instead, with the same result.
      const less = burnProcess({ ...inputs, oxygenBurnt: burnt * splitOxygenDemand(0.5) - 1e-9 });
      expect(less.burnt).toBeCloseTo(burnt, 7);
      expect(less.removed).toBeCloseTo(removed, 7);
    },
  );

  it('burns all that the oxygen allows where the work burns and carries itself', () => {
    const { burnt } = burnProcess({ ...short, oxygenBurnt: 0.4 });
    expect(burnt * splitOxygenDemand(0.5)).toBeCloseTo(0.4, 12);
  });

  it('burns all the metal that leaves and no more, also by rounding, where the work is all free to burn but hardly carries itself', () => {
    const inputs = {
      feedRatio: 0.8356962254300015,
      oxygenBurnt: 0.32459635038394485,
      monoxideShare: 0.9575988559154212,
      heatLost: 0.6718770929132006,
      slagTemperature: 2195.9613642815384,
      workHeat: 1717245.8992113487,
    };
    expect(burnProcess({ ...short, ...inputs }).burntShare).toBe(1);
  });

  it('says so where no heat is left for the work', () => {
    expect(() => burnProcess({ ...short, oxygenBurnt: 0.1, feedRatio: 1 })).toThrow(CalcError);
    expect(() => burnProcess({ ...short, oxygenBurnt: 0.1, feedRatio: 1 })).toThrow(
      /nothing is left to remove carbon steel/,
    );
  });

  it('refuses assumptions that burn more metal than leaves', () => {
    // Work that takes half the heat of iron and hardly carries its burning: the rod takes more than it brings, and more would burn than there is.
    const workHeat = ironEnthalpy(2100) / 2;
    const heatLost = 1 - (1.001 * workHeat) / splitOxidationHeat(0.5);
    expect(() => burnProcess({ ...short, oxygenBurnt: 0.9, feedRatio: 0.05, workHeat, heatLost })).toThrow(
      /burn 1\.0\d* of the metal that leaves; it cannot be more than 1/,
    );
  });
});
