import { describe, expect, it } from 'vitest';
import { Assumptions } from '../../../src/core/assumptions/assumptions.ts';
import { cylinderSeparation } from '../../../src/core/safety/cylinder-separation.ts';
import { eyeShade, eyeShadeWorking } from '../../../src/core/safety/eye-shade.ts';
import { manifoldLimits as limitsInForce } from '../../../src/core/safety/manifold-limits.ts';
import { ventilation } from '../../../src/core/safety/ventilation.ts';
import { FOOT, INCH, SCF } from '../../../src/core/units/quantities.ts';

describe('separation of cylinders', () => {
  it('comes up short under 20 ft without a barrier', () => {
    expect(cylinderSeparation(20 * FOOT)).toMatchObject({ short: false, missing: 0, barrierCounts: false });
    expect(cylinderSeparation(19 * FOOT).short).toBe(true);
    expect(cylinderSeparation(15 * FOOT).missing / FOOT).toBeCloseTo(5, 9);
  });

  it('is made good by a barrier 5 ft high of half an hour, and by nothing less', () => {
    expect(cylinderSeparation(0, { height: 5 * FOOT, rating: 1800 })).toMatchObject({
      short: false,
      barrierCounts: true,
    });
    expect(cylinderSeparation(0, { height: 4.9 * FOOT, rating: 1800 }).short).toBe(true);
    expect(cylinderSeparation(0, { height: 6 * FOOT, rating: 1799 }).short).toBe(true);
  });

  it('refuses a negative distance or barrier', () => {
    expect(() => cylinderSeparation(-1)).toThrow('distance');
    expect(() => cylinderSeparation(1, { height: -1, rating: 0 })).toThrow('barrier height');
    expect(() => cylinderSeparation(1, { height: 1, rating: -60 })).toThrow(
      'barrier rating is -1 min; must be at least 0 min',
    );
  });
});

describe('a manifold', () => {
  const full = 244 * SCF;
  const manifoldLimits = (cylinders: number, content: number, reserve = 0) =>
    limitsInForce(cylinders, content, reserve, Assumptions.defaults());

  it('passes 6000 cu ft with the 25th cylinder of 244 cu ft', () => {
    expect(manifoldLimits(24, full).over).toEqual([]);
    expect(manifoldLimits(25, full).over.map((o) => o.limit.clause)).toEqual(['1910.253(c)(2)']);
    expect(manifoldLimits(6000, SCF).over).toEqual([]);
  });

  it('falls under the rules for bulk oxygen above 13,000 cu ft in service or 25,000 with reserves', () => {
    expect(manifoldLimits(54, full).over).toHaveLength(2);
    expect(manifoldLimits(10, full, 24000 * SCF).over.map((o) => o.limit.name)).toEqual([
      'oxygen with reserves on site before the rules for bulk oxygen apply',
    ]);
    expect(manifoldLimits(54, full, 20000 * SCF).over).toHaveLength(3);
  });

  it('refuses negative amounts', () => {
    expect(() => manifoldLimits(-1, full)).toThrow('cylinders');
    expect(() => manifoldLimits(1, full, -1)).toThrow('reserve');
  });
});

describe('filter shade', () => {
  it('does not fall short by a rounding at 1 in and 6 in', () => {
    for (const inches of [1, 6])
      for (const slip of [1 - 1e-14, 1, 1 + 1e-14]) expect(eyeShade(inches * INCH * slip).shade).toBe(4);
  });

  it('refuses a thickness that is not more than 0', () => {
    expect(() => eyeShade(0)).toThrow('thickness is 0 m; must be more than 0 m');
  });

  it('never falls as the metal gets thicker, and is the same in its working', () => {
    let before = 0;
    for (let t = 0.005; t < 0.6; t += 0.005) {
      const { shade } = eyeShade(t);
      expect(eyeShadeWorking(t).value).toBe(shade);
      expect(shade).toBeGreaterThanOrEqual(before);
      before = shade;
    }
  });
});

describe('ventilation for each person', () => {
  it('refuses a room of nothing and nobody at the work', () => {
    expect(() => ventilation(0, 5, 1, false)).toThrow('volume');
    expect(() => ventilation(100, 0, 1, false)).toThrow('ceiling');
    expect(() => ventilation(100, 5, 0, false)).toThrow('people');
  });

  it('says in its working where the rule asks for no fan', () => {
    const steps = ventilation(1e5, 9, 1, false).working.steps();
    expect(steps.filter((s) => s.kind !== 'input').map((s) => [s.symbol, s.value])).toEqual([['Q', 0]]);
  });
});
