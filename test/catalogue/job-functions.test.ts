import { describe, expect, it } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import type { Cell, CellError } from '../../src/catalogue/cell.ts';
import { JOB_FUNCTIONS } from '../../src/catalogue/job-functions.ts';
import { LOG_FUNCTIONS } from '../../src/catalogue/log-functions.ts';
import { call } from '../../src/sheet/call.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { calculateWorkbook } from '../../src/engine/headless.ts';

const run = (name: string, ...args: readonly Argument[]): Cell[][] => call(findFunction(name)!, args) as Cell[][];
const message = (cells: readonly (readonly Cell[])[]): string => (cells[0]?.[0] as CellError).message;
const column = (cells: readonly (readonly Cell[])[], heading: string): Cell[] => {
  const at = cells[0]!.findIndex((h) => typeof h === 'string' && h.replace(/,.*/, '') === heading);
  return cells.slice(1).map((row) => row[at] ?? null);
};
const rowOf = (cells: readonly (readonly Cell[])[], first: string): readonly Cell[] =>
  cells.find((row) => row[0] === first)!;
const LIST: Cell[][] = [
  ['Pin', 'Diameter', 'Length, mm'],
  ['a', 4, 254],
  [null, null, null],
  ['b', '3-1/2', 300],
  ['c', -1, 254],
];

describe('examples', () => {
  it.each([...JOB_FUNCTIONS, ...LOG_FUNCTIONS].flatMap((d) => d.examples.map((e) => [e] as const)))(
    '%s works in a sheet as it stands',
    async (formula) => {
      const book = await calculateWorkbook(
        { sheets: [{ name: 'Job', rows: [[formula]], size: [200, 30] }] },
        hostFunctions,
      );
      const cells = book.spilled('A1').flat();
      expect(cells.filter((c) => typeof c === 'object' && c !== null)).toEqual([]);
      expect(cells.some((c) => typeof c === 'number')).toBe(true);
    },
  );
});

describe('BURN.SPREAD', () => {
  const values = (...args: readonly Argument[]): readonly Cell[] =>
    run('BURN.SPREAD', ...args).map(([value]) => value ?? null);

  it('gives a value beside each row and how far it is open, its heading, its blank and its error', () => {
    const cells = run('BURN.SPREAD', 'PIN', LIST, 'oxygen', 90);
    expect(cells.map((r) => r.length)).toEqual([2, 2, 2, 2, 2]);
    expect(cells[0]).toEqual(['oxygen P90, scf', '+-']);
    expect(cells[2]).toEqual([null, null]);
    expect(typeof cells[1]![0]).toBe('number');
    expect(message([cells[4]!])).toBe('sizes row 5: diameter is -1 in; must be more than 0 in');
  });

  it('gives at 10 and 90 the low and high of the plan', () => {
    const plan = run('BURN.PIN.PLAN', [[4], [3.5]], [[10], [12]]);
    const sizes = [
      [4, 10],
      [3.5, 12],
    ];
    for (const [quantity, heading] of [
      ['oxygen', 'oxygen'],
      ['rods', 'rods'],
      ['time', 'crew'],
    ] as const) {
      expect(values('pin', sizes, quantity, 10)).toEqual(column(plan, `${heading} low`));
      expect(values('PIN', sizes, quantity, '90%')).toEqual(column(plan, `${heading} high`));
      expect(values('PIN', sizes, quantity, 0.9)).toEqual(column(plan, `${heading} high`));
    }
  });

  it('rises with the percentile', () => {
    for (const quantity of ['rods', 'oxygen', 'burn', 'time', 'cylinders']) {
      const values = [2, 10, 25, 50, 75, 90, 98].map(
        (p) => run('BURN.SPREAD', 'PIN', [[5, 14]], quantity, p)[0]![0] as number,
      );
      values.forEach((v, i) => i > 0 && expect(v, quantity).toBeGreaterThanOrEqual(values[i - 1]!));
      expect(values[6]!).toBeGreaterThan(values[0]!);
    }
  });

  it('is known to 5 % from the draws, in the tails from more of them', () => {
    for (const p of [1, 2, 10, 50, 90, 98, 99])
      for (const quantity of ['oxygen', 'burn', 'time']) {
        const [value, open] = run('BURN.SPREAD', 'PIN', [[4, 10]], quantity, p)[0] as [number, number];
        expect(open / value, `${quantity} at ${p}`).toBeGreaterThan(0.001);
        expect(open / value, `${quantity} at ${p}`).toBeLessThanOrEqual(0.05);
      }
  });

  it('takes rod and material behind the sizes, and other operations', () => {
    const [[thin], [thick]] = run(
      'BURN.SPREAD',
      'PIN',
      [
        [4, 10, null, '1/4 x 24'],
        [4, 10, 2.4, '3/8 x 36', 'carbon steel'],
      ],
      'rods',
      50,
    ) as [[number, number], [number, number]];
    expect(thin).toBeGreaterThan(thick);
    expect(
      run('BURN.SPREAD', 'STUD', [[1.5, 4], [1.5]], 'oxygen', 50)
        .flat()
        .every((c) => typeof c === 'number'),
    ).toBe(true);
  });

  it('counts in SI where the assumptions say so', () => {
    const us = run('BURN.SPREAD', 'PIN', [[4, 10]], 'oxygen', 90)[0]![0] as number;
    const si = run(
      'BURN.SPREAD',
      'PIN',
      [
        ['diameter', 'length'],
        [101.6, 254],
      ],
      'oxygen',
      90,
      [['units', 'SI']],
    );
    expect(si[0]).toEqual(['oxygen P90, m3', '+-']);
    expect((si[1]![0] as number) / us).toBeCloseTo(0.0375521146 / 1.3543637, 6);
  });

  it('says in how many cases the heat does not suffice, where that leaves no value or no end', () => {
    const spread = (percentile: number): Cell[] =>
      run('BURN.SPREAD', 'PIN', [['100 mm', '300 mm', null, null, 'stainless']], 'oxygen', percentile)[0]!;
    const [value, within] = spread(97.5) as [number, CellError];
    expect(value).toBeGreaterThan(spread(97)[0] as number);
    expect(within.message).toMatch(/^in nearly 2.5% of the draws .* the heat does not suffice; narrow/);
    for (const cell of spread(98)) expect((cell as CellError).message).toMatch(/^in more than 2.0% of the draws /);
  });

  it('says what is wrong with its arguments', () => {
    expect(message(run('BURN.SPREAD', 'PINN', [[4, 10]], 'oxygen', 90))).toMatch(
      /operation is "PINN"; must be one of PIN, HOLE/,
    );
    expect(message(run('BURN.SPREAD', 'PIN', [[4, 10]], 'smoke', 90))).toBe(
      'quantity is "smoke"; must be one of rods, oxygen, burn, time, cylinders',
    );
    expect(message(run('BURN.SPREAD', 'PIN', [[4, 10]], 'oxygen', 100))).toBe(
      'percentile is 100 %; must be at most 99 %',
    );
    expect(message(run('BURN.SPREAD', 'PIN', [[4, 10]], 'oxygen', 0))).toContain('percentile is blank or zero');
    expect(message(run('BURN.SPREAD', 'PIN', undefined, 'oxygen', 90))).toBe('sizes is missing');
  });
});

const JOB: Cell[][] = [
  ['Mark', 'Qty', 'Ø', 'Length', 'Op', 'Thk'],
  ['Boom foot', 2, 5, 18, null, null],
  ['Lock pin', '4 off', '1-1/2', '150 mm', 'PIN', null],
  ['Rib', null, null, 24, 'cutting', 1],
  ['Stick', 1, 3.5, null, null, null],
];
const GOOD = JOB.slice(0, 4);

describe('the total of BURN.JOB.PLAN', () => {
  it('says how far its low and high may be off, as a single item of BURN.SPREAD does', () => {
    const run = (name: string, ...args: readonly Argument[]): Cell[][] => call(findFunction(name)!, args) as Cell[][];
    const note = String(
      run('BURN.JOB.PLAN', [[4, 10]])
        .at(-1)!
        .at(-1),
    );
    const [, ...off] =
      /rods low \+- ([\d.]+), high \+- ([\d.]+), oxygen low \+- ([\d.]+)%, high \+- ([\d.]+)%, crew low \+- ([\d.]+)%, high \+- ([\d.]+)% for the number of draws$/.exec(
        note,
      )!;
    const asked = (quantity: string, percentile: number): number => {
      const [[value, within]] = run('BURN.SPREAD', 'PIN', [[4, 10]], quantity, percentile) as [[number, number]];
      return quantity === 'rods' ? within : (100 * within) / value;
    };
    const expected = ['rods', 'oxygen', 'time'].flatMap((quantity) => [10, 90].map((p) => asked(quantity, p)));
    off.forEach((text, i) => expect(Number(text)).toBeCloseTo(expected[i]!, 1));
  });
});

describe('BURN.JOB.STOCK', () => {
  it('loads a list, tells the risk of the plain sum and names what it left out', () => {
    const cells = run('BURN.JOB.STOCK', LIST, 90);
    expect(cells.map((r) => r[0])).toEqual([
      'load',
      'rods 3/8 x 36',
      'oxygen',
      'cylinders',
      'batteries',
      'plates',
      'crew work',
      'all together',
      'left out',
    ]);
    const [, , , , short, plain, note] = rowOf(cells, 'all together');
    expect(short).toBeLessThanOrEqual(10);
    expect(plain).toBeGreaterThan(50);
    expect(note).toMatch(/^2 of 3 rows, 2 pieces; the others are left out; each line is loaded for 9\d(\.\d)?% of/);
    expect(rowOf(cells, 'left out')[6]).toBe('c: diameter is -1 in; must be more than 0 in');
  });

  it('says where a load is hardly known, since next to it the heat does not suffice at all; so do quote and sheet', () => {
    const said = /in 2.\d% of the draws .* so the load is hardly known; take less confidence/;
    const list: Cell[][] = [
      ['mark', 'dia', 'length', 'material'],
      ['a', 4, 12, 'stainless'],
      ['b', 4, 12, null],
    ];
    const cells = run('BURN.JOB.STOCK', list, 97);
    const oxygen = rowOf(cells, 'oxygen');
    expect(Number(/\+- (\d+)/.exec(String(oxygen[6]))![1])).toBeGreaterThan((oxygen[1] as number) / 2);
    expect(rowOf(cells, 'all together')[6]).toMatch(said);
    const cost = run('BURN.JOB.COST', list, [['oxygen', 1]], 97);
    expect(rowOf(cost, 'subtotal')[7]).toMatch(said);
    const sheet = run('BURN.JOB.SHEET', list, undefined, undefined, [['load confidence', 97]]);
    expect(sheet.find((row) => row[1] === 'oxygen')!.at(-1)).toMatch(said);
    expect(rowOf(run('BURN.JOB.STOCK', list, 80), 'all together')[6]).not.toMatch('hardly known');
  });

  it('takes the confidence as 90, 90% or 0.9, and that of the assumptions where it is left out', () => {
    const [a, b, c, d] = [90, '90%', 0.9, undefined].map((p) => run('BURN.JOB.STOCK', [[4, 10]], p));
    expect(b).toEqual(a);
    expect(c).toEqual(a);
    expect(d).toEqual(a);
    expect(run('BURN.JOB.STOCK', [[4, 10]], undefined, [['load confidence', 60]])).toEqual(
      run('BURN.JOB.STOCK', [[4, 10]], 60),
    );
  });

  it('says that there is nothing to load', () => {
    expect(message(run('BURN.JOB.STOCK', [['diameter', 'length']], 90))).toBe(
      'list holds no row to work on; blank and heading rows do not count',
    );
    expect(
      message(
        run(
          'BURN.JOB.STOCK',
          [
            [-1, 10],
            ['x', 3],
          ],
          90,
        ),
      ),
    ).toBe('no row of list can be used; the first: list row 1: diameter is -1 in; must be more than 0 in');
  });
});

describe('BURN.JOB.COST', () => {
  const PRICES: Cell[][] = [
    ['what', 'price', 'per'],
    ['currency', 'USD'],
    ['3/8 x 36', 11],
    ['oxygen', 45, '100 scf'],
    ['crew', 180],
    ['contingency', 0.1],
    ['mark-up', '20%'],
  ];

  it('prices a list, names the money and what it left out', () => {
    const cells = run('BURN.JOB.COST', JOB, PRICES);
    expect(cells[0]).toEqual(['line', 'quantity', 'unit', 'price', 'quoted', 'used low', 'used high', 'note']);
    const [subtotal, cost, price] = ['subtotal', 'cost', 'price'].map((name) => rowOf(cells, name)[4] as number) as [
      number,
      number,
      number,
    ];
    expect(cost).toBeCloseTo(1.1 * subtotal, 9);
    expect(price).toBeCloseTo(1.2 * cost, 9);
    expect(rowOf(cells, 'price')[2]).toBe('USD');
    expect(rowOf(cells, 'oxygen')[3]).toBeCloseTo(0.45, 12);
    expect(rowOf(cells, 'left out')[7]).toBe('Stick: length is blank or zero; must be more than 0');
    for (const row of cells.slice(1))
      if (typeof row[5] === 'number') expect(row[5], String(row[0])).toBeLessThanOrEqual(row[6] as number);
    expect(cells.flat().some((c) => Object.is(c, -0))).toBe(false);
  });

  it('costs the same in SI', () => {
    const perM3 = (45 / 100) * (1.3543637 / 0.0375521146);
    const si = PRICES.map((row) => (row[0] === 'oxygen' ? ['oxygen', perM3] : row));
    expect(rowOf(run('BURN.JOB.COST', [[101.6, 254]], si, 80, 1, [['units', 'SI']]), 'price')[4] as number).toBeCloseTo(
      rowOf(run('BURN.JOB.COST', [[4, 10]], PRICES, 80, 1), 'price')[4] as number,
      4,
    );
  });

  it('names the nearest to a price it does not know, and what is wrong with a row', () => {
    const of = (...prices: Cell[][]): string => message(run('BURN.JOB.COST', [[4, 10]], prices));
    expect(of(['oxigen', 3])).toMatch(
      /^prices row 1: "oxigen" is not a line that can be priced; nearest: oxygen, .*"other \.\.\." adds a sum of your own$/,
    );
    expect(of(['crew', -3])).toBe('prices row 1: crew is -3; must be at least 0');
    expect(of(['crew', 3], ['crew rate', 4])).toBe('prices row 2: crew is priced in row 1 already; keep one of them');
    expect(of(['margin', 20], ['mark-up', 20])).toContain(
      'keep one: margin is a share of the price, mark-up a share of the cost',
    );
    expect(of(['oxygen', 3, 'furlong'])).toBe('prices row 1: per is "furlong"; must be one of scf, 100 scf');
    expect(of([45724, 9])).toMatch(/prices row 1: name is 45724, which looks like a date/);
  });

  it("adds sums of one's own and passes blank prices over", () => {
    const cells = run(
      'BURN.JOB.COST',
      [[4, 10]],
      [
        ['other permit', 120],
        ['other crane', 500],
        ['crew', null],
        ['rod', 9],
      ],
    );
    expect(rowOf(cells, 'other permit')[4]).toBe(120);
    expect(rowOf(cells, 'subtotal')[7]).toMatch(
      /^without oxygen, crew work: no price given; quoted: what is loaded for 90%; used low, used high: /,
    );
  });
});

describe('BURN.JOB.SCHEDULE', () => {
  const of = (cells: Cell[][], mark: string): readonly Cell[] => cells.find((row) => row[1] === mark)!;
  it('lays out every piece under its mark, then the fire watch of each shift and the job', () => {
    const cells = run('BURN.JOB.SCHEDULE', JOB, 1, 10, '06:30');
    expect(cells[0]!.slice(0, 7)).toEqual(['order', 'mark', 'crew', 'shift', 'day', 'start', 'burn from']);
    expect(column(cells, 'order').filter((c) => typeof c === 'number')).toEqual([1, 2, 3, 4, 5, 6, 7]);
    const marks = column(cells, 'mark');
    for (const mark of ['Boom foot, 1 of 2', 'Lock pin, 4 of 4', 'Rib']) expect(marks).toContain(mark);
    expect(cells[1]![5]).toBe('06:30');
    const watch = of(cells, 'fire watch');
    expect(watch.at(-1)).toBe(`fire watch until ${String(watch[11])} (NFPA 51B 2019)`);
    expect(of(cells, 'job').at(-1)).toMatch(
      /^work \d+ h \d\d, waiting .*, breaks .*; without hearing protectors a burner gets \d+% of the dose/,
    );
    expect(rowOf(cells, 'left out').at(-1)).toBe('Stick: length is blank or zero; must be more than 0');
    expect(rowOf(cells, 'to ask').at(-1)).toBe('Rib: quantity is blank or zero: 1 is taken');
    // Times are clock times, not hours with decimals.
    expect(cells.flat().filter((c) => typeof c === 'string' && /\d\.\d{3}/.test(c))).toEqual([]);
  });

  it('says who waits for what', () => {
    const cells = run(
      'BURN.JOB.SCHEDULE',
      [
        ['mark', 'dia', 'length'],
        ['Pivot', 8, 20],
      ],
      1,
      10,
    );
    expect(of(cells, 'waits').at(-1)).toMatch(/^(\d h )?\d+( min)?: waits for Pivot to cool$/);
  });

  it('takes crews, day length and start of the assumptions where none are given, and refuses half a crew', () => {
    expect(run('BURN.JOB.SCHEDULE', GOOD)).toEqual(run('BURN.JOB.SCHEDULE', GOOD, 1, 8, '07:00'));
    expect(
      run('BURN.JOB.SCHEDULE', GOOD, undefined, undefined, undefined, [
        ['crews', 2],
        ['day length', 6],
        ['shift start', 19],
      ]),
    ).toEqual(run('BURN.JOB.SCHEDULE', GOOD, 2, 6, '7 pm'));
    expect(message(run('BURN.JOB.SCHEDULE', GOOD, 1.5))).toBe('crews is 1.5; must be a whole number');
    expect(message(run('BURN.JOB.SCHEDULE', GOOD, 1, 30))).toContain('shift is 30 h; must be at most 24 h');
    expect(message(run('BURN.JOB.SCHEDULE', GOOD, 1, 8, 'noon'))).toContain('start is "noon"; must be a time of day');
    expect(column(run('BURN.JOB.SCHEDULE', GOOD, 1, 8, 46356.25), 'day')[0]).toBe('Mon 2026-11-30');
  });
});

describe('BURN.JOB.COMPARE', () => {
  const PRICES: Cell[][] = [
    ['rod', 9],
    ['oxygen', 38, '100 scf'],
    ['crew', 180],
  ];
  const A: Cell[][] = [['burning duty', 0.7]];
  const B: Cell[][] = [
    ['burning duty', 0.5],
    ['position', 'overhead'],
    ['crews', 2],
  ];
  const cells = run('BURN.JOB.COMPARE', JOB, A, B, PRICES);

  it('shows of each way what the other functions show', () => {
    for (const [way, at] of [
      [A, 2],
      [B, 3],
    ] as const) {
      const plan = run('BURN.JOB.PLAN', JOB, way);
      const total = (heading: string): Cell => column(plan, heading).at(-1)!;
      const stock = run('BURN.JOB.STOCK', JOB, undefined, way);
      expect(rowOf(cells, 'rods')[at]).toBe(total('rods'));
      expect(rowOf(cells, 'oxygen')[at]).toBeCloseTo(total('oxygen') as number, 9);
      expect(rowOf(cells, 'cylinders loaded')[at]).toBe(rowOf(stock, 'cylinders')[1]);
      expect(rowOf(cells, 'price')[at]).toBeCloseTo(
        rowOf(run('BURN.JOB.COST', JOB, PRICES, undefined, undefined, way), 'price')[4] as number,
        6,
      );
      expect(rowOf(cells, 'shifts')[at]).toBe(
        run('BURN.JOB.SCHEDULE', JOB, undefined, undefined, undefined, way).find((row) => row[1] === 'job')![3],
      );
    }
  });

  it('says which assumptions did it, and adds up', () => {
    const by = cells.filter((row) => String(row[0]).startsWith('by '));
    expect(by.map((row) => row[0]).sort()).toEqual(['by burning duty', 'by crews', 'by position']);
    expect(rowOf(cells, 'by position').slice(2, 4)).toEqual(['flat', 'overhead']);
    expect(rowOf(cells, 'by crews').slice(5, 8)).toEqual([0, 0, 0]);
    expect(rowOf(cells, 'by burning duty').slice(5, 7)).toEqual([0, 0]);
    expect(rowOf(cells, 'by burning duty')[7] as number).toBeGreaterThan(0);
    for (const at of [5, 6, 7, 8]) {
      const parts = [...by, rowOf(cells, 'together besides')].map((row) => row[at] as number);
      expect(parts.reduce((a, b) => a + b, 0)).toBeCloseTo(rowOf(cells, 'in all')[at] as number, 6);
    }
    expect(rowOf(cells, 'in all')[5]).toBe((rowOf(cells, 'rods')[3] as number) - (rowOf(cells, 'rods')[2] as number));
  });

  it('says that nothing differs, that no prices are given, and what it left out', () => {
    const alike = run('BURN.JOB.COMPARE', JOB, [[null, null]], [['burning duty', 0.7]]);
    expect(rowOf(alike, 'nothing differs')[9]).toBe('A and B assume the same');
    expect(rowOf(alike, 'price')[9]).toBe('no prices given');
    expect(rowOf(alike, 'left out')[9]).toContain('Stick: length is blank');
    expect(column(alike, 'change').filter((c) => typeof c === 'number' && c !== 0)).toEqual([]);
  });
});
