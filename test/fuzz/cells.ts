/** Cells as hosts, people and accidents hand them over: hostile ones of every kind, and good ones for each kind of parameter. */
import fc from 'fast-check';
import type { Cell } from '../../src/catalogue/cell.ts';
import type { Kind, QuantityKind } from '../../src/catalogue/declaration.ts';
import { MATERIAL_NAMES } from '../../src/core/assumptions/material-names.ts';
import { RODS, rodName } from '../../src/core/burn/rods.ts';
import { CYLINDER_SIZES } from '../../src/core/oxygen/cylinder-sizes.ts';
import { OPERATION_IDS } from '../../src/core/operations/all.ts';
import { REGISTRY } from '../../src/core/assumptions/registry.ts';
import { fromSi, plainUnit, toSi } from '../../src/core/units/parse-quantity.ts';
import { QUANTITIES, type QuantityName, type UnitSystem } from '../../src/core/units/quantities.ts';

/** A cell whose number depends on the system of units that the call's `assume` sets. */
export type Unitful = (system: UnitSystem) => Cell;
const fixed =
  (cell: Cell): Unitful =>
  () =>
    cell;

const ROD_NAMES = RODS.flatMap((rod) => [
  rod.name,
  ...rod.lengths.map((l) => rodName(rod, l, false)),
  `${rodName(rod, rod.lengths[0], false)} coupled`,
]);
const NAMES: readonly string[] = [
  ...ROD_NAMES,
  ...MATERIAL_NAMES,
  ...OPERATION_IDS,
  ...REGISTRY.map((a) => a.name),
  'OSHA',
  'NIOSH',
  'EU',
  'NFPA 51B 2019',
  'air',
  'water',
  'SI',
  'US',
  'yes',
  'no',
  'total',
  'name',
];

/** A name with one letter lost, doubled or changed. */
const misspelled = fc
  .tuple(fc.constantFrom(...NAMES), fc.nat(40), fc.constantFrom('', 'x', '§', ' '))
  .map(([name, at, put]) => {
    const i = at % name.length;
    return `${name.slice(0, i)}${put}${name.slice(i + 1)}`;
  });

const UNITS: readonly string[] = [...new Set(Object.values(QUANTITIES).flatMap((q) => Object.keys(q.units)))].filter(
  (u) => u !== '',
);
const UNIT_TEXTS = fc
  .tuple(
    fc.constantFrom(
      '1',
      '0',
      '-3',
      '2.5',
      '.5',
      '1e3',
      '1e308',
      '3/8',
      '4-1/2',
      '1/0',
      '4 1/2',
      '½',
      '7⅜',
      '1,5',
      '2 500',
      '0x10',
      '+12',
      '−4',
      '--1',
      '1e999',
      '9'.repeat(60),
    ),
    fc.constantFrom('', ' ', '  ', '\u00a0'),
    fc.constantFrom(...UNITS, '"', "'", 'ft 6 in', 'parsecs', '°F', '%', 'x 36', ''),
  )
  .map((p) => p.join(''));

/** Numbers of all scales and signs, as sheets hold them, and what only a faulty host would hand over. */
const numbers: fc.Arbitrary<number> = fc.oneof(
  { weight: 4, arbitrary: fc.double({ noNaN: true, noDefaultInfinity: true }) },
  { weight: 3, arbitrary: fc.double({ min: -1e4, max: 1e4, noNaN: true }) },
  { weight: 2, arbitrary: fc.integer({ min: -20, max: 1000 }) },
  { weight: 2, arbitrary: fc.integer({ min: 32874, max: 73051 }) },
  {
    weight: 3,
    arbitrary: fc.constantFrom(
      0,
      -0,
      1,
      -1,
      1e-9,
      -1e-9,
      5e-324,
      2.2250738585072014e-308,
      1.7976931348623157e308,
      -1.7976931348623157e308,
      1e15,
      2 ** 53,
      2 ** 31,
      0.1 + 0.2,
      46089,
      1e-300,
    ),
  },
  { weight: 1, arbitrary: fc.constantFrom(NaN, Infinity, -Infinity) },
);

const ERROR_CODES = [
  '#VALUE!',
  '#N/A',
  '#DIV/0!',
  '#REF!',
  '#NAME?',
  '#NUM!',
  '#NULL!',
  '#SPILL!',
  '#CALC!',
  '#GETTING_DATA',
] as const;
const errors: fc.Arbitrary<Cell> = fc.record({
  error: fc.constantFrom(...ERROR_CODES),
  message: fc.constantFrom('', 'a message of before', 'é\n§'),
});

const texts: fc.Arbitrary<string> = fc.oneof(
  {
    weight: 2,
    arbitrary: fc.constantFrom(
      '',
      ' ',
      '   ',
      '\u00a0',
      '\t',
      '\n',
      '\r\n',
      '\u200b',
      '-',
      '.',
      ',',
      ';',
      '"',
      "'",
      '=',
      '=1+1',
      '#N/A',
      '#VALUE!',
      'TRUE',
      'false',
      'null',
      'n/a',
      'tbd',
      '?',
      '10"',
      '2 ft 6 in',
      '100 mm',
      '6 bar',
      '3/8',
      '20,5',
      '1e',
      '__proto__',
      'constructor',
      'toString',
      'hasOwnProperty',
    ),
  },
  { weight: 3, arbitrary: UNIT_TEXTS },
  { weight: 2, arbitrary: fc.constantFrom(...NAMES) },
  { weight: 2, arbitrary: misspelled },
  { weight: 2, arbitrary: fc.string({ unit: 'binary', maxLength: 12 }) },
  { weight: 1, arbitrary: fc.string({ unit: 'grapheme', maxLength: 12 }) },
  {
    weight: 1,
    arbitrary: fc.constantFrom(
      'ж'.repeat(300),
      '\ud800',
      'a\u0301'.repeat(40),
      '👩‍🏭🔥',
      '٣',
      '１２',
      'x '.repeat(200),
      '𝟛/𝟠',
      '\u202eabc',
      '9'.repeat(400),
      `${'1 ft '.repeat(80)}1 in`,
    ),
  },
);
/** As long as a cell can be: 32,767 characters. */
const longest = fc.constantFrom(
  'a'.repeat(32767),
  '3/8 x '.repeat(5461),
  '1 ft '.repeat(6553),
  ','.repeat(32767),
  '🔥'.repeat(16383),
  '7'.repeat(32767),
  ' '.repeat(32767),
);

/** Any cell at all. */
export const hostile: fc.Arbitrary<Cell> = fc.oneof(
  { weight: 8, arbitrary: numbers },
  { weight: 8, arbitrary: texts },
  { weight: 3, arbitrary: fc.constant(null) },
  { weight: 1, arbitrary: fc.boolean() },
  { weight: 2, arbitrary: errors },
);
/** The same with texts that fill a cell; seldom, since they are slow to make and to print. */
export const hostileOrLong: fc.Arbitrary<Cell> = fc.oneof(
  { weight: 80, arbitrary: hostile },
  { weight: 1, arbitrary: longest },
);

/** Share of the way from `from` to `to`, by ratio where both are positive. */
function between(from: number, to: number, share: number): number {
  return from > 0 && to / from > 10 ? from * (to / from) ** share : from + share * (to - from);
}

/** How far from the example good values mostly lie, by ratio; kelvins lie closer together. */
const EXAMPLE_SPREAD = 2;
const TEMPERATURE_SPREAD = 1.1;

/** A number of a kind in SI: mostly near the example, else anywhere within the limits, or on one. */
export function goodSi({ quantity, above, min, max, whole }: QuantityKind, example: number): fc.Arbitrary<number> {
  const most = max ?? Math.max(Math.abs(example) * 1e3, 1);
  const least = min ?? (above === undefined ? -most : above + Math.max(1e-4 * (Math.abs(example) || most), 1e-9));
  const unit = fromSi(1, quantity, 'US') - fromSi(0, quantity, 'US');
  const settle = (si: number): number => {
    const inside = Math.min(Math.max(si, least), most);
    return whole ? Math.max(Math.round(inside * unit) / unit, Math.ceil(least)) : inside;
  };
  const share = fc.double({ min: 0, max: 1, noNaN: true });
  const spread = quantity === 'temperature' ? TEMPERATURE_SPREAD : EXAMPLE_SPREAD;
  return fc.oneof(
    {
      weight: 20,
      arbitrary: share.map((s) => settle(example > 0 ? example * spread ** (2 * s - 1) : between(least, most, s))),
    },
    { weight: 6, arbitrary: fc.integer({ min: -2, max: 4 }).map((n) => settle(example * spread ** (n / 4))) },
    { weight: 2, arbitrary: share.map((s) => settle(between(least, most, s))) },
    { weight: 1, arbitrary: fc.constantFrom(least, most).map(settle) },
  );
}

/** Writes a number in SI as people do: plain, or with a unit. */
function written(quantity: QuantityName, exact: boolean): fc.Arbitrary<(si: number) => Unitful> {
  const units = Object.keys(QUANTITIES[quantity].units).filter((u) => u !== '');
  const plain =
    (si: number): Unitful =>
    (system) =>
      exact ? Math.round(fromSi(si, quantity, system)) : fromSi(si, quantity, system);
  if (units.length === 0)
    return fc.constantFrom(
      plain,
      (si: number): Unitful =>
        (system) =>
          String(plain(si)(system)),
    );
  const inUnit = fc.constantFrom(...units).map(
    (unit) =>
      (si: number): Unitful =>
        fixed(`${fromSi(si, quantity, 'US', unit)} ${unit}`),
  );
  return fc.oneof(
    { weight: 6, arbitrary: fc.constant(plain) },
    { weight: 1, arbitrary: inUnit },
    {
      weight: 1,
      arbitrary: fc.constant(
        (si: number): Unitful =>
          (system) =>
            `${fromSi(si, quantity, system)} ${plainUnit(quantity, system)}`,
      ),
    },
  );
}

/** Good cells for a quantity; `example` in the plain US unit. */
export function goodQuantity(kind: QuantityKind, example: number): fc.Arbitrary<Unitful> {
  return fc
    .tuple(goodSi(kind, toSi(example, kind.quantity, 'US')), written(kind.quantity, kind.whole === true))
    .map(([si, write]) => write(si));
}

const changedCase = (word: string): fc.Arbitrary<string> =>
  fc.constantFrom(word, word.toLowerCase(), ` ${word.toUpperCase()} `);
const oneOf = (words: readonly string[]): fc.Arbitrary<Unitful> =>
  fc
    .constantFrom(...words)
    .chain(changedCase)
    .map(fixed);

/** Rods as named where a length is wanted too. */
export const goodRodWithLength: fc.Arbitrary<string> = fc.constantFrom(
  '3/16 x 36',
  '1/4 x 24',
  '3/8 x 18',
  '3/8 x 36',
  '3/8 x 48',
  '1/4 insulated x 36',
  '3/8 pipe x 120',
  '1/2 pipe x 10 ft',
  '3/8 x 36 coupled',
);

export const goodRod: fc.Arbitrary<Unitful> = fc
  .oneof(
    { weight: 3, arbitrary: fc.constantFrom('3/8', '3/8 x 36', '1/4', '1/4 x 24', '3/16 x 48') },
    { weight: 2, arbitrary: fc.constantFrom(...ROD_NAMES, '0.375', '3/8 in x 36 in', '1/2 pipe x 10 ft', 0.25) },
  )
  .map(fixed);
export const goodMaterial: fc.Arbitrary<Unitful> = oneOf([...MATERIAL_NAMES, 'steel', 'stainless', 'brick']);

/** What texts mean depends on the parameter. */
const TEXTS: Readonly<Record<string, readonly string[]>> = {
  search: ['stub', 'bore', 'steel', 'oxygen', 'iron', 'paint', 'common practice', 'a'],
  operation: [...OPERATION_IDS, 'PIN, CUT', 'hole and stud', 'BREACH; PIN'],
  rule: ['OSHA', 'NFPA 51B 2009', 'NFPA 51B 2014', 'NFPA 51B 2019'],
  gauge: ['4/0', '2/0', '1/0', '4', '10', '40'],
  title: ['Boom foot pins', 'Stick, left', 'Lock gate 3'],
};

/** A good cell for a parameter of one cell. */
export function goodCell(name: string, kind: Kind, example: string): fc.Arbitrary<Unitful> {
  const plain = example.startsWith('"') ? example.slice(1, -1) : example;
  switch (kind.kind) {
    case 'quantity':
      return goodQuantity(kind, Number.parseFloat(plain === '3/8' ? '0.375' : plain));
    case 'choice':
      return oneOf(kind.choices);
    case 'rod':
      return goodRod;
    case 'material':
      return goodMaterial;
    case 'cylinder':
      return fc.oneof(
        oneOf(CYLINDER_SIZES.map((s) => s.name)),
        goodQuantity({ kind: 'quantity', quantity: 'capacity', above: 0, max: 5 }, 43),
      );
    case 'text':
      return oneOf(TEXTS[name] ?? [plain]);
    case 'cells':
      throw new Error(`${name} takes a range`);
  }
}
