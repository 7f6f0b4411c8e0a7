/** What is quoted is what is loaded: over random lists, each figure of a job is one number, whichever function says it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import type { Cell } from '../../src/catalogue/cell.ts';
import { call } from '../../src/sheet/call.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { SharedBases } from '../../src/sheet/shared-bases.ts';
import { SEED } from '../fuzz/fuzz.ts';

type Table = readonly (readonly Cell[])[];

const under = (table: Table, heading: string, row: (cells: readonly Cell[]) => boolean): Cell => {
  const at = table[0]!.findIndex((h) => String(h).split(',')[0] === heading);
  return table.find(row)?.[at] ?? null;
};
const named =
  (name: string, at = 0) =>
  (cells: readonly Cell[]): boolean =>
    cells[at] === name;
const amount = (stock: Table, line: string, heading = 'amount'): number => under(stock, heading, named(line)) as number;
/** Minutes of `8 h 40` or `40 min`. */
const minutes = (text: string): number => {
  const [, hours = '0', rest = '0'] = /^(?:(\d+) h )?(\d+)(?: min)?$/.exec(text) ?? [];
  return 60 * Number(hours) + Number(rest);
};

const size = (least: number, most: number): fc.Arbitrary<number> =>
  fc.integer({ min: Math.round(4 * least), max: Math.round(4 * most) }).map((n) => n / 4);
const row: fc.Arbitrary<Cell[]> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc
      .tuple(fc.option(fc.integer({ min: 1, max: 4 })), size(2, 6), size(6, 18), fc.constantFrom(null, 'overhead'))
      .map(([q, d, l, position]): Cell[] => [q, null, d, l, null, null, position]),
  },
  { weight: 2, arbitrary: size(0.5, 2).map((t): Cell[] => [null, 'CUT', null, 24, t, null, null]) },
  { weight: 1, arbitrary: size(1, 2).map((d): Cell[] => ['3 off', 'STUD', d, null, null, null, null]) },
  { weight: 1, arbitrary: fc.constant<Cell[]>([1, null, 4, null, null, null, null]) },
);
const jobs = fc.record({
  rows: fc.array(row, { minLength: 1, maxLength: 6 }),
  confidence: fc.constantFrom(50, 80, 90, 95, 99),
  crews: fc.integer({ min: 1, max: 3 }),
  shift: fc.constantFrom(6, 8, 10, 12),
  range: fc.constantFrom(undefined, 0.5, 1.6, 2.5),
});

const PRICES: Table = [
  ['rod', 1],
  ['oxygen', 1],
  ['cylinder', 1],
  ['cylinder rental', 1],
  ['battery', 1],
  ['crew', 1],
  ['standby', 1],
  ['plate', 1],
  ['ram hire', 1],
  ['crew day', 1],
  ['mobilisation', 100],
  ['contingency', 10],
  ['margin', 20],
  ['tax', 7],
];

const RANGES = ['range of rods', 'range of oxygen', 'range of burning', 'range of crew time'];

describe('one job', () => {
  it('is one number for each thing in plan, load, quote, schedule and sheet', () => {
    let compared = 0;
    fc.assert(
      fc.property(jobs, ({ rows, confidence, crews, shift, range }) => {
        const list: Table = [
          ['mark', 'qty', 'op', 'dia', 'length', 'thk', 'colour', 'position'],
          ...rows.map(([q, op, d, l, t, c, p], i): Cell[] => [`M${i + 1}`, q!, op!, d!, l!, t!, c!, p!]),
        ];
        const assume: Table = [
          ['day length', shift],
          ['crews', crews],
          ['load confidence', confidence],
          ...(range === undefined ? [] : RANGES.map((name): Cell[] => [name, range])),
        ];
        const shared = new SharedBases();
        const run = (name: string, ...args: readonly Argument[]): Table =>
          call(findFunction(name)!, args, undefined, shared);
        const plan = run('BURN.JOB.PLAN', list, assume);
        if (plan.length === 1) return;
        const stock = run('BURN.JOB.STOCK', list, confidence, assume);
        const cost = run('BURN.JOB.COST', list, PRICES, confidence, crews, assume);
        const schedule = run('BURN.JOB.SCHEDULE', list, crews, shift, undefined, assume);
        const sheet = run('BURN.JOB.SHEET', list, undefined, undefined, assume);
        const total = (heading: string): number => under(plan, heading, named('total')) as number;
        const quoted = (line: string): number => under(cost, 'quantity', named(line)) as number;
        const printed = (what: string, at: number): string => String(sheet.find(named(what, 1))?.[at] ?? '');
        const close = (a: number, b: number, what: string): void => {
          expect(Math.abs(a - b), `${what}: ${a} and ${b}`).toBeLessThanOrEqual(1e-9 * Math.abs(b));
          compared++;
        };
        // Each percentile of a single row is the plan's own, as far as its column has one.
        for (const line of plan.slice(1, -1)) {
          const at = plan[0]!.findIndex((h) => String(h).split(',')[0] === 'oxygen high');
          if (line[2] !== 1 || line[plan[0]!.indexOf('operation')] !== 'PIN' || typeof line[at] !== 'number') continue;
          const given = rows[(line[0] as number) - 1]!;
          if (given[6] !== null) continue;
          const [[spread, off]] = run('BURN.SPREAD', 'PIN', [[given[2]!, given[3]!]], 'oxygen', 90, assume) as [
            [Cell, Cell],
          ];
          // With wide ranges it takes more draws than a plan.
          if (range === 2.5) {
            expect(Math.abs((spread as number) - line[at])).toBeLessThan(3 * (off as number));
            continue;
          }
          close(spread as number, line[at], 'oxygen high');
        }
        // The load's plain sums are the plan's totals.
        const rods = stock.filter((line) => String(line[0]).startsWith('rods '));
        close(
          rods.reduce((sum, line) => sum + (line[3] as number), 0),
          total('rods'),
          'rods',
        );
        close(amount(stock, 'oxygen', 'sum of plans'), total('oxygen'), 'oxygen');
        close(amount(stock, 'cylinders', 'sum of plans'), total('cylinders so far'), 'cylinders');
        // The quote takes what is loaded.
        for (const [line] of rods)
          close(quoted(String(line).replace('rods', 'rod')), amount(stock, String(line)), 'rods quoted');
        for (const line of ['oxygen', 'cylinders', 'batteries', 'crew work'])
          close(quoted(line), amount(stock, line), `${line} quoted`);
        // Low and high are those of the plan, whatever the confidence; of a single row they are its own.
        const used = (heading: string): number => under(cost, heading, named('oxygen')) as number;
        if (typeof under(plan, 'oxygen high', named('total')) === 'number') {
          close(used('used low'), total('oxygen low'), 'oxygen used low');
          close(used('used high'), total('oxygen high'), 'oxygen used high');
        }
        if (plan.length === 3)
          for (const heading of ['rods', 'oxygen', 'crew'].flatMap((what) => [`${what} low`, `${what} high`])) {
            const own = plan[1]![plan[0]!.findIndex((h) => String(h).split(',')[0] === heading)]!;
            if (typeof own === 'number') close(own, total(heading), `${heading} of the only row`);
          }
        // Days and waiting are those of the schedule.
        const job = schedule.find(named('job', 1))!;
        const shifts = under(schedule, 'shift', named('job', 1)) as number;
        close(quoted('ram hire'), shifts, 'days');
        close(quoted('cylinder rental'), amount(stock, 'cylinders') * shifts, 'cylinder days');
        const worked = new Set(
          schedule.flatMap((line) =>
            typeof line[0] === 'number'
              ? [`${String(line[2])} ${String(line[3])}`, `${String(line[2])} ${String(line[9])}`]
              : [],
          ),
        );
        close(quoted('crew days'), worked.size, 'crew days');
        // What is quoted is quantity times price, and the sums are those of the lines.
        const money = (line: string, heading = 'quoted'): number => under(cost, heading, named(line)) as number;
        const priced = cost.slice(1).filter((line) => line[2] !== '%' && typeof line[3] === 'number');
        for (const line of priced) close(line[4] as number, (line[1] as number) * (line[3] as number), String(line[0]));
        close(
          money('subtotal'),
          priced.reduce((sum, line) => sum + (line[4] as number), 0),
          'subtotal',
        );
        close(money('price'), (1.1 * money('subtotal')) / 0.8, 'price');
        close(money('total'), 1.07 * money('price'), 'total');
        for (const line of cost.slice(1)) {
          if (typeof line[6] !== 'number') continue;
          expect(line[5], String(line[0])).toBeLessThanOrEqual(line[6] + 1e-9);
        }
        const [, work = '', waiting = ''] = /^work (.*), waiting (.*), breaks/.exec(String(job.at(-1))) ?? [];
        expect(Math.abs(minutes(waiting) - 60 * quoted('standby'))).toBeLessThanOrEqual(0.5 + 1e-6);
        const fits = schedule.every((line) => !String(line.at(-1)).startsWith('left out: '));
        if (fits) {
          expect(Math.abs(minutes(work) - 60 * amount(stock, 'crew work', 'sum of plans'))).toBeLessThanOrEqual(
            0.5 + 1e-6,
          );
          close(
            under(schedule, 'cylinder', named('job', 1)) as number,
            total('cylinders so far'),
            'cylinders scheduled',
          );
        }
        // The sheet prints the same.
        for (const line of [...rods.map((r) => String(r[0])), 'cylinders', 'batteries'])
          expect(printed(line, 2), line).toBe(String(amount(stock, line)));
        expect(printed('in all', 3)).toBe(String(job.at(-1)).split(';')[0]);
        expect(printed('items', 2)).toBe(String(total('quantity')));
        for (const line of plan.slice(1, -1)) {
          if (typeof line[4] !== 'number') continue;
          const off = line[2] === 1 ? '' : `, ${String(line[2])} off`;
          expect(printed(`${String(line[1])}${off}`, 2)).toBe(`${String(line[4])} rods ${String(line[3])}`);
        }
        // What is left out is named everywhere.
        const left = plan.slice(1, -1).filter((line) => typeof line[4] === 'object' && line[4] !== null);
        for (const line of left)
          for (const table of [stock, cost, schedule, sheet, plan.slice(-1)])
            expect(table.flat().some((cell) => String(cell).includes(`${String(line[1])}: length is blank`))).toBe(
              true,
            );
        for (const table of [plan, stock, cost, schedule, sheet])
          expect(table.flat().some((cell) => Object.is(cell, -0))).toBe(false);
      }),
      { numRuns: 40, seed: SEED },
    );
    expect(compared).toBeGreaterThan(300);
  }, 300_000);

  it('suffices as often as it was quoted for', () => {
    const list: Table = [
      ['mark', 'qty', 'dia', 'length'],
      ['Boom foot', 2, 5, 18],
      ['Lock pin', 4, 1.5, 6],
      ['Stick', 3, 4, 14],
    ];
    const stock = call(findFunction('BURN.JOB.STOCK')!, [list, 90]);
    expect(under(stock, 'load falls short', named('all together'))).toBeLessThanOrEqual(10);
    expect(under(stock, 'sum falls short', named('all together'))).toBeGreaterThan(50);
  });
});
