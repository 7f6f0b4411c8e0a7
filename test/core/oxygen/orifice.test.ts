import { describe, expect, it } from 'vitest';
import { CalcError } from '../../../src/core/errors.ts';
import { flowingOxygen } from '../../../src/core/oxygen/flowing-gas.ts';
import { criticalPressureRatio, orificeFlow, orificeInlet, orificeOutlet } from '../../../src/core/oxygen/orifice.ts';

const orifice = { diameter: 2.8e-3, dischargeCoefficient: 1 };
const inlet = 6.5e5;
const gas = flowingOxygen(294.26, inlet);

describe('orificeFlow', () => {
  it('is met by its inverses on both sides of choking', () => {
    for (const ratio of [0.1, 0.3, 0.52, 0.55, 0.8, 0.99, 0.99999]) {
      const flow = orificeFlow(orifice, inlet, ratio * inlet, gas);
      expect(orificeInlet(orifice, ratio * inlet, flow, gas) / inlet).toBeCloseTo(1, 8);
      if (ratio > 0.53) expect((orificeOutlet(orifice, inlet, flow, gas) ?? 0) / (ratio * inlet)).toBeCloseTo(1, 8);
      else expect(orificeOutlet(orifice, inlet, flow, gas)).toBeUndefined();
    }
  });

  it('is steady below the critical ratio and falls to nothing at equal pressures', () => {
    const critical = criticalPressureRatio(gas.exponent);
    const most = orificeFlow(orifice, inlet, 0, gas);
    expect(orificeFlow(orifice, inlet, critical * inlet, gas)).toBeCloseTo(most, 12);
    expect(orificeFlow(orifice, inlet, (critical + 0.01) * inlet, gas)).toBeLessThan(most);
    expect(orificeFlow(orifice, inlet, inlet, gas)).toBe(0);
    expect(orificeInlet(orifice, 3e5, 0, gas)).toBe(3e5);
    for (let r = 0.5, before = Infinity; r <= 1; r += 0.01) {
      const flow = orificeFlow(orifice, inlet, r * inlet, gas);
      expect(flow).toBeLessThanOrEqual(before);
      before = flow;
    }
  });

  it('refuses pressures the wrong way and an orifice of no size', () => {
    expect(() => orificeFlow(orifice, 1e5, 2e5, gas)).toThrow(CalcError);
    expect(() => orificeFlow({ ...orifice, diameter: 0 }, 2e5, 1e5, gas)).toThrow('orifice is blank or zero');
    expect(() => orificeFlow({ ...orifice, dischargeCoefficient: 0 }, 2e5, 1e5, gas)).toThrow(
      'orifice is blank or zero',
    );
    expect(() => orificeInlet(orifice, 1e5, -1, gas)).toThrow('flow is -1 kg/s; must be at least 0 kg/s');
    expect(() => orificeOutlet(orifice, 1e5, -1, gas)).toThrow('flow is -1 kg/s; must be at least 0 kg/s');
    expect(orificeOutlet(orifice, 1e5, 0, gas)).toBeCloseTo(1e5, 6);
  });
});
