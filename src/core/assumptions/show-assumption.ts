import { shown } from '../messages.ts';
import { fromSi } from '../units/parse-quantity.ts';
import { isChoice, unitIn, type NumberAssumption } from './assumption.ts';
import type { Assumptions } from './assumptions.ts';
import type { AssumptionName, ChoiceName, NumberName } from './registry.ts';

/** As many as anybody reads of an assumption, and enough for a pressure typed in full. */
const DIGITS = 5;

type Ranged = Pick<NumberAssumption, 'value' | 'low' | 'high' | 'unit'>;

/** A value with its range and unit: `0.4 (0.3 to 0.5) min`; without a range where it is certain. */
export function showRanged({ value, low, high, unit }: Ranged): string {
  const number = (x: number): string => shown(x, DIGITS);
  const range = low === value && high === value ? '' : ` (${number(low)} to ${number(high)})`;
  return `${number(value)}${range}${unit === '' ? '' : ` ${unit}`}`;
}

/** An assumption as it is in force, in the unit in which it is typed; a choice is its word. */
export function showAssumption(name: AssumptionName, a: Assumptions): string {
  const entry = a.entry(name);
  if (!entry || isChoice(entry)) return a.word(name as ChoiceName);
  const unit = unitIn(entry, a.system);
  const { value, low, high } = a.inForce(name as NumberName);
  const inUnit = (si: number): number => fromSi(si, entry.quantity, 'US', unit);
  return showRanged({ value: inUnit(value), low: inUnit(low), high: inUnit(high), unit });
}
