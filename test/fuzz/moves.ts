/** Pairs of calls in which one thing grows, for what the declarations say of how results move with it. */
import fc from 'fast-check';
import type { Cell } from '../../src/catalogue/cell.ts';
import {
  isRowsFunction,
  isTableFunction,
  type Declaration,
  type QuantityKind,
} from '../../src/catalogue/declaration.ts';
import { movesOf as declaredMoves, type Monotone } from '../../src/catalogue/moves.ts';
import { isChoice, type NumberAssumption } from '../../src/core/assumptions/assumption.ts';
import { REGISTRY } from '../../src/core/assumptions/registry.ts';
import { fromSi, toSi } from '../../src/core/units/parse-quantity.ts';
import { call } from '../../src/sheet/call.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { goodCell, goodRodWithLength, goodSi } from './cells.ts';
import { goodTable } from './tables.ts';

/** One statement of a declaration on one thing. */
export interface Move {
  readonly d: Declaration;
  readonly by: string;
  readonly assumed: boolean;
  readonly up: boolean;
  readonly of: Monotone;
}

export function movesOf(d: Declaration): readonly Move[] {
  const of = (m: Monotone, names: readonly string[] | undefined, assumed: boolean, up: boolean): readonly Move[] =>
    (names ?? []).map((by) => ({ d, by, assumed, up, of: m }));
  return declaredMoves(d).flatMap((m) => [
    ...of(m, m.rises, false, true),
    ...of(m, m.falls, false, false),
    ...of(m, m.risesWith, true, true),
    ...of(m, m.fallsWith, true, false),
  ]);
}

export const moveName = ({ by, assumed, up, of: { column, given, without, assuming } }: Move): string =>
  [
    column,
    up ? 'rises' : 'falls',
    'with',
    assumed ? 'the assumption' : undefined,
    by,
    given && `given ${given.join(', ')}`,
    without && `without ${without.join(', ')}`,
    assuming && `by ${Object.values(assuming).join(', ')}`,
  ]
    .filter((word) => word !== undefined)
    .join(' ');

const numbers: readonly NumberAssumption[] = REGISTRY.filter(
  (a): a is (typeof REGISTRY)[number] & NumberAssumption => !isChoice(a),
);
/** What switches the rule a pressure or a time follows, and so has jumps of its own. */
const SWITCHES: readonly string[] = [
  'tip pressure',
  'rod flow measured',
  'water depth',
  'string rods',
  'ends worked',
  'existing bore',
  'bushing wall',
  'drag thickness',
  'underwater thick metal',
];
const others = numbers.filter((a) => !SWITCHES.includes(a.name));

const share = fc.double({ min: 0, max: 1, noNaN: true });

/** Two values, the smaller first; some of them close together. */
function pair(value: fc.Arbitrary<number>): fc.Arbitrary<readonly [number, number]> {
  const close = fc
    .tuple(value, fc.constantFrom(1e-6, 1e-3, 0.02))
    .map(([x, step]) => [x, x + step * Math.abs(x)] as const);
  return fc.oneof(
    fc.tuple(value, value).map(([a, b]) => [Math.min(a, b), Math.max(a, b)] as const),
    close,
  );
}

/** Values of an assumption: within low and high, or somewhat beyond. */
function assumedValue(a: NumberAssumption): fc.Arbitrary<number> {
  const reach = 1 + (a.high - a.low);
  const [least, most] = [Math.max(a.min, a.low - reach), Math.min(a.max, a.high + reach)];
  const settle = (x: number): number => (a.quantity === 'count' ? Math.round(x) : x);
  return fc.oneof(
    share.map((s) => settle(a.low + s * (a.high - a.low))),
    share.map((s) => settle(least + s * (most - least))),
  );
}

function plainPair({ quantity, whole, ...limits }: QuantityKind, example: string): fc.Arbitrary<readonly [Cell, Cell]> {
  const usual = toSi(Number.parseFloat(example.replace(/^"/, '').replace('3/8', '0.375')), quantity, 'US');
  const settle = (si: number): number =>
    whole ? Math.round(fromSi(si, quantity, 'US')) : fromSi(Math.min(si, limits.max ?? si), quantity, 'US');
  return pair(goodSi({ quantity, ...(whole && { whole }), ...limits }, usual)).map(([a, b]) => [settle(a), settle(b)]);
}

const CYLINDER: QuantityKind = { kind: 'quantity', quantity: 'capacity', above: 0, max: 5 };

/** Arguments before and after the one thing has grown. */
export function grown({
  d,
  by,
  assumed,
  of: { given = [], without = [], assuming = {} },
}: Move): fc.Arbitrary<readonly [readonly Argument[], readonly Argument[]]> {
  const both = <T>(x: T): readonly [T, T] => [x, x];
  const values = Object.entries(d.parameters).map(
    ([name, { kind, example, optional }]): fc.Arbitrary<readonly [Argument, Argument]> => {
      if (!assumed && name === by) {
        if (kind.kind === 'quantity') return plainPair(kind, example);
        if (kind.kind === 'cylinder') return plainPair(CYLINDER, example);
        throw new Error(`${by} of ${d.name} does not grow`);
      }
      if (without.includes(name)) return fc.constant(both(undefined));
      const value: fc.Arbitrary<Argument> =
        kind.kind === 'cells'
          ? goodTable(name)
          : kind.kind === 'rod' && given.includes(name)
            ? goodRodWithLength
            : goodCell(name, kind, example).map((cell) => cell('US'));
      return (optional && !given.includes(name) ? fc.option(value, { nil: undefined }) : value).map(both);
    },
  );
  const rows = fc.oneof(
    fc.constant([]),
    fc
      .uniqueArray(fc.constantFrom(...others.filter((a) => !assumed || a.name !== by)), {
        maxLength: 4,
        selector: (a) => a.name,
      })
      .chain((some) =>
        fc.tuple(
          ...some.map((a) =>
            share.map((s): readonly Cell[] => [
              a.name,
              a.quantity === 'count' ? Math.round(a.low + s * (a.high - a.low)) : a.low + s * (a.high - a.low),
            ]),
          ),
        ),
      ),
  );
  const mover = numbers.find((a) => a.name === by);
  const moved = !assumed
    ? fc.constant(undefined)
    : pair(assumedValue(mover!)).map(([a, b]) => [a, Math.min(b, mover!.max)] as const);
  return fc.tuple(fc.tuple(...values), rows, moved).map(([all, more, m]) => {
    const assume = (x: number | undefined): Argument => {
      const lines: readonly (readonly Cell[])[] = [
        ...Object.entries(assuming),
        ...more,
        ...(x === undefined ? [] : [[by, x]]),
      ];
      return lines.length > 0 && d.assume ? lines : undefined;
    };
    return [
      [...all.map(([before]) => before), assume(m?.[0])],
      [...all.map(([, after]) => after), assume(m?.[1])],
    ] as const;
  });
}

/** The number that the statement is on; undefined where the call gives none. */
export function numberOf({ d, of: { column } }: Move, args: readonly Argument[]): number | undefined {
  const result = call(d, args);
  const rows = isRowsFunction(d) || isTableFunction(d);
  const at = rows ? d.result.columns.findIndex((c) => c.heading === column) : 0;
  const cell = result[rows && !('headless' in d.result && d.result.headless) ? 1 : 0]?.[at];
  return typeof cell === 'number' ? cell : undefined;
}

/** Relative; what solvers leave. */
const TOLERANCE = 1e-9;
/** Where a solver leaves more, and why. */
const COARSER: Readonly<Record<string, number>> = {
  // Where they yield, rings press on one another through a joint that gives a millionth of what they do, and yield cell by cell.
  'BURN.GRIP.PRESSURE': 1e-4,
  'BURN.GRIP.FORCE': 1e-4,
  // The gas is taken at the mean of tip and ambient pressure: where the rod's end chokes, a depth that should change nothing changes that.
  'BURN.SUPPLY.CHECK': 2e-4,
  // The steps of the cooling are controlled, not exact.
  'BURN.COOL.TIME': 1e-4,
};

/** Whether a pair moves as stated; undefined where one of the two gives no number. */
export function moves(
  move: Move,
  [before, after]: readonly [readonly Argument[], readonly Argument[]],
): boolean | undefined {
  const [a, b] = [numberOf(move, before), numberOf(move, after)];
  if (a === undefined || b === undefined) return undefined;
  const slack = (COARSER[move.d.name] ?? TOLERANCE) * Math.max(Math.abs(a), Math.abs(b));
  return move.up ? b >= a - slack : b <= a + slack;
}
