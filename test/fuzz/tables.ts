/** Ranges that functions take whole: plans, prices, logs, lists. Near enough to good ones that a call gets past the first check, and bad ones. */
import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import type { Cell } from '../../src/catalogue/cell.ts';
import { CONDITIONS } from '../../src/core/safety/conditions.ts';
import { OPERATION_IDS, operationOf } from '../../src/core/operations/all.ts';
import { call } from '../../src/sheet/call.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { goodMaterial, goodQuantity, goodRod, hostile, hostileOrLong } from './cells.ts';

export type Rows = readonly (readonly Cell[])[];

function planOf(operation: string, ...args: readonly Argument[]): Rows {
  return call(findFunction(`BURN.${operation}.PLAN`)!, args);
}

/** Real plans, with rows that failed and rows left blank among them. */
const PLANS: readonly Rows[] = [
  planOf('PIN', [[4], [3.5], [null], [5], [0.5]], [[10], [8], [null], [16], [9]]),
  planOf('PIN', [[100], [90], [120]], [[250], [200], [400]], undefined, undefined, undefined, [
    ['units', 'SI'],
    ['cooling method', 'water'],
  ]),
  planOf('HOLE', [[1], [1.5], [2]], [[6], [4], [12]]),
  planOf('CUT', [[2], [3]], 24),
  planOf('BREACH', [[24], [36]], 2.5, [[4], [2]]),
];

const FINISHED: readonly (readonly string[])[] = parse(
  readFileSync(new URL('../fixtures/finished-jobs.csv', import.meta.url), 'utf8'),
);
const LOG: Rows = FINISHED.map((row, r) =>
  row.map((text, c): Cell => (text === '' ? null : r > 0 && ![1, 4, 12].includes(c) ? Number(text) : text)),
);

/** What can go wrong with a range between the sheet where it stands and the call. */
interface Damage {
  readonly cells: readonly (readonly [row: number, column: number, cell: Cell])[];
  readonly dropColumn: number | undefined;
  readonly dropRow: number | undefined;
  readonly twiceRow: number | undefined;
  readonly ragged: boolean;
}
const seldom = (most: number): fc.Arbitrary<number | undefined> => fc.option(fc.nat(most), { nil: undefined, freq: 1 });
const damage: fc.Arbitrary<Damage> = fc.record({
  cells: fc.array(fc.tuple(fc.nat(40), fc.nat(24), hostileOrLong), { minLength: 1, maxLength: 4 }),
  dropColumn: seldom(24),
  dropRow: seldom(40),
  twiceRow: seldom(40),
  ragged: fc.integer({ min: 0, max: 9 }).map((n) => n === 0),
});

function damaged(rows: Rows, d: Damage): Rows {
  const into = rows.map((row) => [...row]);
  for (const [r, c, cell] of d.cells) {
    const row = into[r % Math.max(1, into.length)];
    if (row && row.length > 0) row[c % row.length] = cell;
  }
  if (d.dropColumn !== undefined) for (const row of into) row.splice(d.dropColumn % Math.max(1, row.length), 1);
  if (d.dropRow !== undefined) into.splice(d.dropRow % Math.max(1, into.length), 1);
  if (d.twiceRow !== undefined) into.push([...(into[d.twiceRow % Math.max(1, into.length)] ?? [])]);
  if (d.ragged) into[into.length - 1]?.pop();
  return into;
}

const rowsOf = (row: fc.Arbitrary<readonly Cell[]>, most: number): fc.Arbitrary<Rows> =>
  fc.array(row, { minLength: 1, maxLength: most });
const plain = (
  quantity: 'length' | 'distance' | 'hours' | 'level',
  example: number,
  max?: number,
): fc.Arbitrary<Cell> =>
  goodQuantity({ kind: 'quantity', quantity, above: 0, ...(max === undefined ? {} : { max }) }, example).map((cell) =>
    cell('US'),
  );
const rod = goodRod.map((cell) => cell('US'));
const or = (cell: fc.Arbitrary<Cell>, nil: Cell = null): fc.Arbitrary<Cell> => fc.option(cell, { nil });

const plan: fc.Arbitrary<Rows> = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom(...PLANS) },
  {
    weight: 1,
    arbitrary: fc.tuple(fc.constantFrom(...PLANS), fc.constantFrom(...PLANS)).map(([a, b]) => [...a, ...b]),
  },
);

const price = fc.oneof(fc.double({ min: 0, max: 1e4, noNaN: true }), fc.constantFrom<Cell>(0, 9, 180, null, '12.5'));
const prices: fc.Arbitrary<Rows> = fc
  .tuple(
    fc
      .uniqueArray(
        fc.constantFrom(
          'rod',
          'rod 3/8 x 36',
          'rod 1/4',
          'oxygen',
          'cylinder',
          'cylinder rental',
          'crew',
          'plate',
          'ram hire',
          'mobilisation',
          'other permits',
          'other travel',
        ),
        { minLength: 1, maxLength: 9 },
      )
      .chain((names) =>
        fc.tuple(
          ...names.map((name) =>
            fc.tuple(
              fc.constant<Cell>(name),
              price,
              fc.constantFrom<Cell>(
                null,
                null,
                null,
                ...(name === 'oxygen' ? ['100 scf', 'm3'] : name === 'crew' ? ['h', 'min'] : []),
              ),
            ),
          ),
        ),
      ),
    fc.constantFrom<Rows>(
      [],
      [['contingency', 10, null]],
      [['margin', 20, null]],
      [
        ['mark-up', '15%', null],
        ['contingency', 0.1, null],
      ],
    ),
    fc.constantFrom<Rows>([], [], [['line', 'price', 'per']]),
  )
  .map(([lines, shares, heading]) => [...heading, ...lines, ...shares]);

const log: fc.Arbitrary<Rows> = fc
  .tuple(fc.nat(28), fc.integer({ min: 1, max: 4 }))
  .map(([from, jobs]) => [LOG[0] ?? [], ...LOG.slice(1 + from, 1 + from + jobs)]);

const sizes: fc.Arbitrary<Rows> = fc
  .tuple(
    fc.constantFrom<Rows>([], [], [], [['first', 'second', 'third']], [['diameter, mm', 'length, in', 'hole']]),
    rowsOf(
      fc
        .tuple(
          or(plain('length', 4), '').map((c) => c),
          plain('length', 8),
          or(plain('length', 2), null),
          or(rod),
          or(goodMaterial.map((cell) => cell('US'))),
        )
        .chain((row) => fc.integer({ min: 2, max: 5 }).map((n) => row.slice(0, n))),
      2,
    ),
  )
  .map(([heading, rows]) => {
    const width = Math.max(...[...heading, ...rows].map((r) => r.length));
    return [...heading, ...rows].map((r) => [...r, ...Array.from({ length: width - r.length }, () => null)]);
  });

const condition: fc.Arbitrary<readonly Cell[]> = fc.constantFrom(...CONDITIONS).chain((c) => {
  const word = fc.constantFrom(c.name, ...c.also);
  const number = fc.double({ min: 0.1, max: 200, noNaN: true });
  const needs = 'needs' in c ? c.needs : '';
  if (needs !== '') return word.map((w) => [`${w} ${needs}`, null]);
  return 'quantity' in c
    ? fc.tuple(word, fc.option(number)).map(([w, n]): readonly Cell[] => [w, n])
    : fc.tuple(word, fc.constantFrom<Cell>(null, true, false)).map(([w, t]): readonly Cell[] => [w, t]);
});

/** Good ranges by the name of the parameter. */
const GOOD: Readonly<Record<string, fc.Arbitrary<Rows>>> = {
  plan,
  prices,
  log,
  sizes,
  size: fc.oneof(
    { weight: 9, arbitrary: plain('length', 4).map((c): Rows => [[c]]) },
    { weight: 1, arbitrary: fc.tuple(plain('length', 4), plain('length', 8)).map((row): Rows => [row]) },
  ),
  secondSize: fc.oneof(plain('length', 8), fc.constantFrom<Cell>(1, 2, 6)).map((c): Rows => [[c]]),
  thirdSize: fc
    .oneof({ weight: 3, arbitrary: fc.constant<Cell>(null) }, { weight: 1, arbitrary: plain('length', 1.5) })
    .map((c): Rows => [[c]]),
  depths: rowsOf(fc.tuple(or(plain('length', 6))), 5),
  stock: rowsOf(
    fc.constantFrom('3/8 x 36', '3/8 x 24', '3/8').map((name): readonly Cell[] => [name]),
    2,
  ),
  levels: fc.tuple(plain('level', 92, 130), plain('level', 92, 130)).map(([a, b]): Rows => [[a], [b]]),
  hours: fc.oneof(
    fc.tuple(plain('hours', 2, 8 * 3600), plain('hours', 2, 8 * 3600)).map(([a, b]): Rows => [[a], [b]]),
    plain('hours', 4, 8 * 3600).map((c): Rows => [[c]]),
  ),
  conditions: rowsOf(condition, 4),
  items: rowsOf(fc.tuple(plain('length', 4), plain('length', 10)), 4),
  things: fc
    .tuple(
      fc.constantFrom<Rows>([], [['thing', 'distance, m']]),
      rowsOf(fc.tuple(fc.constantFrom<Cell>('fuel tank', 'dry grass', 7), plain('distance', 40)), 4),
    )
    .map(([heading, rows]) => [...heading, ...rows]),
};

/** An operation with sizes that fit it and, mostly, each other. */
export const operationWithSizes: fc.Arbitrary<{ readonly operation: string; readonly sizes: readonly Cell[] }> = fc
  .constantFrom(...OPERATION_IDS)
  .chain((operation) => {
    const { order, sizes } = operationOf(operation);
    const each = order.map((name) => {
      const { example, whole, optional } = sizes[name]!;
      const size = whole
        ? fc.integer({ min: 1, max: 6 })
        : fc.double({ min: 0.7, max: 1.6, noNaN: true }).map((times) => Number(example) * times);
      return fc.option(size, { nil: null, freq: optional ? 1 : 30 });
    });
    return fc.tuple(...each).map((row) => ({ operation, sizes: row }));
  });

/** A range that the parameter can use. */
export function goodTable(name: string): fc.Arbitrary<Rows> {
  const found = GOOD[name];
  if (!found) throw new Error(`no good range is known for ${name}`);
  return found;
}

/** A good range with some of it broken, or one that never was good. */
export function badTable(name: string): fc.Arbitrary<Argument> {
  return fc.oneof(
    { weight: 6, arbitrary: fc.tuple(goodTable(name), damage).map(([rows, d]) => damaged(rows, d)) },
    { weight: 2, arbitrary: fc.array(fc.array(hostile, { maxLength: 5 }), { maxLength: 4 }) },
    { weight: 1, arbitrary: hostileOrLong },
    { weight: 1, arbitrary: fc.constantFrom(...Object.keys(GOOD)).chain((other) => goodTable(other)) },
  );
}
