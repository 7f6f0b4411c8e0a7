/** Ranges that functions take whole: lists, prices, logs. Near enough to good ones that a call gets past the first check, and bad ones. */
import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import type { Cell } from '../../src/catalogue/cell.ts';
import { CONDITIONS } from '../../src/core/safety/conditions.ts';
import { OPERATION_IDS, operationOf } from '../../src/core/operations/all.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { goodMaterial, goodQuantity, goodRod, hostile, hostileOrLong } from './cells.ts';

export type Rows = readonly (readonly Cell[])[];

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
          'crew day',
          'standby',
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
      [
        ['margin', 20, null],
        ['tax', 7, null],
        ['currency', 'EUR', null],
      ],
      [
        ['mark-up', '15%', null],
        ['contingency', 0.1, null],
      ],
    ),
    fc.constantFrom<Rows>([], [], [['line', 'price', 'per']]),
  )
  .map(([lines, shares, heading]) => [...heading, ...lines, ...shares]);

const logOf = (least: number, most: number): fc.Arbitrary<Rows> =>
  fc
    .tuple(fc.nat(LOG.length - 1 - least), fc.integer({ min: least, max: most }))
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

/** A cell of a column of the list: mostly given, often blank. */
const listCell = (cell: fc.Arbitrary<Cell>): fc.Arbitrary<Cell> => fc.option(cell, { nil: null, freq: 4 });
const LIST_COLUMNS: readonly (readonly [heading: fc.Arbitrary<Cell>, cell: fc.Arbitrary<Cell>])[] = [
  [fc.constantFrom<Cell>('Mark', 'tag', 'Pin'), fc.constantFrom<Cell>('Boom foot, left', 'P-101', 7, null)],
  [fc.constantFrom<Cell>('Qty', 'no. off', 'QUANTITY'), fc.constantFrom<Cell>(1, 2, 3, '4 off', null)],
  [fc.constant<Cell>('rod'), listCell(rod)],
  [fc.constant<Cell>('material'), listCell(goodMaterial.map((cell) => cell('US')))],
  [fc.constant<Cell>('position'), fc.constantFrom<Cell>('flat', 'overhead', null)],
  [fc.constant<Cell>('Burning duty'), fc.constantFrom<Cell>(0.5, 0.8, null)],
  [fc.constant<Cell>('condition'), fc.constantFrom<Cell>('height 30 ft', 'confined; wind', null)],
  [fc.constant<Cell>('note'), fc.constantFrom<Cell>('as found', null)],
  [fc.constant<Cell>('colour'), fc.constantFrom<Cell>('red', 3, null)],
];
const shape = (min: number, max: number): fc.Arbitrary<Cell> =>
  fc.double({ min, max, noNaN: true }).map((x) => Number(x.toFixed(3)));
/** Sizes of pins, of mixed operations, or two bare columns. */
const list: fc.Arbitrary<Rows> = fc
  .record({
    kind: fc.constantFrom('pins', 'pins', 'mixed', 'bare'),
    others: fc.subarray([...LIST_COLUMNS], { maxLength: 4 }),
    rows: fc.integer({ min: 1, max: 3 }),
  })
  .chain(({ kind, others, rows }) => {
    if (kind === 'bare') return rowsOf(fc.tuple(shape(1, 7), shape(2, 20)), rows);
    const pins: (typeof LIST_COLUMNS)[number][] = [
      [fc.constantFrom<Cell>('Dia', 'Ø, in', 'diameter'), shape(1, 7)],
      [fc.constantFrom<Cell>('length', 'LEN', 'length (in)'), shape(2, 20)],
    ];
    const mixed: (typeof LIST_COLUMNS)[number][] = [
      [fc.constant<Cell>('operation'), fc.constantFrom<Cell>('PIN', 'cut', 'STUD', 'Gouge')],
      ...pins,
      [fc.constant<Cell>('thk'), shape(0.5, 3)],
      [fc.constant<Cell>('width'), shape(0.3, 1)],
      [fc.constant<Cell>('depth'), shape(0.2, 1)],
    ];
    const columns = [...others, ...(kind === 'mixed' ? mixed : pins)];
    return fc
      .tuple(
        fc.tuple(...columns.map(([heading]) => heading)),
        fc.array(fc.tuple(...columns.map(([, cell]) => cell)), { minLength: rows, maxLength: rows }),
      )
      .map(([heading, cells]) => [heading, ...cells]);
  });

/** Assumptions of one way to do a job. */
const ways: fc.Arbitrary<Rows> = fc.constantFrom<Rows>(
  [[null, null]],
  [['position', 'overhead']],
  [
    ['burning duty', 0.55],
    ['units', 'SI'],
  ],
  [
    ['coupled rods', 'yes'],
    ['crews', 2],
  ],
);

/** Good ranges by the name of the parameter. */
const GOOD: Readonly<Record<string, fc.Arbitrary<Rows>>> = {
  list,
  operation: fc.oneof(
    list,
    fc.constantFrom(...OPERATION_IDS).map((word): Rows => [[word]]),
  ),
  assumeA: ways,
  assumeB: ways,
  prices,
  log: logOf(1, 4),
  'log of nine': logOf(9, 12),
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
