import { requireAtLeast } from './check.ts';

/** Something near the work. */
export interface Thing {
  readonly name: string;
  /** Level distance from the work [m]. */
  readonly distance: number;
}

/** Things within a reach, nearest first. At the reach counts as within it. */
export function thingsInside(reach: number, things: readonly Thing[]): readonly Thing[] {
  requireAtLeast('reach', reach, 0, 'm');
  for (const thing of things) requireAtLeast(`distance of ${thing.name}`, thing.distance, 0, 'm');
  return things.filter((t) => t.distance <= reach).sort((a, b) => a.distance - b.distance);
}

/** What to look for inside the reach before lighting up, and what to do with it. */
export interface FireCheck {
  readonly look: string;
  readonly action: string;
  readonly source: string;
  readonly clause: string;
}

export const FIRE_CHECKS: readonly FireCheck[] = [
  {
    look: 'loose combustibles: wood, paper, rags, packing, dry grass, oil and grease on the floor',
    action:
      'move them out of the reach; where they cannot be moved, cover them with flame-proofed covers or metal guards',
    source: 'osha 1910.252',
    clause: '1910.252(a)(2)(vii)',
  },
  {
    look: 'combustible floors',
    action:
      'sweep, then wet down, cover with damp sand or shield; keep people clear of shock where arc is used on a wet floor',
    source: 'osha 1910.252',
    clause: '1910.252(a)(2)(v)',
  },
  {
    look: 'floor openings, cracks and grating, and whatever lies below',
    action: 'close or cover the openings, clear what is below and put a watch there',
    source: 'osha 1910.252',
    clause: '1910.252(a)(2)(i)',
  },
  {
    look: 'holes in walls, open doors, open or broken windows',
    action: 'close them or guard what is behind',
    source: 'osha 1910.252',
    clause: '1910.252(a)(2)(i)',
  },
  {
    look: 'ducts, conveyors and chutes that could carry sparks away',
    action: 'stop them and cover the openings',
    source: 'osha 1910.252',
    clause: '1910.252(a)(2)(viii)',
  },
  {
    look: 'the far side of walls, ceilings, tanks and plates that the heat can reach',
    action: 'move what can burn from the far side, or put a watch there',
    source: 'osha 1910.252',
    clause: '1910.252(a)(2)(x) and (xii)',
  },
  {
    look: 'walls and ceilings with a combustible core or covering',
    action: 'do not burn on them',
    source: 'osha 1910.252',
    clause: '1910.252(a)(2)(xi)',
  },
  {
    look: 'flammable gas, vapour, liquid or dust',
    action: 'no hot work until it is gone and the air has been tested',
    source: 'osha 1910.252',
    clause: '1910.252(a)(2)(vi)',
  },
  {
    look: 'hoses, cylinders, hydraulic lines, wiring, tyres and fuel tanks of the machine itself',
    action: 'move, drain or shield them from drops and heat',
    source: 'common practice',
    clause: '',
  },
  {
    look: 'extinguishers',
    action: 'keep extinguishing equipment for what can burn there ready for instant use',
    source: 'osha 1910.252',
    clause: '1910.252(a)(2)(ii)',
  },
  {
    look: 'sprinklers',
    action: 'keep them in service; guard only the heads next to the work, and uncover them at the end',
    source: 'nfpa 51b 2019',
    clause: 'from memory',
  },
];
