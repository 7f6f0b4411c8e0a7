import type { UnitSystem } from '../units/quantities.ts';
import { SEVERITIES, type Caution, type Need, type Trigger } from './caution.ts';
import { AIR_CAUTIONS } from './cautions-air.ts';
import { FIRE_CAUTIONS } from './cautions-fire.ts';
import { OXYGEN_CAUTIONS } from './cautions-oxygen.ts';
import { PART_CAUTIONS } from './cautions-part.ts';
import { PEOPLE_CAUTIONS } from './cautions-people.ts';
import { PLACE_CAUTIONS } from './cautions-place.ts';
import { parseConditions, type Condition, type MeasuredName } from './conditions.ts';
import { isAbove, isBelow } from './limits.ts';
import { OPERATIONS, findOperation, type Operation } from './operations.ts';

/** Every caution. Of equal severity, those of this order come first. */
export const CAUTIONS: readonly Caution[] = [
  ...PEOPLE_CAUTIONS,
  ...OXYGEN_CAUTIONS,
  ...FIRE_CAUTIONS,
  ...AIR_CAUTIONS,
  ...PART_CAUTIONS,
  ...PLACE_CAUTIONS,
];

/** A caution with what brought it up. */
export interface RaisedCaution extends Caution {
  /** The conditions, else the operation or the function. */
  readonly because: string;
}

/** Figures worked out elsewhere, in SI, that count as conditions: `{ oxygen: 0.24, noise: 95 }`. */
export type MeasuredValues = Readonly<Partial<Record<MeasuredName, number>>>;

interface Subject {
  readonly operations: readonly Operation[];
  readonly functions: readonly string[];
  readonly conditions: readonly Condition[];
}

function holds(need: Need, condition: Condition): boolean {
  if (typeof need === 'string') return condition.name === need;
  if (condition.name !== need.condition) return false;
  const { value } = condition;
  // A bound without a value to hold against it is taken as passed.
  if (value === undefined) return true;
  if ('above' in need) return isAbove(value, need.above);
  if ('atLeast' in need) return !isBelow(value, need.atLeast);
  return isBelow(value, need.below);
}

/** What brought a trigger up, or undefined where it does not hold. */
function reason(trigger: Trigger, subject: Subject): string | undefined {
  const { conditions } = subject;
  const operation = subject.operations.find((o) => trigger.operations?.includes(o));
  if (trigger.operations && !operation) return undefined;
  const name = subject.functions.find((n) => trigger.functions?.some((f) => n === f || n.startsWith(`${f}.`)));
  if (trigger.functions && !name) return undefined;
  const met = (trigger.conditions ?? []).map((need) => conditions.find((c) => holds(need, c)));
  if (met.some((c) => c === undefined)) return undefined;
  return met.length > 0 ? met.map((c) => c?.name ?? '').join(' and ') : trigger.functions ? name : operation;
}

function raise(subject: Subject): readonly RaisedCaution[] {
  const raised = CAUTIONS.flatMap((caution, order) => {
    const reasons = caution.triggers.map((t) => reason(t, subject)).filter((r) => r !== undefined);
    if (reasons.length === 0) return [];
    const named = reasons.filter(
      (r) => !subject.functions.includes(r) && !(OPERATIONS as readonly string[]).includes(r),
    );
    const rank = SEVERITIES.indexOf(caution.severity);
    return [
      {
        order,
        rank,
        general: named.length === 0,
        caution: { ...caution, because: named.length > 0 ? [...new Set(named)].join(' and ') : (reasons[0] ?? '') },
      },
    ];
  });
  return raised
    .sort((a, b) => a.rank - b.rank || Number(a.general) - Number(b.general) || a.order - b.order)
    .map((r) => r.caution);
}

const withValues = (
  conditions: readonly string[],
  values: MeasuredValues,
  system: UnitSystem,
): readonly Condition[] => [
  ...parseConditions(conditions, system),
  ...(Object.entries(values) as [MeasuredName, number | undefined][]).flatMap(([name, value]) =>
    value === undefined ? [] : [{ name, value }],
  ),
];

/**
 * Cautions for an operation under the conditions typed, each once: most severe first, those that a condition brought
 * up before those of the operation itself.
 *
 * The list is what is known here, not all there is: it defers to local codes, the employer's permit and qualified
 * people, and an empty condition says nothing about the job.
 *
 * @param operation PIN, HOLE, GOUGE, CUT, STUD or BREACH, or several of them; `#N/A` otherwise
 * @param conditions words as in conditions.ts; `#N/A` for one that is not known
 * @param values figures worked out elsewhere, in SI
 * @param system of plain numbers in the conditions
 */
export function cautionsFor(
  operation: string | readonly string[],
  conditions: readonly string[],
  values: MeasuredValues = {},
  system: UnitSystem = 'US',
): readonly RaisedCaution[] {
  return raise({
    operations: [operation].flat().map(findOperation),
    functions: [],
    conditions: withValues(conditions, values, system),
  });
}

/**
 * Cautions for a function's cell, such as BURN.COOL.TIME; a function of an operation brings up that operation's.
 *
 * @param name full name of the function, or several whose cautions apply
 * @param conditions words as in conditions.ts
 * @param values the cell's own figures, in SI
 */
export function cautionsForFunction(
  name: string | readonly string[],
  conditions: readonly string[] = [],
  values: MeasuredValues = {},
  system: UnitSystem = 'US',
): readonly RaisedCaution[] {
  const functions = [name].flat().map((n) => n.trim().toUpperCase());
  const operations = OPERATIONS.filter((o) => functions.some((f) => f.split('.')[1] === o));
  return raise({ operations, functions, conditions: withValues(conditions, values, system) });
}
