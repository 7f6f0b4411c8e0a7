import { assumed } from '../assumptions/assumed.ts';
import type { Assumptions } from '../assumptions/assumptions.ts';
import type { AssumptionName, NumberName } from '../assumptions/registry.ts';
import type { Step } from '../model/step.ts';

interface SiteNames {
  /** On the metal removed for the same oxygen and rod. */
  readonly removal?: NumberName;
  /** On the advance that slag allows. */
  readonly slag?: NumberName;
  /** On the time at the work. */
  readonly handling: readonly NumberName[];
}

const POSITIONS: Readonly<Record<string, SiteNames>> = {
  overhead: { removal: 'overhead removal', handling: ['overhead handling'] },
  'vertical down': { slag: 'downward slag', handling: ['downward handling'] },
  underwater: { removal: 'underwater removal', handling: ['underwater handling'] },
};

/** What decides a position's factors; that of the access besides slows the crew. */
export const POSITION: readonly AssumptionName[] = ['position', 'water depth'];

/** Whether the work is under water: by its position, or since it has a depth of water over it. */
export function underWater(a: Assumptions): boolean {
  return a.word('position') === 'underwater' || a.value('water depth') > 0;
}

function siteNames(a: Assumptions): SiteNames {
  const position = POSITIONS[underWater(a) ? 'underwater' : a.word('position')];
  const access: readonly NumberName[] = a.word('access') === 'tight' ? ['tight handling'] : [];
  return { ...position, handling: [...(position?.handling ?? []), ...access] };
}

/** The assumptions that position and access bring in. */
export function siteFactors(a: Assumptions): readonly NumberName[] {
  const { removal, slag, handling } = siteNames(a);
  return [...(removal ? [removal] : []), ...(slag ? [slag] : []), ...handling];
}

/**
 * How much slower position and access make the time at the work: the product of their factors.
 *
 * @example siteHandling(basis.a) // 1
 */
export const siteHandling = (a: Assumptions): number =>
  siteNames(a).handling.reduce((product, name) => product * a.value(name), 1);

/** What position and access add to the formulas: nothing where all is flat and in the open. */
export interface Site {
  readonly steps: readonly Step[];
  /** Factors, as ` * r_pos`, or ''. */
  readonly removal: string;
  readonly slag: string;
  readonly handling: string;
}

/**
 * Factors of position and access: overhead and under water less is removed, where slag must come up the pierce is
 * slower, and all of them and tight access slow the crew. Source: common practice, no source.
 */
export function siteOf(a: Assumptions): Site {
  const { removal, slag, handling } = siteNames(a);
  const product = handling.map((_, i) => ` * hand_${i + 1}`).join('');
  return {
    steps: [
      ...(removal ? [assumed('r_pos', removal)] : []),
      ...(slag ? [assumed('g_pos', slag)] : []),
      ...handling.map((name, i) => assumed(`hand_${i + 1}`, name)),
    ],
    removal: removal ? ' * r_pos' : '',
    slag: slag ? ' * g_pos' : '',
    handling: product,
  };
}
