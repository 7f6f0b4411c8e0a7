import { SEVERITIES, type Caution } from './caution.ts';
import { AIR_CAUTIONS } from './cautions-air.ts';
import { FIRE_CAUTIONS } from './cautions-fire.ts';
import { OXYGEN_CAUTIONS } from './cautions-oxygen.ts';
import { PART_CAUTIONS } from './cautions-part.ts';
import { PEOPLE_CAUTIONS } from './cautions-people.ts';
import { PLACE_CAUTIONS } from './cautions-place.ts';
import type { Item } from './item.ts';
import { reasonsOf, type Applied } from './reasons.ts';

/** Every caution. Of equal severity, those of this order come first. */
export const CAUTIONS: readonly Caution[] = [
  ...PEOPLE_CAUTIONS,
  ...OXYGEN_CAUTIONS,
  ...FIRE_CAUTIONS,
  ...AIR_CAUTIONS,
  ...PART_CAUTIONS,
  ...PLACE_CAUTIONS,
];

/** A caution with what brought it up. */
export type RaisedCaution = Applied<Caution>;

/**
 * The cautions of an item, or of several together, each once: most severe first, those that a condition brought up
 * before those of the operation itself. Every list of cautions anywhere comes from here.
 *
 * The list is what is known here, not all there is: it defers to local codes, the employer's permit and qualified
 * people, and an empty condition says nothing about the job.
 */
export function cautionsOf(items: Item | readonly Item[]): readonly RaisedCaution[] {
  const raised = reasonsOf(CAUTIONS, [items].flat());
  const rank = (c: RaisedCaution): number => 2 * SEVERITIES.indexOf(c.severity) + Number(!c.byCondition);
  return [...raised].sort((x, y) => rank(x) - rank(y));
}
