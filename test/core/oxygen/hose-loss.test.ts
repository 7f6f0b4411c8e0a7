import { describe, expect, it } from 'vitest';
import { boreAtLeast, HOSE_BORES } from '../../../src/core/oxygen/hose-bores.ts';
import {
  hoseFill,
  hoseInlet,
  hoseLoss,
  hoseOutlet,
  largestHoseFlow,
  type Hose,
} from '../../../src/core/oxygen/hose-loss.ts';
import { hoseSetting } from '../../../src/core/oxygen/hose-setting.ts';
import { frictionFactor } from '../../../src/core/oxygen/friction-factor.ts';
import { isotherm, oxygenViscosity } from '../../../src/core/oxygen/oxygen-state.ts';
import { waterColumn } from '../../../src/core/oxygen/water-column.ts';
import { ATMOSPHERE, FOOT, INCH, PSI, SCF } from '../../../src/core/units/quantities.ts';

const oxygen = isotherm(294.26);
const hose: Hose = { bore: 0.375 * INCH, length: 50 * FOOT, loss: 4, roughness: 0 };
const setting = 90 * PSI + ATMOSPHERE;
const scfm = SCF / 60;
const lost = (h: Hose, p: number, flow: number): number => {
  const result = hoseLoss(h, p, flow, oxygen);
  if (!result.passes) throw new Error('must pass');
  return result.loss;
};

describe('hoseLoss', () => {
  it('loses 7.4 psi at 20 scfm in 50 ft of 3/8 in smooth hose from 90 psig, without fittings', () => {
    expect(lost({ ...hose, loss: 0 }, setting, 20 * scfm) / PSI).toBeCloseTo(7.4, 1);
  });

  it('is what marching along the hose gives, with the density and viscosity of the real gas at each place', () => {
    // Momentum of isothermal flow: rho dp - G^2 d(ln rho) = -G^2 f / (2 D) dx, taken over the length in small steps of pressure.
    const flow = 25 * scfm;
    const bare = { ...hose, loss: 0, length: 100 * FOOT };
    for (const inlet of [150 * PSI + ATMOSPHERE, 800 * PSI + ATMOSPHERE]) {
      const end = inlet - lost(bare, inlet, flow);
      const flux = flow / ((Math.PI / 4) * hose.bore ** 2);
      const steps = 400;
      let marched = 0;
      for (let i = 0; i < steps; i++) {
        const [above, below] = [inlet - (i / steps) * (inlet - end), inlet - ((i + 1) / steps) * (inlet - end)];
        const density = oxygen.density((above + below) / 2);
        const friction = frictionFactor((flux * hose.bore) / oxygenViscosity(294.26, density));
        marched +=
          (density * (above - below) - flux ** 2 * Math.log(oxygen.density(above) / oxygen.density(below))) /
          ((flux ** 2 * friction) / (2 * hose.bore));
      }
      expect(marched / bare.length).toBeCloseTo(1, 4);
    }
  });

  it('grows with flow, length, fittings and roughness and falls with bore and setting', () => {
    const loss = lost(hose, setting, 15 * scfm);
    expect(lost(hose, setting, 15.1 * scfm)).toBeGreaterThan(loss);
    expect(lost({ ...hose, length: 51 * FOOT }, setting, 15 * scfm)).toBeGreaterThan(loss);
    expect(lost({ ...hose, loss: 5 }, setting, 15 * scfm)).toBeGreaterThan(loss);
    expect(lost({ ...hose, roughness: 1e-5 }, setting, 15 * scfm)).toBeGreaterThan(loss);
    expect(lost({ ...hose, bore: 0.38 * INCH }, setting, 15 * scfm)).toBeLessThan(loss);
    expect(lost(hose, setting + PSI, 15 * scfm)).toBeLessThan(loss);
    expect(lost(hose, setting, 0)).toBe(0);
  });

  it('is inverted by hoseInlet and hoseSetting', () => {
    for (const flow of [0.5, 5, 20, 30, 35])
      for (const p of [setting, 2 * setting]) {
        const tip = p - lost(hose, p, flow * scfm);
        expect(hoseInlet(hose, tip, flow * scfm, oxygen) / p).toBeCloseTo(1, 9);
        const back = hoseSetting(hose, tip, flow * scfm, oxygen);
        expect(back.passes && back.setting / p).toBeCloseTo(1, 9);
      }
  });

  it('passes the largest flow and no more', () => {
    const most = largestHoseFlow(hose, setting, oxygen);
    const justUnder = hoseOutlet(hose, setting, (1 - 1e-6) * most.flow, oxygen);
    expect(justUnder.passes && justUnder.outlet / most.exit).toBeCloseTo(1, 1);
    const over = hoseLoss(hose, setting, 1.0001 * most.flow, oxygen);
    expect(over).toEqual({ passes: false, largest: most.flow });
  });

  it('fills with little oxygen: a quarter of a cubic foot for 50 ft of 3/8 in hose at 80 psig', () => {
    expect(hoseFill(hose, 80 * PSI + ATMOSPHERE, ATMOSPHERE, oxygen) / SCF).toBeGreaterThan(0.15);
    expect(hoseFill(hose, 80 * PSI + ATMOSPHERE, ATMOSPHERE, oxygen) / SCF).toBeLessThan(0.3);
    expect(hoseFill(hose, ATMOSPHERE, ATMOSPHERE, oxygen)).toBe(0);
    // An ideal gas: its volume times the rise in atmospheres; oxygen there is half a percent denser.
    const volume = (Math.PI / 4) * (0.375 * INCH) ** 2 * 50 * FOOT;
    const ideal = (volume * 80 * PSI * 0.0319988) / (8.314463 * 294.26);
    expect(hoseFill(hose, 80 * PSI + ATMOSPHERE, ATMOSPHERE, oxygen) / ideal).toBeGreaterThan(1.002);
    expect(hoseFill(hose, 80 * PSI + ATMOSPHERE, ATMOSPHERE, oxygen) / ideal).toBeLessThan(1.008);
  });
});

describe('hoseSetting', () => {
  it('says the largest flow where the end would choke', () => {
    const result = hoseSetting(hose, 2 * ATMOSPHERE, 100 * scfm, oxygen);
    expect(result).toMatchObject({ passes: false, chokes: true });
    if (result.passes) return;
    expect(hoseSetting(hose, 2 * ATMOSPHERE, 1.001 * result.largest, oxygen).passes).toBe(false);
    const limit = hoseSetting(hose, 2 * ATMOSPHERE, 0.999 * result.largest, oxygen);
    expect(limit.passes).toBe(true);
    // From that setting the hose passes hardly more than that.
    expect(limit.passes && largestHoseFlow(hose, limit.setting, oxygen).flow / result.largest).toBeCloseTo(1, 2);
  });

  it('rises with depth by the water column', () => {
    const gradient = (0.445 * PSI) / FOOT;
    const at = (depth: number): number => {
      const result = hoseSetting(hose, ATMOSPHERE + waterColumn(depth * FOOT, gradient) + 90 * PSI, 10 * scfm, oxygen);
      return result.passes ? result.setting : NaN;
    };
    expect(at(60)).toBeGreaterThan(at(30));
    // Denser gas loses less in the hose.
    expect(at(60) - at(0)).toBeLessThan(60 * 0.445 * PSI);
    expect(() => waterColumn(-1, gradient)).toThrow('depth is -1 m; must be at least 0 m');
  });

  it('keeps to the highest setting there is, and says what passes then', () => {
    const tip = 80 * PSI + ATMOSPHERE;
    const free = hoseSetting(hose, tip, 20 * scfm, oxygen);
    if (!free.passes) throw new Error('must pass');
    expect(hoseSetting(hose, tip, 20 * scfm, oxygen, 1.0001 * free.setting)).toEqual(free);
    const held = hoseSetting(hose, tip, 20 * scfm, oxygen, 0.999 * free.setting);
    expect(held).toMatchObject({ passes: false, chokes: false });
    if (held.passes) return;
    const most = hoseSetting(hose, tip, held.largest, oxygen);
    expect(most.passes && most.setting / (0.999 * free.setting)).toBeCloseTo(1, 6);
    for (const highest of [tip, 0.9 * tip])
      expect(hoseSetting(hose, tip, scfm, oxygen, highest)).toEqual({ passes: false, chokes: false, largest: 0 });
  });

  it('refuses a hose without bore', () => {
    expect(() => hoseSetting({ ...hose, bore: 0 }, setting, scfm, oxygen)).toThrow('bore is blank or zero');
  });
});

describe('boreAtLeast', () => {
  it('picks the next common bore', () => {
    expect(boreAtLeast(0.3 * INCH)).toBe((5 / 16) * INCH);
    expect(boreAtLeast(0.375 * INCH)).toBe(0.375 * INCH);
    expect(boreAtLeast(2 * INCH)).toBeUndefined();
    expect([...HOSE_BORES].sort((a, b) => a - b)).toEqual(HOSE_BORES);
  });
});
