import { requireAtLeast } from './check.ts';
import { LIMITS, isOut, type Limit } from './limits.ts';

export interface ManifoldCheck {
  /** Oxygen connected to the manifold [kg]. */
  readonly connected: number;
  /** Oxygen connected and in reserve on the site [kg]. */
  readonly site: number;
  /** Limits it passes, each with what is then due. */
  readonly over: readonly { readonly limit: Limit; readonly due: string }[];
}

/**
 * Oxygen on a manifold and on the site against the limits of 29 CFR 1910.253(c)(2) and 1910.104(b)(1): 6000 cu ft on
 * one manifold indoors, 13,000 in service or 25,000 with reserves before the rules for bulk oxygen apply.
 *
 * The standards count cubic feet at 70 F and 14.7 psia, which is the scf used here.
 *
 * @param cylinders connected to one manifold
 * @param content of one cylinder [kg of oxygen]
 * @param reserve of oxygen on the site, not connected [kg]
 */
export function manifoldLimits(cylinders: number, content: number, reserve = 0): ManifoldCheck {
  requireAtLeast('cylinders', cylinders, 0);
  requireAtLeast('content', content, 0, 'kg');
  requireAtLeast('reserve', reserve, 0, 'kg');
  const connected = cylinders * content;
  const site = connected + reserve;
  const due: readonly (readonly [number, Limit, string])[] = [
    [
      connected,
      LIMITS.manifoldOxygen,
      'place the manifold outdoors or in a separate noncombustible building, or indoors in a room with half an hour of fire resistance or with nothing combustible within 20 ft; or split it into manifolds at least 50 ft apart',
    ],
    [connected, LIMITS.bulkConnected, 'the rules for bulk oxygen systems apply'],
    [site, LIMITS.bulkWithReserve, 'the rules for bulk oxygen systems apply'],
  ];
  return {
    connected,
    site,
    over: due.filter(([amount, limit]) => isOut(amount, limit)).map(([, limit, what]) => ({ limit, due: what })),
  };
}
