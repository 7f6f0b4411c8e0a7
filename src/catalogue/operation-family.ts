import type { Basis } from '../core/basis.ts';
import type { Material } from '../core/burn/materials.ts';
import type { RodChoice } from '../core/burn/rods.ts';
import { CalcError } from '../core/errors.ts';
import { cylindersOpened } from '../core/operations/cylinders-opened.ts';
import { itemSetting, settingOf, supplyOf } from '../core/operations/item-supply.ts';
import { notesOf } from '../core/operations/notes.ts';
import type { Operation, Sizes } from '../core/operations/operation.ts';
import { sized, type Sized } from '../core/operations/sized.ts';
import { spreadItem } from '../core/operations/spread-item.ts';
import { highBeyondReach } from '../core/messages.ts';
import type { Working } from '../core/model/working.ts';
import { itemOf, type KnownItem } from '../core/safety/item.ts';
import { isOperation } from '../core/safety/operations.ts';
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
import { planCautions, planConditions } from './plan-cautions.ts';
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
  { heading: 'rods', quantity: 'count', step: 'N' },
  { heading: 'rods low', quantity: 'count' },
  { heading: 'rods high', quantity: 'count' },
  { heading: 'tip pressure', quantity: 'pressure', step: 'p' },
  { heading: 'flow', quantity: 'flow', step: 'm' },
  { heading: 'oxygen', quantity: 'oxygen', step: 'O' },
  { heading: 'oxygen low', quantity: 'oxygen' },
  { heading: 'oxygen high', quantity: 'oxygen' },
  { heading: 'cylinders opened', quantity: 'count' },
  { heading: 'burning', quantity: 'time', step: 't' },
  { heading: 'crew', quantity: 'time', step: 't_crew' },
  { heading: 'crew low', quantity: 'time' },
  { heading: 'crew high', quantity: 'time' },
  { heading: 'regulator setting', quantity: 'pressure', step: 'p_reg' },
  { heading: 'cooling', quantity: 'time', step: 't_cool' },
  { heading: 'ram', quantity: 'force', step: 'R_ram' },
  { heading: 'removed', quantity: 'mass', step: 'M' },
  { heading: 'operation' },
  { heading: 'material' },
  { heading: 'conditions' },
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
  const size = (values: Values<FamilyParameters<G>>, basis: Basis): Sized => {
    const { rod, material, ...rest } = values as unknown as { rod?: RodChoice; material?: Material };
    return sized({ operation, sizes: rest as Sizes<G>, rod, material, basis });
  };
  /** All steps of an item, with its supply. */
  const allSteps = (values: Values<FamilyParameters<G>>, basis: Basis): Working => {
    const item = size(values, basis);
    return item.allSteps(supplyOf(item, basis));
  };
  /** One step of an item with what it rests on, and nothing else worked out; all where the item has no such step. */
  const oneStep = (values: Values<FamilyParameters<G>>, basis: Basis, step: string): Working => {
    const item = size(values, basis);
    const besides = step === 'p_reg' ? settingOf(item, basis) : step === 'R_ram' ? item.ramSteps() : undefined;
    const has = besides ? besides.results.includes(step) : step !== 't_cool' || operation.cooling !== undefined;
    return has ? item.working(step, besides) : allSteps(values, basis);
  };
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
    examples: [`=BURN.${operation.id}.${suffix}(${arguments_})`],
    monotone: operationMoves<keyof FamilyParameters<G> & string>(operation, suffix),
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
      calculate: (v, basis) => basis.once(`plan ${operation.id} ${itemKey(v)}`, () => planLine(size(v, basis), basis)),
      working: (v, basis, step) => (step === undefined ? allSteps(v, basis) : oneStep(v, basis, step)),
      together: shareCylinders,
    }),
    tableFunction({
      ...common('STEPS'),
      summary: `The working of one item, step by step with formula, kind and source, to ${operation.summary}.`,
      result: { kind: 'table', columns: STEP_COLUMNS },
      calculate: (v, basis) => stepLines(allSteps(v, basis).steps(), basis.a.system),
      working: allSteps,
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

function planLine(s: Sized, basis: Basis): readonly Output[] {
  const { operation } = s;
  const spread = spreadItem(s, basis);
  const high = (x: number): Output => (Number.isFinite(x) ? x : highBeyondReach());
  const setting = settingOrError(s, basis);
  const ram = orError(() => s.ram() ?? null);
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
    operation.id,
    s.material.name,
    ...cautionCells(operation.id, s, basis),
    notes.join('; '),
  ];
}

/** Conditions and cautions of an item, which many of a list have in common. */
const cautionCells = (id: string, { material, rod }: Sized, { a, once }: Basis): readonly [string, string] =>
  once(`cautions ${id} ${material.name} ${rod.rod.kind} ${rod.coupled}`, () => {
    const item = itemOf({ operation: isOperation(id) ? id : undefined, material, rod }, a);
    return [planConditions(item, a.system), planCautions(item)] as const;
  });

/** What to set at the regulator; where the hose cannot feed the rod the cell says so, and the rest of the row stands. */
const settingOrError = (s: Sized, basis: Basis): number | CalcError => orError(() => itemSetting(s, basis).gauge);

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
