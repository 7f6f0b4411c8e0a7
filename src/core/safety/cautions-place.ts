import { on, type Caution } from './caution.ts';

/** Position and access, water, concrete and electric power. */
export const PLACE_CAUTIONS: readonly Caution[] = [
  {
    key: 'slag from overhead',
    severity: 'can injure',
    title: 'Overhead, slag and molten metal run down the rod and fall on the burner',
    action:
      'Stand to the side, never under the cut. Leather cape or shoulder cover, collar and sleeves closed, face shield over goggles. Keep hose, holder and everyone else out from under it.',
    triggers: on('overhead'),
    source: 'common practice',
    clause: '',
  },
  {
    key: 'no room to step back',
    severity: 'can injure',
    title: 'In a tight place the burner cannot get away from slag, flame and smoke',
    action:
      'Clear a way out behind the burner before lighting and keep it clear. Shield what is close by, use a shorter rod, ventilate, and ask whether it is a confined space: then its rules apply.',
    triggers: on('tight'),
    source: 'common practice',
    clause: '',
  },
  {
    key: 'gas pockets',
    severity: 'can kill',
    title: 'Under water, oxygen and hydrogen collect in pockets and explode',
    action:
      'Vent every space above and behind the cut before starting, cut from the top down so that gas can rise away, never burn into a closed space, and stop the oxygen when the rod does not light.',
    triggers: on('underwater', 'splash zone'),
    source: 'navy underwater cutting',
    clause: 'safety precautions appendix',
  },
  {
    key: 'shock in water',
    severity: 'can kill',
    title: 'Electric shock in and at the water',
    action:
      'Direct current with a knife switch in the lead, opened by the tender except while the diver calls for current. The diver never gets between ground and rod, wears dry insulating gloves, and never works half out of the water.',
    triggers: on('underwater', 'splash zone'),
    source: 'navy underwater cutting',
    clause: 'safety precautions appendix',
  },
  {
    key: 'diving',
    severity: 'can kill',
    title: 'Diving is for a qualified diving team',
    action:
      "The diving rules, a dive plan, a tender, a standby diver and the team's own manual apply; nothing here stands in for them.",
    triggers: on('underwater', 'splash zone'),
    source: 'osha 1910.410',
    clause: 'Subpart T',
  },
  {
    key: 'shock',
    severity: 'can kill',
    title: 'Electric shock from a wet or grounded place',
    action:
      'Dry gloves and footing, insulated holder and leads without damage, power off while a rod is changed, no standing in water, no lead round the body.',
    triggers: on('wet', 'grounded work', 'welding machine'),
    source: 'osha 1910.254',
    clause: '1910.254(d)',
  },
  {
    key: 'insulated rod',
    severity: 'can injure',
    title: 'A bare rod arcs on the side of a grounded hole',
    action:
      'Use insulated rods where the work is grounded, an arc is kept, or under water; or take the ground off and light on a striker plate.',
    triggers: on('grounded work', 'underwater', 'splash zone'),
    source: 'common practice',
    clause: '',
  },
  {
    key: 'machine setting',
    severity: 'can injure',
    title: 'Too much current melts a short rod off instead of burning it',
    action:
      'Set the welding machine no higher than the assumption short rod current: 150 A by default, common practice without a source. Follow the makers of rod and machine.',
    triggers: on({ condition: 'welding machine', above: 'short rod current' }),
    source: 'common practice',
    clause: '',
  },
  {
    key: 'leads',
    severity: 'can injure',
    title: 'A lead too small or damaged overheats',
    action:
      'Leads and clamps rated for the current, uncoiled, off hot slag, with tight joints; no splice within 10 ft of the holder.',
    triggers: [...on('welding machine', 'battery'), { functions: ['BURN.LEAD'] }],
    source: 'osha 1910.254',
    clause: '1910.254(d)(9) (from memory)',
  },
  {
    key: 'spalling',
    severity: 'can injure',
    title: 'Heated concrete and rock burst off in pieces',
    action:
      'Face shield over goggles, guard plate at the hole, everyone else back; wet concrete bursts worst. Heat it slowly at first.',
    triggers: [{ operations: ['BREACH'] }, ...on('concrete')],
    source: 'common practice',
    clause: '',
  },
  {
    key: 'steel in tension',
    severity: 'can kill',
    title: 'Steel under tension whips when it is cut, and the structure may come down',
    action:
      "No cut into prestressed concrete, tendons, stays or loaded reinforcement without a structural engineer's plan and shoring. Nobody in line with a tendon or its anchor.",
    triggers: [{ operations: ['BREACH'] }, ...on('prestressed', 'rebar')],
    source: 'common practice',
    clause: '',
  },
  {
    key: 'embedded services',
    severity: 'can kill',
    title: 'Live cables, gas or water in or behind the section',
    action: 'Scan and look at drawings, isolate and prove dead before burning.',
    triggers: [{ operations: ['BREACH'] }, ...on('embedded services')],
    source: 'common practice',
    clause: '',
  },
];
