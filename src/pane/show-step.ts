import { isChoice } from '../core/assumptions/assumption.ts';
import { findAssumption } from '../core/assumptions/registry.ts';
import type { WorkedStep } from '../core/model/step.ts';
import { fromSi, plainUnit } from '../core/units/parse-quantity.ts';
import type { UnitSystem } from '../core/units/quantities.ts';
import { showWithUnit } from './show-cell.ts';

/** The value of a step: an assumption in its own unit, as it is listed and given; anything else in the plain one. */
export function showStep(step: WorkedStep, system: UnitSystem): string {
  const { value, quantity, assumption } = step;
  if (typeof value === 'string') return value;
  const entry = assumption === undefined ? undefined : findAssumption(assumption);
  const unit = entry && !isChoice(entry) && system === 'US' ? entry.unit : plainUnit(quantity, system);
  return showWithUnit(fromSi(value, quantity, system, unit), unit);
}
