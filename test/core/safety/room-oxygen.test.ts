import { describe, expect, it } from 'vitest';
import { freshAirForOxygen } from '../../../src/core/safety/fresh-air-for-oxygen.ts';
import { compareWithLimit, isOut, LIMITS } from '../../../src/core/safety/limits.ts';
import { oxygenDensity } from '../../../src/core/oxygen/oxygen-state.ts';
import { oxygenClearTime } from '../../../src/core/safety/oxygen-clear-time.ts';
import { STANDARD_STATE, oxygenByVolume, oxygenRelease } from '../../../src/core/safety/oxygen-release.ts';
import { oxygenRiseSteps, oxygenRiseTime } from '../../../src/core/safety/oxygen-rise-time.ts';
import { roomOxygen, settledOxygen, type RoomAir } from '../../../src/core/safety/room-oxygen.ts';
import { ATMOSPHERE, CUBIC_FOOT, SCF } from '../../../src/core/units/quantities.ts';

const CFM = CUBIC_FOOT / 60;
const room = (volume: number, release: number, freshAir: number, mixing = 1, outside = 0.209): RoomAir => ({
  volume: volume * CUBIC_FOOT,
  release: release * CFM,
  freshAir: freshAir * CFM,
  mixing,
  outside,
});

describe('at the limit itself', () => {
  it('the room is there, and need not clear, whatever flows', () => {
    expect(oxygenRiseTime(room(2000, 0, 100), 0.235, 0.235)).toBe(0);
    expect(oxygenClearTime(room(2000, 0, 0), 0.235, 0.235)).toBe(0);
  });

  it('a room that only levels off there never passes it, and air that is there never clears a room to it', () => {
    expect(() => oxygenRiseTime(room(2000, 0, 100, 1, 0.235), 0.209, 0.235)).toThrow('levels off at 23.5% oxygen');
    expect(() => oxygenClearTime(room(2000, 0, 100, 1, 0.235), 0.3, 0.235)).toThrow(
      'fresh air cannot bring the room to 23.5% oxygen',
    );
  });

  it("says whether the limit is the standard's or given", () => {
    for (const [limit, kind] of [
      [0.235, 'published'],
      [0.22, 'input'],
    ] as const) {
      const steps = oxygenRiseSteps(room(2000, 50, 100), 0.209, limit);
      expect(steps.find((s) => s.symbol === 'x_limit')).toMatchObject({ from: { entry: limit }, kind });
    }
  });
});

describe('oxygen in a room', () => {
  it('starts at its start and ends where it settles', () => {
    const r = room(2000, 5, 100);
    expect(roomOxygen(r, 0.209, 0)).toBe(0.209);
    expect(roomOxygen(r, 0.209, 1e7)).toBeCloseTo((5 + 0.209 * 100) / 105, 12);
    expect(settledOxygen(r)).toBeCloseTo((5 + 20.9) / 105, 12);
  });

  it('does not change where nothing flows, and fills with oxygen where only oxygen does', () => {
    expect(roomOxygen(room(100, 0, 0), 0.22, 3600)).toBe(0.22);
    expect(settledOxygen(room(100, 0, 0))).toBeUndefined();
    expect(roomOxygen(room(100, 10, 0), 0.209, 1e6)).toBeCloseTo(1, 12);
    // A sealed room: everything but the start's share is washed out.
    expect(1 - roomOxygen(room(100, 10, 0), 0.209, 600)).toBeCloseTo((1 - 0.209) * Math.exp(-1), 12);
  });

  it('keeps what a slow leak into a hall adds', () => {
    const x = roomOxygen(room(1e6, 1e-6, 0), 0.209, 60);
    expect((x - 0.209) / ((1e-6 / 1e6) * 0.791)).toBeCloseTo(1, 3);
  });

  it('rises with the release and the time, falls with fresh air and volume, rises with poor mixing', () => {
    const at = (v: number, q: number, Q: number, K: number, t: number): number =>
      roomOxygen(room(v, q, Q, K), 0.209, t);
    const base = at(2000, 5, 100, 1, 900);
    expect(at(2000, 6, 100, 1, 900)).toBeGreaterThan(base);
    expect(at(2000, 5, 100, 1, 1000)).toBeGreaterThan(base);
    expect(at(2000, 5, 120, 1, 900)).toBeLessThan(base);
    expect(at(3000, 5, 100, 1, 900)).toBeLessThan(base);
    expect(at(2000, 5, 100, 5, 900)).toBeGreaterThan(base);
    // Poor mixing by K is as good as a K-th of the air.
    expect(at(2000, 5, 100, 5, 900)).toBe(at(2000, 5, 20, 1, 900));
  });

  it('never leaves 0 to 1', () => {
    for (const start of [0, 0.209, 1])
      for (const t of [0, 1, 1e3, 1e6, 1e9]) {
        const x = roomOxygen(room(50, 30, 3), start, t);
        expect(x).toBeGreaterThanOrEqual(0);
        expect(x).toBeLessThanOrEqual(1);
      }
  });

  it('refuses what cannot be', () => {
    expect(() => roomOxygen(room(0, 1, 1), 0.2, 1)).toThrow('volume is 0 m3; must be more than 0 m3');
    expect(() => roomOxygen(room(1, -1, 1), 0.2, 1)).toThrow('release');
    expect(() => roomOxygen(room(1, 1, -1), 0.2, 1)).toThrow('fresh air');
    expect(() => roomOxygen(room(1, 1, 1, 0.5), 0.2, 1)).toThrow('mixing factor is 0.5; must be at least 1');
    expect(() => roomOxygen(room(1, 1, 1), 1.2, 1)).toThrow('start is 1.2; must be at most 1');
    expect(() => roomOxygen(room(1, 1, 1), 0.2, -1)).toThrow('minutes');
  });
});

describe('time until a limit', () => {
  it('is the inverse of the share after that time', () => {
    for (const r of [room(2000, 5, 100), room(500, 8, 0), room(800, 9, 150, 4)]) {
      const t = oxygenRiseTime(r, 0.209);
      expect(roomOxygen(r, 0.209, t)).toBeCloseTo(0.235, 12);
    }
  });

  it('is none where the room starts there', () => {
    expect(oxygenRiseTime(room(2000, 5, 100), 0.235)).toBe(0);
    expect(oxygenRiseTime(room(2000, 0, 0), 0.3)).toBe(0);
  });

  it('does not exist where the room levels off below, and says where', () => {
    expect(() => oxygenRiseTime(room(2000, 1, 100), 0.209)).toThrow(
      'levels off at 21.6832% oxygen and does not reach 23.5%',
    );
    expect(() => oxygenRiseTime(room(2000, 0, 0), 0.209)).toThrow('levels off at 20.9%');
    expect(() => oxygenRiseTime(room(2000, 1, 0), 0.209, 1)).toThrow('limit is 1; must be less than 1');
  });
});

describe('time to clear', () => {
  it('is the inverse of the share after that time with the release shut', () => {
    const r = room(2000, 5, 400, 3);
    const t = oxygenClearTime(r, 0.3);
    expect(roomOxygen({ ...r, release: 0 }, 0.3, t)).toBeCloseTo(0.235, 12);
  });

  it('is none within the limit and longer with poor mixing', () => {
    expect(oxygenClearTime(room(2000, 5, 400), 0.22)).toBe(0);
    expect(oxygenClearTime(room(2000, 5, 400, 3), 0.3)).toBeCloseTo(3 * oxygenClearTime(room(2000, 5, 400), 0.3), 6);
  });

  it('does not exist without fresh air, or to a share below that of fresh air', () => {
    expect(() => oxygenClearTime(room(2000, 5, 0), 0.3)).toThrow('without fresh air the room does not clear');
    expect(() => oxygenClearTime(room(2000, 5, 100), 0.3, 0.2)).toThrow(
      'fresh air cannot bring the room to 20% oxygen',
    );
  });
});

describe('fresh air for a limit', () => {
  it('makes the room settle just there', () => {
    for (const K of [1, 3, 10]) {
      const Q = freshAirForOxygen(5 * CFM, K, 0.209);
      expect(settledOxygen({ volume: 1, release: 5 * CFM, freshAir: Q, mixing: K, outside: 0.209 })).toBeCloseTo(
        0.235,
        12,
      );
    }
  });

  it('is 29.4 times the release for 23.5 percent in good mixing', () => {
    expect(freshAirForOxygen(1, 1, 0.209)).toBeCloseTo(0.765 / 0.026, 9);
    expect(freshAirForOxygen(0, 1, 0.209)).toBe(0);
  });

  it('does not exist for a limit at or under fresh air', () => {
    expect(() => freshAirForOxygen(1, 1, 0.209, 0.209)).toThrow('fresh air cannot bring the room to 20.9% oxygen');
    expect(() => freshAirForOxygen(1, 1, 0.209, 1)).toThrow('must be less than 1');
  });
});

describe('oxygen let into the room', () => {
  it('is what the rod leaves unburnt and what leaks', () => {
    const scfm = SCF / 60;
    const m = (eta: number, leak: number): number => oxygenRelease(9 * scfm, eta, leak * scfm) / scfm;
    expect(m(0.25, 0.5)).toBeCloseTo(0.75 * 9 + 0.5, 12);
    expect(m(1, 0)).toBe(0);
  });

  it('takes up the standard cubic foot itself at 70 F and 14.696 psia, and follows the gas law from there', () => {
    const { temperature: T, pressure: p } = STANDARD_STATE;
    expect(oxygenByVolume(SCF, T, p) / CUBIC_FOOT).toBeCloseTo(1, 12);
    expect(oxygenByVolume(1, 1.1 * T, p) / oxygenByVolume(1, T, p)).toBeCloseTo(1.1, 12);
    expect(oxygenByVolume(1, T, 0.8 * p) / oxygenByVolume(1, T, p)).toBeCloseTo(1 / 0.8, 12);
    // The reference equation of state itself, over rooms and altitudes.
    for (const [temperature, pressure] of [
      [265, ATMOSPHERE],
      [316, ATMOSPHERE],
      [294, 8e4],
    ] as const) {
      expect(
        Math.abs(oxygenByVolume(1, temperature, pressure) * oxygenDensity(temperature, pressure) - 1),
      ).toBeLessThan(5e-4);
    }
  });
});

describe('a figure beside a limit', () => {
  it('at the limit is within it', () => {
    expect(isOut(0.235, LIMITS.oxygenHigh)).toBe(false);
    expect(isOut(0.2351, LIMITS.oxygenHigh)).toBe(true);
    expect(isOut(0.195, LIMITS.oxygenLow)).toBe(false);
    expect(isOut(0.194, LIMITS.oxygenLow)).toBe(true);
  });

  it('says whose limit it is and never that a job is safe', () => {
    expect(compareWithLimit(0.25, LIMITS.oxygenHigh).words).toBe(
      '25% exceeds the legal limit of 23.5% for oxygen-enriched air (1910.146(b))',
    );
    expect(compareWithLimit(0.22, LIMITS.oxygenHigh).words).toBe(
      '22% does not exceed the legal limit of 23.5% for oxygen-enriched air (1910.146(b)); local codes and the permit may ask for more',
    );
    expect(compareWithLimit(12e-6, LIMITS.ironOxide).words).toContain(
      '12 mg/m3 over 8 hours exceeds the legal limit of 10 mg/m3',
    );
    expect(compareWithLimit(5, LIMITS.cylinderDistance, 'SI').words).toContain(
      '5 m is less than the legal limit of 6.096 m',
    );
    for (const limit of Object.values(LIMITS))
      for (const x of [0, 1e9]) expect(compareWithLimit(x, limit).words).not.toMatch(/\bsafe/i);
  });
});
