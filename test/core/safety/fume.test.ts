import { describe, expect, it } from 'vitest';
import { fumeExposure } from '../../../src/core/safety/fume-exposure.ts';
import { fumeSteps } from '../../../src/core/safety/fume-release.ts';
import { readSteps } from '../model/read-steps.ts';
import { roomFume } from '../../../src/core/safety/room-fume.ts';

const steel = { rodRate: 2e-3, rodManganese: 0.005, workRate: 3e-3, workManganese: 0.008 };

/** What the steps give for a metal, a fume factor and an enrichment. */
function fumeRelease(metal: typeof steel, factor: number, enrichment: number) {
  const read = readSteps(fumeSteps, {
    r_rod: metal.rodRate,
    c_rod: metal.rodManganese,
    r_work: metal.workRate,
    c_work: metal.workManganese,
    e: factor,
    k_Mn: enrichment,
  });
  return { fume: read.number('F'), ironOxide: read.number('G_Fe'), manganese: read.number('G_Mn') };
}

/** Share of manganese in the fume of the rod's steel alone. */
function fumeManganese(content: number, enrichment: number): number {
  const alone = fumeRelease({ ...steel, rodManganese: content, workRate: 0 }, 0.03, enrichment);
  return alone.manganese / alone.fume;
}

describe('fume given off', () => {
  it('is a share of the metal, split into iron oxide and manganese', () => {
    const r = fumeRelease(steel, 0.03, 4);
    expect(r.fume).toBeCloseTo(0.03 * 5e-3, 12);
    expect(r.ironOxide + r.manganese).toBeCloseTo(r.fume, 15);
    expect(r.manganese).toBeCloseTo(0.03 * (2e-3 * fumeManganese(0.005, 4) + 3e-3 * fumeManganese(0.008, 4)), 15);
  });

  it('takes manganese as it is in the metal where it is not enriched, and never more than there is fume', () => {
    expect(fumeManganese(0.13, 1)).toBeCloseTo(0.13, 12);
    expect(fumeManganese(0.005, 4)).toBeCloseTo(0.02, 3);
    expect(fumeManganese(0.13, 50)).toBeLessThan(1);
    expect(fumeManganese(1, 4)).toBeCloseTo(1, 15);
    expect(fumeManganese(0, 4)).toBe(0);
  });

  it('holds far more manganese from manganese steel', () => {
    expect(fumeRelease({ ...steel, workManganese: 0.13 }, 0.03, 4).manganese).toBeGreaterThan(
      5 * fumeRelease(steel, 0.03, 4).manganese,
    );
  });
});

describe('fume in a room', () => {
  const room = { volume: 300, freshAir: 0.5, mixing: 3 };

  it('grows to G K / Q with fresh air, and without end in a closed room', () => {
    expect(roomFume(1e-5, room, 1e7).end).toBeCloseTo((1e-5 * 3) / 0.5, 12);
    expect(roomFume(1e-5, { ...room, freshAir: 0 }, 3600).end).toBeCloseTo((1e-5 * 3600) / 300, 15);
    expect(roomFume(1e-5, { ...room, freshAir: 0 }, 3600).average).toBeCloseTo((1e-5 * 1800) / 300, 15);
  });

  it('does not jump where the series takes over from the closed form', () => {
    const at = (x: number): number => roomFume(1, { volume: 1, freshAir: x, mixing: 1 }, 1).average;
    expect(at(0.001001) / at(0.000999)).toBeCloseTo(1, 5);
  });

  it.each([1e-5, 1e-4, 9.9e-4, 1.1e-3, 0.1, 1, 5])('is the power series of the balance at %f changes of air', (x) => {
    // C(t) = (G t / V) sum of (-x)^n / (n + 1)!, and its average over the task sum of (-x)^n / (n + 2)!: the balance solved term by term.
    let [end, average, term] = [0, 0, 1];
    for (let n = 0; n < 60; n++) {
      end += term / (n + 1);
      average += term / ((n + 1) * (n + 2));
      term *= -x / (n + 1);
    }
    const fume = roomFume(1, { volume: 1, freshAir: x, mixing: 1 }, 1);
    expect(fume.end).toBeCloseTo(end, 10);
    expect(fume.average).toBeCloseTo(average, 10);
  });

  it('spreads a short task over 15 minutes and any task over 8 hours', () => {
    const five = roomFume(1e-5, room, 300);
    expect(five.shortTerm).toBeCloseTo((five.average * 300) / 900, 15);
    expect(five.eightHours).toBeCloseTo((five.average * 300) / 28800, 15);
  });

  it('has its highest 15 minutes between the average and the end', () => {
    const hour = roomFume(1e-5, room, 3600);
    expect(hour.shortTerm).toBeGreaterThan(hour.average);
    expect(hour.shortTerm).toBeLessThan(hour.end);
  });

  it('is nothing at once and nothing from nothing', () => {
    expect(roomFume(1e-5, room, 0)).toEqual({ end: 0, average: 0, shortTerm: 0, eightHours: 0 });
    expect(roomFume(0, room, 3600).end).toBe(0);
  });

  it('falls with fresh air and rises with poor mixing', () => {
    const end = (freshAir: number, mixing: number): number =>
      roomFume(1e-5, { volume: 300, freshAir, mixing }, 1800).end;
    expect(end(1, 1)).toBeLessThan(end(0.5, 1));
    expect(end(1, 4)).toBeGreaterThan(end(1, 1));
  });
});

describe('fume beside its limits', () => {
  it('is flagged figure by figure', () => {
    const room = { volume: 100, freshAir: 0, mixing: 1 };
    const grams = (mg: number): number => mg * 1e-6 * 100; // mass for that many mg/m3 in the room
    const flags = (oxide: number, manganese: number): readonly boolean[] =>
      fumeExposure({ fume: 0, ironOxide: grams(oxide) / 28800, manganese: grams(manganese) / 28800 }, room, 28800).map(
        (f) => f.exceeds,
      );
    // A closed room over 8 hours: the average is half of the end. 22 mg/m3 of oxide at the end is 11 over 8 h.
    expect(flags(22, 0)).toEqual([true, true, false, false, false]);
    expect(flags(16, 0)).toEqual([false, true, false, false, false]);
    expect(flags(12, 0)).toEqual([false, false, false, false, false]);
    expect(flags(0, 5.2)).toEqual([false, false, true, true, true]);
    expect(flags(0, 3.2)).toEqual([false, false, false, true, true]);
    expect(flags(0, 2.5)).toEqual([false, false, false, false, true]);
    expect(flags(0, 1.8)).toEqual([false, false, false, false, false]);
  });
});
