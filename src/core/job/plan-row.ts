import type { Operation } from '../operations/operation.ts';
import type { Ranged } from './job-range.ts';

/** One item of a plan, as it stands in a sheet; SI. */
export interface PlanRow {
  readonly item: string;
  /** Rod by its name, such as `3/8 x 36`. */
  readonly rod: string;
  readonly rods: Ranged;
  readonly oxygen: Ranged;
  readonly crew: Ranged;
  readonly burnTime: number;
  /** Full cylinders opened for it; undefined where the plan does not say. */
  readonly cylinders: number | undefined;
  /** Cooling of the item; undefined where the plan does not say. */
  readonly cooling: number | undefined;
  /** Undefined where the plan does not say. */
  readonly operation: Operation | undefined;
}
