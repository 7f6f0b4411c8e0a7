import { SEVERITIES, type Caution } from '../core/safety/caution.ts';
import { cautionsOf, type RaisedCaution } from '../core/safety/cautions.ts';
import { conditionText } from '../core/safety/conditions.ts';
import { conditionsOf, type Item } from '../core/safety/item.ts';
import { OPERATION_IDS } from '../core/operations/all.ts';
import type { UnitSystem } from '../core/units/quantities.ts';

export interface ShortCautions {
  /** To be named: every one that can kill, and every one that a condition brought up. */
  readonly named: readonly RaisedCaution[];
  /** The others, which come with the operation and can injure or damage. */
  readonly others: readonly RaisedCaution[];
}

/** Whether a caution comes with each operation. */
const ofEveryBurn = ({ triggers }: Caution): boolean =>
  triggers.some((t) => t.operations?.length === OPERATION_IDS.length);

/** The cautions of a job where there is no room for all: most severe first, within a severity those of the job before those of every burn. */
export function shortCautions(items: Item | readonly Item[]): ShortCautions {
  const raised = cautionsOf(items);
  const isNamed = (c: RaisedCaution): boolean => c.severity === 'can kill' || c.byCondition;
  const rank = (c: Caution): number => 2 * SEVERITIES.indexOf(c.severity) + Number(ofEveryBurn(c));
  return { named: raised.filter(isNamed).sort((x, y) => rank(x) - rank(y)), others: raised.filter((c) => !isNamed(c)) };
}

/** The cautions of one item for a cell: `closed cavity, stored load, ...; 11 more in BURN.CAUTIONS`. */
export function planCautions(item: Item): string {
  const { named, others } = shortCautions(item);
  return `${named.map((c) => c.key).join(', ')}${others.length > 0 ? `; ${others.length} more in BURN.CAUTIONS` : ''}`;
}

/** The conditions that the assumptions bring to an item, for a cell, as BURN.CAUTIONS reads them: `underwater 30 ft; grounded work`. */
export function planConditions(item: Item, system: UnitSystem): string {
  return conditionsOf(item)
    .filter((c) => c.origin === 'site')
    .map((c) => conditionText(c, system))
    .join('; ');
}
