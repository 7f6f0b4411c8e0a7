/** Ranges for `assume`: rows of the register with values within and at its limits, and rows that are wrong in every way. */
import fc from 'fast-check';
import type { Cell } from '../../src/catalogue/cell.ts';
import { isChoice, type Assumption, type NumberAssumption } from '../../src/core/assumptions/assumption.ts';
import { REGISTRY } from '../../src/core/assumptions/registry.ts';
import { fromSi, plainUnit, toSi } from '../../src/core/units/parse-quantity.ts';
import type { UnitSystem } from '../../src/core/units/quantities.ts';
import { hostile } from './cells.ts';

type Row = readonly Cell[];
type UnitfulRow = (system: UnitSystem) => Row;

const entries: readonly Assumption[] = REGISTRY.filter((a) => a.name !== 'units');

/** Where between low and high, or between the physical limits, the value lies. */
const place = fc.oneof(
  {
    weight: 6,
    arbitrary: fc
      .double({ min: 0, max: 1, noNaN: true })
      .map((share) => (a: NumberAssumption) => a.low + share * (a.high - a.low)),
  },
  {
    weight: 2,
    arbitrary: fc.constantFrom(
      (a: NumberAssumption) => a.low,
      (a: NumberAssumption) => a.high,
      (a: NumberAssumption) => a.value,
    ),
  },
  {
    weight: 1,
    arbitrary: fc.constantFrom(
      (a: NumberAssumption) => a.min,
      (a: NumberAssumption) => a.max,
    ),
  },
  {
    weight: 2,
    arbitrary: fc
      .double({ min: 0, max: 1, noNaN: true })
      .map(
        (share) => (a: NumberAssumption) =>
          a.min > 0 && a.max / a.min > 10 ? a.min * (a.max / a.min) ** share : a.min + share * (a.max - a.min),
      ),
  },
);
const form = fc.constantFrom('value', 'range', 'unit', 'text', 'sure') satisfies fc.Arbitrary<string>;

/** A value that rounding on the way through another unit leaves within the limits. */
const inside = (a: NumberAssumption, x: number): number =>
  Math.min(Math.max(a.quantity === 'count' ? Math.round(x) : x, a.min), a.max);

const goodRow: fc.Arbitrary<UnitfulRow> = fc
  .record({
    entry: fc.constantFrom(...entries),
    at: place,
    form,
    other: fc.double({ min: 0, max: 1, noNaN: true }),
    word: fc.nat(9),
  })
  .map(({ entry, at, form: as, other, word }): UnitfulRow => {
    if (isChoice(entry)) return () => [entry.name, entry.choices[word % entry.choices.length] ?? entry.value];
    const value = inside(entry, at(entry));
    return (system) => {
      const unit = system === 'SI' ? plainUnit(entry.quantity, 'SI') : entry.unit;
      const shown = (x: number): number =>
        system === 'US' ? x : fromSi(toSi(x, entry.quantity, 'US', entry.unit), entry.quantity, 'SI', unit);
      const low = inside(entry, value - other * Math.max(0, value - entry.min));
      const high = inside(entry, value + other * Math.max(0, entry.max - value) * 0.2);
      switch (as) {
        case 'value':
          return [entry.name, shown(value)];
        case 'sure':
          return [entry.name.toUpperCase(), shown(value), shown(value), shown(value)];
        case 'range':
          return [entry.name, shown(value), shown(low), shown(high)];
        case 'unit':
          return [entry.name, value, low, high, entry.unit, entry.kind, entry.source, entry.summary];
        case 'text':
          return [` ${entry.name} `, entry.unit === '' ? String(shown(value)) : `${shown(value)} ${unit}`, null];
      }
    };
  });

const badRow: fc.Arbitrary<Row> = fc.oneof(
  fc.tuple(fc.constantFrom(...entries.map((a) => a.name), 'units'), hostile).map(([name, cell]) => [name, cell]),
  fc.tuple(fc.constantFrom(...entries.map((a) => a.name)), hostile, hostile, hostile, hostile),
  fc.array(hostile, { minLength: 0, maxLength: 6 }),
  fc.constantFrom<Row>(
    ['stubb', 3],
    [null, 3],
    ['stub', null],
    ['name', 'value', 'low', 'high', 'unit'],
    ['value', 'name'],
    ['stub', 4],
    ['stub', 5],
    [],
    ['stub'],
    ['stub', 1e9],
    ['stub', -1],
    ['correlation of flow factor with flow factor', 0.5],
    ['correlation of stub with flow factor', 0.5],
    ['correlation of flow factor with', 0.5],
    ['correlation of set-up time with burning duty', 1],
    ['correlation of set-up time with burning duty', 'much'],
  ),
);

const HEADING: Row = ['name', 'value', 'low', 'high', 'unit', 'kind', 'source', 'meaning'];

/** Rows of equal length, as a sheet's ranges are. */
function even(rows: readonly Row[]): readonly Row[] {
  const width = Math.max(...rows.map((r) => r.length));
  return rows.map((r) => [...r, ...Array.from({ length: width - r.length }, () => null)]);
}

/** Rows with each name once. */
const goodRows = (most: number): fc.Arbitrary<readonly UnitfulRow[]> =>
  fc.uniqueArray(goodRow, {
    minLength: 1,
    maxLength: most,
    selector: (row) => String(row('US')[0]).trim().toLowerCase(),
  });

/** A row that says how two go along with each other; one alone contradicts no other. */
const together: fc.Arbitrary<UnitfulRow> = fc
  .tuple(
    fc.shuffledSubarray(['oxygen burnt share', 'flow factor', 'set-up time', 'heat into the part', 'boss over pin'], {
      minLength: 2,
      maxLength: 2,
    }),
    fc.double({ min: -0.99, max: 0.99, noNaN: true }),
  )
  .map(([[x = '', y = ''], value]): UnitfulRow => () => [`correlation of ${x} with ${y}`, value]);

export type Assume = (system: UnitSystem) => undefined | Cell | readonly Row[];

function table(rows: readonly UnitfulRow[], headed: boolean, blank: number): Assume {
  return (system) => {
    const lines = rows.map((row) => row(system));
    if (blank > 0) lines.splice(blank % (lines.length + 1), 0, [null, null]);
    if (system === 'SI') lines.push(['units', 'SI']);
    return even(headed ? [HEADING, ...lines] : lines);
  };
}

const headed = fc.integer({ min: 0, max: 3 }).map((n) => n === 0);
const blank = fc.constantFrom(0, 0, 1, 2);
const units: Assume = (system) => (system === 'SI' ? [['units', 'SI']] : undefined);

/** Rows that can be read, though the calculation may refuse what they say together. */
export const goodAssume: fc.Arbitrary<Assume> = fc.oneof(
  { weight: 4, arbitrary: fc.constant(units) },
  { weight: 4, arbitrary: fc.tuple(goodRows(3), headed, blank).map((p) => table(...p)) },
  { weight: 1, arbitrary: fc.tuple(goodRows(12), headed, blank).map((p) => table(...p)) },
  {
    weight: 1,
    arbitrary: fc.tuple(goodRows(2), together, headed, blank).map(([rows, row, ...p]) => table([...rows, row], ...p)),
  },
);

/** Good rows with bad ones among them, bare cells, empty and ragged ranges. */
export const badAssume: fc.Arbitrary<Assume> = fc.oneof(
  {
    weight: 4,
    arbitrary: fc
      .tuple(goodRows(3), fc.array(badRow, { minLength: 1, maxLength: 2 }), headed)
      .map(([good, bad, h]): Assume => table([...good, ...bad.map((row) => () => row)], h, 0)),
  },
  {
    weight: 1,
    arbitrary: fc.array(badRow, { maxLength: 4 }).map(
      (rows): Assume =>
        () =>
          rows,
    ),
  },
  {
    weight: 1,
    arbitrary: hostile.map(
      (cell): Assume =>
        () =>
          cell,
    ),
  },
  {
    weight: 1,
    arbitrary: fc
      .constantFrom<readonly Row[]>(
        [],
        [[]],
        [[], []],
        [[null]],
        [['stub']],
        [
          ['units', 'SI'],
          ['units', 'US'],
        ],
      )
      .map(
        (rows): Assume =>
          () =>
            rows,
      ),
  },
);
