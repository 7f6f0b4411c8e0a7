import type { Basis } from '../core/basis.ts';
import { findMaterial, type Material } from '../core/burn/materials.ts';
import type { RodChoice } from '../core/burn/rods.ts';
import { CalcError } from '../core/errors.ts';
import { cylindersOpened } from '../core/operations/cylinders-opened.ts';
import { itemSetting, recordSupply } from '../core/operations/item-supply.ts';
import { notesOf } from '../core/operations/notes.ts';
import type { Operation, Sizes } from '../core/operations/operation.ts';
import { sizeItem, type Sizing } from '../core/operations/size-item.ts';
import { spreadItem } from '../core/operations/spread-item.ts';
import { highBeyondReach } from '../core/messages.ts';
import { distinct } from '../core/model/distinct.ts';
import { recorder, type Trace } from '../core/model/trace.ts';
import type { QuantityName } from '../core/units/quantities.ts';
import {
  optional,
  required,
  rowsFunction,
  tableFunction,
  valueFunction,
  type Column,
  type Declaration,
  type Output,
  type Parameter,
  type Values,
} from './declaration.ts';
import { operationMoves } from './operation-moves.ts';
import { planCautions } from './plan-cautions.ts';
import { STEP_COLUMNS, stepLines } from './step-table.ts';

type SizeParameters<G extends string> = Record<G, Parameter>;
type FamilyParameters<G extends string> = SizeParameters<G> & {
  readonly rod: Parameter<{ readonly kind: 'rod' }, true>;
  readonly material: Parameter<{ readonly kind: 'material' }, true>;
};

/** Headings of a plan; the first holds the item's number, the last the reason of a failed row. */
export const PLAN_COLUMNS = [
  { heading: 'item' },
  { heading: 'rod' },
  { heading: 'rods', quantity: 'count' },
  { heading: 'rods low', quantity: 'count' },
  { heading: 'rods high', quantity: 'count' },
  { heading: 'tip pressure', quantity: 'pressure' },
  { heading: 'flow', quantity: 'flow' },
  { heading: 'oxygen', quantity: 'oxygen' },
  { heading: 'oxygen low', quantity: 'oxygen' },
  { heading: 'oxygen high', quantity: 'oxygen' },
  { heading: 'cylinders opened', quantity: 'count' },
  { heading: 'burning', quantity: 'time' },
  { heading: 'crew', quantity: 'time' },
  { heading: 'crew low', quantity: 'time' },
  { heading: 'crew high', quantity: 'time' },
  { heading: 'regulator setting', quantity: 'pressure' },
  { heading: 'cooling', quantity: 'time' },
  { heading: 'ram', quantity: 'force' },
  { heading: 'removed', quantity: 'mass' },
  { heading: 'cautions' },
  { heading: 'note' },
] as const satisfies readonly Column[];

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
  const arguments_ = operation.order
    .filter((n) => !operation.sizes[n].optional)
    .map((n) => operation.sizes[n].example)
    .join(',');
  const size = (values: Values<FamilyParameters<G>>, basis: Basis, trace?: Trace): Sizing => {
    const { rod, material, ...rest } = values as unknown as { rod?: RodChoice; material?: Material };
    return sizeItem(
      operation,
      rest as Sizes<G>,
      rod,
      material ?? findMaterial(basis.a.word(operation.material ?? 'material')),
      basis,
      trace,
    );
  };
  const common = (suffix: string) => ({
    name: `BURN.${operation.id}.${suffix}`,
    family: operation.id,
    parameters,
    assume: true,
    sources: SOURCES,
    cautions: operation.cautions,
    examples: [`=BURN.${operation.id}.${suffix}(${arguments_})`],
    monotone: operationMoves<keyof FamilyParameters<G> & string>(operation, suffix),
  });
  const value = (suffix: string, summary: string, quantity: QuantityName, of: (s: Sizing) => number): Declaration =>
    valueFunction({
      ...common(suffix),
      summary: `${summary} to ${operation.summary}.`,
      result: { kind: 'value', quantity },
      calculate: (v, basis, trace) => of(size(v, basis, trace)),
    });
  return [
    value('RODS', 'Whole rods', 'count', (s) => s.rods),
    value('OXYGEN', 'Oxygen at the work, with lighting and idle losses,', 'oxygen', (s) => s.oxygen),
    value('BURN', 'Minutes of rod burning', 'time', (s) => s.burnTime),
    value('TIME', 'Crew minutes from set-up to clean-up', 'time', (s) => s.crewTime),
    value('PRESSURE', 'Tip pressure (at the holder while oxygen flows)', 'pressure', (s) => s.pressure),
    rowsFunction({
      ...common('PLAN'),
      summary: `A labelled row for each item: rod, rods, pressure, flow, oxygen, cylinders, minutes, metal, low and high, to ${operation.summary}.`,
      result: { kind: 'rows', columns: PLAN_COLUMNS },
      calculate: (v, basis, trace) => {
        const working = distinct(trace);
        // Lists hold many items of the same sizes.
        if (!working)
          return basis.once(`plan ${operation.id} ${itemKey(v)}`, () => planLine(operation, size(v, basis), basis));
        const sized = size(v, basis, working);
        recordSupply(sized, basis, working);
        ramOrError(operation, sized, basis, working);
        return planLine(operation, sized, basis);
      },
      together: shareCylinders,
    }),
    tableFunction({
      ...common('STEPS'),
      summary: `The working of one item, step by step with formula, kind and source, to ${operation.summary}.`,
      result: { kind: 'table', columns: STEP_COLUMNS },
      calculate: (v, basis, trace) => {
        const working = recorder();
        const each = distinct(working);
        const sized = size(v, basis, each);
        recordSupply(sized, basis, each);
        ramOrError(operation, sized, basis, each);
        for (const step of working.steps) trace?.add(step);
        return stepLines(working.steps, basis.a.system);
      },
    }),
  ];
}

function sizeParameter<G extends string>(operation: Operation<G>, name: G): Parameter {
  const { summary, quantity, above, max, whole, example, optional: left } = operation.sizes[name];
  const kind = { kind: 'quantity', quantity, above, max, ...(whole ? { whole } : {}) } as const;
  return left ? optional(kind, summary, example) : required(kind, summary, example);
}

/** All that one item of a list is given as. */
function itemKey(values: Readonly<Record<string, unknown>>): string {
  let key = '';
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

function planLine<G extends string>(operation: Operation<G>, s: Sizing, basis: Basis): readonly Output[] {
  const spread = spreadItem(operation, s, basis);
  const high = (x: number): Output => (Number.isFinite(x) ? x : highBeyondReach());
  const setting = settingOrError(s, basis);
  const ram = ramOrError(operation, s, basis);
  const notes = [...notesOf(s, basis), ...[setting, ram].flatMap((x) => (x instanceof CalcError ? [x.message] : []))];
  return [
    null,
    s.name,
    s.rods,
    spread.lowRods,
    high(spread.highRods),
    s.pressure,
    s.flow,
    s.oxygen,
    spread.lowOxygen,
    high(spread.highOxygen),
    s.oxygen,
    s.burnTime,
    s.crewTime,
    spread.lowCrewTime,
    high(spread.highCrewTime),
    setting,
    operation.cooling ? s.cooling : null,
    ram,
    s.removed,
    planCautions(operation.id, s, basis),
    notes.join('; '),
  ];
}

/** What to set at the regulator; where the hose cannot feed the rod the cell says so, and the rest of the row stands. */
const settingOrError = (s: Sizing, basis: Basis): number | CalcError => orError(() => itemSetting(s, basis).gauge);

/** The ram to bring, likewise; null where nothing is pushed. */
const ramOrError = <G extends string>(
  operation: Operation<G>,
  s: Sizing,
  basis: Basis,
  trace?: Trace,
): number | CalcError | null =>
  orError(() => operation.ram?.(s.planned as Readonly<Record<G, number>>, basis, trace) ?? null);

function orError<T>(make: () => T): T | CalcError {
  try {
    return make();
  } catch (e) {
    if (e instanceof CalcError) return e;
    throw e;
  }
}

const at = (heading: (typeof PLAN_COLUMNS)[number]['heading']): number =>
  PLAN_COLUMNS.findIndex((c) => c.heading === heading);
const [OXYGEN, FLOW, CYLINDERS, SETTING, NOTE] = [
  at('oxygen'),
  at('flow'),
  at('cylinders opened'),
  at('regulator setting'),
  at('note'),
];

/** Items share cylinders: each row shows the full cylinders opened for it, so that the column adds up to what the list needs. */
function shareCylinders(rows: readonly (readonly Output[])[], basis: Basis): ReadonlyMap<number, readonly Output[]> {
  const items = rows.map((row) => ({
    oxygen: row[OXYGEN] as number,
    flow: row[FLOW] as number,
    setting: typeof row[SETTING] === 'number' ? row[SETTING] : undefined,
  }));
  try {
    return new Map([[CYLINDERS, cylindersOpened(items, basis)]]);
  } catch (e) {
    if (!(e instanceof CalcError)) throw e;
    return new Map<number, readonly Output[]>([
      [CYLINDERS, rows.map(() => e)],
      [NOTE, rows.map((row) => [row[NOTE], e.message].filter((text) => text !== '').join('; '))],
    ]);
  }
}
