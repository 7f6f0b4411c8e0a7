import type { ConditionName, MeasuredName } from './conditions.ts';
import type { AssumedLimit } from './item.ts';
import type { OperationId } from '../operations/all.ts';

/** How bad it can get, in words. */
export const SEVERITIES = ['can kill', 'can injure', 'can damage'] as const;
export type Severity = (typeof SEVERITIES)[number];

/** A figure in SI, or the assumption that holds it. */
type Bound = number | AssumedLimit;

/** A condition that must hold; a bound compares its value in SI, and holds where the user gave none. */
export type Need =
  | ConditionName
  | { readonly condition: MeasuredName; readonly above: Bound }
  | { readonly condition: MeasuredName; readonly atLeast: Bound }
  | { readonly condition: MeasuredName; readonly below: Bound };

/** Every part that is stated must hold: one of the operations, all of the conditions, one of the functions. */
export interface Trigger {
  readonly operations?: readonly OperationId[];
  readonly conditions?: readonly Need[];
  /** Beginnings of function names, such as `BURN.COOL`. */
  readonly functions?: readonly string[];
}

/** A hazard, what brings it up and what to do. It applies when any of its triggers holds. */
export interface Caution {
  readonly key: string;
  readonly severity: Severity;
  readonly title: string;
  /** What to do, in a few sentences. */
  readonly action: string;
  readonly triggers: readonly Trigger[];
  /** Key in the register of sources. */
  readonly source: string;
  /** Clause in the source; empty for common practice. */
  readonly clause: string;
  /** Keys of further sources that its clause or text points to. */
  readonly also?: readonly string[];
}

/** Functions about oxygen under pressure: all of it comes out of cylinders. */
export const SUPPLY_FUNCTIONS = [
  'BURN.CYLINDER',
  'BURN.SUPPLY',
  'BURN.HOSE',
  'BURN.ROD.FLOW',
  'BURN.ROD.PRESSURE',
] as const;

/** Triggers for a condition each. */
export const on = (...needs: readonly Need[]): readonly Trigger[] => needs.map((need) => ({ conditions: [need] }));
