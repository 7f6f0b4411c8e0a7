/** Whole calls of a function: good, broken in one place, and wild. */
import fc from 'fast-check';
import type { Cell } from '../../src/catalogue/cell.ts';
import type { Declaration, Parameter } from '../../src/catalogue/declaration.ts';
import type { UnitSystem } from '../../src/core/units/quantities.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { badAssume, goodAssume } from './assume.ts';
import { goodCell, hostile, hostileOrLong, type Unitful } from './cells.ts';
import { badTable, goodTable, operationWithSizes } from './tables.ts';

type Unset = (system: UnitSystem) => Argument;

/** How the value arguments of one call lie in the sheet. */
type Layout = 'cells' | 'column' | 'row' | 'grid';

const grid = (rows: number, columns: number, cell: fc.Arbitrary<Unitful>): fc.Arbitrary<Unset> =>
  fc
    .array(cell, { minLength: rows * columns, maxLength: rows * columns })
    .map(
      (cells) => (system) =>
        Array.from({ length: rows }, (_, r) => cells.slice(r * columns, (r + 1) * columns).map((c) => c(system))),
    );
const scalar = (cell: fc.Arbitrary<Unitful>): fc.Arbitrary<Unset> =>
  fc.tuple(cell, fc.boolean()).map(
    ([c, boxed]) =>
      (system) =>
        boxed ? [[c(system)]] : c(system),
  );

/** A good argument; of a list, some arguments are one cell for all of it. */
function good(
  name: string,
  { kind, example, optional }: Parameter,
  layout: Layout,
  [rows, columns]: readonly [number, number],
): fc.Arbitrary<Unset> {
  const left: fc.Arbitrary<Unset> = fc.constantFrom<Unset>(
    () => undefined,
    () => null,
  );
  const given: fc.Arbitrary<Unset> =
    kind.kind === 'cells' ? goodTable(name).map((table) => () => table) : spread(goodCell(name, kind, example));
  return optional ? fc.oneof({ weight: 1, arbitrary: left }, { weight: 1, arbitrary: given }) : given;

  function spread(cell: fc.Arbitrary<Unitful>): fc.Arbitrary<Unset> {
    switch (layout) {
      case 'cells':
        return scalar(cell);
      case 'column':
        return fc.oneof({ weight: 2, arbitrary: grid(rows, 1, cell) }, { weight: 1, arbitrary: scalar(cell) });
      case 'row':
        return fc.oneof({ weight: 2, arbitrary: grid(1, columns, cell) }, { weight: 1, arbitrary: scalar(cell) });
      case 'grid':
        return fc.oneof(grid(rows, columns, cell), grid(rows, 1, cell), grid(1, columns, cell), scalar(cell));
    }
  }
}

const SHAPES: readonly Argument[] = [[], [[]], [[], []], [[null]], [[null], [null]], undefined, null];

/** Anything: one cell, ranges of any shape, ragged and empty ones. */
const anything: fc.Arbitrary<Argument> = fc.oneof(
  { weight: 6, arbitrary: hostileOrLong },
  { weight: 2, arbitrary: hostile.map((cell) => [[cell]]) },
  { weight: 3, arbitrary: fc.array(fc.array(hostile, { maxLength: 3 }), { maxLength: 4 }) },
  { weight: 2, arbitrary: fc.constantFrom(...SHAPES) },
);

function bad(name: string, { kind }: Parameter): fc.Arbitrary<Argument> {
  return kind.kind === 'cells'
    ? fc.oneof({ weight: 4, arbitrary: badTable(name) }, { weight: 1, arbitrary: anything })
    : anything;
}

const system = fc.constantFrom<UnitSystem>('US', 'US', 'US', 'SI');
const settle = (unset: readonly Unset[], of: UnitSystem): Argument[] => unset.map((a) => a(of));
const fixed =
  (argument: Argument): Unset =>
  () =>
    argument;

/** Cuts what was left out at the end, as hosts may or may not do. */
function trimmed(args: readonly Argument[], cut: boolean): readonly Argument[] {
  let n = args.length;
  while (cut && n > 0 && args[n - 1] === undefined) n--;
  return args.slice(0, n);
}

const SIZES: readonly string[] = ['sizes', 'size', 'secondSize', 'thirdSize'];

/** With fewer jobs these refuse all. */
const NINE_JOBS: readonly string[] = ['BURN.LOG.RANGE'];

/** Arguments of one call. Half of them are good, a third broken in one place, the rest wild. */
export function callOf(d: Declaration): fc.Arbitrary<readonly Argument[]> {
  const parameters = Object.entries(d.parameters).map(
    ([name, p]) => [NINE_JOBS.includes(d.name) && name === 'log' ? 'log of nine' : name, p] as const,
  );
  const layouts: readonly Layout[] =
    d.result.kind === 'table' ? ['cells'] : ['cells', 'cells', 'cells', 'column', 'row', 'grid'];
  const shape = fc.tuple(
    fc.constantFrom(...layouts),
    fc.tuple(fc.integer({ min: 1, max: 3 }), fc.integer({ min: 1, max: 3 })),
  );
  const goodValues = shape.chain(([layout, size]) =>
    fc.tuple(...parameters.map(([name, p]) => good(name, p, layout, size))),
  );
  const names = parameters.map(([name]) => name);
  /** Sizes seldom fit an operation that was chosen apart from them. */
  const fitting: typeof goodValues =
    !names.includes('operation') || !names.some((n) => SIZES.includes(n))
      ? goodValues
      : fc.tuple(goodValues, fc.option(operationWithSizes)).map(([values, fit]) => {
          if (!fit) return values;
          const sizes = [...fit.sizes];
          return values.map((value, i): Unset => {
            const name = names[i] ?? '';
            if (name === 'operation') return fixed(fit.operation);
            if (name === 'sizes') return fixed([fit.sizes]);
            return SIZES.includes(name) ? fixed([[sizes.shift() ?? null]]) : value;
          });
        });
  const assumed = d.assume ? fc.tuple(goodAssume) : fc.constant([] as const);
  const goodCall = fc
    .tuple(fitting, assumed, system, fc.boolean())
    .map(([values, assume, of, cut]) => trimmed(settle([...values, ...assume], d.assume ? of : 'US'), cut));
  const places = [
    ...parameters.map(([name, p]) => bad(name, p)),
    ...(d.assume ? [fc.tuple(badAssume, system).map(([assume, of]): Argument => assume(of))] : []),
  ];
  const brokenCall =
    places.length === 0
      ? goodCall
      : fc
          .tuple(fitting, assumed, system, fc.nat(1000), fc.tuple(...places))
          .map(([values, assume, of, at, broken]) => {
            const all = [...values, ...assume].map((a, i) => (i === at % places.length ? fixed(broken[i]) : a));
            return settle(all, d.assume ? of : 'US');
          });
  const wildCall = fc
    .tuple(fc.tuple(...places), fc.array(anything, { maxLength: 3 }), fc.nat(12))
    .map(([all, more, n]) => [...all, ...more].slice(0, n));
  return fc.oneof(
    { weight: 10, arbitrary: goodCall },
    { weight: 6, arbitrary: brokenCall },
    { weight: 3, arbitrary: wildCall },
  );
}

/** How many items the value arguments spread to, where they fit each other. */
export function itemsOf(d: Declaration, args: readonly Argument[]): number {
  const ranges = Object.values(d.parameters).flatMap(({ kind }, i) =>
    kind.kind !== 'cells' && Array.isArray(args[i]) ? [args[i] as readonly (readonly Cell[])[]] : [],
  );
  return Math.max(1, ...ranges.map((rows) => rows.length)) * Math.max(1, ...ranges.map((rows) => rows[0]?.length ?? 1));
}
