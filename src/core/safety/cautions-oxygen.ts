import { SUPPLY_FUNCTIONS, on, type Caution } from './caution.ts';
import { LIMITS } from './limits.ts';
import { OPERATION_IDS } from '../operations/all.ts';

const operations = OPERATION_IDS;

/** Oxygen, its cylinders, hoses and valves. */
export const OXYGEN_CAUTIONS: readonly Caution[] = [
  {
    key: 'oil and grease',
    severity: 'can kill',
    title: 'Oil and grease explode into flame in oxygen',
    action:
      'Keep oil, grease and oily hands, gloves and tools off valves, regulators, hoses and holders. Never let an oxygen jet strike anything oily or greasy. Use no lubricant or sealant that is not made for oxygen.',
    triggers: [{ operations }, { functions: SUPPLY_FUNCTIONS }],
    source: 'osha 1910.253',
    clause: '1910.253(b)(5)(i)',
  },
  {
    key: 'greasy work',
    severity: 'can kill',
    title: 'Grease and oil in the work burn or burst when the oxygen reaches them',
    action:
      'Degrease, drain and wipe out before lighting; take out grease fittings and open the galleries to let gas out. Stand clear of the openings. Keep an extinguisher for oil fires at hand and expect a second fire after the rod is out.',
    triggers: on('grease packed', 'oil'),
    source: 'osha 1910.252',
    clause: '1910.252(a)(3)',
  },
  {
    key: 'oxygen enrichment',
    severity: 'can kill',
    title: 'Most of the oxygen of a rod is not burnt: it enriches the air, clothing and hair',
    action:
      'Ventilate by fan, measure oxygen before and during the work, and stop above 23.5 percent. Shut the valve when no rod burns. Air out clothing that has taken up oxygen, in the open, before going near a flame.',
    triggers: [
      ...on('confined', 'indoors', { condition: 'oxygen', above: LIMITS.oxygenHigh.value }),
      { functions: ['BURN.AIR.OXYGEN', 'BURN.AIR.FRESH', 'BURN.AIR.RELEASE', 'BURN.AIR.RISE', 'BURN.AIR.CLEAR'] },
    ],
    source: 'osha 1910.146',
    clause: '1910.146(b), hazardous atmosphere',
    also: ['nfpa 53'],
  },
  {
    key: 'oxygen lack',
    severity: 'can kill',
    title: 'Air with less than 19.5 percent oxygen does not keep a person awake',
    action: 'Nobody goes in without supplied air, an attendant and a rescue plan. Find out what took the oxygen away.',
    triggers: on({ condition: 'oxygen', below: LIMITS.oxygenLow.value }),
    source: 'osha 1910.146',
    clause: '1910.146(b), hazardous atmosphere',
  },
  {
    key: 'oxygen is not air',
    severity: 'can kill',
    title: 'Never use oxygen to ventilate, cool, blow off dust or run tools',
    action: 'Use a fan or clean compressed air from its own source. Call it oxygen, never air.',
    triggers: [{ operations }, { functions: ['BURN.AIR', ...SUPPLY_FUNCTIONS] }],
    source: 'osha 1910.252',
    clause: '1910.252(c)(4)(v)',
  },
  {
    key: 'open valves slowly',
    severity: 'can injure',
    title: 'A valve opened fast heats the oxygen behind it and can set the regulator on fire',
    action:
      'Back off the regulator screw, stand to one side, crack the cylinder valve, then open it slowly by hand until the gauge stops, then fully.',
    triggers: [{ operations }, { functions: SUPPLY_FUNCTIONS }],
    source: 'osha 1910.253',
    clause: '1910.253(b)(5)(iii)',
    also: ['nfpa 53'],
  },
  {
    key: 'secure and cap cylinders',
    severity: 'can kill',
    title: 'A cylinder that falls can shear its valve and fly',
    action:
      'Chain cylinders upright to something that holds. Close the valve, take off the regulator and screw on the cap before moving one. Keep cylinders out of the way of drops, vehicles and falling parts.',
    triggers: [{ operations }, { functions: SUPPLY_FUNCTIONS }],
    source: 'osha 1910.253',
    clause: '1910.253(b)(2)(ii), (b)(2)(iv) and (b)(5)(ii)',
  },
  {
    key: 'hoisted cylinders',
    severity: 'can kill',
    title: 'A cylinder slung by its cap or by a magnet comes down',
    action:
      'Lift cylinders in a cradle or cage made for it, capped and without regulators; never by the cap, a sling or a magnet.',
    triggers: on('hoisted cylinders'),
    source: 'osha 1910.253',
    clause: '1910.253(b)(5)(ii)(A)',
  },
  {
    key: 'apart from fuel gas',
    severity: 'can kill',
    title: 'Oxygen stored beside fuel gas or combustibles feeds their fire',
    action:
      'Keep stored oxygen 20 ft from fuel gas, oil, grease and other combustibles, or behind a noncombustible barrier 5 ft high with half an hour of fire resistance.',
    triggers: [
      ...on('fuel gas', 'combustibles', { condition: 'separation', below: LIMITS.cylinderDistance.value }),
      { functions: SUPPLY_FUNCTIONS },
    ],
    source: 'osha 1910.253',
    clause: '1910.253(b)(4)(iii)',
  },
  {
    key: 'manifold limit',
    severity: 'can kill',
    title: 'More than 6000 cu ft of oxygen on one manifold needs a place of its own',
    action:
      'Split it into manifolds 50 ft apart or separated by a barrier, or put it outdoors or in a room of its own. Above 13,000 cu ft in service the rules for bulk oxygen apply.',
    triggers: [
      ...on({ condition: 'manifold', above: LIMITS.manifoldOxygen.value }),
      { functions: ['BURN.CYLINDER.LIMITS'] },
    ],
    source: 'osha 1910.253',
    clause: '1910.253(c)(2)',
    also: ['osha 1910.104'],
  },
  {
    key: 'leak test',
    severity: 'can injure',
    title: 'A leaking joint enriches the air where nobody looks',
    action:
      'Pressurise, then brush every joint with an oil-free leak test solution made for oxygen; never with a flame. Shut off, mend, test again. Look the hoses over for burns each time they are moved.',
    triggers: [{ operations }, { functions: SUPPLY_FUNCTIONS }],
    source: 'ansi z49.1',
    clause: 'hose and hose connections (from memory)',
  },
  {
    key: 'frozen gear',
    severity: 'can injure',
    title: 'In the cold valves and regulators ice up, hoses turn stiff and crack, batteries strike fewer rods',
    action:
      'Thaw with warm air or warm, not boiling, water, never a flame, and dry it. Do not pry frozen cylinders loose by valve or cap. Ask the makers how cold hose and regulator may be; warm them, and batteries, before use. Gauges read low without a leak.',
    triggers: on('cold weather'),
    source: 'michigan r 408.40723',
    clause: '(5)',
  },
  {
    key: 'cylinders outside',
    severity: 'can kill',
    title: 'Cylinders and a shut valve inside a confined space still leak into it',
    action:
      'Leave cylinders and power sources outside. At breaks, shut the oxygen off outside the space and, where it can be done, take holder and hose out.',
    triggers: on('confined'),
    source: 'osha 1910.252',
    clause: '1910.252(a)(4)(ii), (b)(4)(iii) and (b)(4)(vi)',
  },
  {
    key: 'long bar',
    severity: 'can injure',
    title: 'A long bar passes far more oxygen than a short rod and throws slag and flame farther',
    action:
      'Two people hold and feed it, a third stands at the valve. Clear more ground, work from behind a shield, and make sure that regulator and hose are made for the flow. Do not let it burn back to the holder: shut the oxygen first.',
    triggers: on('long bar'),
    source: 'common practice',
    clause: '',
  },
  {
    key: 'couplings',
    severity: 'can injure',
    title: 'A loose coupling leaks oxygen beside the burner, and the burning end can drop off',
    action:
      'Tighten every coupling, look for leaks before lighting, carry the string so that it does not bend, and shut the oxygen before the fire reaches a coupling.',
    triggers: on('coupled rods'),
    source: 'common practice',
    clause: '',
  },
];
