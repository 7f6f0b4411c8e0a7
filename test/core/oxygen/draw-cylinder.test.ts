import { describe, expect, it } from 'vitest';
import { CalcError } from '../../../src/core/errors.ts';
import { cylinderYield } from '../../../src/core/oxygen/cylinder-yield.ts';
import { drawnTo } from '../../../src/core/oxygen/cylinder-content.ts';
import { drawCylinder, type CylinderWall, type Draw } from '../../../src/core/oxygen/draw-cylinder.ts';
import { isotherm } from '../../../src/core/oxygen/oxygen-state.ts';
import { ATMOSPHERE, INCH, PSI, SCF } from '../../../src/core/units/quantities.ts';

const wall: CylinderWall = {
  massPerVolume: 1300,
  diameter: 8.5 * INCH,
  specificHeat: 440,
  insideFactor: 1,
  outsideFilm: 10,
};
const T = 294.26;
const full = 2200 * PSI + ATMOSPHERE;
const leftover = 200 * PSI + ATMOSPHERE;
const scfm = SCF / 60;
const draw = (flow: number, more: Partial<Draw> = {}): Draw => ({
  volume: 0.043,
  wall,
  pressure: full,
  temperature: T,
  leftover,
  flow: () => flow * scfm,
  ...more,
});

/** Entropy change [J/kg K] between two states along density at one temperature, then temperature at one density. */
function entropyChange(t1: number, rho1: number, t2: number, rho2: number): number {
  const steps = 400;
  let s = 0;
  for (let i = 0; i < steps; i++) {
    const rho = rho1 + ((i + 0.5) / steps) * (rho2 - rho1);
    s -= (isotherm(t1).state(rho).pressureSlope / rho ** 2) * ((rho2 - rho1) / steps);
    const t = t1 + ((i + 0.5) / steps) * (t2 - t1);
    s += (isotherm(t).state(rho2).cv / t) * ((t2 - t1) / steps);
  }
  return s;
}

describe('drawCylinder', () => {
  it('keeps the temperature and yields all there is when the wall gives heat freely', () => {
    const warm = { ...wall, massPerVolume: 1e7, insideFactor: 1e4 };
    const end = drawCylinder(draw(10, { wall: warm }));
    expect(end.temperature).toBeCloseTo(T, 1);
    expect(end.drawn / drawnTo(0.043, full, T, leftover)).toBeCloseTo(1, 3);
  });

  it('leaves the gas that stays behind at its entropy when the wall gives no heat', () => {
    const cold = { ...wall, insideFactor: 0 };
    const end = drawCylinder(draw(10, { wall: cold, leftover: 900 * PSI }));
    expect(end.temperature).toBeLessThan(T - 50);
    expect(Math.abs(entropyChange(T, isotherm(T).density(full), end.temperature, end.mass / 0.043))).toBeLessThan(0.5);
  });

  it('closes the energy balance of gas, steel and gas drawn when no heat comes from outside', () => {
    const insulated = { ...wall, outsideFilm: 0 };
    // Enthalpy carried off, summed over many short draws of the same run.
    const run = (time: number): ReturnType<typeof drawCylinder> =>
      drawCylinder(draw(15, { wall: insulated, time, leftover: ATMOSPHERE }));
    const total = 600;
    const steps = 150;
    let carried = 0;
    for (let i = 0; i < steps; i++) {
      const { temperature, mass } = run(((i + 0.5) / steps) * total);
      carried += isotherm(temperature).state(mass / 0.043).enthalpy * 15 * scfm * (total / steps);
    }
    const end = run(total);
    const gasBefore = 0.043 * isotherm(T).density(full) * isotherm(T).state(isotherm(T).density(full)).internalEnergy;
    const gasAfter = end.mass * isotherm(end.temperature).state(end.mass / 0.043).internalEnergy;
    const steel = 1300 * 0.043 * 440 * (end.wall - T);
    const heat = Math.abs(steel);
    expect(Math.abs(gasAfter - gasBefore + steel + carried) / heat).toBeLessThan(0.005);
  });

  it('cools more and yields less the faster it is drawn, and yields more from a manifold', () => {
    let before = Infinity;
    let cold = Infinity;
    for (const flow of [1, 5, 10, 20, 40]) {
      const end = drawCylinder(draw(flow));
      expect(end.starved).toBe(true);
      expect(end.pressure / leftover).toBeCloseTo(1, 6);
      expect(end.drawn).toBeLessThan(before);
      expect(end.temperature).toBeLessThan(cold);
      expect(end.temperature).toBeLessThan(end.wall);
      expect(end.wall).toBeLessThan(T);
      expect(end.time).toBeCloseTo(end.drawn / (flow * scfm), 0);
      before = end.drawn;
      cold = end.temperature;
    }
    const one = cylinderYield(0.043, wall, full, T, leftover, 20 * scfm, 1);
    const two = cylinderYield(0.043, wall, full, T, leftover, 20 * scfm, 2);
    expect(two.drawn).toBeGreaterThan(one.drawn);
    expect(one.drawn).toBeLessThan(one.atRest);
    expect(one.warmed).toBeGreaterThan(leftover);
  });

  it('yields 224 of 227 scf from 43 L at 10 scfm down to 150 psig, and warms up to 176 psig', () => {
    const end = cylinderYield(0.043, wall, full, T, 150 * PSI + ATMOSPHERE, 10 * scfm);
    expect(end.drawn / SCF).toBeCloseTo(224, -0.3);
    expect(end.atRest / SCF).toBeCloseTo(226.8, 0);
    expect((end.warmed - ATMOSPHERE) / PSI).toBeCloseTo(176, -0.5);
    expect(end.temperature).toBeCloseTo(((0 + 459.67) * 5) / 9, -0.3);
  });

  it('shows a gauge below the content after a fast draw, and the right one when warmed up', () => {
    const half = drawCylinder(draw(20, { time: 300 }));
    expect(half.starved).toBe(false);
    expect(half.time).toBe(300);
    const warm = isotherm(T).pressure(half.mass / 0.043);
    // The cold gas reads a tenth or more low.
    expect(half.pressure).toBeLessThan(0.93 * warm);
    expect(half.drawn).toBeCloseTo(300 * 20 * scfm, 4);
  });

  it('stops at once at the leftover pressure and stays as it is where nothing is drawn', () => {
    expect(drawCylinder(draw(10, { pressure: leftover })).drawn).toBe(0);
    const still = drawCylinder(draw(0, { time: 100 }));
    expect(still.pressure / full).toBeCloseTo(1, 9);
    expect(still.starved).toBe(false);
  });

  it('says so where the cylinder lasts longer than is followed, and gives no time cut short', () => {
    // 1e-4 scfm empties 43 L in four years; one tenth of a scfm in a day and a half of burning.
    expect(() => drawCylinder(draw(1e-4))).toThrow(/last longer than is followed/);
    expect(drawCylinder(draw(0.1)).starved).toBe(true);
  });

  it('says so where the gas would cool out of the model', () => {
    expect(() => drawCylinder(draw(2000, { leftover: ATMOSPHERE }))).toThrow(CalcError);
  });
});
