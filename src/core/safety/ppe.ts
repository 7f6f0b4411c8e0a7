import { parseConditions, type ConditionName } from './conditions.ts';
import type { UnitSystem } from '../units/quantities.ts';

/** Something to wear, and against what. */
export interface PpeItem {
  readonly item: string;
  readonly against: string;
  /** Conditions under which it is added; absent where it is always worn. */
  readonly when?: readonly ConditionName[];
  readonly source: string;
  readonly clause: string;
}

/** What is worn; the employer's own assessment decides (29 CFR 1910.132(d)). */
export const PPE: readonly PpeItem[] = [
  {
    item: 'filter goggles or spectacles with side shields, shade by the thickness cut',
    against: 'glare, infra-red, particles',
    source: 'osha 1910.133',
    clause: '1910.133(a)(1), (2) and (5)',
  },
  { item: 'face shield over them', against: 'slag and spatter', source: 'osha 1910.133', clause: '1910.133(a)(1)' },
  { item: 'hard hat', against: 'falling parts, spatter on the head', source: 'osha 1910.135', clause: '1910.135(a)' },
  {
    item: 'dry, oil-free leather or flame-resistant jacket closed at the neck, and trousers without cuffs over the boots',
    against: 'drops, burns',
    source: 'osha 1910.252',
    clause: '1910.252(b)(3)',
  },
  {
    item: 'leather gauntlets, dry and free of oil',
    against: 'burns, shock',
    source: 'ansi z49.1',
    clause: 'protective clothing (from memory)',
  },
  {
    item: 'high leather boots with safety toe and spats',
    against: 'slag, falling parts',
    source: 'osha 1910.136',
    clause: '1910.136(a)',
  },
  {
    item: 'ear plugs or ear muffs that do not burn or melt',
    against: 'noise, drops in the ear',
    source: 'osha 1910.95',
    clause: '1910.95(i)',
  },
  {
    item: 'respirator chosen by a competent person within a programme',
    against: 'fume',
    when: [
      'indoors',
      'confined',
      'galvanised',
      'lead paint',
      'paint',
      'stainless',
      'manganese steel',
      'concrete',
      'polymer bushing',
      'iron oxide',
      'manganese fume',
    ],
    source: 'osha 1910.134',
    clause: '1910.134(a) and (d)',
  },
  {
    item: 'supplied-air respirator',
    against: 'cadmium and beryllium fume',
    when: ['cadmium', 'beryllium copper'],
    source: 'osha 1910.252',
    clause: '1910.252(c)(8) and (c)(9)',
  },
  {
    item: 'harness with a lanyard that does not burn through',
    against: 'falls',
    when: ['height'],
    source: 'osha 1910.28',
    clause: '1910.28(b)(1)',
  },
  {
    item: 'harness and lifeline to the attendant',
    against: 'being overcome in a confined space',
    when: ['confined'],
    source: 'osha 1910.252',
    clause: '1910.252(b)(4)(iv)',
  },
  {
    item: 'insulating gloves under the leather, insulating footing',
    against: 'shock',
    when: ['wet', 'grounded work', 'welding machine', 'splash zone', 'underwater'],
    source: 'osha 1910.254',
    clause: '1910.254(d)',
  },
];

/** What to wear under the conditions typed; see conditions.ts for the words. */
export function ppeFor(conditions: readonly string[], system: UnitSystem = 'US'): readonly PpeItem[] {
  const names = new Set(parseConditions(conditions, system).map((c) => c.name));
  return PPE.filter((p) => !p.when || p.when.some((name) => names.has(name)));
}
