import { describe, expect, it } from 'vitest';
import { CalcError } from '../../../src/core/errors.ts';
import { flowingOxygen } from '../../../src/core/oxygen/flowing-gas.ts';
import {
  largestFlow,
  passageFlow,
  passageInlet,
  passageOutlet,
  roundPassage,
} from '../../../src/core/oxygen/pipe-flow.ts';
import { ATMOSPHERE, FOOT, INCH, PSI } from '../../../src/core/units/quantities.ts';

const inlet = 90 * PSI + ATMOSPHERE;
const gas = flowingOxygen(294.26, inlet);
const hose = roundPassage(0.375 * INCH, 50 * FOOT, 3);
const passages = [
  hose,
  roundPassage(0.25 * INCH, 2, 0.5, 1e-5),
  roundPassage(1e-3, 0.9, 1.5, 0, 'Blasius'),
  roundPassage(3e-4, 1),
];

describe('passageFlow', () => {
  it('is met by its inverses, choked or not', () => {
    for (const passage of passages)
      for (const outlet of [0, ATMOSPHERE, 0.5 * inlet, 0.9 * inlet, 0.999 * inlet]) {
        const { flow, choked, exit } = passageFlow(passage, inlet, outlet, gas);
        expect(exit >= outlet).toBe(true);
        expect(passageInlet(passage, outlet, flow, gas) / inlet).toBeCloseTo(1, 9);
        if (choked) continue;
        const back = passageOutlet(passage, inlet, flow, gas);
        expect(back.passes && back.outlet / outlet).toBeCloseTo(1, 8);
      }
  });

  it('does not rise once the exit is choked, where the exit pressure is G sqrt(Z R T)', () => {
    const most = passageFlow(hose, inlet, 0, gas);
    expect(most.choked).toBe(true);
    expect(most.exit).toBeCloseTo((most.flow / hose.area) * Math.sqrt(gas.zrt), 2);
    expect(passageFlow(hose, inlet, 0.9 * most.exit, gas).flow).toBeCloseTo(most.flow, 12);
    expect(passageFlow(hose, inlet, 1.01 * most.exit, gas).choked).toBe(false);
    expect(passageFlow(hose, inlet, 1.01 * most.exit, gas).flow).toBeLessThan(most.flow);
    expect(passageFlow(hose, inlet, 1.01 * most.exit, gas).exit).toBe(1.01 * most.exit);
  });

  it('rises with inlet and bore and falls with length, losses, roughness and outlet', () => {
    const flow = passageFlow(hose, inlet, 0.8 * inlet, gas).flow;
    expect(passageFlow(hose, 1.01 * inlet, 0.8 * inlet, gas).flow).toBeGreaterThan(flow);
    expect(passageFlow(hose, inlet, 0.81 * inlet, gas).flow).toBeLessThan(flow);
    expect(passageFlow(roundPassage(0.38 * INCH, 50 * FOOT, 3), inlet, 0.8 * inlet, gas).flow).toBeGreaterThan(flow);
    expect(passageFlow({ ...hose, length: hose.length + 1 }, inlet, 0.8 * inlet, gas).flow).toBeLessThan(flow);
    expect(passageFlow({ ...hose, loss: 4 }, inlet, 0.8 * inlet, gas).flow).toBeLessThan(flow);
    expect(passageFlow({ ...hose, roughness: 1e-5 }, inlet, 0.8 * inlet, gas).flow).toBeLessThan(flow);
  });

  it('passes nothing without a pressure difference and refuses one the wrong way', () => {
    expect(passageFlow(hose, inlet, inlet, gas)).toEqual({ flow: 0, choked: false, exit: inlet });
    expect(passageOutlet(hose, inlet, 0, gas)).toEqual({ passes: true, outlet: inlet });
    expect(() => passageFlow(hose, 1e5, 2e5, gas)).toThrow(CalcError);
    expect(() => passageFlow({ ...hose, diameter: 0 }, inlet, 0, gas)).toThrow('bore is blank or zero');
    expect(() => passageOutlet(hose, inlet, -1, gas)).toThrow('flow is -1 kg/s; must be at least 0 kg/s');
    expect(() => passageInlet(hose, inlet, -1, gas)).toThrow('flow is -1 kg/s; must be at least 0 kg/s');
    expect(() => passageFlow(hose, inlet, -1, gas)).toThrow('outlet is -1 Pa absolute; must be at least 0 Pa absolute');
    expect(() => passageFlow({ ...hose, area: 0 }, inlet, 0, gas)).toThrow('bore is blank or zero');
    expect(() => passageFlow({ ...hose, length: -1 }, inlet, 0, gas)).toThrow('length is -1 m; must be at least 0 m');
    expect(() => passageFlow({ ...hose, length: 0, loss: 0 }, inlet, 0, gas)).toThrow('length is blank or zero');
    expect(passageFlow({ ...hose, loss: 0 }, inlet, 0, gas).flow).toBeGreaterThan(0);
  });

  it('says the largest flow where a flow cannot pass', () => {
    const most = largestFlow(hose, inlet, gas);
    const result = passageOutlet(hose, inlet, 1.001 * most, gas);
    expect(result.passes).toBe(false);
    expect(!result.passes && result.largest).toBe(most);
    expect(passageOutlet(hose, inlet, 0.999 * most, gas).passes).toBe(true);
  });

  it('is a smooth function of the pressure through laminar, transition and turbulent flow', () => {
    const fine = roundPassage(5e-4, 1, 0, 0, 'Blasius');
    for (let p = 1.001 * ATMOSPHERE, before = 0; p < 60e5; p *= 1.01) {
      const { flow } = passageFlow(fine, p, ATMOSPHERE, gas);
      expect(flow).toBeGreaterThan(before);
      before = flow;
    }
  });
});
