import { calculated, entered, given, type Step } from '../model/step.ts';
import type { Evaluation } from '../model/evaluation.ts';
import { StepList } from '../model/step-list.ts';
import { work } from '../model/working.ts';
import { requireAtLeast } from './check.ts';
import type { FumeRelease } from './fume-release.ts';
import { IRON_IN_OXIDE, LIMITS, isOut, type Limit } from './limits.ts';
import { fumeFigureStep, fumeRoomGiven, requireFumeRoom, roomFumeSteps, type FumeRoom } from './room-fume.ts';

/** A concentration beside the limit it is held against. */
export interface FumeFigure {
  readonly what: 'iron oxide' | 'iron' | 'manganese';
  /** [kg/m3] */
  readonly value: number;
  readonly limit: Limit;
  readonly exceeds: boolean;
}

const FIGURES = [
  ['C_Fe', 'iron oxide', LIMITS.ironOxide],
  ['C_iron', 'iron', LIMITS.ironAdvised],
  ['C_Mn', 'manganese', LIMITS.manganeseCeiling],
  ['C_15', 'manganese', LIMITS.manganeseShort],
  ['C_8', 'manganese', LIMITS.manganeseAdvised],
] as const;

/** The figures' steps. */
export const EXPOSURE_RESULTS: readonly string[] = FIGURES.map(([symbol]) => symbol);

/** Iron oxide and manganese in a room's air. Steps before: `G_Fe`, `G_Mn`, `V`, `Q`, `t`, `K`. */
export function exposureSteps(room: FumeRoom, time: number): readonly Step[] {
  requireFumeRoom(room, time);
  return [
    ...roomFumeSteps(room, time),
    fumeFigureStep('C_Fe', 'iron oxide over 8 hours', 'eightHours', 'G_Fe'),
    entered(
      'w_Fe',
      'iron in iron oxide',
      'ratio',
      IRON_IN_OXIDE,
      'of Fe2O3, by mass: 2 x 55.845 / (2 x 55.845 + 3 x 15.999)',
      'published',
      'iupac atomic weights',
    ),
    calculated('C_iron', 'iron over 8 hours', 'concentration', 'w_Fe * C_Fe', 'iron in iron oxide x iron oxide'),
    fumeFigureStep('C_Mn', 'manganese at the end of the task', 'end', 'G_Mn'),
    fumeFigureStep('C_15', 'manganese over the worst 15 minutes', 'shortTerm', 'G_Mn'),
    fumeFigureStep('C_8', 'manganese over 8 hours', 'eightHours', 'G_Mn'),
  ];
}

/** The figures of an evaluation that has these steps, each beside its limit. */
export const exposureFigures = (at: Evaluation): readonly FumeFigure[] =>
  FIGURES.map(([symbol, what, limit]) => {
    const value = at.number(symbol);
    return { what, value, limit, exceeds: isOut(value, limit) };
  });

/**
 * Iron oxide and manganese in a room's air against the limits of 29 CFR 1910.1000 and the advice of NIOSH: iron
 * oxide over 8 hours (10 mg/m3), as iron (5), manganese at any time (5), over 15 minutes (3) and over 8 hours (1).
 *
 * See room-fume.ts for the air and fume-release.ts for what is given off. A figure under a limit says nothing of
 * the breathing zone, which is nearer to the work than the room's average is.
 * Example: 100 mg of oxide a minute for an hour in a closed room of 300 m3, over 8 hours.
 * @example fumeExposure({ fume: 0, ironOxide: 1e-4 / 60, manganese: 0 }, { volume: 300, freshAir: 0, mixing: 1 },
 *   3600)[0].value * 1e6 // 1.25
 */
export function fumeExposure(release: FumeRelease, room: FumeRoom, time: number): readonly FumeFigure[] {
  requireAtLeast('fume', release.ironOxide, 0, 'kg/s');
  requireAtLeast('fume', release.manganese, 0, 'kg/s');
  const list = new StepList(
    [
      given('G_Mn', 'manganese in the fume', 'massRate'),
      given('G_Fe', 'iron oxide in the fume', 'massRate'),
      ...fumeRoomGiven,
      given('K', 'air mixing factor', 'ratio'),
      ...exposureSteps(room, time),
    ],
    EXPOSURE_RESULTS,
  );
  const values = { V: room.volume, Q: room.freshAir, t: time, K: room.mixing };
  return exposureFigures(work(list, { G_Fe: release.ironOxide, G_Mn: release.manganese, ...values }).evaluation);
}
