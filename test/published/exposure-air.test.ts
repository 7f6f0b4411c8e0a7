import { describe, expect, it } from 'vitest';
import { fumeExposure } from '../../src/core/safety/fume-exposure.ts';
import { IRON_IN_OXIDE, LIMITS } from '../../src/core/safety/limits.ts';
import { oxygenClearTime } from '../../src/core/safety/oxygen-clear-time.ts';
import { oxygenRiseTime } from '../../src/core/safety/oxygen-rise-time.ts';
import { roomFume } from '../../src/core/safety/room-fume.ts';
import { roomOxygen, type RoomAir } from '../../src/core/safety/room-oxygen.ts';
import { CUBIC_FOOT, FOOT, SCF } from '../../src/core/units/quantities.ts';
import { ventilation } from '../../src/core/safety/ventilation.ts';

const CFM = CUBIC_FOOT / 60;

/**
 * An integration of its own, from the moles in the room rather than from the share: oxygen and the rest are counted
 * apart, both leave with the mixed air, and the room's pressure is kept by what leaves. Extrapolated midpoint rule.
 */
function integrated(room: RoomAir, start: number, time: number, steps: number): number {
  const air = room.freshAir / room.mixing;
  const run = (n: number): number => {
    const h = time / n;
    let oxygen = start * room.volume;
    let rest = (1 - start) * room.volume;
    for (let i = 0; i < n; i++) {
      const rates = (o: number, r: number): readonly [number, number] => {
        const out = (air + room.release) / (o + r);
        return [room.release + air * room.outside - out * o, air * (1 - room.outside) - out * r];
      };
      const [o1, r1] = rates(oxygen, rest);
      const [o2, r2] = rates(oxygen + (h / 2) * o1, rest + (h / 2) * r1);
      oxygen += h * o2;
      rest += h * r2;
    }
    return oxygen / (oxygen + rest);
  };
  return (4 * run(2 * steps) - run(steps)) / 3;
}

describe('the air of a well-mixed room', () => {
  const rooms: readonly RoomAir[] = [
    { volume: 1000 * CUBIC_FOOT, release: 6 * CFM, freshAir: 0, mixing: 1, outside: 0.209 },
    { volume: 1000 * CUBIC_FOOT, release: 6 * CFM, freshAir: 200 * CFM, mixing: 1, outside: 0.209 },
    { volume: 12000 * CUBIC_FOOT, release: 9 * CFM, freshAir: 2000 * CFM, mixing: 5, outside: 0.2095 },
    { volume: 40, release: 0, freshAir: 0.3, mixing: 3, outside: 0.209 },
  ];

  it('follows the exact exponential', () => {
    for (const room of rooms) {
      const a = room.freshAir / room.mixing;
      const settled = (room.release + a * room.outside) / (room.release + a);
      for (const start of [0.18, 0.209, 0.35])
        for (const t of [30, 300, 3000]) {
          const exact = settled + (start - settled) * Math.exp((-(room.release + a) * t) / room.volume);
          expect(roomOxygen(room, start, t)).toBeCloseTo(exact, 13);
        }
    }
  });

  it('agrees with an integration of its own that counts oxygen and the rest apart', () => {
    for (const room of rooms)
      for (const start of [0.209, 0.35])
        for (const t of [60, 900]) {
          expect(roomOxygen(room, start, t)).toBeCloseTo(integrated(room, start, t, 2000), 9);
        }
  });

  it('reaches 23.5 percent, the limit of 29 CFR 1910.146(b), when the integration does', () => {
    for (const room of [rooms[0]!, { ...rooms[1]!, freshAir: 120 * CFM }]) {
      const t = oxygenRiseTime(room, 0.209);
      expect(integrated(room, 0.209, t, 2000)).toBeCloseTo(0.235, 8);
      expect(integrated(room, 0.209, t * 0.99, 2000)).toBeLessThan(0.235);
    }
    const t = oxygenClearTime({ ...rooms[2]! }, 0.3);
    expect(integrated({ ...rooms[2]!, release: 0 }, 0.3, t, 2000)).toBeCloseTo(0.235, 8);
  });
});

describe('fume in a well-mixed room', () => {
  it('agrees with an integration of its own, averages included', () => {
    for (const [V, Q, K, minutes] of [
      [300, 0, 1, 40],
      [300, 1, 1, 40],
      [50, 0.4, 3, 10],
      [3000, 0.001, 1, 240],
    ] as const) {
      const G = 2e-5;
      const t = minutes * 60;
      const n = 20000;
      const h = t / n;
      let [C, sum, tail] = [0, 0, 0];
      for (let i = 0; i < n; i++) {
        // Midpoint rule; the average by the trapezium over each step.
        const before = C;
        const half = C + (h / 2) * (G / V - ((Q / K) * C) / V);
        C += h * (G / V - ((Q / K) * half) / V);
        sum += (h * (before + C)) / 2;
        if ((i + 0.5) * h > t - 900) tail += (h * (before + C)) / 2;
      }
      const ours = roomFume(G, { volume: V, freshAir: Q, mixing: K }, t);
      expect(ours.end / C).toBeCloseTo(1, 6);
      expect(ours.average / (sum / t)).toBeCloseTo(1, 6);
      expect(ours.shortTerm / (tail / 900)).toBeCloseTo(1, 4);
      expect(ours.eightHours / (sum / 28800)).toBeCloseTo(1, 6);
    }
  });

  it('is held against the limits of 29 CFR 1910.1000 Table Z-1 and the NIOSH Pocket Guide', () => {
    const figures = fumeExposure(
      { fume: 0, ironOxide: 1e-5, manganese: 1e-7 },
      { volume: 500, freshAir: 1, mixing: 1 },
      3600,
    );
    expect(figures.map((f) => [f.what, f.limit.value * 1e6, f.limit.over])).toEqual([
      ['iron oxide', 10, '8 hours'],
      ['iron', 5, '8 hours'],
      ['manganese', 5, 'at any time'],
      ['manganese', 3, '15 minutes'],
      ['manganese', 1, '8 hours'],
    ]);
    // Iron in Fe2O3: 69.94 percent by mass, as in any handbook of chemistry.
    expect(IRON_IN_OXIDE).toBeCloseTo(0.6994, 4);
  });
});

describe('figures of 29 CFR 1910.146, .252, .253 and .104', () => {
  it('are the ones compared with', () => {
    expect(LIMITS.oxygenHigh.value).toBe(0.235);
    expect(LIMITS.oxygenLow.value).toBe(0.195);
    expect(LIMITS.hotWorkRadius.value / FOOT).toBeCloseTo(35, 12);
    expect(LIMITS.hotWorkRadius.value).toBeCloseTo(10.7, 1); // printed beside the 35 ft
    expect(LIMITS.cylinderDistance.value).toBeCloseTo(6.1, 1);
    expect(LIMITS.barrierHeight.value).toBeCloseTo(1.5, 1);
    expect(LIMITS.manifoldOxygen.value / SCF).toBeCloseTo(6000, 9);
    expect(LIMITS.bulkConnected.value / SCF).toBeCloseTo(13000, 9);
    expect(LIMITS.bulkWithReserve.value / SCF).toBeCloseTo(25000, 9);
    expect(LIMITS.roomForEach.value).toBeCloseTo(283.2, 1); // printed as 284
    expect(LIMITS.freshAirForEach.value * 60).toBeCloseTo(56.6, 1); // printed as 57
  });

  it('ask for 2000 cfm for each person under 10,000 cu ft, under 16 ft, or in a confined space (1910.252(c)(2))', () => {
    const v = (volume: number, ceiling: number, people: number, confined: boolean): ReturnType<typeof ventilation> =>
      ventilation(volume * CUBIC_FOOT, ceiling * FOOT, people, confined);
    expect(v(10000, 16, 1, false)).toMatchObject({ reasons: [], freshAir: 0 });
    expect(v(9999, 16, 1, false).freshAir / CFM).toBeCloseTo(2000, 9);
    expect(v(20000, 15.9, 1, false).reasons).toEqual(['ceiling under 16 ft']);
    expect(v(20000, 20, 3, false).freshAir / CFM).toBeCloseTo(6000, 9);
    expect(v(50000, 30, 2, true).reasons).toEqual(['confined space or hindered cross ventilation']);
  });
});
