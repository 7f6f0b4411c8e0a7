import { isChoice, type Assumption, unitIn } from '../core/assumptions/assumption.ts';
import type { Assumptions } from '../core/assumptions/assumptions.ts';
import { REGISTRY, type AssumptionName, type ChoiceName, type NumberName } from '../core/assumptions/registry.ts';
import { fromSi } from '../core/units/parse-quantity.ts';
import type { UsedAssumption } from './explained.ts';

/** The assumptions of these names as they are in force, in the order of the register. */
export function usedAssumptions(names: ReadonlySet<string>, a: Assumptions): readonly UsedAssumption[] {
  return REGISTRY.filter((entry) => names.has(entry.name)).map((entry) => inForce(entry, a));
}

function inForce(entry: Assumption, a: Assumptions): UsedAssumption {
  const { name, summary, source } = entry;
  if (isChoice(entry)) {
    const value = a.word(name as ChoiceName);
    const own = value !== entry.value;
    return {
      name,
      summary,
      value,
      unit: '',
      kind: own ? 'your value' : entry.kind,
      source: own ? a.reasonOf(name as AssumptionName) : source,
    };
  }
  const unit = unitIn(entry, a.system);
  const shown = (si: number): number => Number(fromSi(si, entry.quantity, 'US', unit).toPrecision(12));
  const { value, low, high, kind } = a.inForce(name as NumberName);
  const own = kind === 'your value' || kind === 'your log';
  return {
    name,
    summary,
    value: shown(value),
    low: shown(low),
    high: shown(high),
    unit,
    kind,
    source: own ? a.reasonOf(name as AssumptionName) : source,
  };
}
