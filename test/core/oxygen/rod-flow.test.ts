import { describe, expect, it } from 'vitest';
import { CalcError } from '../../../src/core/errors.ts';
import { flowingOxygen } from '../../../src/core/oxygen/flowing-gas.ts';
import { orificeFlow } from '../../../src/core/oxygen/orifice.ts';
import { passageInlet } from '../../../src/core/oxygen/pipe-flow.ts';
import {
  meanRodFlow,
  rodFlow,
  rodFlowScale,
  rodPassage,
  rodPassages,
  rodPressure,
  type RodLine,
} from '../../../src/core/oxygen/rod-flow.ts';
import { ATMOSPHERE, INCH, PSI } from '../../../src/core/units/quantities.ts';

const inlet = 80 * PSI + ATMOSPHERE;
const line: RodLine = {
  rod: { outsideDiameter: 0.375 * INCH, bore: 0.305 * INCH, wires: 7, wireDiameter: 0.095 * INCH },
  holder: { diameter: 0.11 * INCH, dischargeCoefficient: 1 },
  ambient: ATMOSPHERE,
  gas: flowingOxygen(294.26, 4e5),
};
const length = 36 * INCH;

describe('rodPassages', () => {
  it('takes the wires from the bore and wets both', () => {
    const { area, perimeter, diameter } = rodPassages(line.rod);
    expect(area / INCH ** 2).toBeCloseTo((Math.PI / 4) * (0.305 ** 2 - 7 * 0.095 ** 2), 12);
    expect(perimeter / INCH).toBeCloseTo(Math.PI * (0.305 + 7 * 0.095), 12);
    expect(diameter).toBeCloseTo((4 * area) / perimeter, 15);
  });

  it('refuses a bore without room for oxygen or wider than the rod', () => {
    expect(() => rodPassages({ ...line.rod, wires: 11 })).toThrow('so that oxygen can pass');
    expect(() => rodPassages({ ...line.rod, bore: 0.4 * INCH })).toThrow(CalcError);
    expect(() => rodPassages({ ...line.rod, bore: 0.375 * INCH })).toThrow(
      "bore is 0.009525 m; must be less than the outside diameter's 0.009525 m",
    );
    expect(() => rodPassages({ ...line.rod, bore: 0 })).toThrow('bore is blank or zero');
    expect(() => rodPassages({ ...line.rod, wires: 1, wireDiameter: 0.305 * INCH })).toThrow('so that oxygen can pass');
  });
});

describe('rodFlow', () => {
  it('lets the same mass through holder and rod', () => {
    for (const psi of [1, 20, 80, 150, 300])
      for (const ambient of [ATMOSPHERE, 3 * ATMOSPHERE]) {
        const deep = { ...line, ambient };
        const p = psi * PSI + ambient;
        const flow = rodFlow(deep, p, length);
        const behind = passageInlet(rodPassage(deep, length), ambient, flow, deep.gas);
        expect(orificeFlow(deep.holder!, p, behind, deep.gas) / flow).toBeCloseTo(1, 7);
      }
  });

  it('is met by rodPressure with and without a holder and with a factor', () => {
    for (const { holder, scale } of [
      { holder: line.holder, scale: 1 },
      { holder: undefined, scale: 1.2 },
      { holder: line.holder, scale: 0.7 },
    ])
      for (const psi of [0.5, 5, 80, 200])
        for (const inches of [3, 36]) {
          const { holder: _, ...bare } = line;
          const other: RodLine = holder ? { ...bare, holder, scale } : { ...bare, scale };
          const p = psi * PSI + ATMOSPHERE;
          expect(rodPressure(other, rodFlow(other, p, inches * INCH), inches * INCH) / p).toBeCloseTo(1, 8);
        }
    expect(rodFlow(line, ATMOSPHERE, length)).toBe(0);
    expect(rodPressure(line, 0, length)).toBe(ATMOSPHERE);
  });

  it('through a holder far wider than it needs is that of the rod alone, also where hardly anything flows', () => {
    const { holder: _, ...bare } = line;
    for (const over of [1, 55, 1e3, 1e5]) {
      const p = ATMOSPHERE + over;
      expect(
        rodFlow({ ...line, holder: { diameter: 1, dischargeCoefficient: 1 } }, p, length) / rodFlow(bare, p, length),
      ).toBeCloseTo(1, 6);
    }
  });

  it('rises with pressure and falls with length, depth and a smaller holder', () => {
    const flow = rodFlow(line, inlet, length);
    expect(rodFlow(line, inlet + PSI, length)).toBeGreaterThan(flow);
    expect(rodFlow(line, inlet, length - INCH)).toBeGreaterThan(flow);
    expect(rodFlow({ ...line, ambient: 2 * ATMOSPHERE }, inlet, length)).toBeLessThan(flow);
    expect(
      rodFlow({ ...line, holder: { diameter: 0.08 * INCH, dischargeCoefficient: 1 } }, inlet, length),
    ).toBeLessThan(flow);
    const { holder, ...bare } = line;
    expect(holder).toBeDefined();
    expect(rodFlow(bare, inlet, length)).toBeGreaterThan(flow);
    expect(
      rodFlow({ ...line, holder: { diameter: INCH, dischargeCoefficient: 1 } }, inlet, length) /
        rodFlow(bare, inlet, length),
    ).toBeCloseTo(1, 3);
  });

  it('falls with the roughness of tube and wires', () => {
    const rough = (roughness: number): number => rodFlow({ ...line, law: 'Colebrook', roughness }, inlet, length);
    expect(rough(1e-4)).toBeLessThan(rough(1e-5));
    expect(rough(1e-5)).toBeLessThan(rough(0));
  });

  it('meets a measured flow once fitted to it', () => {
    const measured = 1.25 * rodFlow(line, inlet, length);
    const scale = rodFlowScale(line, measured, inlet, length);
    expect(rodFlow({ ...line, scale }, inlet, length) / measured).toBeCloseTo(1, 12);
    expect(() => rodFlowScale(line, 0, inlet, length)).toThrow('rod flow measured');
  });

  it('refuses a pressure below the ambient one', () => {
    expect(() => rodFlow(line, 0.9 * ATMOSPHERE, length)).toThrow(
      'must be at least the 101325 Pa absolute around the rod',
    );
  });
});

describe('meanRodFlow', () => {
  it('is oxygen over time for a rod burned down in small steps', () => {
    const stub = 3 * INCH;
    const steps = 2000;
    let time = 0;
    for (let i = 0; i < steps; i++)
      time += 1 / steps / rodFlow(line, inlet, stub + ((i + 0.5) / steps) * (length - stub));
    expect(meanRodFlow(line, inlet, length, stub) * time).toBeCloseTo(1, 4);
  });

  it('lies between the flow of a new rod and of its stub, and is the flow of a rod hardly burned', () => {
    const mean = meanRodFlow(line, inlet, length, 3 * INCH);
    expect(mean).toBeGreaterThan(rodFlow(line, inlet, length));
    expect(mean).toBeLessThan(rodFlow(line, inlet, 3 * INCH));
    expect(meanRodFlow(line, inlet, length, length - 1e-6) / rodFlow(line, inlet, length)).toBeCloseTo(1, 6);
    expect(() => meanRodFlow(line, inlet, length, length)).toThrow(CalcError);
    expect(() => meanRodFlow(line, inlet, length, -0.01)).toThrow('stub is -0.01 m; must be at least 0 m');
    expect(meanRodFlow(line, inlet, length, 0)).toBeGreaterThan(mean);
  });
});
