/** Calculations of the supply with the assumptions in force. */
import { describe, expect, it } from 'vitest';
import { Assumptions, type Override } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import { ambientPressure, waterPressure } from '../../../src/core/oxygen/ambient-pressure.ts';
import { cylinderYield } from '../../../src/core/oxygen/cylinder-yield.ts';
import { drawnCylinder } from '../../../src/core/oxygen/drawable-content.ts';
import { FILL_TEMPERATURE } from '../../../src/core/oxygen/gauge-reading.ts';
import { lossInForce } from '../../../src/core/oxygen/loss-in-force.ts';
import { ATMOSPHERE, FOOT, INCH, PSI, SCF } from '../../../src/core/units/quantities.ts';

const set = (name: Extract<Override, { value: number }>['name'], value: number): Override => ({
  name,
  value,
  kind: 'your value',
});
const word = (name: Extract<Override, { word: string }>['name'], text: string): Override => ({ name, word: text });
const basisOf = (...overrides: readonly Override[]): Basis =>
  new Basis(Assumptions.from([set('air pressure', ATMOSPHERE), ...overrides]));
const scfm = SCF / 60;

describe('the pressure around the burning end', () => {
  it('is that of the air and of the water over it: 0.445 psi for each foot of sea water (US Navy Diving Manual)', () => {
    const { a } = basisOf(set('water depth', 60 * FOOT));
    expect((ambientPressure(a) - ATMOSPHERE) / PSI).toBeCloseTo(26.7, 6);
    expect((ambientPressure(a, 10 * FOOT) - ATMOSPHERE) / PSI).toBeCloseTo(4.45, 6);
    expect(ambientPressure(a, 0)).toBe(ATMOSPHERE);
    // Fresh water by its weight, 62.4 lb/cu ft: 0.433 psi a foot.
    expect(waterPressure(basisOf(word('water', 'fresh')).a, 10 * FOOT) / PSI).toBeCloseTo(4.33, 1);
  });
});

describe('the loss of a hose whose setting is read standing', () => {
  const standing = (setting: number, flow: number, ...overrides: readonly Override[]): number =>
    lossInForce(
      flow * scfm,
      setting * PSI,
      100 * FOOT,
      0.25 * INCH,
      basisOf(
        word('regulator set', 'standing'),
        set('regulator droop', 8 * PSI),
        set('regulator droop flow', 20 * scfm),
        ...overrides,
      ),
    ).value;
  const most = (setting: number, flow: number, ...overrides: readonly Override[]): number => {
    try {
      standing(setting, flow, ...overrides);
    } catch (e) {
      return Number(/largest flow is ([\d.]+) scfm/.exec((e as Error).message)?.[1]);
    }
    throw new Error(`${flow} scfm must not pass`);
  };

  it.each([0, 30])('has a largest flow at which outlet and hose agree, %i ft under water', (feet) => {
    const deep = set('water depth', feet * FOOT);
    const largest = most(60, 30, deep);
    // Asked with another flow, the same.
    expect(most(60, 20, deep) / largest).toBeCloseTo(1, 5);
    expect(standing(60, 0.999 * largest, deep)).toBeGreaterThan(0);
    expect(() => standing(60, 1.001 * largest, deep)).toThrow('the hose cannot pass');
    // The droop takes some of what passes where the setting is read while flowing.
    const flowing = (): number => lossInForce(30 * scfm, 60 * PSI, 100 * FOOT, 0.25 * INCH, basisOf(deep)).value;
    expect(flowing).toThrow('the hose cannot pass');
    expect(largest).toBeLessThan(most(60, 30, deep, set('regulator droop', 0)));
  });

  it('is refused where the droop leaves nothing of the setting', () => {
    expect(most(30, 100)).toBeLessThan(20);
    expect(most(30, 200)).toBeCloseTo(most(30, 100), 4);
  });
});

describe('a setting', () => {
  const loss = (setting: number, ...overrides: readonly Override[]): number =>
    lossInForce(2 * scfm, setting, 20 * FOOT, 0.375 * INCH, basisOf(...overrides)).value;

  it('is at least the tip pressure, and more than the pressure of the water', () => {
    expect(loss(80 * PSI, set('tip pressure', 80 * PSI))).toBeGreaterThan(0);
    expect(() => loss(79.9 * PSI, set('tip pressure', 80 * PSI))).toThrow(
      'must be at least the tip pressure of 80 psi',
    );
    const deep = set('water depth', 60 * FOOT);
    const water = waterPressure(basisOf(deep).a, 60 * FOOT);
    expect(() => loss(water, deep)).toThrow('must be more than the 26.7 psi of the water');
    expect(loss(1.5 * water, deep)).toBeGreaterThan(0);
  });
});

describe('the share of a cylinder that comes out at the draw flow', () => {
  it('is that of its yield, down to the leftover over air', () => {
    const overrides = [
      set('gas temperature', FILL_TEMPERATURE),
      set('cylinder pressure', 2200 * PSI),
      set('cylinder volume', 0.043),
      set('cylinder draw flow', 20 * scfm),
      set('cylinders on manifold', 2),
      set('leftover pressure', 100 * PSI),
    ];
    const basis = basisOf(...overrides);
    const value = (name: Parameters<typeof basis.a.value>[0]): number => basis.a.value(name);
    const wall = {
      massPerVolume: value('cylinder steel'),
      diameter: value('cylinder inside diameter'),
      specificHeat: value('cylinder steel heat'),
      insideFactor: value('cylinder inside convection'),
      outsideFilm: value('cylinder outside film'),
    };
    const { drawn, atRest } = cylinderYield(
      0.043,
      wall,
      2200 * PSI + ATMOSPHERE,
      FILL_TEMPERATURE,
      100 * PSI + ATMOSPHERE,
      20 * scfm,
      2,
    );
    const cylinder = drawnCylinder(basis, { pressure: 50 * PSI, flow: 0 });
    expect(cylinder.number('share_cyl')).toBeCloseTo(drawn / atRest, 6);
    expect(drawn / atRest).toBeLessThan(1);
  });
});
