import type { Trace } from '../trace/trace.ts';
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

/**
 * Iron oxide and manganese in a room's air against the limits of 29 CFR 1910.1000 and the advice of NIOSH: iron
 * oxide over 8 hours (10 mg/m3), as iron (5), manganese at any time (5), over 15 minutes (3) and over 8 hours (1).
 *
 * See room-fume.ts for the air and fume-release.ts for what is given off. A figure under a limit says nothing of
 * the breathing zone, which is nearer to the work than the room's average is.
 */
export function fumeExposure(release: FumeRelease, room: FumeRoom, time: number, trace?: Trace): readonly FumeFigure[] {
  const oxide = roomFume(release.ironOxide, room, time);
  const manganese = roomFume(release.manganese, room, time);
  const figure = (what: FumeFigure['what'], value: number, limit: Limit): FumeFigure => ({ what, value, limit, exceeds: isOut(value, limit) });
  const figures = [
    figure('iron oxide', oxide.eightHours, LIMITS.ironOxide),
    figure('iron', oxide.eightHours * IRON_IN_OXIDE, LIMITS.ironAdvised),
    figure('manganese', manganese.end, LIMITS.manganeseCeiling),
    figure('manganese', manganese.shortTerm, LIMITS.manganeseShort),
    figure('manganese', manganese.eightHours, LIMITS.manganeseAdvised),
  ];
  if (trace) {
    const air = 'from the balance of a well-mixed room that starts clean';
    trace.add({ name: 'iron oxide over 8 hours', symbol: 'C_Fe', value: oxide.eightHours, quantity: 'concentration', formula: air, kind: 'calculated', source: 'arithmetic' });
    trace.add({ name: 'manganese at the end of the task', symbol: 'C_Mn', value: manganese.end, quantity: 'concentration', formula: air, kind: 'calculated', source: 'arithmetic' });
    trace.add({ name: 'manganese over the worst 15 minutes', symbol: 'C_15', value: manganese.shortTerm, quantity: 'concentration', formula: air, kind: 'calculated', source: 'arithmetic' });
    trace.add({ name: 'manganese over 8 hours', symbol: 'C_8', value: manganese.eightHours, quantity: 'concentration', formula: air, kind: 'calculated', source: 'arithmetic' });
  }
  return figures;
}
