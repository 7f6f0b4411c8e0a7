import { describe, expect, it } from 'vitest';
import { cellUnder, quantityUnder, readHeading, readTable } from '../../src/catalogue/read-table.ts';

const ALIASES = { length: ['length', 'depth'], oxygen: ['oxygen', 'oxygen used'], rod: ['rod'] };

describe('a heading', () => {
  it.each([
    ['Oxygen low, scf', 'oxygen low', 'scf'],
    ['Length (mm)', 'length', 'mm'],
    ['crew  time [min]', 'crew time', 'min'],
    ['rods', 'rods', ''],
    ['burn_minutes', 'burn minutes', ''],
    ['flow, m3/h', 'flow', 'm3/h'],
  ])('%s is a name and a unit', (text, name, unit) => {
    expect(readHeading(text)).toEqual({ name, unit, text });
  });

  it('is no number and no blank', () => {
    for (const cell of [3, null, '', '  ', true, undefined]) expect(readHeading(cell)).toBeUndefined();
  });
});

describe('a table', () => {
  it('finds columns by any of their names, in any order, among others, under rows above the heading', () => {
    const rows = readTable(
      'log',
      [
        ['Jobs of 2026'],
        [],
        ['Note', 'Oxygen used, m3', 'Depth'],
        ['a', 3, 12],
        [null, null, null],
        ['b', 4, '300 mm'],
      ],
      ALIASES,
      ['length'],
    );
    expect(rows.map((r) => r.row)).toEqual([4, 6]);
    expect(rows.map((r) => cellUnder(r, 'rod'))).toEqual([null, null]);
    const lengths = rows.map((r) => quantityUnder(r, 'length', { kind: 'quantity', quantity: 'length' }, 'US'));
    expect(lengths[0]).toBeCloseTo(12 * 0.0254, 12);
    expect(lengths[1]).toBeCloseTo(0.3, 12);
    // A cubic metre at 15 C and 1 atm: 1.3544 kg of oxygen.
    expect(quantityUnder(rows[0]!, 'oxygen', { kind: 'quantity', quantity: 'oxygen' }, 'US')).toBeCloseTo(
      3 * 1.3543637,
      9,
    );
  });

  it('takes up a further heading row below', () => {
    const rows = readTable(
      'plan',
      [
        ['rod', 'length'],
        ['3/8', 10],
        ['length', 'rod'],
        [12, '1/4'],
      ],
      ALIASES,
      ['rod', 'length'],
    );
    expect(rows.map((r) => cellUnder(r, 'rod'))).toEqual(['3/8', '1/4']);
  });

  it('says what is missing', () => {
    expect(() => readTable('log', [[1, 2]], ALIASES, ['length', 'rod'])).toThrow(
      'log has no heading row; it needs columns headed length, rod',
    );
    expect(() =>
      readTable(
        'log',
        [
          ['rod', 'what'],
          ['3/8', 2],
        ],
        ALIASES,
        ['length', 'rod'],
      ),
    ).toThrow('log has no column "length"; its headings are rod, what');
    expect(() =>
      readTable(
        'log',
        [
          ['oxygen', 'oxygen used', 'length'],
          [1, 2, 3],
        ],
        ALIASES,
        ['length'],
      ),
    ).toThrow('log has two columns headed "oxygen used"');
    const [row] = readTable(
      'log',
      [
        ['oxygen, litres', 'length'],
        [1, 2],
      ],
      ALIASES,
      ['length'],
    );
    expect(() => quantityUnder(row!, 'oxygen', { kind: 'quantity', quantity: 'oxygen' }, 'US')).toThrow(
      'heading "oxygen, litres" gives the unit "litres"; must be one of scf, m3, Nm3, kg, lb',
    );
  });
});
