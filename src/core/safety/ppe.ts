import { on, type Trigger } from './caution.ts';
import type { Item } from './item.ts';
import { DOUBLE_PROTECTION } from './noise-rules.ts';
import { reasonsOf, type Applied } from './reasons.ts';

/** Something to wear, and against what. */
export interface PpeItem {
  readonly item: string;
  readonly against: string;
  /** What adds it. */
  readonly triggers: readonly Trigger[];
  readonly source: string;
  readonly clause: string;
}

/** Whatever the work. */
const ALWAYS: readonly Trigger[] = [{}];

/** What is worn; the employer's own assessment decides (29 CFR 1910.132(d)). */
export const PPE: readonly PpeItem[] = [
  {
    item: 'filter goggles or spectacles with side shields, shade by the thickness cut',
    against: 'glare, infra-red, particles',
    triggers: ALWAYS,
    source: 'osha 1910.133',
    clause: '1910.133(a)(1), (2) and (5)',
  },
  {
    item: 'face shield over them',
    against: 'slag and spatter',
    triggers: ALWAYS,
    source: 'osha 1910.133',
    clause: '1910.133(a)(1)',
  },
  {
    item: 'hard hat',
    against: 'falling parts, spatter on the head',
    triggers: ALWAYS,
    source: 'osha 1910.135',
    clause: '1910.135(a)',
  },
  {
    item: 'dry, oil-free leather or flame-resistant jacket closed at the neck, and trousers without cuffs over the boots',
    against: 'drops, burns',
    triggers: ALWAYS,
    source: 'osha 1910.252',
    clause: '1910.252(b)(3)',
  },
  {
    item: 'leather gauntlets, dry and free of oil',
    against: 'burns, shock',
    triggers: ALWAYS,
    source: 'ansi z49.1',
    clause: 'protective clothing (from memory)',
  },
  {
    item: 'leather cape with sleeves, or a shoulder cover',
    against: 'slag from overhead',
    triggers: on('overhead'),
    source: 'ansi z49.1',
    clause: 'protective clothing (from memory)',
  },
  {
    item: 'high leather boots with safety toe and spats',
    against: 'slag, falling parts',
    triggers: ALWAYS,
    source: 'osha 1910.136',
    clause: '1910.136(a)',
  },
  {
    item: 'ear plugs or ear muffs that do not burn or melt',
    against: 'noise, drops in the ear',
    triggers: ALWAYS,
    source: 'osha 1910.95',
    clause: '1910.95(i)',
  },
  {
    item: 'ear plugs and ear muffs together',
    against: 'noise above 100 dBA',
    triggers: on({ condition: 'noise', above: DOUBLE_PROTECTION.recommended.level }),
    source: 'niosh 98-126',
    clause: 'section on hearing protectors (from memory)',
  },
  {
    item: 'respirator chosen by a competent person within a programme',
    against: 'fume',
    triggers: [
      { operations: ['BREACH'] },
      ...on(
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
      ),
    ],
    source: 'osha 1910.134',
    clause: '1910.134(a) and (d)',
  },
  {
    item: 'supplied-air respirator',
    against: 'cadmium and beryllium fume',
    triggers: on('cadmium', 'beryllium copper'),
    source: 'osha 1910.252',
    clause: '1910.252(c)(8) and (c)(9)',
  },
  {
    item: 'harness with a lanyard that does not burn through',
    against: 'falls',
    triggers: on('height'),
    source: 'osha 1910.28',
    clause: '1910.28(b)(1)',
  },
  {
    item: 'harness and lifeline to the attendant',
    against: 'being overcome in a confined space',
    triggers: on('confined'),
    source: 'osha 1910.252',
    clause: '1910.252(b)(4)(iv)',
  },
  {
    item: 'insulating gloves under the leather, insulating footing',
    against: 'shock',
    triggers: on('wet', 'grounded work', 'welding machine', 'splash zone', 'underwater'),
    source: 'osha 1910.254',
    clause: '1910.254(d)',
  },
];

/** Something to wear with what asks for it. */
export type WornItem = Applied<PpeItem>;

/** What to wear for an item, or for several together, each once. Every list of what to wear comes from here. */
export function wearFor(items: Item | readonly Item[]): readonly WornItem[] {
  return reasonsOf(PPE, [items].flat()).map((worn) =>
    worn.triggers === ALWAYS ? { ...worn, because: 'every burn' } : worn,
  );
}
