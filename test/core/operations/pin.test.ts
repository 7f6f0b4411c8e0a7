import { describe, expect, it } from 'vitest';
import { Assumptions, type Override } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import { splitOxygenDemand } from '../../../src/core/burn/iron-heat.ts';
import { findMaterial } from '../../../src/core/burn/materials.ts';
import { findRod, rodMassPerLength } from '../../../src/core/burn/rods.ts';
import { PIN } from '../../../src/core/operations/pin.ts';
import { sized, type Sized } from '../../../src/core/operations/sized.ts';
import { spreadItem } from '../../../src/core/operations/spread-item.ts';

const IN = 0.0254;
const basisOf = (...overrides: readonly Override[]): Basis => new Basis(Assumptions.from(overrides));
const size = (diameter: number, length: number, hole?: number, rod?: string, basis = basisOf()): Sized =>
  sized({
    operation: PIN,
    sizes: { diameter: diameter * IN, length: length * IN, hole: hole === undefined ? undefined : hole * IN },
    rod: rod === undefined ? undefined : findRod(rod),
    material: findMaterial('carbon steel'),
    basis,
  });
const set = (name: Extract<Override, { value: number }>['name'], value: number): Override => ({
  name,
  value,
  kind: 'your value',
});

describe('a pin', () => {
  it('takes at least the oxygen that burning its share of the metal needs', () => {
    // Stoichiometry of FeO and Fe3O4 from the NASA polynomials: 0.2865 and 0.3820 kg of oxygen a kg of iron.
    const s = size(4, 10);
    const fed = s.consumed * rodMassPerLength(s.rod.rod);
    const burnt = (0.25 / splitOxygenDemand(0.5)) * (s.oxygen / 1.3);
    expect(burnt).toBeLessThan(fed + s.removed);
    expect(s.oxygen).toBeGreaterThan(burnt * splitOxygenDemand(0.5));
  });

  it('takes more of everything when it is longer, and when its bore is wider', () => {
    let before = size(4, 4);
    for (const length of [6, 9, 12, 18, 24, 30]) {
      const now = size(4, length);
      expect(now.oxygen).toBeGreaterThan(before.oxygen);
      expect(now.rods).toBeGreaterThanOrEqual(before.rods);
      expect(now.crewTime).toBeGreaterThan(before.crewTime);
      expect(now.pressure).toBeGreaterThanOrEqual(before.pressure);
      before = now;
    }
    expect(size(4, 10, 3).oxygen).toBeGreaterThan(size(4, 10, 2.5).oxygen);
  });

  it('takes the pressure of the depth pierced from one end: 70 psi and 2 psi for each inch, at most 150 psi (common practice, no source)', () => {
    const PSI = 6894.757293168361;
    const pressure = (length: number, ends: number): number =>
      size(4, length, 2.5, '3/8 x 36 coupled', basisOf(set('ends worked', ends))).pressure / PSI;
    expect(pressure(10, 1)).toBeCloseTo(90, 9);
    expect(pressure(20, 2)).toBeCloseTo(90, 9);
    expect(pressure(20, 1)).toBeCloseTo(110, 9);
    expect(pressure(40, 1)).toBeCloseTo(150, 9);
    expect(pressure(50, 1)).toBeCloseTo(150, 9);
  });

  describe('widened', () => {
    const PSI = 6894.757293168361;
    const widened = (length: number, ...more: readonly Override[]): readonly [number, number, number] => {
      const pin = size(4, length, 2.5, '3/8 x 36 coupled', basisOf(...more));
      const { pressure, widenPressure = NaN } = pin;
      const flows = pin
        .working('t')
        .steps()
        .filter(({ symbol }) => symbol === 'm' || symbol === 'm_widen');
      expect(flows).toHaveLength(2);
      return [pressure / PSI, widenPressure / PSI, (flows[1]?.value as number) / (flows[0]?.value as number)];
    };

    it('has 70 to 90 psi, whatever drove the pilot (common practice, no source)', () => {
      const [first, second, ratio] = widened(30);
      expect([first, second]).toEqual([expect.closeTo(130, 9), expect.closeTo(90, 9)]);
      // Flow goes about as absolute pressure.
      expect(ratio).toBeCloseTo(104.696 / 144.696, 1);
      expect(widened(4)[1]).toBeCloseTo(78, 9);
    });

    it('has the one pressure that is set for all', () => {
      expect(widened(30, set('tip pressure', 100 * PSI))).toEqual([expect.closeTo(100, 9), expect.closeTo(100, 9), 1]);
    });

    it('takes the oxygen of both phases, each at its own flow', () => {
      const s = size(4, 30, 2.5, '3/8 x 36 coupled');
      const at = (symbol: string): number =>
        s
          .working('O')
          .steps()
          .find((step) => step.symbol === symbol)?.value as number;
      expect(at('O_burn')).toBeCloseTo(at('m') * at('t_pierce') + at('m_widen') * at('t_rest'), 12);
      expect(at('O_burn') / s.burnTime).toBeLessThan(at('m'));
      expect(at('O_burn') / s.burnTime).toBeGreaterThan(at('m_widen'));
    });
  });

  it('leaves some of itself round its bore', () => {
    expect(() => size(4, 10, 4)).toThrow("hole is 4 in; must be less than the pin's 4 in");
    expect(size(4, 10, 3.999).removed).toBeGreaterThan(0);
  });

  it('removes the volume of its bore', () => {
    const s = size(4, 10, 2.5);
    expect(s.removed).toBeCloseTo(7850 * (Math.PI / 4) * (2.5 * IN) ** 2 * 10 * IN, 9);
  });

  it('takes the same oxygen for its metal at any pressure, only faster, while slag does not limit', () => {
    const FREE = [set('advance limit', 1), set('limit sharpness', 50)];
    const slow = size(4, 4, 2.5, '3/8 x 36', basisOf(set('tip pressure', 6e5), set('lighting time', 0), ...FREE));
    const fast = size(4, 4, 2.5, '3/8 x 36', basisOf(set('tip pressure', 9e5), set('lighting time', 0), ...FREE));
    expect(fast.oxygen / slow.oxygen).toBeCloseTo(1, 9);
    expect(fast.burnTime).toBeLessThan(slow.burnTime);
  });

  it('gets a rod that passes its bore, reaches its end and fits the access', () => {
    expect(size(0.75, 3).rod.rod.name).toBe('3/16');
    expect(size(4, 10).rod.length).toBeLessThanOrEqual(40 * IN);
    expect(size(4, 36).rod.coupled).toBe(true);
    // From both ends a single rod reaches; where rods are coupled, it is since that costs less.
    expect(size(4, 36).rod.reason).toContain('since no single rod reaches');
    expect(size(4, 36, undefined, undefined, basisOf(set('ends worked', 2))).rod.reason).not.toContain(
      'since no single rod reaches',
    );
    expect(size(4, 10, undefined, undefined, basisOf(set('access length', 25 * IN))).rod.length).toBeCloseTo(
      24 * IN,
      9,
    );
  });

  it('keeps the rod that was named', () => {
    expect(size(4, 10, undefined, '1/4 x 24').name).toBe('1/4 x 24');
    expect(size(4, 10, undefined, '3/8').rod.rod.name).toBe('3/8');
  });

  it('refuses a rod that is too wide for the bore or too short for the pin, saying what would do', () => {
    expect(() => size(2, 10, 0.5, '3/8')).toThrow(
      'hole is 0.5 in; a 3/8 rod pierces 0.75 in wide: choose a thinner rod or a wider hole',
    );
    expect(() => size(4, 20, 2.5, '3/8 x 18')).toThrow(
      /a 3\/8 x 18 rod reaches 15 in with its stub; the work is 20 in deep/,
    );
    expect(() => size(4, 10, 2.5, '3/8 x 18', basisOf(set('stub', 18 * IN)))).toThrow(
      "stub is 18 in; must be less than the rod's 18 in",
    );
    expect(() => size(4, 10, 2.5, undefined, basisOf(set('access length', 10 * IN)))).toThrow(
      /the shortest rod in the register is 18 in/,
    );
    expect(() => size(4, 10, 2.5, undefined, basisOf(set('supply flow', 1e-5)))).toThrow(/supply flow is/);
  });

  it('wants fewer rods coupled than single where many are used', () => {
    const single = size(6, 24, 4, '3/8 x 36');
    const coupled = size(6, 24, 4, '3/8 x 36 coupled');
    expect(coupled.rods).toBeLessThan(single.rods);
  });

  it('has its likely figures between low and high', () => {
    for (const [d, l] of [
      [0.75, 3],
      [2, 8],
      [4, 10],
      [6, 24],
    ] as const) {
      const basis = basisOf();
      const s = size(d, l, undefined, undefined, basis);
      const spread = spreadItem(s, basis);
      expect(spread.lowOxygen).toBeLessThan(s.oxygen);
      expect(spread.highOxygen).toBeGreaterThan(s.oxygen);
      expect(spread.lowRods).toBeLessThanOrEqual(s.rods);
      expect(spread.highRods).toBeGreaterThanOrEqual(s.rods);
      expect(spread.lowCrewTime).toBeLessThan(s.crewTime * 1.05);
      expect(spread.highCrewTime).toBeGreaterThan(s.crewTime);
    }
  });
});
