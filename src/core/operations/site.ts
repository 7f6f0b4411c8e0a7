import type { Assumptions } from '../assumptions/assumptions.ts';
import type { NumberName, ReadNumber } from '../assumptions/registry.ts';
import type { Trace } from '../model/trace.ts';

/** What position and access make of the work; all 1 flat and in the open. */
export interface Site {
  /** On the metal removed for the same oxygen and rod. */
  readonly removal: number;
  /** On the advance that slag allows. */
  readonly slag: number;
  /** On the time at the work. */
  readonly handling: number;
}

interface SiteNames {
  readonly removal?: NumberName;
  readonly slag?: NumberName;
  readonly handling: readonly NumberName[];
}

const POSITIONS: Readonly<Record<string, SiteNames>> = {
  overhead: { removal: 'overhead removal', handling: ['overhead handling'] },
  'vertical down': { slag: 'downward slag', handling: ['downward handling'] },
  underwater: { removal: 'underwater removal', handling: ['underwater handling'] },
};

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
 * Factors of position and access: overhead and under water less is removed, where slag must come up the pierce is
 * slower, and all of them and tight access slow the crew. Source: common practice, no source.
 */
export function siteOf(a: Assumptions, read: ReadNumber): Site {
  const { removal, slag, handling } = siteNames(a);
  return {
    removal: removal ? read(removal) : 1,
    slag: slag ? read(slag) : 1,
    handling: handling.reduce((product, name) => product * read(name), 1),
  };
}

/** Records the factors in force and gives what they add to the expressions of the working: nothing where they are 1. */
export function recordSite(
  a: Assumptions,
  trace: Trace,
): { readonly removal: string; readonly slag: string; readonly handling: string } {
  const { removal, slag, handling } = siteNames(a);
  if (removal) a.record(removal, 'r_pos', trace);
  if (slag) a.record(slag, 'g_pos', trace);
  handling.forEach((name, i) => a.record(name, `hand_${i + 1}`, trace));
  return {
    removal: removal ? ' * r_pos' : '',
    slag: slag ? ' * g_pos' : '',
    handling: handling.map((_, i) => ` * hand_${i + 1}`).join(''),
  };
}
