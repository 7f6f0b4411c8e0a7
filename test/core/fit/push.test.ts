import { describe, expect, it } from 'vitest';
import { Assumptions } from '../../../src/core/assumptions/assumptions.ts';
import { guardPlates, type GuardedPin } from '../../../src/core/fit/guard-plates.ts';
import { pushCheck, type PushCheck } from '../../../src/core/fit/push-check.ts';
import { commonRam, pushRam, RAM_TONS } from '../../../src/core/fit/push-ram.ts';
import { pushSpacers } from '../../../src/core/fit/push-spacers.ts';
import { DENSITY, INCH, PIN } from '../heat/physics.ts';
import { changed, fitAssumed, SHORT_TON } from './physics.ts';

describe('the ram to bring', () => {
  it('is the smallest rating of which the force is no more than the share in use', () => {
    const rating = (tons: number): number => commonRam(tons * SHORT_TON, 0.8) / SHORT_TON;
    expect(rating(30)).toBe(50);
    expect(rating(24)).toBe(30);
    expect(rating(24.1)).toBe(50);
    expect(rating(0)).toBe(5);
    expect(pushRam(30 * SHORT_TON, changed({ 'ram use': 0.5 })).value).toBe(60 * SHORT_TON);
  });
  it('never falls as the force grows, and never works beyond the share', () => {
    let last = 0;
    for (let tons = 1; tons < 790; tons += 3.7) {
      const rating = commonRam(tons * SHORT_TON, 0.8);
      expect(rating).toBeGreaterThanOrEqual(last);
      expect((tons * SHORT_TON) / rating).toBeLessThanOrEqual(0.8 * (1 + 1e-9));
      last = rating;
    }
  });
  it('lists its ratings in rising order', () => {
    RAM_TONS.slice(1).forEach((tons, i) => expect(tons).toBeGreaterThan(RAM_TONS[i]!));
  });
  it('refuses a force beyond the largest', () => {
    expect(() => commonRam(900 * SHORT_TON, 0.8)).toThrow(
      'force is 900 ton; the largest ram in the list, 1000 ton, is worked to 800 ton',
    );
  });
});

describe('spacers', () => {
  const a = changed({ 'stroke use': 0.9, 'push clearance': INCH });
  const spacers = (length: number, stroke = 6) => {
    const at = pushSpacers(length * INCH, stroke * INCH, a).evaluation;
    return (symbol: string): number => at.number(symbol);
  };
  it('are one fewer than the strokes, each as long as the stroke in use', () => {
    const n = spacers(10);
    expect(n('n')).toBe(3);
    expect(n('n_s')).toBe(2);
    expect(n('s')).toBeCloseTo(5.4 * INCH, 12);
    expect(n('stack') + n('s')).toBeGreaterThanOrEqual(11 * INCH);
    expect(n('stack')).toBeCloseTo(2 * 5.4 * INCH, 12);
    expect(n('x')).toBeCloseTo(11 * INCH, 12);
  });
  it('are one more as soon as the travel is more than the strokes', () => {
    expect([spacers(9.8)('n'), spacers(9.8)('n_s')]).toEqual([2, 1]);
    expect([spacers(9.81)('n'), spacers(9.81)('n_s')]).toEqual([3, 2]);
  });
  it('are none where one stroke does it, exactly too', () => {
    expect([spacers(4.4)('n'), spacers(4.4)('n_s')]).toEqual([1, 0]);
  });
  it('refuse a stroke or a length of nothing', () => {
    expect(() => spacers(10, 0)).toThrow('stroke is 0 in; must be more than 0 in');
    expect(() => spacers(0)).toThrow('length is 0 in; must be more than 0 in');
  });
});

describe('column strength', () => {
  // The spacers are a solid column as long as the pin; their critical stress is what is allowed at a safety factor of 1.
  const column = (length: number, hole = 0.001) =>
    pushCheck(
      { force: 1e3, diameter: 0.06, hole, length, spacerDiameter: 0.05, boss: 0.2 },
      changed({
        'column end factor': 1,
        'buckling safety factor': 1,
        'pin modulus': 205e9,
        'pin yield strength': 250e6,
        'spacer yield strength': 250e6,
      }),
    );
  it('is the yield strength of a short stub', () => {
    expect(column(1e-6).spacers.limit).toBeCloseTo(250e6, 0);
  });
  it('passes from Johnson to Euler at half the yield strength without a step', () => {
    const change = (Math.sqrt((2 * Math.PI ** 2 * 205e9) / 250e6) * 0.05) / 4;
    const [before, after] = [0.999999, 1.000001].map((x) => column(x * change).spacers);
    expect(before!.rule).toBe('Johnson');
    expect(after!.rule).toBe('Euler');
    expect(before!.limit / 125e6).toBeCloseTo(1, 5);
    expect(after!.limit / 125e6).toBeCloseTo(1, 5);
  });
  it("is Euler's load for a slender bar", () => {
    const area = (Math.PI / 4) * 0.05 ** 2;
    const inertia = (Math.PI / 64) * 0.05 ** 4;
    expect((column(3).spacers.limit * area) / ((Math.PI ** 2 * 205e9 * inertia) / 9)).toBeCloseTo(1, 12);
  });
  it('is higher for a tube than for a bar of the same outside', () => {
    expect(column(1, 0.04).pin.limit).toBeGreaterThan(column(1).pin.limit);
  });
});

describe('push check', () => {
  const a = Assumptions.defaults();
  const push = { force: 60 * SHORT_TON, ...PIN, spacerDiameter: 3.875 * INCH };
  const check = (over: Partial<PushCheck> = {}) => pushCheck({ ...push, ...over }, a);

  it('bears on the ring between spacer and bore', () => {
    const { bearing } = check();
    // 120,000 lbf on pi/4 (3.875^2 - 2.5^2) sq in.
    expect(bearing.stress / 6894.757293168 / (120000 / ((Math.PI / 4) * (3.875 ** 2 - 2.5 ** 2)))).toBeCloseTo(1, 9);
    expect(bearing.share).toBeCloseTo(bearing.stress / bearing.limit, 12);
  });
  it('bears only what the weaker of pin and spacer bears', () => {
    expect(
      pushCheck(push, changed({ 'pin yield strength': 300e6, 'spacer yield strength': 200e6 })).bearing.limit,
    ).toBe(200e6);
    expect(
      pushCheck(push, changed({ 'pin yield strength': 300e6, 'spacer yield strength': 400e6 })).bearing.limit,
    ).toBe(300e6);
  });
  it('shows a share beyond 1 where the bored pin is too weak', () => {
    expect(check({ hole: 3.8 * INCH, force: 100 * SHORT_TON }).bearing.share).toBeGreaterThan(1);
    expect(check({ hole: 3.8 * INCH, force: 100 * SHORT_TON }).pin.share).toBeGreaterThan(1);
  });
  it('grows in every share with the force and in the columns with the length', () => {
    const [less, more] = [check({ force: 30 * SHORT_TON }), check()];
    for (const part of ['bearing', 'pin', 'spacers', 'reaction'] as const)
      expect(more[part].share).toBeCloseTo(2 * less[part].share, 9);
    expect(check({ length: 1 }).spacers.share).toBeGreaterThan(more.spacers.share);
  });
  it('stores energy as the square of the force in the steel and with the force in the oil', () => {
    const [less, more] = [check({ force: 30 * SHORT_TON }).energy, check().energy];
    expect(more.pin / less.pin).toBeCloseTo(4, 9);
    expect(more.oil / less.oil).toBeCloseTo(2, 9);
    expect(more.total).toBeCloseTo(more.pin + more.spacers + more.oil, 9);
  });
  it('stores half of force times give: of an elastic bar F L / (E A), of shut-in oil its volume times pressure over its modulus', () => {
    const { energy } = check();
    const { force, length, hole, diameter, spacerDiameter } = push;
    const bar = (area: number): number => (0.5 * force * (force / area) * length) / a.value('pin modulus');
    expect(energy.pin / bar((Math.PI / 4) * (diameter ** 2 - hole ** 2))).toBeCloseTo(1, 12);
    expect(energy.spacers / bar((Math.PI / 4) * spacerDiameter ** 2)).toBeCloseTo(1, 12);
    const volume = (force / a.value('ram oil pressure')) * a.value('ram stroke');
    expect(energy.oil / ((0.5 * a.value('ram oil pressure') ** 2 * volume) / a.value('oil bulk modulus'))).toBeCloseTo(
      1,
      12,
    );
  });
  it('holds columns to their critical stress over the safety factor, and the boss to its yield on the ring round the pin', () => {
    const { pin, spacers, reaction } = check();
    const safety = a.value('buckling safety factor');
    // Johnson's parabola, worked out apart: both are stubby.
    const johnson = (diameter: number, hole: number, f: number): number => {
      const slenderness = (4 * a.value('column end factor') * push.length) / Math.hypot(diameter, hole);
      return f * (1 - (f * slenderness ** 2) / (4 * Math.PI ** 2 * a.value('pin modulus')));
    };
    expect(pin.rule).toBe('Johnson');
    expect(pin.limit * safety).toBeCloseTo(johnson(push.diameter, push.hole, a.value('pin yield strength')), 0);
    expect(spacers.limit * safety).toBeCloseTo(johnson(push.spacerDiameter, 0, a.value('spacer yield strength')), 0);
    expect(reaction.stress * (Math.PI / 4) * (push.boss ** 2 - push.diameter ** 2)).toBeCloseTo(push.force, 3);
    expect(reaction.limit).toBe(a.value('boss yield strength'));
  });
  it('refuses a bore as wide as the pin and a boss no wider than it', () => {
    expect(() => check({ hole: 4 * INCH })).toThrow("hole is 4 in; must be less than the pin's 4 in");
    expect(() => check({ boss: 4 * INCH })).toThrow("boss is 4 in; must be more than the pin's 4 in");
  });
  it('turns that energy into the speed of the pin', () => {
    const { energy, speed } = check();
    const mass = DENSITY * (Math.PI / 4) * (PIN.diameter ** 2 - PIN.hole ** 2) * PIN.length;
    expect(0.5 * mass * speed * speed).toBeCloseTo(energy.total, 6);
  });
  it('refuses a spacer that slips into the bore or does not follow the pin', () => {
    expect(() => check({ spacerDiameter: 2.5 * INCH })).toThrow(
      "spacer diameter is 2.5 in; must be more than the pin's bore of 2.5 in, into which it would slip",
    );
    expect(() => check({ spacerDiameter: 4 * INCH })).toThrow(
      "spacer diameter is 4 in; must be less than the pin's 4 in, or it does not follow the pin",
    );
  });
});

describe('guard plates', () => {
  const pin: GuardedPin = {
    diameter: 4 * INCH,
    hole: 2.5 * INCH,
    depth: 10 * INCH,
    rod: 0.375 * INCH,
    pressure: 100 * 6894.757293168,
  };
  const plates = (over: Partial<GuardedPin> = {}, more: Parameters<typeof changed>[0] = {}) =>
    guardPlates({ ...pin, ...over }, changed(more));

  it('makes the shield at least a quarter inch thick and refuses a thinner one', () => {
    expect(plates().shield.thickness).toBeGreaterThanOrEqual(0.25 * INCH);
    expect(() => plates({}, { 'shield plate thickness': 0.2 * INCH })).toThrow(
      'shield thickness is 0.2 in; must be at least 0.25 in',
    );
  });
  it('makes the base plate larger than the pin and its guide hole larger than the rod', () => {
    const { base } = plates();
    expect(base.side).toBeGreaterThan(4 * INCH);
    expect(base.guideHole).toBeGreaterThan(0.375 * INCH);
    expect(base.side).toBeCloseTo(4 * INCH + 2 * fitAssumed('base plate margin'), 12);
    expect(base.guideHole).toBeCloseTo(0.375 * INCH + fitAssumed('guide hole clearance'), 12);
  });
  it('makes the shield so many pins wide, and never less than its least side', () => {
    expect(plates({}, { 'shield plate over pin': 3, 'shield plate least side': 10 * INCH }).shield.side).toBeCloseTo(
      12 * INCH,
      12,
    );
    expect(plates({}, { 'shield plate over pin': 2, 'shield plate least side': 10 * INCH }).shield.side).toBeCloseTo(
      10 * INCH,
      12,
    );
  });
  it.each([
    // AWS D1.1, minimum fillet weld sizes: to 1/4 in, 1/8; to 1/2, 3/16; to 3/4, 1/4; over, 5/16 (from memory; 1/8 in confirmed).
    [0.25, 0.125],
    [0.2501, 0.1875],
    [0.5, 0.1875],
    [0.51, 0.25],
    [0.75, 0.25],
    [0.76, 0.3125],
    [2, 0.3125],
  ])('takes the smallest fillet for the thicker of the two plates: %f in', (thickness, leg) => {
    expect(
      plates({}, { 'base plate thickness': thickness * INCH, 'shield plate thickness': 0.25 * INCH }).weld.leg,
    ).toBeCloseTo(leg * INCH, 12);
    expect(
      plates({}, { 'shield plate thickness': thickness * INCH, 'base plate thickness': 0.25 * INCH }).weld.leg,
    ).toBeCloseTo(leg * INCH, 12);
  });
  it('welds no more than the load asks for, and at least four legs on each of four sides', () => {
    const loaded = plates({}, { 'rod thrust': 1e6 });
    expect(loaded.weld.length * loaded.weld.leg * Math.SQRT1_2 * 0.3 * fitAssumed('weld metal strength')).toBeCloseTo(
      fitAssumed('plate weld factor') * loaded.force,
      3,
    );
    const idle = plates({ pressure: -1e5 }, { 'rod thrust': 0 });
    expect(idle.force).toBe(0);
    expect(idle.weld.length).toBeCloseTo(16 * idle.weld.leg, 12);
  });
  it('sizes the weld for the push and the oxygen shut in by slag', () => {
    const { force, weld } = plates();
    expect(force / (40 * 4.4482216152605 + pin.pressure * (Math.PI / 4) * pin.hole ** 2)).toBeCloseTo(1, 9);
    // 3/16 in fillet on a 3/8 in plate; throat 0.707 of the leg at 0.3 of 70 ksi.
    expect(weld.leg).toBeCloseTo(0.1875 * INCH, 12);
    expect(weld.length * weld.leg * Math.SQRT1_2 * 0.3 * fitAssumed('weld metal strength')).toBeGreaterThanOrEqual(
      2 * force * (1 - 1e-9),
    );
  });
  it('needs more weld the more pressure', () => {
    const strong = plates({ hole: 3.9 * INCH, pressure: 150 * 6894.76 });
    expect(strong.weld.length).toBeGreaterThanOrEqual(plates({ hole: 3.9 * INCH }).weld.length);
    expect(strong.force).toBeGreaterThan(plates({ hole: 3.9 * INCH }).force);
  });
  it('drifts in proportion to the depth and leaves that much less wall', () => {
    const [shallow, deep] = [plates(), plates({ depth: 20 * INCH })];
    expect(deep.offset.likely).toBeCloseTo(2 * shallow.offset.likely, 12);
    expect(shallow.wall.likely + shallow.offset.likely).toBeCloseTo(0.75 * INCH, 12);
    expect(shallow.wall.low).toBeLessThan(shallow.wall.high);
    for (const level of ['low', 'likely', 'high'] as const)
      expect(shallow.offset[level]).toBeCloseTo(
        fitAssumed('pierce drift', level === 'likely' ? 'value' : level) * 10 * INCH,
        12,
      );
    expect(shallow.wall.low + shallow.offset.high).toBeCloseTo(0.75 * INCH, 12);
    expect(shallow.wall.high + shallow.offset.low).toBeCloseTo(0.75 * INCH, 12);
  });
  it('warns first that the bore may reach the boss, then that it does', () => {
    expect(plates().drift).toBe('stays in the pin');
    expect(plates({ depth: 50 * INCH }).drift).toBe('may reach the boss');
    expect(plates({ depth: 80 * INCH }).drift).toBe('reaches the boss');
    // A wall of nothing counts as reached: 1 in of drift in a pin with 1 in of wall.
    const exact = { diameter: 4, hole: 2, depth: 1 };
    const drifting = (low: number, value: number, high: number) =>
      Assumptions.from([{ name: 'pierce drift', low, value, high, kind: 'your value' }]);
    expect(guardPlates({ ...pin, ...exact }, drifting(0, 1, 2)).drift).toBe('reaches the boss');
    expect(guardPlates({ ...pin, ...exact }, drifting(0, 0.5, 1)).drift).toBe('may reach the boss');
  });
  it('refuses a pin of no size or length and a bore as wide as it', () => {
    expect(() => plates({ diameter: 0 })).toThrow('diameter is 0 in; must be more than 0 in');
    expect(() => plates({ depth: 0 })).toThrow('length is 0 in; must be more than 0 in');
    expect(() => plates({ hole: 4 * INCH })).toThrow("hole is 4 in; must be less than the pin's 4 in");
  });
});
