import { on, type Caution } from './caution.ts';

/** The part, what it holds, and how it comes out. */
export const PART_CAUTIONS: readonly Caution[] = [
  {
    key: 'closed cavity',
    severity: 'can kill',
    title: 'A closed hollow pin or cavity bursts when it is heated',
    action:
      'Find out whether the pin is drilled, hollow or plugged before lighting. Drill or open a vent into every cavity by a method without heat, and stand out of line with its ends.',
    triggers: [{ operations: ['PIN'] }, ...on('hollow pin', 'sealed cavity')],
    source: 'osha 1910.252',
    clause: '1910.252(a)(3)(ii); 29 CFR 1926.352 in construction',
    also: ['osha 1926.352'],
  },
  {
    key: 'stored load',
    severity: 'can kill',
    title: 'Springs, loads and levers let go when the part does',
    action:
      'Block and crib every part that can move, take the load off the pin, release or restrain springs and track tension, lower booms and buckets. Check the blocking again after cooling.',
    triggers: [{ operations: ['PIN', 'CUT', 'STUD'] }, ...on('spring load', 'suspended load')],
    source: 'osha 1910.147',
    clause: '1910.147(d)(5)',
  },
  {
    key: 'lock out',
    severity: 'can kill',
    title: 'A machine that can start or move',
    action:
      'Shut down, lock out and tag, bleed off every store of energy, and try to start it to prove that it cannot.',
    triggers: [{ operations: ['PIN'] }, ...on('live machine')],
    source: 'osha 1910.147',
    clause: '1910.147(c) and (d)',
  },
  {
    key: 'hydraulic pressure',
    severity: 'can kill',
    title: 'Hydraulic oil under pressure sprays, burns and cuts; heated cylinders and struts burst',
    action:
      'Lower, shut down and bleed the circuit and the accumulator to zero at the gauge. Disconnect and cap lines, vent or take off cylinders and gas struts before heat comes near. Never heat a cylinder with oil shut in.',
    triggers: on('hydraulic cylinder', 'pressurised'),
    source: 'osha 1910.147',
    clause: '1910.147(d)(5)(i)',
  },
  {
    key: 'magnesium',
    severity: 'can kill',
    title: 'Magnesium, titanium and zirconium burn on by themselves and explode with water',
    action:
      'Do not burn them. Keep chips and drops away from such parts. Have a class D extinguisher or dry sand; no water, no carbon dioxide.',
    triggers: on('magnesium'),
    source: 'ansi z49.1',
    clause: 'fire prevention (from memory)',
  },
  {
    key: 'aluminium',
    severity: 'can injure',
    title: 'Hot slag on aluminium reacts and spatters; aluminium melts and runs without glowing',
    action: 'Shield aluminium parts from slag, expect no colour before it runs, keep the place dry.',
    triggers: on('aluminium'),
    source: 'common practice',
    clause: '',
  },
  {
    key: 'steam in the bore',
    severity: 'can injure',
    title: 'Water on hot metal in a closed or narrow bore blows out as steam, with slag',
    action:
      'Let slag solidify and glow fade first. Bring water in slowly, from the side, with a way out for the steam; stand out of line with both ends. No water into a blind bore.',
    triggers: [
      ...on('water quench', 'closed bore'),
      { functions: ['BURN.COOL.TIME', 'BURN.COOL.SHRINK'], conditions: ['water quench'] },
    ],
    source: 'common practice',
    clause: '',
  },
  {
    key: 'quench cracks',
    severity: 'can damage',
    title: 'Water cracks hardened and high-carbon steel and cast iron',
    action:
      'Cool in air what is to be kept: boss, frame, hardened pin. Where water is used, keep it to the pin, and look for cracks afterwards.',
    triggers: on('water quench', 'hardened', 'cast iron'),
    source: 'common practice',
    clause: '',
  },
  {
    key: 'flying pin',
    severity: 'can kill',
    title: 'A pin that lets go all at once flies',
    action:
      'Nobody in line with the pin, at either end. Catch it: chain, box, sandbag or blanket. Raise the force in steps and from behind cover.',
    triggers: [{ operations: ['PIN'] }, ...on('ram', 'hammer'), { functions: ['BURN.GRIP', 'BURN.PUSH'] }],
    source: 'common practice',
    clause: '',
  },
  {
    key: 'ram',
    severity: 'can kill',
    title: 'A loaded ram, spacer or strongback can jump out',
    action:
      'Ram of more than the computed force, squared and secured, hose off to the side, spacers of full bearing and guarded; stop and look when the gauge rises without movement. Nobody holds a spacer under load.',
    triggers: [...on('ram'), { functions: ['BURN.PUSH'] }],
    source: 'common practice',
    clause: '',
  },
  {
    key: 'hammered pin',
    severity: 'can injure',
    title: 'Hardened pins and drifts chip under a hammer',
    action: 'Soft-faced or brass drift held by a handle, goggles, everyone else back.',
    triggers: on('hammer'),
    source: 'common practice',
    clause: '',
  },
  {
    key: 'bushes and seals',
    severity: 'can damage',
    title: 'Heat spoils bushes, seals, hardened bores and the grease of the neighbours',
    action:
      'Take out or shield what is to be kept, keep the bore off the boss by a wall of pin, watch the boss with temperature sticks, and plan to renew seals.',
    triggers: [{ operations: ['PIN'] }, ...on('seals', 'polymer bushing'), { functions: ['BURN.COOL'] }],
    source: 'common practice',
    clause: '',
  },
  {
    key: 'bearing path',
    severity: 'can damage',
    title: 'Current through a bearing or gear pits it',
    action:
      'Clamp the ground to the very part that is burnt, on clean metal next to the work, so that no bearing, slew ring, gear or hydraulic rod lies between.',
    triggers: on('grounded work', 'welding machine', 'bearing'),
    source: 'common practice',
    clause: '',
  },
  {
    key: 'electronics',
    severity: 'can damage',
    title: 'Stray current and switching spikes kill controllers',
    action:
      "Disconnect the machine's batteries and unplug controllers as the machine's maker says before any current is used.",
    triggers: on('electronics'),
    source: 'common practice',
    clause: '',
  },
  {
    key: 'piece falls',
    severity: 'can kill',
    title: 'The severed piece falls, swings or springs',
    action:
      'Support or sling the piece before the last of it is cut, work out which way it will go, keep out of the way of it and have a way out.',
    triggers: [{ operations: ['CUT', 'STUD', 'BREACH'] }],
    source: 'common practice',
    clause: '',
  },
  {
    key: 'back in service',
    severity: 'can injure',
    title: 'A heated boss or pin that goes back under load may be soft, hard or cracked',
    action:
      "Whether a part that was heated or quenched carries load again is an engineer's decision, after inspection for cracks and hardness.",
    triggers: [{ functions: ['BURN.COOL', 'BURN.GRIP.AFTER'] }],
    source: 'common practice',
    clause: '',
  },
  {
    key: 'blow-back',
    severity: 'can injure',
    title: 'Until a pierce is through, slag comes back at the operator',
    action:
      'Use the guide and shield plate, stand to the side of the hole, start with low pressure, pull back when slag stops coming.',
    triggers: [
      { operations: ['PIN', 'HOLE', 'BREACH'] },
      ...on('closed bore', 'vertical down'),
      { functions: ['BURN.GUARD'] },
    ],
    source: 'common practice',
    clause: '',
  },
  {
    key: 'breakthrough',
    severity: 'can injure',
    title: 'Flame and slag come out of the far side when it breaks through',
    action:
      'Look at the far side, clear and guard it, put somebody there in sight or in contact who keeps others away.',
    triggers: [{ operations: ['PIN', 'HOLE', 'BREACH'] }, ...on('partition')],
    source: 'osha 1910.252',
    clause: '1910.252(a)(2)(iii)(A)',
  },
  {
    key: 'brittle in the cold',
    severity: 'can injure',
    title: 'Cold steel cracks under a blow, a press or a weld',
    action:
      'Warm pin, boss, spacers and frame before pushing, raise the push slowly, do not hammer, keep everybody out of the line. Weld no plates where it is colder than 0 F at the weld; below 32 F warm the steel to 70 F first.',
    triggers: on('cold weather'),
    source: 'aws d1.1',
    clause: '2025: 7.11.2 and Table 5.11, as cited by others',
  },
  {
    key: 'blows through',
    severity: 'can injure',
    title: 'Oxygen and fire go through an old bore and its cross holes, and what is in them burns',
    action:
      'Take grease fittings out, clean grease and rust out of bore and cross holes, and wash them. Guard the far end and every mouth; keep people away from them. Expect oxygen to be lost there.',
    triggers: on('hollow pin'),
    source: 'common practice',
    clause: '',
  },
  {
    key: 'blind pin',
    severity: 'can injure',
    title: 'A blind pin or bore is not burnt through nor pushed out: all comes back at the operator',
    action:
      'Mark the depth on the rod and leave a floor. Stand aside of the mouth, with a shield. Plan how to pull it: a thread or a welded stud, a hollow ram, jacking bolts. No water into a hot blind bore.',
    triggers: on('closed bore'),
    source: 'common practice',
    clause: '',
  },
  {
    key: 'one side only',
    severity: 'can injure',
    title: 'Nobody sees what is behind a work that is got at from one side',
    action:
      'Find out by drawing, hole or camera what is behind: lines, wiring, people, things that burn. Clear it or shut it off, keep a guard where it comes out, and plan a pull from the near side.',
    triggers: on('one side'),
    source: 'common practice',
    clause: '',
  },
];
