import { describe, expect, it } from 'vitest';
import { Assumptions } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import { dropFlight, sphereDrag, type DropAir } from '../../../src/core/safety/drop-flight.ts';
import { dropReach } from '../../../src/core/safety/drop-reach.ts';
import { FIRE_CHECKS, thingsInside } from '../../../src/core/safety/fire-checks.ts';
import { fireReach, fireReachInForce } from '../../../src/core/safety/fire-reach.ts';
import { FIRE_WATCH_RULES, fireWatch } from '../../../src/core/safety/fire-watch.ts';
import { FOOT, GRAVITY } from '../../../src/core/units/quantities.ts';

const still: DropAir = { density: 1.204, viscosity: 15.1e-6, wind: 0 };
/** Air so thin that it does not matter; drag on a drop goes with its density. */
const none: DropAir = { ...still, density: 1e-9 };
const drop = { diameter: 3e-3, density: 6000 };
const thrown = { speed: 8, bounce: 0.3 };

describe('the flight of a drop', () => {
  it('is the parabola where there is no air', () => {
    for (const [h, v, angle] of [
      [10, 8, 0],
      [10, 8, 0.6],
      [0, 12, 0.7],
      [30, 3, -0.4],
    ] as const) {
      const vz = v * Math.sin(angle);
      const t = (vz + Math.sqrt(vz * vz + 2 * GRAVITY * h)) / GRAVITY;
      const landing = dropFlight(drop, none, h, v, angle);
      expect(landing.time).toBeCloseTo(t, 6);
      expect(landing.distance).toBeCloseTo(v * Math.cos(angle) * t, 6);
      expect(landing.speed).toBeCloseTo(Math.sqrt(v * v + 2 * GRAVITY * h), 6);
    }
  });

  it('ends at the terminal speed where the fall is long', () => {
    // Newton's range: weight equals drag at v = sqrt(4 g d rho / (3 Cd rho_a)), Cd = 0.44.
    const terminal = Math.sqrt((4 * GRAVITY * drop.diameter * drop.density) / (3 * 0.44 * still.density));
    expect((terminal * drop.diameter) / still.viscosity).toBeGreaterThan(1000);
    expect(dropFlight(drop, still, 200, 0, 0).speed / terminal).toBeCloseTo(1, 3);
  });

  it('of a drop so fine that it falls for minutes is the time at its terminal speed', () => {
    // Stokes: v = (rho_d - rho) g d^2 / (18 mu), here without the lift of the air and with Schiller and Naumann's factor.
    const thick: DropAir = { density: 1.2, viscosity: 60e-6, wind: 3 };
    const { speed, time, distance } = dropFlight({ diameter: 0.3e-3, density: 1000 }, thick, 200, 0, 0);
    const fall = Math.sqrt(speed * speed - 9);
    const Re = (fall * 0.3e-3) / 60e-6;
    expect((fall * 18 * 60e-6 * 1.2 * (1 + 0.15 * Re ** 0.687)) / (1000 * GRAVITY * 0.3e-3 ** 2)).toBeCloseTo(1, 4);
    expect(time / (200 / fall)).toBeCloseTo(1, 2);
    expect(distance / (3 * time)).toBeCloseTo(1, 2);
  });

  it('falls straight in still air and drifts with the wind', () => {
    expect(dropFlight(drop, still, 20, 0, 0).distance).toBe(0);
    const windy = dropFlight({ ...drop, diameter: 1e-3 }, { ...still, wind: 10 }, 20, 0, 0);
    expect(windy.distance).toBeGreaterThan(2);
    expect(windy.distance).toBeLessThan(10 * windy.time);
  });

  it('is shorter and slower with air than without', () => {
    const [a, b] = [dropFlight(drop, still, 15, 8, 0.2), dropFlight(drop, none, 15, 8, 0.2)];
    expect(a.distance).toBeLessThan(b.distance);
    expect(a.speed).toBeLessThan(b.speed);
    expect(a.time).toBeGreaterThan(b.time);
  });

  it('carries a small drop less far than a large one', () => {
    const far = (mm: number): number => dropFlight({ ...drop, diameter: mm / 1000 }, still, 9, 8, 0.1).distance;
    for (const mm of [0.3, 0.5, 1, 2, 4, 8]) expect(far(mm * 2)).toBeGreaterThan(far(mm));
  });

  it("has a drag that falls with the Reynolds number and is 0.44 in Newton's range", () => {
    for (const Re of [0.1, 1, 10, 100, 900]) expect(sphereDrag(Re)).toBeGreaterThan(sphereDrag(Re * 1.1));
    expect(sphereDrag(1e4)).toBe(0.44);
    expect(sphereDrag(1e-6) * 1e-6).toBeCloseTo(24, 2);
    // The two branches meet within 1 percent.
    expect(sphereDrag(999.999) / 0.44).toBeCloseTo(1, 1);
  });
});

describe('the reach of a drop', () => {
  it('takes the angle that carries farthest: v/g sqrt(v^2 + 2 g h) where there is no air', () => {
    for (const h of [0, 2, 10, 40]) {
      const exact = (8 / GRAVITY) * Math.sqrt(64 + 2 * GRAVITY * h);
      expect(dropReach(drop, none, h, { speed: 8, bounce: 0 }).flown / exact).toBeCloseTo(1, 4);
    }
  });

  it('bounces without air as far as a geometric series of level throws', () => {
    const e = 0.5;
    const v2 = 64 + 2 * GRAVITY * 10;
    // Each bounce leaves and lands at e times the speed before: (e v)^2/g, (e^2 v)^2/g and so on.
    const exact = (e * e * v2) / GRAVITY / (1 - e * e);
    expect(dropReach(drop, none, 10, { speed: 8, bounce: e }).bounced / exact).toBeCloseTo(1, 2);
  });

  it('grows with height, throw and bounce', () => {
    const reach = (h: number, speed: number, bounce: number): number =>
      dropReach(drop, still, h, { speed, bounce }).reach;
    expect(reach(20, 8, 0.3)).toBeGreaterThan(reach(10, 8, 0.3));
    expect(reach(10, 12, 0.3)).toBeGreaterThan(reach(10, 8, 0.3));
    expect(reach(10, 8, 0.5)).toBeGreaterThan(reach(10, 8, 0.3));
    expect(dropReach(drop, still, 10, { speed: 8, bounce: 0 }).bounced).toBe(0);
  });

  it('refuses what it is not followed for', () => {
    expect(() => dropReach({ ...drop, diameter: 1e-4 }, still, 1, thrown)).toThrow(
      'drop diameter is 0.1 mm; must be at least 0.3 mm',
    );
    expect(() => dropReach(drop, still, -1, thrown)).toThrow('height is -1 m; must be at least 0 m');
    expect(() => dropReach(drop, still, 201, thrown)).toThrow('height');
    expect(() => dropReach(drop, still, 1, { speed: 8, bounce: 1 })).toThrow('bounce');
    expect(() => dropReach({ ...drop, density: 1 }, still, 1, thrown)).toThrow('drop density');
    expect(() => dropReach(drop, { ...still, wind: 50 }, 1, thrown)).toThrow('wind');
  });
});

describe('the radius to clear', () => {
  const sizes = [1e-3, 3e-3, 6e-3];

  it("is 35 ft near the floor and the drops' reach from a height", () => {
    const low = fireReach(1.5, sizes, 6000, still, thrown);
    expect(low.governs).toBe('radius');
    expect(low.reach).toBeCloseTo(35 * FOOT, 12);
    const high = fireReach(30 * FOOT, sizes, 6000, still, thrown);
    expect(high.governs).toBe('drops');
    expect(high.reach).toBeCloseTo(Math.max(...high.drops.map((d) => d.reach)), 12);
    expect(high.drops.map((d) => d.diameter)).toEqual(sizes);
    expect(fireReach(30 * FOOT, [...sizes].reverse(), 6000, still, thrown).reach).toBe(high.reach);
  });

  it('is never less than 35 ft and grows with height', () => {
    let before = 0;
    for (const h of [0, 1, 5, 10, 30, 60]) {
      const { reach } = fireReach(h, [3e-3], 6000, still, thrown);
      expect(reach).toBeGreaterThanOrEqual(Math.max(before, 35 * FOOT));
      before = reach;
    }
  });

  it('is the same in its working, of the drop that goes farthest', () => {
    const a = Assumptions.defaults();
    const { low, value, high } = a.inForce('drop diameter');
    const air = { density: a.value('air density'), viscosity: a.value('air viscosity'), wind: a.value('wind') };
    const plain = fireReach(60, [low, value, high], a.value('drop density'), air, {
      speed: a.value('throw speed'),
      bounce: a.value('bounce'),
    });
    const working = fireReachInForce(60, new Basis(a));
    expect(working.steps().at(-1)).toMatchObject({ symbol: 'reach', value: plain.reach });
    const farthest = plain.drops.find((d) => d.diameter === working.evaluation.number('d'));
    expect(working.evaluation.number('s_fly') + working.evaluation.number('s_bounce')).toBe(farthest?.reach);
  });

  it('asks for a drop', () => {
    expect(() => fireReach(1, [], 6000, still, thrown)).toThrow('drop diameter is missing');
  });

  it('lists what lies inside, nearest first, the edge included', () => {
    const things = [
      { name: 'fuel store', distance: 12 },
      { name: 'grass', distance: 3 },
      { name: 'shed', distance: 30 },
    ];
    expect(thingsInside(12, things).map((t) => t.name)).toEqual(['grass', 'fuel store']);
    expect(thingsInside(1, things)).toEqual([]);
    expect(() => thingsInside(5, [{ name: 'shed', distance: -1 }])).toThrow('distance of shed');
  });
});

describe('fire watch', () => {
  it('is found by rule and edition, however it is written', () => {
    expect(fireWatch('osha').name).toBe('OSHA');
    for (const text of ['NFPA 51B 2014', 'nfpa 51B-2014', 'NFPA 2014', '2014', ' NFPA 51b, 2014 '])
      expect(fireWatch(text).name).toBe('NFPA 51B 2014');
    for (const text of ['NFPA', 'NFPA 51B']) expect(fireWatch(text).name).toBe('NFPA 51B 2019');
  });

  it('refuses a rule it does not know, with those it does', () => {
    expect(() => fireWatch('NFPA 51B 1962')).toThrow(
      'rule is "NFPA 51B 1962"; must be one of OSHA, NFPA 51B 2009, NFPA 51B 2014, NFPA 51B 2019',
    );
    expect(() => fireWatch('')).toThrow('must be one of');
  });

  it('is never under half an hour', () => {
    for (const rule of FIRE_WATCH_RULES) expect(rule.watch).toBeGreaterThanOrEqual(1800);
  });
});

describe('the list of what to look for', () => {
  it('says what to do with each, and where it is written', () => {
    for (const check of FIRE_CHECKS) {
      expect(check.action.length).toBeGreaterThan(10);
      expect(check.clause === '' ? check.source : '').toBe(check.clause === '' ? 'common practice' : '');
    }
  });
});
