/** Process factors fitted to the user's own finished jobs. */
import { Assumptions, type Correlation, type InForce, type Override } from '../assumptions/assumptions.ts';
import type { NumberName, ReadNumber } from '../assumptions/registry.ts';
import { Basis } from '../basis.ts';
import { rodNames } from '../burn/rods.ts';
import { bayesUpdate, type BayesFit } from './bayes-update.ts';
import { cholesky, choleskySolve } from '../spread/cholesky.ts';
import { carriedRange, logMoments, type LogMoments, type Range } from './log-range.ts';
import { COOLED, COOLING_UNIT, HEAT, cooledBy, logCooling, longerOn, type CoolingCase } from './log-cooling.ts';
import { LONGER } from '../heat/cooling-draws.ts';
import { CHANNELS, HALF_ROD, isNoted, logNoted, type Channel, type LogJob } from './log-job.ts';
import { johnson, johnsonAt } from '../spread/johnson.ts';
import { normalQuantile } from '../spread/normal.ts';
import { jobPredictor, type PredictJobs } from './predict-jobs.ts';
import { coordinateOf } from '../spread/drawn-together.ts';
import { studentQuantile } from '../spread/student.ts';
import { SHARED, drawnFactors } from '../operations/draw-item.ts';

/** A shared pace of all crew times that do not depend on burning: what a log can tell of them. */
const PACE = 'pace of the crew';
type Fitted = NumberName | typeof PACE;
/** Equally likely paces that stand for all. */
const PACES = 256;

/** Lower end of a crew time's range in the logarithm, over its value, where the user lets it start at nothing. */
const LEAST_TIME = 1e-3;
/** Difference in ln of a job's own scatter. */
const OWN_STEP = 1e-3;
/** Change of a figure by one deviation of a factor under which the log is held to say nothing of it: it keeps its range. */
const NO_EFFECT = 0.005;
/** Share of the prior variance that a log must take away to have told anything of a factor. */
const KNOWS_NOTHING = 1e-3;
/** Scatter over that assumed from which the jobs are said to disagree. */
const DISAGREE = 1.5;
/** Smaller correlations are left out. */
const LEAST_CORRELATION = 0.03;
/** Burnt shares, one for each kind of rod. */
const BURNT: readonly NumberName[] = ['oxygen burnt share', 'bar oxygen burnt share'];
/** Coordinate of the crew's times. */
const PACED_BY = coordinateOf('set-up time');
/** Both ends of the range that is told with each factor: 80 percent. */
const UPPER = 0.9;

/**
 * What became of a factor: `fitted` to the jobs; `paced` along with the other fixed crew times; `held` at its value, its
 * range put on the fitted ones; `widened` by what is held; `kept` as it was.
 */
export type Role = 'fitted' | 'paced' | 'held' | 'widened' | 'kept';

/** One factor after the fit; SI. */
export interface FittedFactor {
  readonly name: NumberName;
  readonly range: Range;
  readonly role: Role;
  /** Jobs that note what it shows in. */
  readonly jobs: number;
  /** Deviation of its logarithm by its ends, so about its relative standard error; NaN of what may be 0. */
  readonly error: number;
}

/** How one job agrees with the fit. */
export interface JobFit {
  readonly job: LogJob;
  /** Noted over fitted. */
  readonly ratios: Readonly<Record<Channel, number | undefined>>;
  /** Weight in the fit: 1 is full. */
  readonly weight: number;
  /** Misfit in standard deviations of the scatter found. */
  readonly distance: number;
}

export interface LogFit {
  readonly factors: readonly FittedFactor[];
  readonly correlations: readonly Correlation[];
  readonly jobs: readonly JobFit[];
  /** Scatter found over the scatter assumed. */
  readonly scatter: number;
  readonly disagree: boolean;
  readonly converged: boolean;
}

/** Rods are noted whole: few of them say less of the length burned. Channels of the update by count, `upTo` in rising order. */
const ROD_GROUPS = [
  { upTo: 1, middle: 1 },
  { upTo: 2, middle: 2 },
  { upTo: 4, middle: 3.5 },
  { upTo: 8, middle: 6.5 },
  { upTo: Infinity, middle: Infinity },
] as const;
const UPDATE_CHANNELS = ROD_GROUPS.length + CHANNELS.length - 1;
/** Standard deviation of a number that is equally likely anywhere within 1: 1/sqrt(12). */
const UNIFORM = 1 / Math.sqrt(12);

/** Place of a job's figure among the channels of the update. */
function channelOf(channel: number, noted: number): number {
  if (channel > 0) return ROD_GROUPS.length + channel - 1;
  return ROD_GROUPS.findIndex((g) => noted <= g.upTo + 1e-9);
}

function scatters({ a }: Basis): readonly number[] {
  const own = a.value('log rods scatter');
  const rods = ROD_GROUPS.map(({ middle }) => Math.hypot(own, UNIFORM / (middle - HALF_ROD)));
  return [...rods, a.value('log oxygen scatter'), a.value('log burning scatter'), a.value('log crew scatter')];
}

const rangeOf = (name: NumberName, { a }: Basis): InForce => {
  const inForce = a.inForce(name);
  return { ...inForce, low: Math.max(inForce.low, LEAST_TIME * inForce.value) };
};
/** Moments of the logarithm of a factor's range in force. */
const momentsOf = (name: NumberName, basis: Basis): LogMoments =>
  basis.once(`log moments ${name}`, () => logMoments(rangeOf(name, basis)));
const isCertain = ({ low, high }: Range): boolean => !(high > low);

/** Mean and deviation of ln of the sum of the crew's fixed times, over its value: a crew that is slow at one is slow at all, as in the draws. */
function paceMoments(times: readonly NumberName[], { a }: Basis): LogMoments {
  const ranges = times.map((name) => johnson(a.inForce(name)));
  const value = ranges.reduce((sum, { range }) => sum + range.value, 0);
  const logs = Array.from({ length: PACES }, (_, i) => {
    const z = normalQuantile((i + 0.5) / PACES);
    return Math.log(ranges.reduce((sum, range) => sum + johnsonAt(range, z), 0) / value);
  });
  const mean = logs.reduce((sum, x) => sum + x, 0) / PACES;
  return { mean, deviation: Math.sqrt(logs.reduce((sum, x) => sum + (x - mean) ** 2, 0) / PACES) };
}

interface Model {
  readonly jobs: readonly LogJob[];
  readonly basis: Basis;
  readonly predict: PredictJobs;
  /** What the fit moves. */
  readonly fitted: readonly Fitted[];
  /** Their logarithms as assumed. */
  readonly centre: Float64Array;
  /** Middle of the item scatter. */
  readonly own: number;
}

/** ln predictions with the fitted factors at `u` and one further assumption changed. */
function predictAt(
  { jobs, basis, predict, fitted, own }: Model,
  u: Float64Array,
  changed?: { readonly name: NumberName; readonly value: number },
): Float64Array {
  const values = new Map<Fitted, number>(fitted.map((name, k) => [name, Math.exp(u[k] ?? NaN)]));
  const read: ReadNumber = (name) =>
    changed?.name === name ? changed.value : (values.get(name) ?? basis.a.value(name));
  const more = COOLING_UNIT * (u[fitted.indexOf(LONGER)] ?? 0);
  const times = Float64Array.from(jobs, (job) => job.sizing.cooling + more * cooledBy(job));
  return predict(read, own, values.get(PACE) ?? 1, times);
}

/** Mean change of each noted kind of figure between two predictions, over the jobs that note it. */
function meanChange({ jobs }: Model, from: Float64Array, to: Float64Array, channels: readonly number[]): Float64Array {
  return Float64Array.from(channels, (c) => {
    let [sum, n] = [0, 0];
    jobs.forEach((job, i) => {
      if (job.noted[CHANNELS[c] ?? 'rods'] === undefined) return;
      sum += (to[i * CHANNELS.length + c] ?? NaN) - (from[i * CHANNELS.length + c] ?? NaN);
      n++;
    });
    return sum / n;
  });
}

interface Held {
  readonly name: NumberName;
  readonly moments: LogMoments;
  /** Shift of each fitted factor that does to the jobs what one deviation of the held one does. */
  readonly shift: Float64Array;
}

/**
 * Factors that the log cannot tell from the fitted ones, with their effect put on these.
 *
 * A factor that every job depends on and that changes some figure by half a percent or more within one deviation is held at
 * its value; the fitted factors take over what it does: of all shifts x that change the noted figures alike on
 * average, M x = e, the likeliest, x = S M^T (M S M^T)^-1 e, S the prior variances.
 */
function holdOthers(model: Model, prior: readonly LogMoments[]): readonly Held[] {
  const { jobs, basis, fitted, centre } = model;
  const channels = CHANNELS.flatMap((c, i) => (jobs.some((job) => job.noted[c] !== undefined) ? [i] : []));
  const at = predictAt(model, centre);
  const step = 1e-3;
  const columns = fitted.map((_, k) => {
    const moved = Float64Array.from(centre);
    moved[k] = (moved[k] ?? NaN) + step;
    return meanChange(model, at, predictAt(model, moved), channels).map((d) => d / step);
  });
  const n = channels.length;
  const gram = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++)
      columns.forEach(
        (column, k) =>
          (gram[i * n + j] =
            (gram[i * n + j] ?? 0) + (column[i] ?? 0) * (column[j] ?? 0) * (prior[k]?.deviation ?? 0) ** 2),
      );
    gram[i * n + i] = (gram[i * n + i] ?? 0) * (1 + 1e-9) + 1e-12;
  }
  const triangle = cholesky(gram, n);
  const everywhere = jobs
    .map(({ operation, sizing }) => drawnFactors(operation, sizing.rod.rod, sizing.material, basis.a))
    .reduce((x, y) => x.filter((name) => y.includes(name)));
  const paced = model.fitted.includes(PACE) ? pacedTimes(jobs) : [];
  return everywhere.flatMap((name): readonly Held[] => {
    const range = rangeOf(name, basis);
    if (!triangle || fitted.includes(name) || paced.includes(name) || isCertain(range)) return [];
    const moments = momentsOf(name, basis);
    const value = Math.min(range.max, range.value * Math.exp(moments.deviation));
    const effect = meanChange(model, at, predictAt(model, centre, { name, value }), channels).map(
      (d) => d * (moments.deviation / Math.log(value / range.value)),
    );
    if (!effect.every(Number.isFinite) || effect.every((d) => Math.abs(d) < NO_EFFECT)) return [];
    const solved = choleskySolve(triangle, effect);
    const shift = Float64Array.from(
      columns,
      (column, k) => column.reduce((sum, d, i) => sum + d * (solved[i] ?? 0), 0) * (prior[k]?.deviation ?? 0) ** 2,
    );
    return [{ name, moments: { mean: moments.mean - Math.log(range.value), deviation: moments.deviation }, shift }];
  });
}

/** The crew's fixed times that the jobs of a log have. */
function pacedTimes(jobs: readonly LogJob[]): readonly NumberName[] {
  return [...new Set(jobs.flatMap(({ operation }) => operation.crewTimes))];
}

/** Prior moments with the ranges of held factors put on them; `shifts` are those of one fitted factor. */
function widened(
  own: LogMoments,
  shifts: readonly { readonly moments: LogMoments; readonly shift: number }[],
): LogMoments {
  let { mean } = own;
  let variance = own.deviation ** 2;
  for (const { moments, shift } of shifts) {
    mean += moments.deviation > 0 ? (shift * moments.mean) / moments.deviation : 0;
    variance += shift ** 2;
  }
  return { mean, deviation: Math.sqrt(variance) };
}

/** Jobs that note a figure in which a factor shows. */
function jobsFor(name: Fitted, jobs: readonly LogJob[]): number {
  const noting = (...channels: readonly Channel[]): number =>
    jobs.filter((job) => channels.some((c) => job.noted[c] !== undefined)).length;
  switch (name) {
    case 'rod feed ratio':
    case 'bar feed ratio':
      return jobs.filter((job) => job.noted.rods !== undefined && rodNames(job.sizing.rod.rod).feed === name).length;
    case 'oxygen burnt share':
    case 'bar oxygen burnt share':
      return jobs.filter((job) => rodNames(job.sizing.rod.rod).burnt === name && isNoted(job)).length;
    case 'flow factor':
      return noting('burning', 'crew');
    case 'burning duty':
    case PACE:
      return noting('crew');
    default:
      return noting(...CHANNELS);
  }
}

/**
 * Bayesian update of the process factors from a log of finished jobs, ranges in force as the prior.
 *
 * What a log can tell: rods over oxygen, the feed ratio; oxygen over the metal removed, the share of it that burns;
 * oxygen over burning minutes, the flow; crew minutes, the duty while burning and a common pace of the fixed times; deep
 * pierces, the limit of the advance. What acts on the noted figures in the same way as these (heat lost, slag
 * temperature, product, idle share, rod changes, and what the operation adds) is held at its value, and its range is put
 * on the fitted ones, so that the fit is neither surer nor less sure than before of what a job takes. The fit is
 * that of `bayesUpdate`: scatter shared by the figures of a job, as far as they rest on burning, is that of `item scatter`,
 * that of each figure the `log ... scatter`; both are scaled to what the jobs show. With no job everything stays as it is.
 *
 * Low and high of each factor follow its posterior deviation, widened for the number of jobs the scatter rests on
 * (Student's t). Rods of a kind or crew times that no job has keep their range, or are widened by what is held.
 */
export function logFit(all: readonly LogJob[], basis: Basis): LogFit {
  const { a } = basis;
  const jobs = all.filter(isNoted);
  const scatterMoments = momentsOf('item scatter', basis);
  const cases = logCooling(jobs, basis);
  const wanted = new Set<Fitted>([
    ...jobs.flatMap(({ sizing }) => [rodNames(sizing.rod.rod).burnt, rodNames(sizing.rod.rod).feed]),
    'flow factor',
    'burning duty',
    'advance limit',
    PACE,
    HEAT,
    ...(cases.length > 0 ? COOLED : []),
  ]);
  const ownMoments = (name: Fitted): LogMoments | undefined => {
    if (name === LONGER) return { mean: 0, deviation: 1 };
    if (name === PACE) {
      const moments = jobs.length > 0 ? paceMoments(pacedTimes(jobs), basis) : undefined;
      return moments && moments.deviation > 0 ? moments : undefined;
    }
    const range = rangeOf(name, basis);
    return isCertain(range) ? undefined : momentsOf(name, basis);
  };
  const fitted = jobs.length > 0 ? [...wanted].filter((name) => ownMoments(name) !== undefined) : [];
  const model: Model = {
    jobs,
    basis,
    fitted,
    predict: jobPredictor(jobs, basis),
    own: Math.exp(scatterMoments.mean),
    centre: Float64Array.from(fitted, (name) => (name === PACE || name === LONGER ? 0 : Math.log(a.value(name)))),
  };
  const own = fitted.map((name) => ownMoments(name) as LogMoments);
  const held = fitted.length > 0 ? holdOthers(model, own) : [];
  const prior = own.map((moments, k) =>
    widened(
      moments,
      held.map((h) => ({ moments: h.moments, shift: h.shift[k] ?? 0 })),
    ),
  );
  const size = fitted.length;
  /** Prior on a case of the cooling, or where there is none. */
  const fitOn = (one?: CoolingCase, start?: Float64Array): BayesFit => {
    const at = fitted.map((name) => (one ? COOLED.indexOf(name as NumberName) : -1));
    const deviations = own.map(
      ({ deviation }, k) => deviation * (at[k]! >= 0 ? Math.sqrt(one!.covariance[at[k]! * (COOLED.length + 1)]!) : 1),
    );
    const covariance = Float64Array.from({ length: size * size }, (_, i) => {
      const [j, k] = [Math.floor(i / size), i % size];
      const together = held.reduce((sum, { shift }) => sum + shift[j]! * shift[k]!, 0);
      return one && at[j]! >= 0 && at[k]! >= 0
        ? together + one.covariance[at[j]! * COOLED.length + at[k]!]! * own[j]!.deviation * own[k]!.deviation
        : together + correlationAssumed(fitted[j]!, fitted[k]!, a) * deviations[j]! * deviations[k]!;
    });
    const moments = prior.map(({ mean }, k) => ({
      mean: mean + (at[k]! >= 0 ? one!.mean[at[k]!]! * own[k]!.deviation : 0),
      deviation: Math.sqrt(covariance[k * (size + 1)]!),
    }));
    return update(model, moments, covariance, scatterMoments, start);
  };
  /** A fit for each case of the cooling, and the likeliest of them. */
  const fits: BayesFit[] = [];
  const likely: number[] = [];
  for (const one of size === 0 ? [] : cases.length > 0 ? cases : [undefined]) {
    const found = fitOn(one, fits.at(-1)?.mean);
    fits.push(found);
    likely.push(Math.log(one?.share ?? 1) + found.evidence);
  }
  const best = fits[likely.indexOf(Math.max(...likely))];
  const fit = best && mixed(best, fits, likely, fitted);
  const predicted = best && predictAt(model, best.mean);
  const factors = factorsAfter(model, own, prior, held, fit);
  const after = new Map<NumberName, Role>(factors.map(({ name, role }) => [name, role]));
  return {
    factors,
    correlations: [
      ...a.correlations.filter(({ names }) => !names.some((name) => after.get(name) !== 'kept' && after.has(name))),
      ...(fit ? correlationsAfter(fitted, pacedTimes(jobs), after, fit) : []),
    ],
    jobs: fit ? jobs.map((job, i) => jobFit(job, i, predicted!, fit)) : [],
    scatter: fit?.scatterScale ?? 1,
    disagree: (fit?.scatterScale ?? 1) > DISAGREE,
    converged: fit?.converged ?? true,
  };
}

/**
 * The fits to some cases as one, each as likely as the log makes it: mean and covariance over all of them, what else there is of the
 * best. Source: Gelman et al., Bayesian Data Analysis, 3rd edition, 7.4 (averaging by the evidence).
 */
function mixed(
  best: BayesFit,
  fits: readonly BayesFit[],
  likely: readonly number[],
  fitted: readonly Fitted[],
): BayesFit {
  const most = Math.max(...likely);
  const weights = likely.map((each) => Math.exp(each - most));
  const all = weights.reduce((sum, weight) => sum + weight, 0);
  const over = (of: (fit: BayesFit) => number): number =>
    fits.reduce((sum, fit, k) => sum + (weights[k]! / all) * of(fit), 0);
  const n = fitted.length;
  const mean = best.mean.map((_, i) => over((fit) => fit.mean[i]!));
  const covariance = best.covariance.map((_, k) => {
    const [i, j] = [Math.floor(k / n), k % n];
    return over((fit) => fit.covariance[k]! + (fit.mean[i]! - mean[i]!) * (fit.mean[j]! - mean[j]!));
  });
  const pace = fitted.indexOf(PACE);
  // Minutes make up for minutes.
  if (pace >= 0) mean[pace] = Math.log(over((fit) => Math.exp(fit.mean[pace]!)));
  return { ...best, mean, covariance };
}

/** What is assumed once the rows of a fit are. */
const assumedAfter = (factors: readonly FittedFactor[], a: Assumptions): Assumptions =>
  Assumptions.from(
    factors.map(({ name, range: { value, low, high } }): Override => ({ name, value, low, high, kind: 'your log' })),
    a,
  );

/** The correlation in force between two of the fitted. */
function correlationAssumed(x: Fitted, y: Fitted, { correlations }: Assumptions): number {
  if (x === y) return 1;
  const is = (name: NumberName, fitted: Fitted): boolean =>
    coordinateOf(name) === (fitted === PACE ? PACED_BY : fitted);
  const told = correlations.find(({ names: [p, q] }) => (is(p, x) && is(q, y)) || (is(p, y) && is(q, x)));
  return told?.value ?? 0;
}

const correlationIn = ({ covariance }: BayesFit, i: number, j: number, n: number): number =>
  covariance[i * n + j]! / Math.sqrt(covariance[i * n + i]! * covariance[j * n + j]!);

/** How the fitted factors go along with each other: what a log does not tell of each it may tell of what they do together. */
function correlationsAfter(
  fitted: readonly Fitted[],
  paced: readonly NumberName[],
  roles: ReadonlyMap<NumberName, Role>,
  fit: BayesFit,
): readonly Correlation[] {
  const n = fitted.length;
  const named = fitted.flatMap((name, k) => {
    const as = name === PACE ? paced.find((time) => roles.get(time) === 'paced') : name;
    return as === undefined || (roles.get(as) ?? 'kept') === 'kept' ? [] : [{ as, k }];
  });
  return named.flatMap((x, i) =>
    named.slice(i + 1).flatMap((y): readonly Correlation[] => {
      const r = correlationIn(fit, x.k, y.k, n);
      // Without one the crew's times and its duty would be drawn as one again.
      const apart = x.as === 'burning duty' && coordinateOf(y.as) === PACED_BY;
      return Math.abs(r) >= LEAST_CORRELATION || apart
        ? [{ names: [x.as, y.as], value: Number(r.toFixed(4)), kind: 'your log' }]
        : [];
    }),
  );
}

function update(
  model: Model,
  prior: readonly LogMoments[],
  covariance: Float64Array,
  scatter: LogMoments,
  start?: Float64Array,
): BayesFit {
  const { jobs, basis } = model;
  const observed = new Float64Array(jobs.length * UPDATE_CHANNELS).fill(NaN);
  // A job's own scatter is in what burns: of its crew time only the part that burning takes goes along.
  const [at, harder] = [model.own, model.own * Math.exp(OWN_STEP)].map((own) =>
    predictAt({ ...model, own }, model.centre),
  ) as [Float64Array, Float64Array];
  const shared = new Float64Array(observed.length);
  /** Where each predicted figure goes; -1 where nothing was noted. */
  const places = new Int32Array(jobs.length * CHANNELS.length).fill(-1);
  jobs.forEach((job, i) =>
    CHANNELS.forEach((channel, c) => {
      const noted = job.noted[channel];
      if (noted === undefined) return;
      const place = i * UPDATE_CHANNELS + channelOf(c, noted);
      places[i * CHANNELS.length + c] = place;
      observed[place] = logNoted(job, CHANNELS[c]!);
      const k = i * CHANNELS.length + c;
      shared[place] = ((harder[k]! - at[k]!) / OWN_STEP) * scatter.deviation;
    }),
  );
  return bayesUpdate({
    prior,
    covariance,
    start,
    observed,
    channels: UPDATE_CHANNELS,
    predict: (u, predicted) => {
      predictAt(model, u).forEach((value, i) => {
        const place = places[i] ?? -1;
        if (place >= 0) predicted[place] = value;
      });
    },
    scatter: scatters(basis),
    shared,
    scatterWorth: basis.a.value('log scatter worth'),
    trust: basis.a.value('log trust'),
  });
}

function jobFit(job: LogJob, i: number, predicted: Float64Array, fit: BayesFit): JobFit {
  const ratio = (c: number): number | undefined => {
    const r = Math.exp(logNoted(job, CHANNELS[c]!) - (predicted[i * CHANNELS.length + c] ?? NaN));
    return Number.isFinite(r) ? r : undefined;
  };
  const [rods, oxygen, burning, crew] = CHANNELS.map((_c, c) => ratio(c));
  return {
    job,
    ratios: { rods, oxygen, burning, crew },
    weight: fit.rows[i]?.weight ?? 1,
    distance: fit.rows[i]?.distance ?? 0,
  };
}

/** Every drawn factor after the fit, in a fixed order, then further held ones. */
function factorsAfter(
  model: Model,
  own: readonly LogMoments[],
  prior: readonly LogMoments[],
  held: readonly Held[],
  fit: BayesFit | undefined,
): readonly FittedFactor[] {
  const { jobs, basis, fitted } = model;
  const t = fit ? studentQuantile(UPPER, fit.degrees) / normalQuantile(UPPER) : 1;
  const after = (k: number): LogMoments => ({
    mean: fit?.mean[k] ?? NaN,
    deviation: t * Math.sqrt(fit?.covariance[k * fitted.length + k] ?? NaN),
  });
  const longer = fitted.indexOf(LONGER);
  const goesAlong = (k: number): boolean =>
    fit !== undefined && longer >= 0 && Math.abs(correlationIn(fit, k, longer, fitted.length)) >= LEAST_CORRELATION;
  /** Whether the log says anything of a factor. */
  const told = (k: number): boolean =>
    goesAlong(k) ||
    (fit?.covariance[k * fitted.length + k] ?? NaN) < (prior[k]?.deviation ?? NaN) ** 2 * (1 - KNOWS_NOTHING);
  const z = normalQuantile(UPPER);
  const plain = (name: NumberName, role: Role, range: Range, noted = 0): FittedFactor => ({
    name,
    role,
    jobs: noted,
    range,
    error: Math.log(range.high / Math.max(range.low, LEAST_TIME * range.value)) / (2 * z),
  });
  /** Its range moved and stretched as its moments are, within its limits. */
  const carried = (name: NumberName, role: Role, from: LogMoments, to: LogMoments, noted: number): FittedFactor => {
    const range = rangeOf(name, basis);
    const { low, value, high } = carriedRange(range, from, to);
    const held = (x: number): number => Math.min(Math.max(x, range.min), range.max);
    return plain(name, role, { low: held(low), value: held(value), high: held(high) }, noted);
  };
  const pace = fitted.indexOf(PACE);
  const paced = pace >= 0 ? pacedTimes(jobs) : [];
  const burnt = fitted.findIndex((name) => BURNT.includes(name as NumberName));
  const one = (name: NumberName): FittedFactor => {
    const k = fitted.indexOf(name);
    const range = rangeOf(name, basis);
    if (k >= 0) {
      const [from, to] = [own[k] as LogMoments, prior[k] as LogMoments];
      if (told(k)) return carried(name, 'fitted', from, after(k), jobsFor(name, jobs));
      return to.deviation > from.deviation * (1 + KNOWS_NOTHING)
        ? carried(name, 'widened', from, to, 0)
        : plain(name, 'kept', basisRange(name, basis));
    }
    if (paced.includes(name) && told(pace) && !isCertain(range)) {
      // The times of a crew keep their proportion: each moves and narrows as their sum does.
      const from = momentsOf(name, basis);
      const [before, now] = [own[pace]!, after(pace)];
      const deviation = from.deviation * (now.deviation / before.deviation);
      return carried(name, 'paced', from, { mean: from.mean + now.mean - before.mean, deviation }, jobsFor(PACE, jobs));
    }
    if (held.some((h) => h.name === name))
      return plain(name, 'held', { low: range.value, value: range.value, high: range.value });
    const stretched = (role: Role, by: number, noted: number): FittedFactor => {
      const from = momentsOf(name, basis);
      return carried(name, role, from, { mean: from.mean, deviation: from.deviation * by }, noted);
    };
    if (name === 'item scatter' && fit && !isCertain(range)) return stretched('fitted', fit.scatterScale, jobs.length);
    // What is held is missing for the other kind of rod too: its burnt share is widened as much as that which the jobs have.
    const wider = burnt >= 0 ? prior[burnt]!.deviation / own[burnt]!.deviation : 1;
    if (BURNT.includes(name) && wider > 1 && !isCertain(range)) return stretched('widened', wider, 0);
    return plain(name, 'kept', basisRange(name, basis));
  };
  const listed: readonly NumberName[] = [
    'oxygen burnt share',
    'rod feed ratio',
    'bar oxygen burnt share',
    'bar feed ratio',
    ...SHARED,
    'item scatter',
  ];
  const further = [...held.map((h) => h.name), ...paced].filter((name) => !listed.includes(name));
  const factors = [...listed, ...further].map(one);
  if (longer < 0 || !fit) return factors;
  // By how much more the jobs cool than on what is handed back.
  const { mean, deviation } = after(longer);
  const [before, now] = [basis.a, assumedAfter(factors, basis.a)];
  const duty = before.value('burning duty') / now.value('burning duty');
  const predicted = predictAt(model, fit.mean);
  const slower = new Map(
    jobs.map((job, i) => [
      job,
      (duty * Math.exp(predicted[i * CHANNELS.length + CHANNELS.indexOf('burning')]!)) / job.sizing.burnTime || 1,
    ]),
  );
  const middle = before.value(LONGER) + COOLING_UNIT * mean + longerOn(jobs, new Basis(now), slower);
  const at = (by: number): number => middle + by * z * COOLING_UNIT * deviation;
  const range = { low: at(-1), value: at(0), high: at(1) };
  return [...factors, { name: LONGER, role: 'fitted', range, jobs: jobsFor(PACE, jobs), error: NaN }];
}

const basisRange = (name: NumberName, { a }: Basis): Range => a.inForce(name);
