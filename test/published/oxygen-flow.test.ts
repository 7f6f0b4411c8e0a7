import { describe, expect, it } from 'vitest';
import { flowingOxygen } from '../../src/core/oxygen/flowing-gas.ts';
import { criticalPressureRatio, orificeFlow } from '../../src/core/oxygen/orifice.ts';
import { OXYGEN_GAS_CONSTANT } from '../../src/core/oxygen/oxygen-state.ts';
import { largestFlow, passageFlow, passageOutlet, roundPassage } from '../../src/core/oxygen/pipe-flow.ts';
import { rodFlow, rodPressure } from '../../src/core/oxygen/rod-flow.ts';
import { ATMOSPHERE, FOOT, INCH, POUND, PSI, SCF } from '../../src/core/units/quantities.ts';

const T = ((70 + 459.67) * 5) / 9;

describe('isothermal pipe flow', () => {
  it('gives the 145.48 kg/s of the worked example in the open library fluids (isothermal_gas)', () => {
    // 1 km of 0.5 m pipe, Darcy f 0.00185, 1.0 to 0.9 MPa, inlet density 11.3 kg/m3.
    const passage = roundPassage(0.5, 0, (0.00185 * 1000) / 0.5);
    const { flow, choked } = passageFlow(passage, 1e6, 0.9e6, { zrt: 1e6 / 11.3, viscosity: 1e-5, exponent: 1.4 });
    expect(flow).toBeCloseTo(145.48, 2);
    expect(choked).toBe(false);
  });

  it('gives the 2.715 psi of an isothermal calculation of Crane TP-410 example 7-16, which prints 2.61', () => {
    // Air, 65 psig, 115 F, 75 ft of 1 in schedule 40 steel pipe, 100 scfm (14.7 psia, 60 F). Air's gas constant and its
    // viscosity at 115 F are textbook values; commercial steel roughness 0.00015 ft as in Crane.
    const temperature = ((115 + 459.67) * 5) / 9;
    const air = { zrt: 287.055 * temperature, viscosity: 1.94e-5, exponent: 1.4 };
    const inlet = 65 * PSI + ATMOSPHERE;
    const flow = (100 * 0.0764 * POUND) / 60;
    const result = passageOutlet(roundPassage(1.049 * INCH, 75 * FOOT, 0, 0.00015 * FOOT), inlet, flow, air);
    if (!result.passes) throw new Error('must pass');
    const loss = (inlet - result.outlet) / PSI;
    expect(Math.abs(loss / 2.715 - 1)).toBeLessThan(0.01);
    // Crane's own answer takes the density at the inlet alone and a chart's friction factor.
    expect(Math.abs(loss / 2.61 - 1)).toBeLessThan(0.05);
  });

  /** Fanno (adiabatic) flow, exact ideal-gas formulae: gamma, M, f Lmax / D, p / p*, T / T*. */
  const FANNO = [
    [1.4, 0.05, 280.020306, 21.903427, 1.1994],
    [1.4, 0.15, 27.931967, 7.286591, 1.194624],
    [1.4, 0.25, 8.483409, 4.354648, 1.185185],
    [1.395, 0.1, 67.167583, 10.932244, 1.19514],
    [1.395, 0.2, 14.589108, 5.450032, 1.188114],
    [1.395, 0.3, 5.320667, 3.615685, 1.176586],
  ] as const;
  it.each([
    [0, 1],
    [1, 2],
    [3, 4],
    [4, 5],
  ])(
    'agrees with adiabatic flow between rows %d and %d of a Fanno table as closely as the temperature stays',
    (one, two) => {
      const [gamma, M, fromChoke, ratio, temperature] = FANNO[one]!;
      const [, , toChoke, ratioAfter, temperatureAfter] = FANNO[two]!;
      // Pressure 1 and Z R T 1 at the inlet make the exact flow per area M sqrt(gamma).
      const passage = roundPassage(1, 0, fromChoke - toChoke);
      const flux =
        passageFlow(passage, 1, ratioAfter / ratio, { zrt: 1, viscosity: 1, exponent: gamma }).flow / passage.area;
      expect(Math.abs(flux / (M * Math.sqrt(gamma)) - 1)).toBeLessThan(1 - temperatureAfter / temperature);
    },
  );

  it('chokes at nearly the adiabatic limit in a long passage, and never above it', () => {
    for (const [gamma, M, length] of [FANNO[0], FANNO[3]]) {
      const passage = roundPassage(1, 0, length);
      const flux = largestFlow(passage, 1, { zrt: 1, viscosity: 1, exponent: gamma }) / passage.area;
      const ratio = flux / (M * Math.sqrt(gamma));
      expect(ratio).toBeLessThan(1);
      expect(ratio).toBeGreaterThan(0.99);
    }
  });
});

/** Ideal-gas choked oxygen at 70 F: upstream psig, orifice in, discharge coefficient, kg/s. */
const CHOKED = [
  [30.0, 0.0625, 1.0, 0.0015086],
  [30.0, 0.125, 1.0, 0.0060344],
  [30.0, 0.15625, 1.0, 0.0094287],
  [30.0, 0.25, 1.0, 0.0241374],
  [60.0, 0.0625, 1.0, 0.0025212],
  [60.0, 0.125, 1.0, 0.0100846],
  [60.0, 0.15625, 1.0, 0.0157572],
  [60.0, 0.25, 1.0, 0.0403385],
  [80.0, 0.0625, 1.0, 0.0031962],
  [80.0, 0.125, 1.0, 0.0127848],
  [80.0, 0.15625, 1.0, 0.0199763],
  [80.0, 0.25, 1.0, 0.0511393],
  [90.0, 0.0625, 1.0, 0.0035337],
  [90.0, 0.125, 1.0, 0.0141349],
  [90.0, 0.15625, 1.0, 0.0220858],
  [90.0, 0.25, 1.0, 0.0565396],
  [100.0, 0.0625, 1.0, 0.0038712],
  [100.0, 0.125, 1.0, 0.015485],
  [100.0, 0.15625, 1.0, 0.0241953],
  [100.0, 0.25, 1.0, 0.06194],
  [120.0, 0.0625, 1.0, 0.0045463],
  [120.0, 0.125, 1.0, 0.0181852],
  [120.0, 0.15625, 1.0, 0.0284143],
  [120.0, 0.25, 1.0, 0.0727407],
  [150.0, 0.0625, 1.0, 0.0055589],
  [150.0, 0.125, 1.0, 0.0222355],
  [150.0, 0.15625, 1.0, 0.0347429],
  [150.0, 0.25, 1.0, 0.0889418],
] as const;

describe('choked orifice', () => {
  // The table takes oxygen as an ideal gas of this exponent.
  const exponent = 1.395;
  const ideal = { zrt: OXYGEN_GAS_CONSTANT * T, viscosity: 2e-5, exponent };

  it('has the critical pressure ratio 0.52913 of oxygen as an ideal gas at 70 F', () => {
    expect(criticalPressureRatio(exponent)).toBeCloseTo(0.52913, 5);
    expect(criticalPressureRatio(flowingOxygen(T, 1).exponent)).toBeCloseTo(0.52913, 3);
  });

  it.each(CHOKED)(
    'passes the ideal-gas flow at %d psig through %d in, and the real gas up to 0.7 %% more',
    (psig, diameter, dischargeCoefficient, flow) => {
      const orifice = { diameter: diameter * INCH, dischargeCoefficient };
      const inlet = psig * PSI + ATMOSPHERE;
      expect(Math.abs(orificeFlow(orifice, inlet, ATMOSPHERE, ideal) / flow - 1)).toBeLessThan(2e-4);
      const more = orificeFlow(orifice, inlet, ATMOSPHERE, flowingOxygen(T, inlet)) / flow - 1;
      expect(more).toBeGreaterThan(0);
      expect(more).toBeLessThan(0.007);
    },
  );
});

describe('rod flow', () => {
  const threeEighths = { outsideDiameter: 0.375 * INCH, bore: 0.305 * INCH, wires: 7, wireDiameter: 0.095 * INCH };
  const quarter = { outsideDiameter: 0.25 * INCH, bore: 0.19 * INCH, wires: 4, wireDiameter: 0.065 * INCH };

  // Worked values of the project's design, Blasius friction, entry loss and velocity head 0.5 + 1, no holder, 80 psi.
  it.each([
    ['3/8 x 36', threeEighths, 9.0],
    ['1/4 x 36', quarter, 7.0],
  ])('passes through %s what the design worked out by hand', (_, rod, scfm) => {
    const inlet = 80 * PSI + ATMOSPHERE;
    const line = { rod, ambient: ATMOSPHERE, gas: flowingOxygen(T, 0.5 * (inlet + ATMOSPHERE)) };
    const flow = rodFlow(line, inlet, 36 * INCH);
    expect((flow / SCF) * 60).toBeCloseTo(scfm, 1);
    expect(rodPressure(line, flow, 36 * INCH) / inlet).toBeCloseTo(1, 9);
  });
});
