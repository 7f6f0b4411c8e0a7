import type { Basis } from '../core/basis.ts';
import type { Material } from '../core/burn/materials.ts';
import type { RodChoice } from '../core/burn/rods.ts';
import type { Operation, Sizes } from '../core/operations/operation.ts';
import type { OperationId } from '../core/operations/all.ts';
import { slipQuestion } from '../core/operations/unit-slip.ts';
import { sized, type Sized } from '../core/operations/sized.ts';
import { CalcError } from '../core/errors.ts';
import { alsoAsked } from '../core/messages.ts';
import type { UnitSystem } from '../core/units/quantities.ts';
import type { Working } from '../core/model/working.ts';
import type { KnownItem } from '../core/safety/item.ts';
import type { QuantityName } from '../core/units/quantities.ts';
import {
  UNITS_WRITTEN,
  optional,
  required,
  rowsFunction,
  tableFunction,
  valueFunction,
  type Declaration,
  type Parameter,
  type Values,
} from './declaration.ts';
import { itemWorking } from './item-working.ts';
import { PLAN_COLUMNS, SHARED_CYLINDERS, planLine } from './plan-line.ts';
import { STEP_COLUMNS, stepLines } from './step-table.ts';

type SizeParameters<G extends string> = Record<G, Parameter>;
type FamilyParameters<G extends string> = SizeParameters<G> & {
  readonly rod: Parameter<{ readonly kind: 'rod' }, true>;
  readonly material: Parameter<{ readonly kind: 'material' }, true>;
};

const SOURCES = ['nasa polynomials', 'isothermal pipe flow', 'common practice'];

/** The seven functions of one operation. */
export function operationFamily<G extends string>(operation: Operation<G>): readonly Declaration[] {
  const sizes = Object.fromEntries(
    operation.order.map((name) => [name, sizeParameter(operation, name)]),
  ) as SizeParameters<G>;
  const parameters: FamilyParameters<G> = {
    ...sizes,
    rod: optional({ kind: 'rod' }, 'Rod, such as 3/8 or 3/8 x 36; picked when left out', '"3/8 x 36"'),
    material: optional({ kind: 'material' }, 'Metal of the work; carbon steel when left out', '"carbon steel"'),
  };
  /** Whether sizes were likelier meant in the other unit. */
  const slipOf = (values: Values<FamilyParameters<G>>, system: UnitSystem): string =>
    slipQuestion(operation.id as OperationId, values as unknown as Sizes<G>, system, values[UNITS_WRITTEN]);
  const notesOf = (values: Values<FamilyParameters<G>>, { a }: Basis): readonly string[] => [slipOf(values, a.system)];
  const size = (values: Values<FamilyParameters<G>>, basis: Basis): Sized => {
    const { rod, material, ...rest } = values as unknown as { rod?: RodChoice; material?: Material };
    const sizes = rest as Sizes<G>;
    try {
      return sized({ operation, sizes, rod, material, basis });
    } catch (e) {
      const question = e instanceof CalcError ? slipOf(values, basis.a.system) : '';
      throw question === '' ? e : alsoAsked(e as CalcError, question);
    }
  };
  /** The working of an item, or of one step of it alone. */
  const stepsOf = (values: Values<FamilyParameters<G>>, basis: Basis, step?: string): Working =>
    itemWorking(size(values, basis), basis, step);
  const common = (suffix: string) => ({
    name: `BURN.${operation.id}.${suffix}`,
    family: operation.id,
    parameters,
    assume: true,
    sources: SOURCES,
    cautions: operation.cautions,
    about: (v: Values<FamilyParameters<G>>, basis: Basis): readonly KnownItem[] => {
      const { material, rod } = size(v, basis);
      return [{ material, rod }];
    },
    examples: [`=BURN.${operation.id}.${suffix}(${exampleArguments(operation)})`],
  });
  const value = (
    suffix: string,
    summary: string,
    quantity: QuantityName,
    result: string,
    of: (s: Sized) => number,
  ): Declaration =>
    valueFunction({
      ...common(suffix),
      summary: `${summary} to ${operation.summary}.`,
      result: { kind: 'value', quantity },
      calculate: (v, basis) => of(size(v, basis)),
      working: (v, basis) => size(v, basis).working(result),
    });
  return [
    value('RODS', 'Whole rods', 'count', 'N', (s) => s.rods),
    value('OXYGEN', 'Oxygen at the work, with lighting and idle losses,', 'oxygen', 'O', (s) => s.oxygen),
    value('BURN', 'Minutes of rod burning', 'time', 't', (s) => s.burnTime),
    value('TIME', 'Crew minutes from set-up to clean-up', 'time', 't_crew', (s) => s.crewTime),
    value('PRESSURE', 'Tip pressure (at the holder while oxygen flows)', 'pressure', 'p', (s) => s.pressure),
    rowsFunction({
      ...common('PLAN'),
      summary: `A labelled row for each item: rod, rods, pressure, flow, oxygen, cylinders, minutes, metal, low and high, to ${operation.summary}.`,
      result: { kind: 'rows', columns: PLAN_COLUMNS },
      // Lists hold many items of the same sizes.
      calculate: (v, basis) =>
        basis.once(`plan ${operation.id} ${itemKey(v)}`, () =>
          planLine(size(v, basis), basis, { notes: notesOf(v, basis) }),
        ),
      plan: { operation, notes: notesOf },
      working: stepsOf,
      together: SHARED_CYLINDERS,
    }),
    tableFunction({
      ...common('STEPS'),
      summary: `The working of one item, step by step with formula, kind and source, to ${operation.summary}.`,
      result: { kind: 'table', columns: STEP_COLUMNS },
      calculate: (v, basis) => stepLines(stepsOf(v, basis).steps(), basis.a.system),
      working: (v, basis) => stepsOf(v, basis),
    }),
  ];
}

const exampleArguments = <G extends string>({ order, sizes }: Operation<G>): string =>
  order
    .filter((n) => !sizes[n].optional)
    .map((n) => sizes[n].example)
    .join(',');

function sizeParameter<G extends string>(operation: Operation<G>, name: G): Parameter {
  const { summary, quantity, above, max, whole, example, optional: left } = operation.sizes[name];
  const kind = { kind: 'quantity', quantity, above, max, ...(whole ? { whole } : {}) } as const;
  return left ? optional(kind, summary, example) : required(kind, summary, example);
}

/** All that one item of a list is given as. */
function itemKey(
  values: Readonly<Record<string, unknown>> & { readonly [UNITS_WRITTEN]?: ReadonlySet<string> },
): string {
  let key = [...(values[UNITS_WRITTEN] ?? [])].join(' ');
  for (const name in values) {
    const value = values[name] as number | RodChoice | Material | undefined;
    key +=
      value === undefined || typeof value === 'number'
        ? `${value} `
        : 'rod' in value
          ? `${value.rod.name} x ${value.length} ${value.coupled} `
          : `${value.name} `;
  }
  return key;
}
