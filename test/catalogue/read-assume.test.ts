import { describe, expect, it } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import type { Cell } from '../../src/catalogue/cell.ts';
import { Assumptions } from '../../src/core/assumptions/assumptions.ts';
import { REGISTRY } from '../../src/core/assumptions/registry.ts';
import { isChoice, type Assumption } from '../../src/core/assumptions/assumption.ts';
import { call } from '../../src/sheet/call.ts';
import { readAssume } from '../../src/catalogue/read-assume.ts';

const INCH = 0.0254;
const listing = call(findFunction('BURN.ASSUMED')!, []);

describe('the rows of assume', () => {
  it('replace a value by name, whatever the case', () => {
    expect(readAssume([['  STUB ', 4]]).value('stub')).toBeCloseTo(4 * INCH, 12);
    expect(readAssume([['stub', '50 mm']]).value('stub')).toBeCloseTo(0.05, 12);
  });

  it('take texts with a decimal comma where they say so, before or after', () => {
    const comma = ['decimal mark', 'comma'];
    expect(readAssume([['stub', '50,5 mm'], comma]).value('stub')).toBeCloseTo(0.0505, 12);
    expect(readAssume([comma, ['heat lost share', '0,25']]).value('heat lost share')).toBeCloseTo(0.25, 12);
    expect(() => readAssume([['stub', '50,5 mm']])).toThrow('with a comma');
  });

  it('change nothing where the listing is handed back as it stands', () => {
    const a = readAssume(listing);
    for (const entry of REGISTRY as readonly Assumption[]) {
      if (!isChoice(entry))
        expect(a.inForce(entry.name as never), entry.name).toEqual(Assumptions.defaults().inForce(entry.name as never));
    }
  });

  it('take value, low and high from an edited region of the listing', () => {
    const edited = listing.map((row) =>
      row[0] === 'heat lost share' ? ['heat lost share', 0.35, 0.3, 0.38, '', 'your log'] : row,
    );
    expect(readAssume(edited as readonly (readonly Cell[])[]).inForce('heat lost share')).toMatchObject({
      value: 0.35,
      low: 0.3,
      high: 0.38,
      kind: 'your log',
    });
  });

  it('take how two go along with each other, in any order and case, and say what is wrong with it', () => {
    const read = (...rows: readonly Cell[][]): Assumptions => readAssume([['name', 'value'], ...rows]);
    expect(
      read(
        ['Correlation of  Flow Factor with cooling target with water', -0.4],
        ['correlation of plate time with burning duty', '0.3'],
        ['correlation of rod feed ratio with flow factor', null],
      ).correlations,
    ).toEqual([
      { names: ['flow factor', 'cooling target with water'], value: -0.4, kind: 'your value' },
      { names: ['plate time', 'burning duty'], value: 0.3, kind: 'your value' },
    ]);
    expect(read(['stub', 4]).correlations).toEqual([]);
    const feed = (value: Cell, of = 'rod feed ratio', beside = 'flow factor'): (() => Assumptions) => {
      return () => read([`correlation of ${of} with ${beside}`, value]);
    };
    expect(feed(0.5, 'rod fed ratio')).toThrow('"rod fed ratio" is not an assumption; nearest: rod feed ratio');
    expect(feed(1)).toThrow('correlation of rod feed ratio with flow factor: value is 1; must be less than 1');
    expect(feed(-1.2)).toThrow('must be more than -1');
    expect(feed('much')).toThrow('value is "much"; must be a number');
    expect(feed(0.5, 'set-up time', 'plate time')).toThrow('the two are drawn as one');
    expect(feed(0.5, 'flow factor')).toThrow('the two are drawn as one');
    for (const name of ['stub', 'item scatter', 'kerf width', 'position'])
      expect(feed(0.5, name), name).toThrow(`${name} is not drawn, or not alike for all items`);
    expect(() =>
      read(['correlation of flow factor with set-up time', 0.1], ['correlation of plate time with flow factor', 0.2]),
    ).toThrow('is set in row 2 already');
    expect(() =>
      read(
        ['correlation of flow factor with rod feed ratio', 0.9],
        ['correlation of flow factor with slag temperature', 0.9],
        ['correlation of rod feed ratio with slag temperature', -0.9],
      ),
    ).toThrow('contradict each other');
  });

  it('widen in proportion where only a value is given', () => {
    expect(readAssume([['bore ratio', 0.5]]).inForce('bore ratio').low).toBeCloseTo(0.55 * (0.5 / 0.6), 12);
  });

  it('pass over gaps, notes and a heading', () => {
    const a = readAssume([
      ['Name', 'Value'],
      [null, null],
      ['stub', 4],
      ['bore ratio', null],
    ]);
    expect(a.value('stub')).toBeCloseTo(4 * INCH, 12);
    expect(a.value('bore ratio')).toBe(0.6);
    expect(readAssume([['stub', 4, 'measured on site']]).value('stub')).toBeCloseTo(4 * INCH, 12);
  });

  it('keep the distance of the end that is not given, and take ends equal to the value for what they say', () => {
    const rows = (...row: Cell[]): ReturnType<typeof readAssume> =>
      readAssume([
        ['name', 'value', 'low', 'high'],
        ['bore ratio', ...row],
      ]);
    const { value, low, high } = readAssume(undefined).inForce('bore ratio');
    expect(rows(0.5, 0.48).inForce('bore ratio')).toMatchObject({ value: 0.5, low: 0.48, high: (0.5 * high) / value });
    expect(rows(0.5, null, 0.52).inForce('bore ratio')).toMatchObject({ low: (0.5 * low) / value, high: 0.52 });
    expect(rows(0.5, 0.5, 0.6).inForce('bore ratio')).toMatchObject({ low: 0.5, high: 0.6 });
    expect(rows(0.5, 0.5, 0.5).inForce('bore ratio')).toMatchObject({ low: 0.5, high: 0.5 });
  });

  it('keep the unit of the unit column when the sheet is SI', () => {
    expect(
      readAssume([
        ['name', 'value', 'unit'],
        ['units', 'SI', ''],
        ['stub', 3, 'in'],
      ]).value('stub'),
    ).toBeCloseTo(3 * INCH, 12);
    expect(
      readAssume([
        ['units', 'SI'],
        ['stub', 75],
      ]).value('stub'),
    ).toBeCloseTo(0.075, 12);
  });

  it.each([
    [
      [
        ['stub', 3],
        ['stub', 4],
      ],
      'assume row 2, stub: is set in row 1 already',
    ],
    [[['slag temperature', 1000]], 'value is 1000 K; must be at least 1809 K'],
    [
      [
        ['name', 'value', 'low', 'high'],
        ['stub', 3, 3.5, 4],
      ],
      'assume row 2, stub: low is 3.5 in; must be at most the value 3',
    ],
    [
      [
        ['name', 'value', 'low', 'high'],
        ['stub', 3, 2, 2.5],
      ],
      'assume row 2, stub: high is 2.5 in; must be at least the value 3',
    ],
    [
      [
        ['name', 'value', 'low', 'high'],
        ['bore ratio', 0.6, 0.01, 0.7],
      ],
      'assume row 2, bore ratio: low is 0.01; must be at least 0.05',
    ],
    [[['stub', 3, 2.5]], 'assume row 1, stub: low is given without a high; give both'],
    [[['stub', 3, null, 4]], 'assume row 1, stub: high is given without a low; give both'],
    [
      [
        ['name', 'value', 'unit'],
        ['stub', 3, 'psi'],
      ],
      'assume row 2, stub: unit is "psi"',
    ],
    [[['stub', { error: '#REF!', message: '' }]], 'assume row 1, stub: value holds the error #REF!'],
    [[['ends worked', 1.5]], 'value is 1.5; must be a whole number'],
    [[['stub', true]], 'assume row 1, stub: value is "TRUE"'],
  ] as [Cell[][], string][])('say which row is wrong: %j', (rows, message) => {
    expect(() => readAssume(rows)).toThrow(message);
  });

  it('answer an unknown name with #N/A and the nearest', () => {
    expect(() => readAssume([['heat loss share', 0.3]])).toThrow(
      /assume row 1: "heat loss share" is not an assumption; nearest: heat lost share/,
    );
  });

  it.each(
    (REGISTRY as readonly Assumption[]).flatMap((entry) =>
      isChoice(entry)
        ? []
        : ([1e308, -1e308, '1e308', `-1e308 ${entry.unit}`] as const).flatMap((bad) => [
            [entry.name, 'value', [entry.name, bad]] as const,
            [entry.name, 'low', ['name', 'value', 'low'], [entry.name, entry.value, bad]] as const,
          ]),
    ),
  )('refuse a number that no unit can hold for %s, and tell it as it came', (name, _what, ...rows) => {
    expect(() => readAssume(rows as never)).toThrow(
      expect.objectContaining({
        message: expect.stringMatching(
          new RegExp(`^assume row ${rows.length}, ${name.replace(/[()]/g, '.')}: (?!.*(Infinity|NaN)).*1e\\+?308`),
        ) as string,
      }),
    );
  });
});
