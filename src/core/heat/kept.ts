/** Cooling times of usual pins that are kept, solved, so that a first cell need not wait for them. */
import { Assumptions } from '../assumptions/assumptions.ts';
import type { NumberName } from '../assumptions/registry.ts';
import type { Basis } from '../basis.ts';
import { methodInForce } from './heat-in-force.ts';

/** The logarithm of a time and a second is counted in so many parts: kept and solved times are the same, and within 0.0006 % of what the solver gave. */
const PARTS = 100_000;
/** A count to the base 36 has so many digits. */
export const DIGITS = 4;
const BASE = 36;

/** A time [s] as it is kept. */
export const written = (time: number): string =>
  Math.round(PARTS * Math.log(1 + time))
    .toString(BASE)
    .padStart(DIGITS, '0');

/** The time [s] of what is written at a place of a text, counted in times. */
const timeAt = (text: string, place: number): number =>
  Math.exp(parseInt(text.slice(DIGITS * place, DIGITS * (place + 1)), BASE) / PARTS) - 1;

/** Times [s] as they would come back if they were kept. */
export const rounded = (times: readonly number[]): Float64Array =>
  Float64Array.from(times, (time) => timeAt(written(time), 0));

/** The first and the last place of each axis of a table that are kept. */
export type Places = readonly (readonly [first: number, last: number])[];

/** So many times [s] of a place in a table, where they are kept and nothing that they rest on is assumed otherwise than it was. */
export function kept(
  text: string,
  places: Places,
  at: readonly number[],
  count: number,
  restsOn: readonly NumberName[],
  { a, once }: Basis,
): Float64Array | undefined {
  let place = 0;
  for (const [i, [first, last]] of places.entries()) {
    const x = at[i]!;
    if (!(x >= first && x <= last)) return undefined;
    place = place * (last - first + 1) + x - first;
  }
  const asKnown = (name: NumberName): boolean => {
    const [now, known] = [a.inForce(name), Assumptions.defaults().inForce(name)];
    return now.value === known.value && now.low === known.low && now.high === known.high;
  };
  if (methodInForce(a) !== 'air' || !once('cooled as known', () => restsOn.every(asKnown))) return undefined;
  return Float64Array.from({ length: count }, (_, i) => timeAt(text, place * count + i));
}

/** Every place, the last axis turning the fastest: the order in which times are kept. */
export function everyPlace([axis, ...others]: Places): readonly (readonly number[])[] {
  if (!axis) return [[]];
  const [first, last] = axis;
  const rest = everyPlace(others);
  return Array.from({ length: last - first + 1 }, (_, i) => rest.map((each) => [first + i, ...each])).flat();
}
