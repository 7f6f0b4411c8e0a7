import { isChoice, type Assumption } from '../core/assumptions/assumption.ts';
import { findAssumption } from '../core/assumptions/registry.ts';
import type { Step } from '../core/model/trace.ts';
import { fromSi, plainUnit } from '../core/units/parse-quantity.ts';
import type { UnitSystem } from '../core/units/quantities.ts';
import { showWithUnit } from './show-cell.ts';

/** The assumption that a step is, if it is one. */
export function assumptionOf({ name, formula }: Step): Assumption | undefined {
  const entry = findAssumption(name);
  return entry?.summary === formula ? entry : undefined;
}

/** The value of a step: an assumption in its own unit, as it is listed and given; anything else in the plain one. */
export function showStep(step: Step, system: UnitSystem): string {
  const { value, quantity } = step;
  if (typeof value === 'string') return value;
  const entry = assumptionOf(step);
  const unit = entry && !isChoice(entry) && system === 'US' ? entry.unit : plainUnit(quantity, system);
  return showWithUnit(fromSi(value, quantity, system, unit), unit);
}
