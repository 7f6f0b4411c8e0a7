import { describe, expect, it } from 'vitest';
import { slipQuestion, unitSlip } from '../../../src/core/operations/unit-slip.ts';
import { INCH } from '../../../src/core/units/quantities.ts';

/** Diameters of ISO 2341 clevis pins and the lengths they come in, from memory; of dowels (ISO 8734) those up to 20 are among them. */
const ISO_2341 = [16, 18, 20, 22, 24, 27, 30, 33, 36, 40, 45, 50, 55, 60, 70, 80, 90, 100];
const ISO_LENGTHS = [35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100, 120, 140, 160, 180, 200];
/** Larger ones of machines by preferred numbers (ISO 3, R10 rounded), diameter and length. */
const MACHINE = [110, 125, 140, 160, 180, 200, 225, 250, 280, 320, 400];
const MACHINE_LENGTHS = [160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000];
const metric = [
  ...ISO_2341.flatMap((d) => ISO_LENGTHS.filter((l) => l >= 1.5 * d).map((l) => [d, l] as const)),
  ...MACHINE.flatMap((d) => MACHINE_LENGTHS.filter((l) => l >= d).map((l) => [d, l] as const)),
];
/** Round stock in inches as it is sold (from memory): by 1/8 to 4 in, by 1/2 to 12 in, and lengths of pins. */
const STOCK = [
  ...Array.from({ length: 27 }, (_, i) => 0.75 + i / 8),
  ...Array.from({ length: 16 }, (_, i) => 4.5 + i / 2),
];
const STOCK_LENGTHS = [2, 3, 4, 5, 6, 7.5, 8, 9, 10, 12, 14, 16, 18, 20, 24, 28, 32, 36, 42, 48, 60, 72];
const inch = STOCK.flatMap((d) => STOCK_LENGTHS.filter((l) => l >= d).map((l) => [d, l] as const));

const MM = 1e-3;
const asked = (sizes: readonly (readonly [number, number])[], unit: number, system: 'US' | 'SI'): readonly string[] =>
  sizes
    .filter(([d, l]) => unitSlip('PIN', { diameter: d * unit, length: l * unit }, system))
    .map(([d, l]) => `${d} x ${l}`);

describe('sizes that were meant in the other unit', () => {
  it('are told on a thousand standard pins: none that is right is asked about', () => {
    expect(metric.length + inch.length).toBeGreaterThan(1000);
    expect(asked(metric, MM, 'SI')).toEqual([]);
    expect(asked(inch, INCH, 'US')).toEqual([]);
  });

  it('are told on the same pins typed into a sheet of the other unit', () => {
    // Millimetres in a sheet of inches: all but pins of 16 mm that are no longer than 80 mm, which read as 16 in x 80 in.
    const missedMetric = metric.filter(([d, l]) => !unitSlip('PIN', { diameter: d * INCH, length: l * INCH }, 'US'));
    expect(missedMetric.every(([d, l]) => d === 16 && l <= 80)).toBe(true);
    expect(missedMetric.length).toBeLessThan(15);
    // Inches in a sheet of millimetres: every one.
    expect(asked(inch, MM, 'SI').length).toBe(inch.length);
  });

  it('are asked about in words that say what to write', () => {
    expect(slipQuestion('PIN', { diameter: 60 * INCH, length: 200 * INCH }, 'US')).toBe(
      'diameter 60 in is out of the usual: if mm was meant, write 60 mm',
    );
    expect(slipQuestion('PIN', { diameter: 3.5 * MM, length: 10 * MM }, 'SI')).toBe(
      'diameter 3.5 mm is out of the usual: if in was meant, write 3.5 in',
    );
    expect(slipQuestion('PIN', { diameter: 4 * INCH, length: 10 * INCH }, 'US')).toBe('');
  });

  it.each([
    ['HOLE', { hole: 20, depth: 300 }],
    ['GOUGE', { width: 12, depth: 10, length: 300 }],
    ['CUT', { thickness: 25, length: 350 }],
    ['STUD', { diameter: 24, count: 4 }],
    ['BREACH', { thickness: 250, hole: 50 }],
  ] as const)('are told for %s, and not where they are usual', (operation, sizes) => {
    const of = (unit: number): Record<string, number> =>
      Object.fromEntries(Object.entries(sizes).map(([name, x]) => [name, name === 'count' ? x : x * unit]));
    expect(unitSlip(operation, of(INCH), 'US')).toMatchObject({ unit: 'in', likelier: 'mm' });
    expect(unitSlip(operation, of(MM), 'SI')).toBeUndefined();
  });

  it('are not asked about where they are written with their unit, which holds in either reading', () => {
    const asked = (diameter: number, length: number, ...written: string[]): string | undefined =>
      unitSlip('PIN', { diameter: diameter * INCH, length: length * INCH }, 'US', new Set(written))?.size;
    expect(asked(60, 200)).toBe('diameter');
    expect(asked(60, 200, 'diameter', 'length')).toBeUndefined();
    // `60 in` was meant, so nobody meant 200 mm beside it.
    expect(asked(60, 200, 'diameter')).toBeUndefined();
    // 60 beside `200 mm`.
    expect(asked(60, 200 / 25.4, 'length')).toBe('diameter');
  });

  it('are not asked about where the other unit is as far from the usual', () => {
    expect(unitSlip('PIN', { diameter: 60 * INCH, length: 20 * INCH }, 'US')).toBeUndefined();
    expect(unitSlip('PIN', { diameter: 0.3 * INCH, length: 2 * INCH }, 'US')).toBeUndefined();
  });
});
