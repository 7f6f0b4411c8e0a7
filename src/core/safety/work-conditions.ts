import type { Assumptions } from '../assumptions/assumptions.ts';
import type { Material } from '../burn/materials.ts';
import { underWater } from '../operations/site.ts';
import { conditionNamed, type ConditionName } from './conditions.ts';

/** The conditions that follow from what an item is made of, where it lies and whether it is grounded. */
export function workConditions(material: Material, a: Assumptions): readonly ConditionName[] {
  const made = conditionNamed(material.name);
  return [
    ...(made === undefined ? [] : [made]),
    ...(underWater(a) ? (['underwater'] as const) : []),
    ...(a.word('work grounded') === 'yes' ? (['grounded work'] as const) : []),
  ];
}

/** Families of functions whose part cools before the next step. */
const COOLED = ['PIN', 'COOL', 'GRIP'];

/** The condition that follows from how a pin is cooled: by a function's own word, else the assumption. */
export function coolingConditions(family: string, a: Assumptions, method?: unknown): readonly ConditionName[] {
  return COOLED.includes(family) && (method ?? a.word('cooling method')) === 'water' ? ['water quench'] : [];
}
