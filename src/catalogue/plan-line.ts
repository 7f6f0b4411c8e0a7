import type { Basis } from '../core/basis.ts';
import { CalcError } from '../core/errors.ts';
import { openedAlong } from '../core/operations/cylinders-opened.ts';
import { itemSetting } from '../core/operations/item-supply.ts';
import { notesOf } from '../core/operations/notes.ts';
import type { Sized } from '../core/operations/sized.ts';
import { spreadItem, type Spread } from '../core/operations/spread-item.ts';
import { highBeyondReach, joined } from '../core/messages.ts';
import { conditionText, type Condition } from '../core/safety/conditions.ts';
import { itemOf } from '../core/safety/item.ts';
import { isOperation } from '../core/operations/all.ts';
import type { Column, Output, RowsFunction } from './declaration.ts';
import { planCautions, planConditions } from './plan-cautions.ts';

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
  { heading: 'cylinders so far', quantity: 'count' },
  { heading: 'left in cylinder', quantity: 'oxygen' },
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

/** A high, or that there is none. */
export const reached = (high: number): Output => (Number.isFinite(high) ? high : highBeyondReach());

/** What several pieces of one item make of its row. */
export interface PlanRow {
  readonly quantity: number;
  /** Low and high of all pieces together. */
  readonly spread: Spread;
  /** Of the regulator, where it is known. */
  readonly setting: number;
  /** Conditions and notes of its own, besides those of the assumptions. */
  readonly conditions: readonly Condition[];
  readonly notes: readonly string[];
}

/** A row of a plan without its number and its cylinders: sums of all pieces, and what holds for each. */
export function planLine(s: Sized, basis: Basis, row: Partial<PlanRow> = {}): readonly Output[] {
  const { operation } = s;
  const { quantity: n = 1, spread = spreadItem(s, basis), conditions = [], notes: own = [] } = row;
  const setting = row.setting ?? settingOrError(s, basis);
  const ram = ramOrError(s);
  const { held, cautions } = cautionCells(operation.id, s, basis, conditions);
  const notes = [...own, ...notesOf(s, basis)];
  for (const x of [setting, ram]) if (x instanceof CalcError) notes.push(x.message);
  return [
    null,
    s.name,
    n * s.rods,
    spread.lowRods,
    reached(spread.highRods),
    s.pressure,
    s.flow,
    n * s.oxygen,
    spread.lowOxygen,
    reached(spread.highOxygen),
    null,
    null,
    n * s.burnTime,
    n * s.crewTime,
    spread.lowCrewTime,
    reached(spread.highCrewTime),
    setting,
    operation.cooling ? s.cooling : null,
    ram,
    n * s.removed,
    operation.id,
    s.material.name,
    held,
    cautions,
    joined(notes),
  ];
}

/** Conditions and cautions of an item, which many of a list have in common. */
const cautionCells = (
  id: string,
  { material, rod }: Sized,
  { a, once }: Basis,
  conditions: readonly Condition[],
): { readonly held: string; readonly cautions: string } => {
  const own = conditions.map((c) => conditionText(c, a.system));
  return once(`cautions ${id} ${material.name} ${rod.rod.kind} ${rod.coupled} ${own.join(';')}`, () => {
    const item = itemOf({ operation: isOperation(id) ? id : undefined, material, rod, conditions }, a);
    return { held: joined([...own, planConditions(item, a.system)]), cautions: planCautions(item) };
  });
};

/** What to set at the regulator; where the hose cannot feed the rod the cell says so, and the rest of the row stands. */
const settingOrError = (s: Sized, basis: Basis): number | CalcError =>
  orError((item) => itemSetting(item, basis).gauge, s);
const ramOrError = (s: Sized): number | null | CalcError => orError((item) => item.ram() ?? null, s);

function orError<T>(make: (s: Sized) => T, s: Sized): T | CalcError {
  try {
    return make(s);
  } catch (e) {
    if (e instanceof CalcError) return e;
    throw e;
  }
}

const at = (heading: (typeof PLAN_COLUMNS)[number]['heading']): number =>
  PLAN_COLUMNS.findIndex((c) => c.heading === heading);
const [OXYGEN, FLOW, OPENED, LEFT, SETTING, NOTE] = [
  at('oxygen'),
  at('flow'),
  at('cylinders so far'),
  at('left in cylinder'),
  at('regulator setting'),
  at('note'),
];

/** Items share cylinders: each row shows how many the list has opened with it, and what the last of them still serves. */
export const SHARED_CYLINDERS: NonNullable<RowsFunction['together']> = {
  from: [OXYGEN, FLOW, SETTING, NOTE],
  of: ([oxygen, flows, settings, notes], basis) => {
    function* items() {
      for (const [i, setting] of settings!.entries())
        yield { flow: flows![i] as number, setting: typeof setting === 'number' ? setting : undefined };
    }
    try {
      const along = openedAlong(items(), basis);
      return (i) => {
        const { opened, left } = along(oxygen![i] as number);
        return [
          [OPENED, opened],
          [LEFT, left],
        ];
      };
    } catch (e) {
      if (!(e instanceof CalcError)) throw e;
      return (i) => [
        [OPENED, e],
        [LEFT, e],
        [NOTE, joined([notes![i], e.message])],
      ];
    }
  },
};
