import { on, type Caution } from './caution.ts';
import { DOUBLE_PROTECTION, findNoiseRule } from './noise-rules.ts';
import { OPERATION_IDS } from '../operations/all.ts';
import { FOOT } from '../units/quantities.ts';

const operations = OPERATION_IDS;

/** Eyes, ears, skin, falls, and who may do the work. */
export const PEOPLE_CAUTIONS: readonly Caution[] = [
  {
    key: 'permit',
    severity: 'can kill',
    title: 'Hot work is done by permit, by trained people',
    action:
      "Follow local codes, the employer's hot work permit and the instructions of the makers of the equipment; where they ask for more than is written here, they hold. Qualified people decide.",
    triggers: [{ operations }, { functions: ['BURN.JOB', 'BURN.SPREAD', 'BURN.ROD'] }],
    source: 'osha 1910.252',
    clause: '1910.252(a)(2)(iv), (xiii) and (xiv)',
  },
  {
    key: 'eyes and skin',
    severity: 'can injure',
    title: 'The burn is bright enough to harm eyes and skin, and throws particles',
    action:
      'Filter shade by the thickness cut as the least, face shield over side-shielded goggles, no bare skin. Screen the work so that nobody else looks into it.',
    triggers: [{ operations }, { functions: ['BURN.EYE'] }],
    source: 'osha 1910.133',
    clause: '1910.133(a)(1) to (5)',
  },
  {
    key: 'clothing',
    severity: 'can injure',
    title: 'Ordinary clothing catches fire',
    action:
      'Dry, oil-free leather or flame-resistant clothing from neck to boots, leather gauntlets, trousers over boots, no cuffs, no synthetics, no lighters.',
    triggers: [{ operations }],
    source: 'osha 1910.252',
    clause: '1910.252(b)(3)',
  },
  {
    key: 'noise',
    severity: 'can injure',
    title: 'Short-rod work averages about 92 dBA',
    action:
      'Wear ear plugs or muffs, and work out the dose of the shift. The 92 dBA is common practice without a source: measure.',
    triggers: [{ operations }, ...on({ condition: 'noise', atLeast: 85 }), { functions: ['BURN.NOISE'] }],
    source: 'osha 1910.95',
    clause: '1910.95(b), (c) and (i)',
  },
  {
    key: 'double hearing protection',
    severity: 'can injure',
    title: 'Above 100 dBA for a shift one protector is not enough',
    action: 'Wear plugs and muffs together, and shorten the exposure.',
    triggers: on({ condition: 'noise', above: DOUBLE_PROTECTION.recommended.level }),
    source: 'niosh 98-126',
    clause: 'section on hearing protectors (from memory)',
  },
  {
    key: 'noise above the table',
    severity: 'can injure',
    title: 'Above 115 dBA no time is allowed without protectors',
    action:
      'The hours that the formula gives there are for adding up a dose only. Keep out, quieten the work, or wear plugs and muffs together.',
    triggers: on({ condition: 'noise', above: findNoiseRule('OSHA').highest }),
    source: 'osha 1910.95',
    clause: 'Table G-16, which ends at 115 dBA',
  },
  {
    key: 'hot metal',
    severity: 'can injure',
    title: 'Metal looks cold long before it is',
    action:
      'Mark hot work, slag and stubs; keep people off until measured cool. Do not trust the computed cooling time without a thermometer.',
    triggers: [{ operations }, { functions: ['BURN.COOL'] }],
    source: 'osha 1910.252',
    clause: '1910.252(b)(4)(vii)',
  },
  {
    key: 'fall',
    severity: 'can kill',
    title: 'A fall from 4 ft or more',
    action:
      'Guardrails, platform or personal fall arrest whose lanyard cannot burn through. Nobody burns from a ladder.',
    triggers: on({ condition: 'height', atLeast: 4 * FOOT }),
    source: 'osha 1910.28',
    clause: '1910.28(b)(1)',
  },
  {
    key: 'alone',
    severity: 'can kill',
    title: 'Nobody to shut the valve',
    action:
      'Never burn alone: a second person stands at the cylinder valve, in sight of the operator, and knows how to call for help.',
    triggers: on('alone'),
    source: 'common practice',
    clause: '',
  },
  {
    key: 'heat strain',
    severity: 'can injure',
    title: 'Heat strain in heavy clothing',
    action: 'Shade, water, breaks and somebody who watches for signs of it; shorten the turns.',
    triggers: on('hot weather'),
    source: 'common practice',
    clause: '',
  },
  {
    key: 'cold stress',
    severity: 'can injure',
    title: 'Cold and wind freeze skin and slow the hands; bare skin sticks to cold metal',
    action:
      'Warm breaks in a heated place, dry gloves and liners, nobody alone: look at one another for white skin and shivering. No bare hands on metal.',
    triggers: on('cold weather'),
    source: 'osha cold stress',
    clause: 'general duty, 29 USC 654(a)(1)',
  },
  {
    key: 'thin air',
    severity: 'can injure',
    title: 'Thin air tires people, and the same percent of oxygen in it is less oxygen',
    action:
      'Give newcomers days to get used to it, plan more hands and shorter turns, and bring down whoever has headache and dizziness. Set oxygen meters for the height as their maker says.',
    triggers: on('high altitude'),
    source: 'common practice',
    clause: '',
  },
];
