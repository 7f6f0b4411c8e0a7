import type { Basis } from '../core/basis.ts';
import { SEVERITIES, type Caution } from '../core/exposure/caution.ts';
import { cautionsFor } from '../core/exposure/cautions.ts';
import { OPERATIONS } from '../core/exposure/operations.ts';
import { workConditions } from '../core/exposure/work-conditions.ts';
import type { Sizing } from '../core/operations/size-item.ts';

/** Whether a caution comes with each operation. */
const ofEveryBurn = ({ triggers }: Caution): boolean => triggers.some((t) => t.operations?.length === OPERATIONS.length);

/**
 * The cautions of one item for a cell: `PIN: closed cavity, stored load, ...`, most severe first, within a severity those of
 * the item before those of every burn. Every one that can kill and every one that the item brings up is named; the others
 * are counted.
 */
export function planCautions(operation: string, { material }: Sizing, { a, once }: Basis): string {
  return once(`cautions ${operation} ${material.name}`, () => {
    const raised = cautionsFor(operation, workConditions(material, a));
    const named = raised.filter((c) => c.severity === 'can kill' || !(OPERATIONS as readonly string[]).includes(c.because));
    const rank = (c: Caution): number => 2 * SEVERITIES.indexOf(c.severity) + Number(ofEveryBurn(c));
    const keys = [...named].sort((x, y) => rank(x) - rank(y)).map((c) => c.key);
    const more = raised.length - named.length;
    return `${operation}: ${keys.join(', ')}${more > 0 ? `; ${more} more in BURN.CAUTIONS` : ''}`;
  });
}
