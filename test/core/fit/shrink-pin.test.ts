import { describe, expect, it } from 'vitest';
import { contactPressure } from '../../../src/core/fit/contact-pressure.ts';
import { shrinkPin, type ShrinkPin } from '../../../src/core/fit/shrink-pin.ts';
import { assumed, DENSITY, INCH, passesOf, PHYSICS, PIN } from '../heat/physics.ts';
import { BOSS_STEEL, fitAssumed, PIN_STEEL, pressFit } from './physics.ts';

/** Burnt at about a pound a minute [kg/s]. */
const PACE = 0.0068;
const TARGET = assumed('cooling target with water');
const inputs = (over: Partial<ShrinkPin> = {}): ShrinkPin => ({
  pin: PIN,
  passes: passesOf(PIN, 800),
  method: 'air',
  target: TARGET,
  evenness: assumed('pin over boss when pushed'),
  longest: 14 * 86400,
  interference: 0.0012 * INCH,
  pinSteel: PIN_STEEL,
  bossSteel: BOSS_STEEL,
  ...over,
});
const shrink = (over: Partial<ShrinkPin> = {}) => shrinkPin(inputs(over), PHYSICS);
/** Little heat and much [J/kg]: about the first and the 99th percentile of what is assumed. */
const low = passesOf(PIN, 800, 0.4e6);
const high = passesOf(PIN, 800, 1.4e6);

describe('loosening of a burnt-out pin', () => {
  it("starts from the bored pin's pressure after Lame", () => {
    expect(shrink().pressureBored / contactPressure(pressFit(PIN), 0.0012 * INCH)).toBeCloseTo(1, 3);
  });

  it('yields the pin and leaves it looser for good with the usual heat', () => {
    const { reason, cold, pinUtilisation } = shrink();
    expect(reason).toBe('pin yielded');
    expect(pinUtilisation).toBeCloseTo(1, 6);
    expect(cold.loosening).toBeGreaterThan(0);
    expect(cold.interference + cold.loosening).toBeCloseTo(0.0012 * INCH, 12);
  });

  it('loosens nothing for good where neither yields, and says so', () => {
    const { reason, cold, pinUtilisation, bossUtilisation } = shrink({ passes: low });
    expect(reason).toBe('stayed elastic');
    expect(pinUtilisation).toBeLessThan(1);
    expect(bossUtilisation).toBeLessThan(1);
    expect(Math.abs(cold.loosening)).toBeLessThan(1e-9 * INCH);
  });

  it('parts the joint with much heat', () => {
    const { pushed, cold, history } = shrink({ passes: high });
    expect(pushed.pressure).toBe(0);
    expect(cold.interference).toBeLessThan(0);
    expect(history.at(-1)!.clearance).toBeGreaterThan(0);
  });

  it('loosens more the more heat goes in, and the weaker the pin', () => {
    const byHeat = [low, passesOf(PIN, 800), high].map((passes) => shrink({ passes }).cold.loosening);
    expect(byHeat[1]!).toBeGreaterThan(byHeat[0]!);
    expect(byHeat[2]!).toBeGreaterThan(byHeat[1]!);
    const byYield = [700e6, 500e6, 350e6].map(
      (strength) => shrink({ pinSteel: { ...PIN_STEEL, yield: strength } }).cold.loosening,
    );
    expect(byYield[1]!).toBeGreaterThan(byYield[0]!);
    expect(byYield[2]!).toBeGreaterThan(byYield[1]!);
  });

  it('presses harder while hot than before or after', () => {
    const { pressureMost, pressureBored, pushed } = shrink();
    expect(pressureMost).toBeGreaterThan(2 * pressureBored);
    expect(pressureMost).toBeGreaterThan(pushed.pressure);
  });

  it.each([
    ['low', low],
    ['likely', passesOf(PIN, 800)],
  ] as const)('is looser after water than after air when pushed at one temperature, with %s heat', (_, passes) => {
    expect(shrink({ passes, method: 'water' }).pushed.loosening).toBeGreaterThan(shrink({ passes }).pushed.loosening);
  });

  it('is parted either way with much heat, where water chills the bore so fast that it stretches and undoes a little of it', () => {
    const [air, water] = [shrink({ passes: high }), shrink({ passes: high, method: 'water' })];
    expect(air.pushed.pressure).toBe(0);
    expect(water.pushed.pressure).toBe(0);
    expect(water.pushed.loosening / air.pushed.loosening).toBeGreaterThan(0.9);
    expect(water.pushed.loosening / air.pushed.loosening).toBeLessThan(1);
  });

  it('loosens a thin ring more than a thick one', () => {
    const at = (hole: number) => {
      const pin = { ...PIN, hole: hole * INCH };
      return shrink({ pin, passes: passesOf(pin, 800) }).cold.loosening;
    };
    expect(at(3)).toBeGreaterThan(at(2.5));
    expect(at(2.5)).toBeGreaterThan(at(1.5));
  });

  it('says that the pin is still too hot where the time followed ends before the target', () => {
    expect(shrink({ longest: 60 }).reason).toBe('still too hot');
  });

  // The gravest of pins of 1 to 12 in, bores of 0.5 to 0.95, bosses of 1.5 to 30 pin diameters, in air and water.
  it.each([
    [4, 0.65, 2.5, 'air'],
    [4, 0.65, 2.5, 'water'],
    [12, 0.95, 2.5, 'air'],
    [4, 0.8, 1.5, 'water'],
    [12, 0.95, 5, 'water'],
    [1, 0.8, 10, 'air'],
    [12, 0.5, 10, 'water'],
    [12, 0.95, 10, 'water'],
    [4, 0.65, 30, 'water'],
    [1, 0.65, 30, 'air'],
    [12, 0.8, 30, 'water'],
  ] as const)(
    'of %d in bored to %d of it, in a boss of %d diameters cooled with %s, lies within 1 %% of a grid and steps twice as fine',
    (size, bore, boss, method) => {
      const diameter = size * INCH;
      const pin = { diameter, hole: bore * diameter, boss: boss * diameter, length: 2.5 * diameter };
      const interference = fitAssumed('interference over diameter') * diameter;
      const burnTime = (DENSITY * (Math.PI / 4) * pin.hole ** 2 * pin.length) / PACE;
      const given = inputs({
        pin,
        passes: passesOf(pin, burnTime),
        method,
        interference,
        target: assumed(method === 'air' ? 'cooling target in air' : 'cooling target with water'),
      });
      const { loosening } = shrinkPin(given, PHYSICS).pushed;
      const fine = shrinkPin(given, PHYSICS, { pinCells: 48, bossCells: 80, tolerance: 0.25 }).pushed.loosening;
      expect(Math.abs(loosening - fine)).toBeLessThan(0.01 * Math.max(interference, Math.abs(fine)));
    },
  );
});
