import type { Basis } from '../core/basis.ts';
import { SEVERITIES, type Caution } from '../core/safety/caution.ts';
import { cautionsFor, type RaisedCaution } from '../core/safety/cautions.ts';
import { OPERATIONS } from '../core/safety/operations.ts';
import { coolingConditions, workConditions } from '../core/safety/work-conditions.ts';
import type { Sized } from '../core/operations/sized.ts';
import type { UnitSystem } from '../core/units/quantities.ts';

export interface ShortCautions {
  /** To be named: every one that can kill, and every one that a condition brought up. */
  readonly named: readonly RaisedCaution[];
  /** The others, which come with the operation and can injure or damage. */
  readonly others: readonly RaisedCaution[];
}

/** Whether a caution comes with each operation. */
const ofEveryBurn = ({ triggers }: Caution): boolean =>
  triggers.some((t) => t.operations?.length === OPERATIONS.length);

/** The cautions of a job where there is no room for all: most severe first, within a severity those of the job before those of every burn. */
export function shortCautions(
  operations: readonly string[],
  conditions: readonly string[],
  system: UnitSystem,
): ShortCautions {
  const raised = cautionsFor(operations, conditions, {}, system);
  const isNamed = (c: RaisedCaution): boolean =>
    c.severity === 'can kill' || !(OPERATIONS as readonly string[]).includes(c.because);
  const rank = (c: Caution): number => 2 * SEVERITIES.indexOf(c.severity) + Number(ofEveryBurn(c));
  return { named: raised.filter(isNamed).sort((x, y) => rank(x) - rank(y)), others: raised.filter((c) => !isNamed(c)) };
}

/** The cautions of one item for a cell: `PIN: closed cavity, stored load, ...; 11 more in BURN.CAUTIONS`. */
export function planCautions(operation: string, { material }: Sized, { a, once }: Basis): string {
  return once(`cautions ${operation} ${material.name}`, () => {
    const { named, others } = shortCautions(
      [operation],
      [...workConditions(material, a), ...coolingConditions(operation, a)],
      a.system,
    );
    return `${operation}: ${named.map((c) => c.key).join(', ')}${others.length > 0 ? `; ${others.length} more in BURN.CAUTIONS` : ''}`;
  });
}
