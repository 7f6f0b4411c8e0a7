import { describe, expect, it } from 'vitest';
import { CalcError } from '../../../src/core/errors.ts';
import { contentPressure, cylinderContent, drawnTo } from '../../../src/core/oxygen/cylinder-content.ts';
import { cylinderCount } from '../../../src/core/oxygen/cylinder-count.ts';
import { cylinderGauge } from '../../../src/core/oxygen/cylinder-gauge.ts';
import {
  CYLINDER_SIZES,
  cylinderSizeNamed,
  highestFill,
  OVERFILL,
  type CylinderSize,
} from '../../../src/core/oxygen/cylinder-sizes.ts';
import { isotherm } from '../../../src/core/oxygen/oxygen-state.ts';
import { ATMOSPHERE, PSI, SCF } from '../../../src/core/units/quantities.ts';

const T = 294.26;
const sizeNamed = (name: string): CylinderSize => cylinderSizeNamed(name)!;
const full = 2200 * PSI + ATMOSPHERE;

describe('cylinder content', () => {
  it('is never less than what can be drawn, and is inverted by the pressure', () => {
    for (const p of [ATMOSPHERE, 1e6, full, 30e6])
      for (const t of [250, T, 350]) {
        const content = cylinderContent(0.043, p, t);
        expect(contentPressure(0.043, content, t) / p).toBeCloseTo(1, 10);
        expect(drawnTo(0.043, p, t, 0)).toBeCloseTo(content, 12);
        expect(drawnTo(0.043, p, t, ATMOSPHERE)).toBeLessThan(content);
        expect(drawnTo(0.043, p, t, p)).toBe(0);
      }
  });

  it('grows with pressure and volume and falls with temperature and leftover', () => {
    const drawn = drawnTo(0.043, full, T, 1e6);
    expect(drawnTo(0.043, 1.01 * full, T, 1e6)).toBeGreaterThan(drawn);
    expect(drawnTo(0.05, full, T, 1e6)).toBeGreaterThan(drawn);
    expect(drawnTo(0.043, full, T + 10, 1e6)).toBeLessThan(drawn);
    expect(drawnTo(0.043, full, T, 1.1e6)).toBeLessThan(drawn);
  });

  it('refuses what is outside the equation or the cylinder', () => {
    expect(() => cylinderContent(0, full, T)).toThrow('water volume is blank or zero');
    expect(() => cylinderContent(0.043, 31e6, T)).toThrow(CalcError);
    expect(() => cylinderContent(0.043, full, 215)).toThrow('temperature is 215 K; must be at least 222 K');
    expect(() => drawnTo(0.043, 1e6, T, 2e6)).toThrow('leftover pressure');
    expect(() => contentPressure(0.043, 100, T)).toThrow(CalcError);
    expect(() => contentPressure(0.043, -1, T)).toThrow('content is -1 kg; must be at least 0 kg');
    expect(contentPressure(0.043, 0, T)).toBe(0);
  });
});

describe('cylinderGauge', () => {
  it('goes there and back, rises with temperature, and stays at the same one', () => {
    expect(cylinderGauge(full, T, T) / full).toBeCloseTo(1, 12);
    expect(cylinderGauge(cylinderGauge(full, T, 260), 260, T) / full).toBeCloseTo(1, 11);
    expect(cylinderGauge(full, T, 300)).toBeGreaterThan(full);
    expect(() => cylinderGauge(full, T, 215)).toThrow(CalcError);
  });
});

describe('cylinder sizes', () => {
  it('are found by name whatever the case and spaces', () => {
    expect(sizeNamed('43l').volume).toBe(0.043);
    expect(sizeNamed('12 X 50 L PACK').cylinders).toBe(12);
    expect(cylinderSizeNamed('44 L')).toBeUndefined();
    expect(() => cylinderSizeNamed('13 x 50 L pack')).toThrow(
      'cylinder "13 x 50 L pack" is not in the register; nearest: 12 x 50 L pack',
    );
    expect(new Set(CYLINDER_SIZES.map((s) => s.name)).size).toBe(CYLINDER_SIZES.length);
  });

  it('hold at their service pressure what such cylinders are known for', () => {
    // Common practice, no source, but for 43 L (244 cu ft, US Army TC 9-237).
    for (const [name, low, high] of [
      ['20 L', 95, 125],
      ['43 L', 240, 246],
      ['49 L', 290, 312],
      ['50 L', 360, 385],
    ] as const) {
      const { volume, servicePressure, fillTemperature } = sizeNamed(name);
      const scf = cylinderContent(volume, servicePressure + ATMOSPHERE, fillTemperature) / SCF;
      expect(scf).toBeGreaterThan(low);
      expect(scf).toBeLessThan(high);
    }
  });

  it('may be filled to a tenth over the service pressure, more when warm', () => {
    const { servicePressure, fillTemperature } = sizeNamed('43 L');
    expect(highestFill(servicePressure, fillTemperature, fillTemperature)).toBeCloseTo(
      (1 + OVERFILL) * servicePressure + ATMOSPHERE,
      -1,
    );
    expect(highestFill(servicePressure, fillTemperature, fillTemperature + 20)).toBeGreaterThan(
      highestFill(servicePressure, fillTemperature, fillTemperature),
    );
  });
});

describe('cylinderCount', () => {
  it('rounds up, but not for a rounding error', () => {
    const content = cylinderContent(0.043, full, T);
    expect(cylinderCount(0, content, 0)).toBe(0);
    expect(cylinderCount(content, content, 0)).toBe(1);
    expect(cylinderCount(content * (1 + 1e-12), content, 0)).toBe(1);
    expect(cylinderCount(content * 1.001, content, 0)).toBe(2);
    expect(cylinderCount(content, content, 0.01)).toBe(2);
    expect(cylinderCount(10 * (content - 0.01), content, 0.01)).toBe(10);
  });

  it('refuses a cylinder that its change would empty', () => {
    expect(() => cylinderCount(1, 0.05, 0.05)).toThrow('content');
    expect(() => cylinderCount(-1, 1, 0)).toThrow(CalcError);
  });

  it('never counts on more than the cylinders hold', () => {
    const content = drawnTo(0.043, full, T, 1e6);
    for (const oxygen of [0.1, 5, 9, 50, 123]) {
      const n = cylinderCount(oxygen, content, 0.02);
      expect(n * cylinderContent(0.043, full, T)).toBeGreaterThanOrEqual(oxygen);
      expect((n - 1) * (content - 0.02)).toBeLessThan(oxygen);
    }
    expect(isotherm(T).density(full)).toBeGreaterThan(0);
  });
});
