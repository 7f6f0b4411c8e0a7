import type { NumberName } from '../assumptions/registry.ts';
import type { Basis } from '../basis.ts';
import { burnProcess, type BurnProcess } from '../burn/burn-process.ts';
import type { Material } from '../burn/materials.ts';
import type { Rod } from '../burn/rods.ts';
import { drawsOf, pertDraws, type Draws } from '../estimate/draws.ts';
import { percentileOfSorted } from '../estimate/percentile.ts';
import { CalcError } from '../errors.ts';
import { burnNames, consume } from './consumption.ts';
import type { Operation } from './operation.ts';
import { rodsFor, wholeUp } from './rod-fit.ts';
import type { Sizing } from './size-item.ts';

/** Draws for each estimate: a power of two, converged to 1 % of the value. */
export const DRAWS = 256;
const SEED = 20261125;

/** Low (P10) and high (P90) of one item; SI, rods whole. */
export interface Spread {
  readonly lowOxygen: number;
  readonly highOxygen: number;
  readonly lowRods: number;
  readonly highRods: number;
  readonly lowCrewTime: number;
  readonly highCrewTime: number;
}

/** Factors that all items of a call share: the same crew, the same gas, the same rods. */
const SHARED = [
  'product FeO share', 'heat lost share', 'slag temperature', 'advance limit', 'advance depth', 'pierce width', 'idle oxygen share',
  'burning duty', 'rod change time', 'set-up time', 'plate time', 'push-out time', 'clean-up time',
] as const satisfies readonly NumberName[];

function draws(rod: Rod, { a, once }: Basis): Draws {
  const names = burnNames(rod);
  return once(`draws ${rod.kind}`, () =>
    pertDraws(
      [...SHARED, names.feed, names.burnt, 'item scatter' as const].map((name) => {
        const { low, value, high } = a.inForce(name);
        return { name, low, likely: value, high };
      }),
      DRAWS,
      SEED,
    ),
  );
}

/** The heat balance of each draw; undefined where nothing is left to remove the work. */
function processes(rod: Rod, material: Material, basis: Basis): readonly (BurnProcess | undefined)[] {
  return basis.once(`processes ${rod.kind} ${material.name}`, () => {
    const all = draws(rod, basis);
    const names = burnNames(rod);
    const [feed, burnt, monoxide, lost, slag] = [names.feed, names.burnt, 'product FeO share', 'heat lost share', 'slag temperature'].map((n) => drawsOf(all, n));
    return Array.from({ length: all.count }, (_, i) => {
      const slagTemperature = slag?.[i] ?? NaN;
      try {
        return burnProcess({
          feedRatio: feed?.[i] ?? NaN, oxygenBurnt: burnt?.[i] ?? NaN, monoxideShare: monoxide?.[i] ?? NaN, heatLost: lost?.[i] ?? NaN,
          slagTemperature, workHeat: material.heat(slagTemperature), workBurns: material.burns, workName: material.name,
        });
      } catch (e) {
        if (e instanceof CalcError) return undefined;
        throw e;
      }
    });
  });
}

/**
 * How far one item may depart: P10 and P90 of oxygen, rods and crew time over quasi-random PERT draws of the
 * process factors with the item's own scatter. Flow and rod stay as planned. A draw in which the heat does not
 * suffice counts as more than any other; where more than a tenth do, the high is Infinity.
 */
export function spreadItem<G extends string>(operation: Operation<G>, sizing: Sizing, basis: Basis): Spread {
  const { rod, material, flow } = sizing;
  const all = draws(rod.rod, basis);
  const balance = processes(rod.rod, material, basis);
  const column = (name: NumberName): Float64Array => basis.once(`column ${rod.rod.kind} ${name}`, () => drawsOf(all, name));
  const [limit, depths, width, idle, duty, change, scatter] = (
    ['advance limit', 'advance depth', 'pierce width', 'idle oxygen share', 'burning duty', 'rod change time', 'item scatter'] as const
  ).map(column) as [Float64Array, Float64Array, Float64Array, Float64Array, Float64Array, Float64Array, Float64Array];
  const fixed = basis.once(`fixed ${operation.id} ${rod.rod.kind}`, () =>
    Float64Array.from({ length: all.count }, (_, i) => operation.crewTimes.reduce((sum, name) => sum + (SHARED.includes(name as never) ? (column(name)[i] ?? 0) : basis.a.value(name)), 0)),
  );
  const planned = sizing.planned as Readonly<Record<G, number>>;
  const cooling = operation.cooling?.(planned, basis) ?? 0;
  const lightingTime = basis.a.value('lighting time');
  const oxygen = new Float64Array(all.count);
  const rods = new Float64Array(all.count);
  const crew = new Float64Array(all.count);
  for (let i = 0; i < all.count; i++) {
    const process = balance[i];
    if (!process) {
      oxygen[i] = rods[i] = crew[i] = Infinity;
      continue;
    }
    const work = operation.work(planned, rod.rod, width[i] as number, basis.a);
    const own = scatter[i] as number;
    const idleShare = idle[i] as number;
    const used = consume(work, rod.rod, flow, material.density, { process, advanceLimit: limit[i] as number, advanceDepth: depths[i] as number, idleShare, lightingTime });
    const count = wholeUp(rodsFor(used.consumed * own, rod, work.reach, basis));
    rods[i] = count;
    oxygen[i] = used.burnOxygen * own * (1 + idleShare) + count * flow * lightingTime;
    crew[i] = (fixed[i] as number) + cooling + (used.burnTime * own) / (duty[i] as number) + count * (change[i] as number);
  }
  const range = (values: Float64Array): readonly [number, number] => {
    values.sort();
    return [percentileOfSorted(values, 0.1), percentileOfSorted(values, 0.9)];
  };
  const [lowOxygen, highOxygen] = range(oxygen);
  const [lowRods, highRods] = range(rods);
  const [lowCrewTime, highCrewTime] = range(crew);
  return { lowOxygen, highOxygen, lowRods: Math.floor(lowRods + 1e-9), highRods: Number.isFinite(highRods) ? Math.ceil(highRods - 1e-9) : highRods, lowCrewTime, highCrewTime };
}
