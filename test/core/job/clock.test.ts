import { describe, expect, it } from 'vitest';
import { parseStart, showClock, showDay, showDuration } from '../../../src/core/job/clock.ts';

const HOUR = 3600;
const MINUTE = 60;

describe('a length of time', () => {
  it('is in hours and minutes', () => {
    expect([0, 40, 60, 520, 1445].map((m) => showDuration(m * MINUTE))).toEqual([
      '0 min',
      '40 min',
      '1 h 00',
      '8 h 40',
      '24 h 05',
    ]);
    expect(showDuration(59.7 * MINUTE)).toBe('1 h 00');
  });
});

describe('a time of day', () => {
  const seven = { time: 7 * HOUR, day: undefined };
  it('is counted from the start of a shift, past midnight too', () => {
    expect(showClock(seven, 0)).toBe('07:00');
    expect(showClock(seven, 8.679906278 * HOUR)).toBe('15:41');
    expect(showClock({ time: 19.5 * HOUR, day: undefined }, 5 * HOUR)).toBe('00:30 (+1)');
  });

  it('is read as it is typed, and as a sheet keeps it', () => {
    for (const [text, hours] of [
      ['07:00', 7],
      ['7:30', 7.5],
      ['7:30 pm', 19.5],
      ['7 pm', 19],
      ['12 am', 0],
      ['12:15 PM', 12.25],
      ['6h45', 6.75],
      ['0.2916666667', 7],
      ['19', 19],
      ['0.5', 12],
    ] as const)
      expect(parseStart(text), text).toEqual({ time: hours * HOUR, day: undefined });
  });

  it('may have a date: 30 November 2026 is day 46356 of the sheet', () => {
    // 46356 = 45292 (1 January 2024, by the host's own table of dates) + 366 + 365 + 333 days.
    expect(parseStart('2026-11-30 07:00')).toEqual({ time: 7 * HOUR, day: 46_356 });
    expect(parseStart('2026-11-30T19:30')).toEqual({ time: 19.5 * HOUR, day: 46_356 });
    expect(parseStart('46356.25')).toEqual({ time: 6 * HOUR, day: 46_356 });
    expect(parseStart('2026-11-30').day).toBe(46_356);
    expect(parseStart('2026-11-30').time).toBeNaN();
    expect(showDay({ time: 0, day: 46_356 }, 1)).toBe('Mon 2026-11-30');
    expect(showDay({ time: 0, day: 46_356 }, 3)).toBe('Wed 2026-12-02');
    expect(showDay(seven, 3)).toBe('3');
  });

  it('is refused where it is none', () => {
    for (const text of ['noon', '25:00', '7:61', '13 pm', '2026-02-30 07:00', '-1', '1e9', '', 'pm'])
      expect(() => parseStart(text), text).toThrow('must be a time of day');
  });
});
