import { describe, expect, it } from 'vitest';
import { workAll } from '../../../src/core/model/working.ts';
import { noiseAverage } from '../../../src/core/safety/noise-average.ts';
import { noiseDose } from '../../../src/core/safety/noise-dose.ts';
import { noiseHours, noiseHoursSteps } from '../../../src/core/safety/noise-hours.ts';
import { NOISE_RULES, findNoiseRule } from '../../../src/core/safety/noise-rules.ts';
import { needsDoubleProtection, noiseShift } from '../../../src/core/safety/noise-shift.ts';

const HOUR = 3600;
const osha = findNoiseRule('OSHA');
const niosh = findNoiseRule('niosh');
const eu = findNoiseRule(' EU ');

describe('noise hours', () => {
  it('are 8 h at the level the rule allows for 8 h', () => {
    for (const rule of NOISE_RULES) expect(noiseHours(rule.criterion, rule)).toBeCloseTo(8 * HOUR, 6);
  });

  it('halve with each exchange rate', () => {
    for (const rule of NOISE_RULES) {
      for (const level of [70, 88, 101])
        expect(noiseHours(level + rule.exchange, rule) * 2).toBeCloseTo(noiseHours(level, rule), 6);
    }
  });

  it('fall as the level rises', () => {
    for (const rule of NOISE_RULES)
      for (let l = 31; l <= 140; l++) expect(noiseHours(l, rule)).toBeLessThan(noiseHours(l - 1, rule));
  });

  it('can be asked for an action value', () => {
    expect(noiseHours(88, eu, 85) / HOUR).toBeCloseTo(8 * 10 ** -0.3, 9);
  });

  it('refuse a level outside 30 to 140 dBA, and a rule there is not', () => {
    expect(() => noiseHours(29, osha)).toThrow('level is 29 dBA; must be at least 30 dBA');
    expect(() => noiseHours(141, osha)).toThrow('level is 141 dBA; must be at most 140 dBA');
    expect(() => noiseHours(NaN, osha)).toThrow('must be at least');
    expect(['osha', ' NIOSH', 'Eu '].map((name) => findNoiseRule(name).name)).toEqual(['OSHA', 'NIOSH', 'EU']);
    expect(() => findNoiseRule('ISO')).toThrow('rule is "ISO"; must be one of OSHA, NIOSH, EU');
  });

  it('give the same in their working', () => {
    const working = workAll(noiseHoursSteps(osha), { L: 92 }, 'T');
    expect(working.value).toBe(noiseHours(92, osha));
    expect(working.steps().map((s) => s.symbol)).toEqual(['L', 'L_c', 'q', 'T_shift', 'T']);
  });
});

describe('noise dose', () => {
  it('adds up over tasks whatever their order', () => {
    const tasks = [
      { level: 92, time: 2 * HOUR },
      { level: 100, time: 0.5 * HOUR },
      { level: 85, time: 4 * HOUR },
    ];
    for (const rule of NOISE_RULES) {
      const each = tasks.map((t) => noiseDose([t], rule)).reduce((a, b) => a + b, 0);
      expect(noiseDose(tasks, rule)).toBeCloseTo(each, 12);
      expect(noiseDose([...tasks].reverse(), rule)).toBeCloseTo(each, 12);
    }
  });

  it('does not count levels under 80 dBA by OSHA and NIOSH, and does by the EU', () => {
    const quiet = [{ level: 79.9, time: 8 * HOUR }];
    expect(noiseDose(quiet, osha)).toBe(0);
    expect(noiseDose(quiet, niosh)).toBe(0);
    expect(noiseDose(quiet, eu)).toBeGreaterThan(0);
    expect(noiseDose([{ level: 80, time: 8 * HOUR }], osha)).toBeCloseTo(0.25, 12);
  });

  it('adds up thousands of tasks', () => {
    const tasks = Array.from({ length: 20000 }, (_, i) => ({ level: 80 + (i % 30), time: 4 }));
    const dose = tasks.reduce((sum, t) => sum + t.time / noiseHours(t.level, osha), 0);
    expect(noiseDose(tasks, osha) / dose).toBeCloseTo(1, 12);
  });

  it('refuses no task, a negative time and more than a day', () => {
    expect(() => noiseDose([], osha)).toThrow('levels is missing');
    expect(() => noiseDose([{ level: 90, time: -HOUR / 2 }], osha)).toThrow('hours is -0.5 h; must be at least 0 h');
    expect(() =>
      noiseDose(
        [
          { level: 90, time: 20 * HOUR },
          { level: 70, time: 5 * HOUR },
        ],
        osha,
      ),
    ).toThrow('hours add up to 25 h; must be at most 24 h in a shift');
    expect(noiseDose([{ level: 80, time: 24 * HOUR }], osha)).toBeCloseTo(24 / 32, 12);
    expect(() => noiseDose([{ level: 80, time: 24 * HOUR + 1 }], osha)).toThrow('must be at most 24 h');
  });
});

describe('average over 8 hours', () => {
  it('gives back the level of a steady 8 hours', () => {
    for (const rule of NOISE_RULES) {
      for (const level of [80, 92, 105, 120]) {
        expect(noiseAverage(noiseDose([{ level, time: 8 * HOUR }], rule), rule)).toBeCloseTo(level, 9);
      }
    }
  });

  it('is the energy average by the EU rule', () => {
    const tasks = [
      { level: 95, time: 1 * HOUR },
      { level: 82, time: 5 * HOUR },
    ];
    const energy = 10 * Math.log10((1 * 10 ** 9.5 + 5 * 10 ** 8.2) / 8);
    expect(noiseAverage(noiseDose(tasks, eu), eu)).toBeCloseTo(energy, 9);
  });

  it('does not exist without a dose', () => {
    expect(noiseAverage(0, osha)).toBeUndefined();
  });
});

describe('a shift', () => {
  // Common practice, no source: short-rod work averages about 92 dBA.
  const burning = { level: 92, time: 5 * HOUR };

  it('of five hours of short-rod work meets the OSHA action level and not the permissible exposure', () => {
    const shift = noiseShift([burning], osha);
    expect(shift.dose).toBeCloseTo(5 / 6.06287, 4);
    expect(shift.over.map((l) => l.name)).toEqual(['action level']);
    expect(shift.double).toBe(false);
  });

  it('of the same work passes the NIOSH limit and all three EU values', () => {
    expect(noiseShift([burning], niosh).over.map((l) => l.name)).toEqual(['recommended exposure limit']);
    expect(noiseShift([burning], eu).over.map((l) => l.name)).toEqual([
      'lower action value',
      'upper action value',
      'limit value',
    ]);
  });

  it('just at a limit meets one that counts from the level itself and does not pass one that must be exceeded', () => {
    expect(noiseShift([{ level: 84.9, time: 8 * HOUR }], osha).over).toEqual([]);
    expect(noiseShift([{ level: 85, time: 8 * HOUR }], osha).over.map((l) => l.name)).toEqual(['action level']);
    expect(noiseShift([{ level: 90, time: 8 * HOUR }], osha).over.map((l) => l.name)).toEqual(['action level']);
    expect(noiseShift([{ level: 90.01, time: 8 * HOUR }], osha).over).toHaveLength(2);
  });

  it('asks for plugs and muffs together above 100 dBA, and in mines above 105', () => {
    expect(noiseShift([{ level: 101, time: 8 * HOUR }], niosh).double).toBe(true);
    expect(noiseShift([{ level: 100, time: 8 * HOUR }], niosh).double).toBe(false);
    expect(needsDoubleProtection(104)).toBe(true);
    expect(needsDoubleProtection(104, 'mines')).toBe(false);
    expect(needsDoubleProtection(105.1, 'mines')).toBe(true);
  });

  it('says when a task is louder than the table goes', () => {
    expect(noiseShift([{ level: 118, time: 60 }, burning], osha).aboveTable).toBe(118);
    expect(noiseShift([{ level: 118, time: 0 }, burning], osha).aboveTable).toBeUndefined();
    expect(noiseShift([{ level: 115, time: 60 }, burning], osha).aboveTable).toBeUndefined();
    expect(noiseShift([burning], osha).aboveTable).toBeUndefined();
  });

  it('below every level that counts has no average and meets nothing', () => {
    expect(noiseShift([{ level: 60, time: HOUR }], osha)).toEqual({
      dose: 0,
      average: undefined,
      over: [],
      double: false,
      aboveTable: undefined,
    });
  });
});
