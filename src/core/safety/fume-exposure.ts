import type { Trace } from '../model/trace.ts';
import type { FumeRelease } from './fume-release.ts';
import { IRON_IN_OXIDE, LIMITS, isOut, type Limit } from './limits.ts';
import { roomFume, type FumeRoom } from './room-fume.ts';

/** A concentration beside the limit it is held against. */
export interface FumeFigure {
  readonly what: 'iron oxide' | 'iron' | 'manganese';
  /** [kg/m3] */
  readonly value: number;
  readonly limit: Limit;
  readonly exceeds: boolean;
}

/** Changes of air from which the working shows the closed form. */
const CLOSED_FORM = 0.1;

/**
 * Iron oxide and manganese in a room's air against the limits of 29 CFR 1910.1000 and the advice of NIOSH: iron
 * oxide over 8 hours (10 mg/m3), as iron (5), manganese at any time (5), over 15 minutes (3) and over 8 hours (1).
 *
 * Step symbols expected before: `G_Fe`, `G_Mn`, `V`, `Q`, `K`, `t`. See room-fume.ts for the air and fume-release.ts for what is given off. A figure under a limit says nothing of
 * the breathing zone, which is nearer to the work than the room's average is.
 */
export function fumeExposure(release: FumeRelease, room: FumeRoom, time: number, trace?: Trace): readonly FumeFigure[] {
  const oxide = roomFume(release.ironOxide, room, time);
  const manganese = roomFume(release.manganese, room, time);
  const figure = (what: FumeFigure['what'], value: number, limit: Limit): FumeFigure => ({
    what,
    value,
    limit,
    exceeds: isOut(value, limit),
  });
  const figures = [
    figure('iron oxide', oxide.eightHours, LIMITS.ironOxide),
    figure('iron', oxide.eightHours * IRON_IN_OXIDE, LIMITS.ironAdvised),
    figure('manganese', manganese.end, LIMITS.manganeseCeiling),
    figure('manganese', manganese.shortTerm, LIMITS.manganeseShort),
    figure('manganese', manganese.eightHours, LIMITS.manganeseAdvised),
  ];
  if (trace) {
    const changes = (room.freshAir * time) / (room.mixing * room.volume);
    trace.add({
      name: 'changes of air during the task',
      symbol: 'n_air',
      value: changes,
      quantity: 'ratio',
      formula: 'fresh air x time / (mixing factor x volume)',
      expression: 'Q * t / (K * V)',
      kind: 'calculated',
      source: 'arithmetic',
    });
    // Where little air is changed the closed form drowns in rounding, and the room was reckoned with its series.
    const closed = changes >= CLOSED_FORM;
    const add = (name: string, symbol: string, value: number, expression: string): void =>
      trace.add({
        name,
        symbol,
        value,
        quantity: 'concentration',
        formula: 'from the balance of a well-mixed room that starts clean',
        expression: closed ? expression : 'solve(G_Fe, G_Mn, Q, t, K, V)',
        kind: 'calculated',
        source: 'arithmetic',
      });
    const kept = (source: string, until: string): string =>
      `${source} * K / Q * (${until} - K * V / Q * (1 - exp(-Q * ${until} / (K * V))))`;
    add('iron oxide over 8 hours', 'C_Fe', oxide.eightHours, `${kept('G_Fe', 't')} / 28800`);
    add('manganese at the end of the task', 'C_Mn', manganese.end, 'G_Mn * K / Q * (1 - exp(-n_air))');
    add(
      'manganese over the worst 15 minutes',
      'C_15',
      manganese.shortTerm,
      `(${kept('G_Mn', 't')} - ${kept('G_Mn', 'max(0, t - 900)')}) / 900`,
    );
    add('manganese over 8 hours', 'C_8', manganese.eightHours, `${kept('G_Mn', 't')} / 28800`);
  }
  return figures;
}
