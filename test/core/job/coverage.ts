/** How often new jobs come out within their 80 % range after a fit, in logs simulated from the model itself. */
import { Assumptions, type Override } from '../../../src/core/assumptions/assumptions.ts';
import type { NumberName } from '../../../src/core/assumptions/registry.ts';
import { Basis } from '../../../src/core/basis.ts';
import { findRod } from '../../../src/core/burn/rods.ts';
import { logFit, type LogFit } from '../../../src/core/job/log-fit.ts';
import type { LogJob } from '../../../src/core/job/log-job.ts';
import { cooledBy, drawItem, drawnFactors } from '../../../src/core/operations/draw-item.ts';
import { ownScatter } from '../../../src/core/operations/own-scatter.ts';
import { DRAWS } from '../../../src/core/operations/spread-item.ts';
import { drawPercentiles } from '../../../src/core/spread/draw-percentile.ts';
import { johnson, johnsonQuantile } from '../../../src/core/spread/johnson.ts';
import { RANGE_OF, vouchedRanges } from '../../../src/core/job/vouched-ranges.ts';
import { seeded, type Seeded } from '../../../src/core/spread/seeded.ts';
import {
  IN,
  PIN,
  STEEL,
  basisWith,
  drawBurningWorld,
  randomPins,
  scattered,
  simulateLog,
  sizePin,
} from './simulated-log.ts';

export const FIGURES = ['oxygen', 'burning', 'crew'] as const;
export type Figure = (typeof FIGURES)[number];

/** The call of a function whose `assume` are the fitted rows, with those of the correlations or without. */
export function basisAfter({ factors, correlations }: LogFit, correlated = true): Basis {
  const rows = factors.map(({ name, range: { value, low, high } }): Override => ({
    name,
    value,
    low,
    high,
    kind: 'your log',
  }));
  return new Basis(Assumptions.from(rows).correlated(correlated ? correlations : []));
}

/** The basis with its ranges widened or narrowed by a log, whose jobs are sized on it first. */
export function basisVouched(jobs: readonly LogJob[], basis: Basis): Basis {
  const again = jobs.map((job): LogJob => {
    const { diameter, length } = job.sizing.planned;
    return { ...job, sizing: sizePin(diameter! / IN, length! / IN, undefined, basis) };
  });
  const rows = vouchedRanges(again, basis).flatMap(({ channel, by }): readonly Override[] =>
    by === undefined ? [] : [{ name: RANGE_OF[channel], value: by, low: by, high: by, kind: 'your log' }],
  );
  return new Basis(Assumptions.from(rows, basis.a));
}

/** All that a pin is drawn from, its own scatter left out. */
export function drawnOfPins({ a }: Basis): readonly NumberName[] {
  const names = ['3/8 x 36', '1/2 pipe'].flatMap((name) => drawnFactors(PIN, findRod(name).rod, STEEL, a));
  return [...new Set([...names, ...cooledBy(PIN, a)])];
}

export interface Coverage {
  readonly share: number;
  /** Standard error of the share; the new jobs of one log are taken together. */
  readonly error: number;
  /** Mean of ln high - ln low. */
  readonly width: number;
}

/**
 * Share of new pins inside their P10 to P90 on the bases `after` makes of a log and its fit. Each log has a world of its own, drawn from the
 * assumptions, and its new pins are done in that world; they cool as a plan in that world has it.
 *
 * @param odd what every job takes besides, times all that it should: what no model knows of
 */
export function coverage(
  { logs, jobs, fresh, seed }: { readonly [K in 'logs' | 'jobs' | 'fresh' | 'seed']: number },
  basis: Basis,
  after: Readonly<Record<string, (fit: () => LogFit, basis: Basis, jobs: readonly LogJob[]) => Basis>>,
  odd: (random: Seeded) => number = () => 1,
): ReadonlyMap<string, Readonly<Record<Figure, Coverage>>> {
  const names = drawnOfPins(basis);
  const scatter = johnson(basis.a.inForce('item scatter'));
  const ways = Object.keys(after);
  const tally = new Map(ways.map((way) => [way, FIGURES.map(() => ({ shares: [] as number[], width: 0 }))]));
  for (let i = 0; i < logs; i++) {
    const random = seeded(seed + i);
    const truth = drawBurningWorld(names, random, basis);
    const world = basisWith(truth);
    const log = simulateLog(randomPins(jobs, random), truth, random, undefined, basis, 'in its world').map(
      (job): LogJob => {
        const by = odd(random);
        const { rods, oxygen, burning, crew } = job.noted;
        return { ...job, noted: { rods, oxygen: oxygen! * by, burning: burning! * by, crew: crew! * by } };
      },
    );
    let made: LogFit | undefined;
    const fit = (): LogFit => (made ??= logFit(log, basis));
    const pins = randomPins(fresh, random).map((pin) => ({ ...pin, own: johnsonQuantile(scatter, random.uniform()) }));
    const oddities = pins.map(() => odd(random));
    for (const way of ways) {
      const fitted = after[way]!(fit, basis, log);
      const held = FIGURES.map(() => 0);
      pins.forEach(({ diameter, length, own }, n) => {
        const planned = sizePin(diameter, length, undefined, fitted);
        const draws = drawItem(planned, DRAWS, fitted, ownScatter(n, DRAWS, fitted));
        const happened = sizePin(diameter, length, planned.name, world);
        const took = scattered(happened, own, world, happened.cooling);
        const columns = { oxygen: draws.oxygen, burning: draws.burnTime, crew: draws.crewTime };
        const by = oddities[n]!;
        FIGURES.forEach((figure, f) => {
          const [low = NaN, high = NaN] = drawPercentiles(columns[figure], [0.1, 0.9]);
          if (took[figure] * by >= low && took[figure] * by <= high) held[f]!++;
          tally.get(way)![f]!.width += Math.log(high / low) / (logs * fresh);
        });
      });
      held.forEach((n, f) => tally.get(way)![f]!.shares.push(n / fresh));
    }
  }
  return new Map(
    ways.map((way) => {
      const of = ({ shares, width }: { readonly shares: readonly number[]; readonly width: number }): Coverage => {
        const share = shares.reduce((sum, x) => sum + x, 0) / logs;
        const variance = shares.reduce((sum, x) => sum + (x - share) ** 2, 0) / (logs - 1);
        return { share, error: Math.sqrt(variance / logs), width };
      };
      const [oxygen, burning, crew] = tally.get(way)!.map(of) as [Coverage, Coverage, Coverage];
      return [way, { oxygen, burning, crew }];
    }),
  );
}
