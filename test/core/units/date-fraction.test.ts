import { describe, expect, it } from 'vitest';
import { fractionsOfDate } from '../../../src/core/units/date-fraction.ts';

/** Number of a day, by the days from the start of each date system to 1 January 1970 (ECMA-376-1, 18.17.4: 25569; 1904: 1462 fewer). */
const serial = (year: number, month: number, day: number, system: 1900 | 1904 = 1900): number =>
  Date.UTC(year, month - 1, day) / 86_400_000 + (system === 1900 ? 25569 : 24107);

describe('the fraction that a sheet made a day of', () => {
  it('is read back: 46211 is 8 July 2026', () => {
    expect(serial(2026, 7, 8)).toBe(46211);
    expect(fractionsOfDate(46211)).toEqual(['7/8']);
    expect(fractionsOfDate(46089)).toEqual(['3/8']);
  });

  it.each([2019, 2026, 2031])(
    'is among those offered for every fraction of a tape, in either order and date system, in %i',
    (year) => {
      for (const under of [2, 4, 8, 16]) {
        for (let over = 1; over < under; over += 2) {
          const days = [
            ...(over <= 12 ? [serial(year, over, under), serial(year, over, under, 1904)] : []),
            ...(under <= 12 ? [serial(year, under, over), serial(year, under, over, 1904)] : []),
          ];
          for (const day of days) {
            const offered = fractionsOfDate(day);
            expect(offered, `${over}/${under} as ${day}`).toContain(`${over}/${under}`);
            expect(offered.length).toBeLessThanOrEqual(2);
          }
        }
      }
    },
  );

  it('is one of 32 or 64 parts where the day is the first of a month of 1932 or 1964', () => {
    expect(fractionsOfDate(serial(1932, 5, 1))).toEqual(['5/32']);
    expect(fractionsOfDate(serial(1964, 11, 1))).toEqual(['11/64']);
  });

  it('is offered in both orders where a tape has neither, and none for what is no such day', () => {
    expect(fractionsOfDate(serial(2026, 7, 29))).toEqual(['7/29', '29/7']);
    expect([0, 1.5, -46211, 500, 20000, 1e6].map((x) => fractionsOfDate(x))).toEqual([[], [], [], [], [], []]);
  });
});
