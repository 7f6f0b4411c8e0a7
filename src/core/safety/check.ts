import { notAbove, shown, tooHigh, tooLow } from '../messages.ts';

const text = (value: number, unit: string): string => (unit ? `${shown(value)} ${unit}` : shown(value));

/** Refuses a value below `limit`. */
export function requireAtLeast(argument: string, value: number, limit: number, unit = ''): void {
  if (!(value >= limit)) throw tooLow(argument, text(value, unit), text(limit, unit));
}

/** Refuses a value above `limit`. */
export function requireAtMost(argument: string, value: number, limit: number, unit = ''): void {
  if (!(value <= limit)) throw tooHigh(argument, text(value, unit), text(limit, unit));
}

/** Refuses a value that is not more than `limit`. */
export function requireAbove(argument: string, value: number, limit: number, unit = ''): void {
  if (!(value > limit) || value === Infinity) throw notAbove(argument, text(value, unit), text(limit, unit));
}
