import { calculated, entered, given, solved, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { work } from '../model/working.ts';
import { requireAbove, requireAtLeast } from './check.ts';

/** A room in which fume collects; as RoomAir, without the oxygen. */
export interface FumeRoom {
  /** V [m3] */
  readonly volume: number;
  /** Q [m3/s] */
  readonly freshAir: number;
  /** K, 1 or more */
  readonly mixing: number;
}

export interface RoomFume {
  /** At the end of the task, which is the highest [kg/m3]. */
  readonly end: number;
  /** Average over the task [kg/m3]. */
  readonly average: number;
  /** Highest average over 15 minutes; a shorter task is spread over 15 minutes [kg/m3]. */
  readonly shortTerm: number;
  /** Average over 8 hours with nothing before and after the task [kg/m3]. */
  readonly eightHours: number;
}

const SHORT_TERM = 15 * 60;
const SHIFT = 8 * 3600;
/** Changes of air up to which the closed forms drown in rounding, so that their series are taken. */
const CLOSED_FORM = 0.1;
const TERMS = 12;

/** Series of (1 - exp(-x)) / x, from 1, and of (1 - (1 - exp(-x)) / x) / x, from 2: the sum of (-x)^n / (n + from)!. */
function series(x: number, from: 1 | 2): number {
  let sum = 1;
  for (let n = TERMS; n > 0; n--) sum = 1 - (x / (n + from)) * sum;
  return sum / from;
}

/** Parts of a fume given off that the air still holds after some changes of air: at the end, and on average. */
const keptSteps = (end: string, mean: string, changes: string, until: string, closed: boolean): readonly Step[] => {
  const step = (symbol: string, name: string, from: 1 | 2, expression: string, words: string): Step =>
    closed
      ? calculated(symbol, name, 'ratio', expression, words)
      : solved(symbol, name, 'ratio', [changes], (x) => series(x, from), `${words}, by its series`, 'arithmetic');
  return [
    step(
      end,
      `part held at the end${until}`,
      1,
      `(1 - exp(-${changes})) / ${changes}`,
      '(1 - exp(-changes of air)) / changes of air',
    ),
    step(
      mean,
      `part held on average${until}`,
      2,
      `(1 - (1 - exp(-${changes})) / ${changes}) / ${changes}`,
      '(1 - (1 - exp(-changes of air)) / changes of air) / changes of air',
    ),
  ];
};

/** What the air of a room keeps of any fume. Steps before: `V`, `Q`, `K`, `t`, whose values the room and the time are. */
export function roomFumeSteps(room: FumeRoom, time: number): readonly Step[] {
  const closed = (t: number): boolean => (room.freshAir * t) / (room.mixing * room.volume) >= CLOSED_FORM;
  const [, average] = keptSteps('f_at', 'f_from', 'n_from', ' until the last 15 minutes', closed(time - SHORT_TERM));
  return [
    calculated(
      'n_air',
      'changes of air during the task',
      'ratio',
      'Q * t / (K * V)',
      'fresh air x time / (mixing factor x volume)',
    ),
    ...keptSteps('f_end', 'f_mean', 'n_air', '', closed(time)),
    entered('t_15', 'span of a short-term limit', 'time', SHORT_TERM, '15 minutes', 'published', 'niosh pocket guide'),
    entered('t_8', 'span of a limit over a shift', 'hours', SHIFT, '1910.1000(d)(1)(i)', 'published', 'osha 1910.1000'),
    calculated(
      't_from',
      'time until the last 15 minutes',
      'time',
      'max(0, t - t_15)',
      'time - 15 minutes, where that is more than 0',
    ),
    calculated(
      'n_from',
      'changes of air until then',
      'ratio',
      'Q * t_from / (K * V)',
      'fresh air x time until then / (mixing factor x volume)',
    ),
    average as Step,
  ];
}

const FIGURES = {
  end: { expression: (G: string) => `${G} * t / V * f_end`, words: 'given off x time / volume x part held at the end' },
  average: {
    expression: (G: string) => `${G} * t / V * f_mean`,
    words: 'given off x time / volume x part held on average',
  },
  shortTerm: {
    expression: (G: string) => `${G} / V * (t ^ 2 * f_mean - t_from ^ 2 * f_from) / t_15`,
    words:
      'given off / volume x (time squared x part held on average, less the same until the last 15 minutes) / 15 min',
  },
  eightHours: {
    expression: (G: string) => `${G} / V * t ^ 2 * f_mean / t_8`,
    words: 'given off / volume x time squared x part held on average / 8 hours',
  },
} as const satisfies Record<keyof RoomFume, unknown>;

/** A concentration of the fume whose rate the step `release` is. Steps before: those of `roomFumeSteps`. */
export const fumeFigureStep = (symbol: string, name: string, figure: keyof RoomFume, release: string): Step =>
  calculated(symbol, name, 'concentration', FIGURES[figure].expression(release), FIGURES[figure].words);

/** The room and the task, where they are given. */
export const fumeRoomGiven: readonly Step[] = [
  given('V', 'volume', 'volume'),
  given('Q', 'fresh air', 'airflow'),
  given('t', 'minutes', 'time'),
];

/** Refuses a room or a time that cannot be. */
export function requireFumeRoom(room: FumeRoom, time: number): void {
  requireAbove('volume', room.volume, 0, 'm3');
  requireAtLeast('fresh air', room.freshAir, 0, 'm3/s');
  requireAtLeast('mixing factor', room.mixing, 1);
  requireAtLeast('minutes', time, 0, 's');
}

/**
 * Concentration of a fume in a well-mixed room that starts clean, while a steady source gives it off.
 *
 *     V dC/dt = G - (Q/K) C,   C(t) = (G t / V) (1 - exp(-x)) / x,   x = Q t / (K V)
 *     average over the task = (G t / V) (1 - (1 - exp(-x)) / x) / x
 *
 * The averages of part of the task follow from the same integral. It is the room's average: the plume over the work
 * holds far more, and nothing settles.
 *
 * Source: mass balance; averaging over 8 hours as in 29 CFR 1910.1000(d)(1)(i).
 *
 * @example roomFume(1e-5, { volume: 300, freshAir: 0, mixing: 1 }, 3600).end * 1e6 // 120
 *
 * @param release G [kg/s]
 * @param room see FumeRoom
 * @param time of the task, t [s]
 */
export function roomFume(release: number, room: FumeRoom, time: number): RoomFume {
  requireAtLeast('fume', release, 0, 'kg/s');
  requireFumeRoom(room, time);
  const figures = Object.keys(FIGURES) as (keyof RoomFume)[];
  const list = new StepList(
    [
      given('G', 'given off', 'massRate'),
      ...fumeRoomGiven,
      given('K', 'air mixing factor', 'ratio'),
      ...roomFumeSteps(room, time),
      ...figures.map((figure) => fumeFigureStep(figure, figure, figure, 'G')),
    ],
    figures,
  );
  const at = work(list, { G: release, V: room.volume, Q: room.freshAir, t: time, K: room.mixing }).evaluation;
  return {
    end: at.number('end'),
    average: at.number('average'),
    shortTerm: at.number('shortTerm'),
    eightHours: at.number('eightHours'),
  };
}
