/**
 * Older desktop hosts hand a blank cell over as 0 (issue 4702 of the vendor's public tracker made it null in newer ones). So a
 * cell of an argument says the same blank as 0, except where a 0 is a figure of its own.
 */
import { describe, expect, it } from 'vitest';
import { CATALOGUE, findFunction } from '../../src/catalogue/catalogue.ts';
import type { Cell } from '../../src/catalogue/cell.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';
import { call } from '../../src/sheet/call.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { readAssume } from '../../src/catalogue/read-assume.ts';
import { argumentsOf, asCalled, type Matrix } from '../addin/example-arguments.ts';

/** A way an argument may be given besides that of the examples. */
const FULLER: Readonly<Record<string, readonly Argument[]>> = {
  'BURN.CAUTIONS': [
    'PIN',
    [
      ['condition', 'value'],
      ['confined', null],
      ['height', '30 ft'],
    ],
  ],
  'BURN.PPE.LIST': [
    'PIN',
    [
      ['galvanised', null],
      ['confined', true],
    ],
    [
      ['diameter', 'length', 'hole', 'rod', 'material'],
      [4, 10, null, '3/8 x 36', 'stainless steel'],
      [3, 8, null, null, null],
    ],
  ],
  'BURN.ROD.PICK': ['PIN', [[4]], [[10]], [[2.5]], 30],
  'BURN.JOB.PLAN': [
    [
      ['mark', 'qty', 'operation', 'dia', 'length, in', 'thk', 'rod', 'material', 'ends', 'burning duty', 'note'],
      ['a', 2, 'PIN', 4, 10, null, '3/8 x 36', 'steel', 2, 0.6, 'x'],
      [null, null, null, null, null, null, null, null, null, null, null],
      ['b', null, 'CUT', null, 24, 1, null, null, null, null, null],
    ],
  ],
  'BURN.JOB.SHEET': [
    [
      ['mark', 'dia', 'length', 'condition'],
      ['Boom foot', 4, 10, 'confined'],
      [null, null, null, null],
      ['Stick', 3, 8, null],
    ],
    [
      ['height', '30 ft'],
      ['confined', null],
    ],
  ],
  'BURN.FIRE.CHECK': [
    30,
    [
      ['what', 'distance, m'],
      ['diesel tank', 5],
      [null, null],
    ],
  ],
  'BURN.SPREAD': [
    'PIN',
    [
      ['diameter', 'length', 'rod'],
      [4, 10, '3/8 x 36'],
      [3, 8, null],
    ],
    'oxygen',
    90,
  ],
  'BURN.LOG.FIT': [
    [
      [
        'job',
        'operation',
        'diameter',
        'length',
        'rod',
        'material',
        'rods used',
        'gauge before',
        'gauge after',
        'temperature, C',
        'crew minutes',
      ],
      ['a', 'PIN', 4, 10, '3/8 x 36', 'steel', 7, 2200, 1400, 15, 62],
      ['b', null, 3.5, 12, null, null, 6, 2000, 1300, null, 58],
      [null, null, null, null, null, null, null, null, null, null, null],
      ['c', 'PIN', 5, 16, '3/8 x 36', null, 16, null, null, null, 85],
    ],
  ],
  'BURN.PIN.OXYGEN': [
    4,
    10,
    undefined,
    undefined,
    undefined,
    [
      ['name', 'value', 'low', 'high', 'unit', 'kind'],
      ['bore ratio', 0.5, null, null, '', 'your value'],
      ['units', 'US', null, null, 'US or SI', ''],
      [null, null, null, null, null, null],
    ],
  ],
};

/** Where a 0 is a figure of its own, by function and argument: what heads the column, or the name in the row and its column. */
const MEANT: readonly (readonly [name: RegExp, argument: string, cell: RegExp])[] = [
  [/^BURN\.FIRE\.CHECK$/, 'things', / 1$/],
  [/./, 'assume', /^stub /],
  [/^BURN\.LOG\./, 'log', /^(gauge after|temperature)/],
];

const calls = CATALOGUE.flatMap((d) =>
  [...d.examples.map((e) => asCalled(argumentsOf(e))), ...(FULLER[d.name] ? [FULLER[d.name]!] : [])].map((args) => ({
    d,
    args,
  })),
);

describe('a cell of a range that is handed over whole', () => {
  const tried = new Set<string>();
  it.each(calls.map(({ d, args }, i) => [`${d.name}, ${i}`, d, args] as const))(
    'says the same blank as 0: %s',
    (_, d, args) => {
      const parameters = hostFunctions.find((f) => f.name === d.name)?.parameters ?? [];
      args.forEach((argument, i) => {
        const { name = '', whole } = parameters[i] ?? {};
        if (!whole || !Array.isArray(argument)) return;
        const range = argument as Matrix;
        range.forEach((row, r) =>
          row.forEach((_cell, c) => {
            const holding = (value: Cell): readonly Argument[] =>
              args.map((a, k) =>
                k === i ? range.map((cells, y) => cells.map((old, x) => (x === c && y === r ? value : old))) : a,
              );
            const place = `${String(range[0]?.[c])} ${String(row[0])}`;
            const named = name === 'assume' || name === 'things' ? `${String(row[0])} ${c}` : place;
            if (
              MEANT.some(
                ([f, a, cell]) => f.test(d.name) && a === name && cell.test(named) && (name !== 'assume' || c > 0),
              )
            )
              return;
            tried.add(`${d.name} ${name}`);
            expect(call(d, holding(0)), `${name} row ${r + 1}, ${place}`).toEqual(call(d, holding(null)));
          }),
        );
      });
    },
  );

  it('was tried in every such argument', () => {
    const all = hostFunctions.flatMap((f) =>
      f.parameters.filter((p) => p.whole && p.name !== 'assume').map((p) => `${f.name} ${p.name}`),
    );
    expect(all.filter((each) => !tried.has(each))).toEqual([]);
  });

  it('is all blank in a row of zeros, however many follow', () => {
    const zeros = Array.from({ length: 20 }, () => [0, 0]);
    const assume: Matrix = [['bore ratio', 0.5], ...zeros];
    for (const d of CATALOGUE.filter((each) => each.assume === true)) {
      const args = [...asCalled(argumentsOf(d.examples[0] ?? ''))];
      args[Object.keys(d.parameters).length] = assume;
      const blank = [...args];
      blank[Object.keys(d.parameters).length] = [
        ['bore ratio', 0.5],
        [null, null],
      ];
      expect(call(d, args), d.name).toEqual(call(d, blank));
    }
  });

  it('is 0 where the assumption, the figure or the distance may be 0', () => {
    expect(readAssume([['stub', 0]]).value('stub')).toBe(0);
    expect(call(findFunction('BURN.FIRE.CHECK')!, [30, [['diesel tank', 0]]])[1]?.slice(0, 2)).toEqual([
      'diesel tank',
      0,
    ]);
    const log = (after: Cell): Argument => [
      ['diameter', 'length', 'gauge before', 'gauge after'],
      [4, 10, 2200, after],
      [3, 10, 2200, 1800],
    ];
    expect(call(findFunction('BURN.LOG.SCORE')!, [log(0)])).not.toEqual(
      call(findFunction('BURN.LOG.SCORE')!, [log(null)]),
    );
  });

  it('is 0 in the unit of its heading: 0 °C is a temperature', () => {
    const log = (unit: string, cold: Cell): Argument => [
      ['diameter', 'length', 'gauge before', 'gauge after', `temperature, ${unit}`],
      [4, 10, 2200, 1400, cold],
      [3, 10, 2200, 1800, 40],
    ];
    const fit = (unit: string, cold: Cell): unknown => call(findFunction('BURN.LOG.FIT')!, [log(unit, cold)])[1]?.[1];
    expect(fit('C', 0)).not.toBe(fit('C', null));
  });
});
