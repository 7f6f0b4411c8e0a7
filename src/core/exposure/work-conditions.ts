import type { Assumptions } from '../assumptions/assumptions.ts';
import type { Material } from '../burn/materials.ts';
import { underWater } from '../operations/site.ts';
import { conditionNamed, type ConditionName } from './conditions.ts';

/** The conditions that follow from what an item is made of, where it lies and whether it is grounded. */
export function workConditions(material: Material, a: Assumptions): readonly ConditionName[] {
  const made = conditionNamed(material.name);
  return [...(made === undefined ? [] : [made]), ...(underWater(a) ? (['underwater'] as const) : []), ...(a.word('work grounded') === 'yes' ? (['grounded work'] as const) : [])];
}
