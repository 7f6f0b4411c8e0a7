import type { WorkedStep } from '../core/model/step.ts';
import { writtenFromSi } from '../core/units/as-written.ts';
import { plainUnit } from '../core/units/parse-quantity.ts';
import type { UnitSystem } from '../core/units/quantities.ts';
import type { Column, Output } from './declaration.ts';

/** The working of a cell as a table; values stand in the plain unit beside them. */
export const STEP_COLUMNS = [
  { heading: 'step' },
  { heading: 'symbol' },
  { heading: 'value' },
  { heading: 'unit' },
  { heading: 'formula' },
  { heading: 'kind' },
  { heading: 'source' },
] as const satisfies readonly Column[];

export function stepLines(steps: readonly WorkedStep[], system: UnitSystem): readonly (readonly Output[])[] {
  return steps.map((s) => {
    const text = typeof s.value === 'string';
    return [
      s.name,
      s.symbol,
      text ? s.value : writtenFromSi(s.value, s.quantity, system),
      text ? '' : plainUnit(s.quantity, system),
      s.formula,
      s.kind,
      s.source,
    ];
  });
}
