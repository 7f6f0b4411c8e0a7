import { requireAtLeast } from './check.ts';

export interface MachineSetting {
  /** Whether the setting is above the limit. */
  readonly exceeds: boolean;
  /** Highest setting [A]. */
  readonly limit: number;
}

/**
 * A welding machine's setting against the highest for short rods. The limit is the assumption `short rod current`
 * (150 A; common practice, no source): above it the rod melts off rather than burns.
 *
 * @param setting [A]
 * @param limit [A]
 */
export function machineSetting(setting: number, limit: number): MachineSetting {
  requireAtLeast('setting', setting, 0, 'A');
  requireAtLeast('short rod current', limit, 0, 'A');
  return { exceeds: setting > limit, limit };
}

/** How the work is wired and where it is. */
export interface RodWiring {
  /** The work is connected to the return of the power source. */
  readonly grounded: boolean;
  /** Current stays on while the rod burns. */
  readonly arc: boolean;
  readonly underwater: boolean;
}

export interface RodCover {
  readonly cover: 'bare' | 'insulated';
  readonly reason: string;
}

/**
 * Whether a rod has to be insulated: where the work is grounded, the current stays on or the work is under water, a
 * bare rod strikes an arc on the side of the hole. Common practice, no source.
 */
export function rodCover({ grounded, arc, underwater }: RodWiring): RodCover {
  const why = [
    ...(grounded ? ['the work is grounded'] : []),
    ...(arc ? ['the current stays on while it burns'] : []),
    ...(underwater ? ['it is used under water'] : []),
  ];
  return why.length > 0
    ? { cover: 'insulated', reason: `${why.join(' and ')}: a bare rod would arc on the side of the hole` }
    : { cover: 'bare', reason: 'it is lit on a striker plate away from the work, and carries no current afterwards' };
}
