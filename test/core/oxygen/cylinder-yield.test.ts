import { describe, expect, it } from 'vitest';
import { contentPressure, cylinderContent, drawnTo } from '../../../src/core/oxygen/cylinder-content.ts';
import { cylinderGauge } from '../../../src/core/oxygen/cylinder-gauge.ts';
import { cylinderYield } from '../../../src/core/oxygen/cylinder-yield.ts';
import { FILL_TEMPERATURE, gaugeReading } from '../../../src/core/oxygen/gauge-reading.ts';
import { ATMOSPHERE, PSI, SCF } from '../../../src/core/units/quantities.ts';

const T = FILL_TEMPERATURE;
const V = 0.043;
const full = 2200 * PSI + ATMOSPHERE;
const left = 150 * PSI + ATMOSPHERE;
const wall = { massPerVolume: 1400, diameter: 0.22, specificHeat: 470, insideFactor: 1, outsideFilm: 10 };
const scfm = SCF / 60;

describe('what a cylinder yields', () => {
  const fast = cylinderYield(V, wall, full, T, left, 10 * scfm);

  it('is what it held less what is left, which shows its pressure once it has warmed up', () => {
    const remaining = cylinderContent(V, full, T) - fast.drawn;
    expect(contentPressure(V, remaining, T) / fast.warmed).toBeCloseTo(1, 6);
    expect(fast.warmed).toBeGreaterThan(left);
    expect(fast.temperature).toBeLessThan(T);
    expect(fast.time * 10 * scfm).toBeCloseTo(fast.drawn, 4);
  });

  it('is less than slowly, by the density of the cold gas that is left', () => {
    expect(fast.atRest).toBe(drawnTo(V, full, T, left));
    expect(fast.atRest - fast.drawn).toBeCloseTo(cylinderContent(V, fast.warmed, T) - cylinderContent(V, left, T), 6);
    const slow = cylinderYield(V, wall, full, T, left, 0.05 * scfm);
    expect(slow.drawn / slow.atRest).toBeCloseTo(1, 3);
    expect(slow.warmed / left).toBeCloseTo(1, 1.5);
  });

  it('is that of one of several which share the flow', () => {
    expect(cylinderYield(V, wall, full, T, left, 30 * scfm, 3).drawn).toBeCloseTo(fast.drawn, 9);
  });
});

describe('what a gauge reads', () => {
  it('is the fill at 70 F, and the pressure of the same density at another temperature', () => {
    expect(gaugeReading('fill', 2200 * PSI, T)).toBeCloseTo(2200 * PSI, 3);
    for (const temperature of [255, 280, 310])
      expect(gaugeReading('fill', 2200 * PSI, temperature) + ATMOSPHERE).toBeCloseTo(
        cylinderGauge(full, T, temperature),
        2,
      );
    expect(gaugeReading('fill', 2200 * PSI, 280, 0.8 * ATMOSPHERE) + 0.8 * ATMOSPHERE).toBeCloseTo(
      cylinderGauge(2200 * PSI + 0.8 * ATMOSPHERE, T, 280),
      2,
    );
  });

  it('is refused beyond the range of the equation, 30 MPa, cold or warm, with the fill that just is not', () => {
    const most = 30e6 - ATMOSPHERE;
    expect(gaugeReading('fill', most * (1 - 1e-9), 280)).toBeLessThan(most);
    const cold = Number(((cylinderGauge(30e6, T, 280) - ATMOSPHERE) / PSI).toPrecision(6));
    expect(() => gaugeReading('fill', most * 1.001, 280)).toThrow(
      `fill is 4340.77 psi; must be at most 4336.44 psi, with the gauge at ${cold} psi at `,
    );
    // Warmed to 320 K it passes 30 MPa where the same density does.
    const fill = cylinderGauge(30e6, 320, T) - ATMOSPHERE;
    expect(gaugeReading('fill', fill * (1 - 1e-9), 320) / most).toBeCloseTo(1, 6);
    expect(() => gaugeReading('fill', fill * 1.001, 320)).toThrow(
      `must be at most ${Number((fill / PSI).toPrecision(6))} psi, with the gauge at 4336.44 psi`,
    );
  });
});
