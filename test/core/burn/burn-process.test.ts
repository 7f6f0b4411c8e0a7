import { describe, expect, it } from 'vitest';
import { burnProcess, type BurnInputs } from '../../../src/core/burn/burn-process.ts';
import { ironEnthalpy, splitOxidationHeat, splitOxygenDemand } from '../../../src/core/burn/iron-heat.ts';
import { CalcError } from '../../../src/core/errors.ts';

const short: BurnInputs = {
  feedRatio: 0.5, oxygenBurnt: 0.25, monoxideShare: 0.5, heatLost: 0.3, slagTemperature: 2100, workHeat: ironEnthalpy(2100), workBurns: 1, workName: 'carbon steel',
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

  it('says so where no heat is left for the work', () => {
    expect(() => burnProcess({ ...short, oxygenBurnt: 0.1, feedRatio: 1 })).toThrow(CalcError);
    expect(() => burnProcess({ ...short, oxygenBurnt: 0.1, feedRatio: 1 })).toThrow(/nothing is left to remove carbon steel/);
  });

  it('refuses assumptions that burn more metal than leaves', () => {
    expect(() => burnProcess({ ...short, oxygenBurnt: 0.9, feedRatio: 0.05, heatLost: 0.9 })).toThrow(/cannot be more than 1|nothing is left/);
  });
});
