import { describe, expect, it } from 'vitest';
import type { CylinderWall } from '../../../src/core/oxygen/draw-cylinder.ts';
import { flowingOn } from '../../../src/core/oxygen/flowing-gas.ts';
import { hoseOutlet } from '../../../src/core/oxygen/hose-loss.ts';
import { isotherm } from '../../../src/core/oxygen/oxygen-state.ts';
import { leastSupply, leftoverPressure, regulatorOutlet, type Regulator } from '../../../src/core/oxygen/regulator.ts';
import { rodFlow } from '../../../src/core/oxygen/rod-flow.ts';
import { meanSupplyFlow, supplyCheck, type CylinderBank } from '../../../src/core/oxygen/supply-check.ts';
import { setWhileFlowing, supplyPoint, type SupplyLine } from '../../../src/core/oxygen/supply-point.ts';
import { ATMOSPHERE, FOOT, INCH, PSI, SCF } from '../../../src/core/units/quantities.ts';

const oxygen = isotherm(294.26);
const scfm = SCF / 60;
const gauge = (psi: number): number => psi * PSI + ATMOSPHERE;
const regulator: Regulator = {
  setting: gauge(90),
  setFlow: 0,
  setSupply: gauge(2200),
  droop: (6 * PSI) / (20 * scfm),
  supplyEffect: 0.01,
  valve: { diameter: 0.12 * INCH, dischargeCoefficient: 1 },
};
const line: SupplyLine = {
  regulator,
  hose: { bore: 0.375 * INCH, length: 50 * FOOT, loss: 4, roughness: 0 },
  rod: {
    rod: { outsideDiameter: 0.375 * INCH, bore: 0.305 * INCH, wires: 7, wireDiameter: 0.095 * INCH },
    holder: { diameter: 0.11 * INCH, dischargeCoefficient: 1 },
    ambient: ATMOSPHERE,
  },
  oxygen,
};
const wall: CylinderWall = {
  massPerVolume: 1300,
  diameter: 8.5 * INCH,
  specificHeat: 440,
  insideFactor: 1,
  outsideFilm: 10,
};
const bank: CylinderBank = { cylinders: 1, volume: 0.043, wall, pressure: gauge(2200), temperature: 294.26 };
const length = 36 * INCH;
const stub = 3 * INCH;
const full = gauge(2200);

describe('regulator', () => {
  it('droops with flow and rises as the cylinder empties', () => {
    expect((regulatorOutlet(regulator, 20 * scfm, full) - regulator.setting) / PSI).toBeCloseTo(-6, 9);
    expect((regulatorOutlet(regulator, 0, gauge(1200)) - regulator.setting) / PSI).toBeCloseTo(10, 9);
  });

  it('starves where its open valve no longer passes the flow, and not before delivery and droop', () => {
    const delivery = gauge(84);
    const least = leastSupply(regulator, delivery, 20 * scfm, oxygen);
    expect(least).toBeGreaterThan(delivery);
    expect(leftoverPressure(regulator, delivery, 20 * scfm, oxygen)).toBeGreaterThanOrEqual(least);
    const wide = { ...regulator, valve: { diameter: INCH, dischargeCoefficient: 1 } };
    expect((leftoverPressure(wide, delivery, 20 * scfm, oxygen) - ATMOSPHERE) / PSI).toBeCloseTo(90, 6);
    expect(leftoverPressure(regulator, delivery, 0, oxygen)).toBeCloseTo(delivery, 6);
    expect(() => leftoverPressure(regulator, delivery, -1, oxygen)).toThrow('flow is -1 kg/s; must be at least 0 kg/s');
  });
});

describe('supplyPoint', () => {
  it('is where regulator, hose, holder and rod each pass the same flow', () => {
    for (const rodLength of [stub, 0.5, length]) {
      const point = supplyPoint(line, full, rodLength);
      expect(point.delivery / regulatorOutlet(regulator, point.flow, full)).toBeCloseTo(1, 7);
      const end = hoseOutlet(line.hose, point.delivery, point.flow, oxygen);
      expect(end.passes && end.outlet / point.tip).toBeCloseTo(1, 7);
      const gas = flowingOn(oxygen, (point.tip + ATMOSPHERE) / 2);
      expect(rodFlow({ ...line.rod, gas }, point.tip, rodLength) / point.flow).toBeCloseTo(1, 7);
      expect(point.wideOpen).toBe(false);
      expect(point.delivery).toBeGreaterThan(point.tip);
      expect(point.tip).toBeGreaterThan(point.behindHolder);
      expect(point.behindHolder).toBeGreaterThan(ATMOSPHERE);
    }
  });

  it('follows the cylinder through the open valve when it is nearly empty', () => {
    const point = supplyPoint(line, gauge(70), length);
    expect(point.wideOpen).toBe(true);
    expect(leastSupply(regulator, point.delivery, point.flow, oxygen) / gauge(70)).toBeCloseTo(1, 7);
    expect(point.flow).toBeLessThan(supplyPoint(line, full, length).flow);
    expect(supplyPoint(line, ATMOSPHERE, length).flow).toBe(0);
  });

  it('gives less flow at depth, through longer, narrower hose, lower setting and smaller holder', () => {
    const { flow } = supplyPoint(line, full, length);
    const flowOf = (other: Partial<SupplyLine>): number => supplyPoint({ ...line, ...other }, full, length).flow;
    expect(flowOf({ rod: { ...line.rod, ambient: 2 * ATMOSPHERE } })).toBeLessThan(flow);
    expect(flowOf({ hose: { ...line.hose, length: 60 * FOOT } })).toBeLessThan(flow);
    expect(flowOf({ hose: { ...line.hose, bore: 0.25 * INCH } })).toBeLessThan(flow);
    expect(flowOf({ regulator: { ...regulator, setting: gauge(85) } })).toBeLessThan(flow);
    expect(flowOf({ rod: { ...line.rod, holder: { diameter: 0.09 * INCH, dischargeCoefficient: 1 } } })).toBeLessThan(
      flow,
    );
    expect(flowOf({ rod: { ...line.rod, scale: 1.2 } })).toBeGreaterThan(flow);
  });

  it('is limited by a hose too long and thin, whose end may choke', () => {
    const thin = supplyPoint(
      { ...line, hose: { bore: (1 / 8) * INCH, length: 200 * FOOT, loss: 4, roughness: 0 } },
      full,
      stub,
    );
    expect(thin.flow / scfm).toBeLessThan(3);
    const wideRod = { ...line.rod, rod: { ...line.rod.rod, wires: 0 } };
    const { holder, ...bare } = wideRod;
    expect(holder).toBeDefined();
    expect(
      supplyPoint(
        { ...line, hose: { bore: (1 / 8) * INCH, length: 20 * FOOT, loss: 1, roughness: 0 }, rod: bare },
        full,
        stub,
      ).hoseChoked,
    ).toBe(true);
  });

  it('meets the setting when that is read while flowing', () => {
    const set = { ...line, regulator: setWhileFlowing(line, length) };
    expect(supplyPoint(set, full, length).delivery / regulator.setting).toBeCloseTo(1, 7);
    expect(supplyPoint(line, full, length).delivery).toBeLessThan(regulator.setting);
  });
});

describe('supplyCheck', () => {
  const flowing: SupplyLine = { ...line, regulator: setWhileFlowing(line, length / 2) };

  it('times the cylinder by the oxygen drawn and never draws more than can come out', () => {
    const check = supplyCheck(flowing, bank, length, stub);
    expect(check.flow / meanSupplyFlow(flowing, bank.pressure, length, stub)).toBeCloseTo(1, 9);
    expect(check.flowAtLeftover / meanSupplyFlow(flowing, check.leftover, length, stub)).toBeCloseTo(1, 9);
    const content = bank.volume * oxygen.density(bank.pressure);
    expect(check.drawn).toBeLessThan(content - bank.volume * oxygen.density(check.leftover));
    // Outlet drift lets the flow rise as the cylinder empties, so the time lies between those of both flows.
    const highest = meanSupplyFlow(
      { ...flowing, regulator: { ...flowing.regulator, valve: { diameter: 1, dischargeCoefficient: 1 } } },
      gauge(130),
      length,
      stub,
    );
    expect(check.time).toBeLessThan(check.drawn / check.flow);
    expect(check.time).toBeGreaterThan(check.drawn / highest);
    expect(check.coldest).toBeLessThan(bank.temperature);
  });

  it('lasts twice as long and a little more with two cylinders', () => {
    const one = supplyCheck(flowing, bank, length, stub);
    const two = supplyCheck(flowing, { ...bank, cylinders: 2 }, length, stub);
    expect(two.time).toBeGreaterThan(2 * one.time);
    expect(two.time).toBeLessThan(2.1 * one.time);
    expect(two.drawn / one.drawn).toBeGreaterThan(2);
    expect(two.drawn / one.drawn).toBeLessThan(2.1);
  });

  it('names the hose and mends it where it starves the tip', () => {
    const thin = { ...flowing, hose: { ...line.hose, bore: 0.25 * INCH, length: 100 * FOOT } };
    const set = { ...thin, regulator: setWhileFlowing({ ...thin, regulator }, length / 2) };
    const wanted = gauge(80);
    const check = supplyCheck(set, bank, length, stub, wanted);
    expect(check.limit).toBe('hose');
    expect(check.point.tip).toBeLessThan(wanted);
    const mean = (length + stub) / 2;
    const kinds = check.mends.map((m) => m.what);
    expect(kinds).toEqual(['setting', 'bore', 'length']);
    for (const mend of check.mends) {
      const mended: SupplyLine =
        mend.what === 'setting'
          ? { ...set, regulator: { ...set.regulator, setting: mend.setting } }
          : mend.what === 'bore'
            ? { ...set, hose: { ...set.hose, bore: mend.bore } }
            : mend.what === 'length'
              ? { ...set, hose: { ...set.hose, length: mend.length } }
              : set;
      const steady = { ...mended, regulator: { ...mended.regulator, droop: 0 } };
      expect(supplyPoint(steady, full, mean).tip / wanted).toBeCloseTo(1, 3);
    }
  });

  it('names the cylinder when it is nearly empty, and how full it must be', () => {
    const low = supplyCheck(flowing, { ...bank, pressure: gauge(60) }, length, stub, gauge(80));
    expect(low.limit).toBe('cylinder');
    expect(low.time).toBe(0);
    expect(low.mends[0]).toMatchObject({ what: 'cylinder' });
    expect(low.leftover).toBeGreaterThan(gauge(60));
  });

  it('names the rod where the tip pressure wanted is there, and the regulator where its valve is too small', () => {
    expect(supplyCheck(flowing, bank, length, stub, gauge(70)).limit).toBe('rod');
    expect(supplyCheck(flowing, bank, length, stub, gauge(70)).mends).toEqual([]);
    const small = {
      ...flowing,
      regulator: { ...flowing.regulator, valve: { diameter: 0.015 * INCH, dischargeCoefficient: 1 } },
    };
    const starved = supplyCheck(small, bank, length, stub, gauge(80));
    expect(starved.limit).toBe('regulator');
    const valve = starved.mends.find((m) => m.what === 'valve');
    if (valve?.what !== 'valve') throw new Error('a wider valve must mend it');
    // Just so wide, its regulator drives the tip pressure wanted.
    const wide = {
      ...small,
      regulator: { ...small.regulator, valve: { diameter: 1.001 * valve.diameter, dischargeCoefficient: 1 } },
    };
    expect(supplyPoint(wide, full, (length + stub) / 2).tip).toBeGreaterThanOrEqual(gauge(80) * (1 - 1e-3));
    const narrow = {
      ...small,
      regulator: { ...small.regulator, valve: { diameter: 0.98 * valve.diameter, dischargeCoefficient: 1 } },
    };
    expect(supplyPoint(narrow, full, (length + stub) / 2).tip).toBeLessThan(gauge(80));
  });
});
