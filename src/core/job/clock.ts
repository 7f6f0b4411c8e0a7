/** Times of a job as a crew reads them: `07:20`, `8 h 40`. */
import { notAClock } from '../messages.ts';

const MINUTE = 60;
const HOUR = 3600;
const DAY = 86_400;
/** Last day that a sheet can hold, 9999-12-31. */
const LAST_SERIAL = 2_958_465;
/** Serial of 1970-01-01 where days count from 1900. */
const EPOCH = 25_569;

/** When a job starts. */
export interface Start {
  /** Time of day [s]. */
  readonly time: number;
  /** Serial of the day; undefined where only a time was given. */
  readonly day: number | undefined;
}

/** A length of time: `8 h 40`, `40 min`. */
export function showDuration(seconds: number): string {
  const minutes = Math.round(seconds / MINUTE);
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60];
  return hours === 0 ? `${rest} min` : `${hours} h ${String(rest).padStart(2, '0')}`;
}

/** A time of day, counted from the start of a shift: `07:20`; `01:10 (+1)` where it is past midnight. */
export function showClock(start: Start, seconds: number): string {
  const minutes = Math.round((start.time + seconds) / MINUTE);
  const days = Math.floor(minutes / (24 * 60));
  const two = (n: number): string => String(n).padStart(2, '0');
  const time = `${two(Math.floor(minutes / 60) % 24)}:${two(minutes % 60)}`;
  return days === 0 ? time : `${time} (+${days})`;
}

/** The day of a shift: `Mon 2026-11-30` where a date is known, else `1`. */
export function showDay({ day }: Start, shift: number): string {
  if (day === undefined) return String(shift);
  const date = dateOf(day + shift - 1);
  const name = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'][date.getUTCDay()] ?? '';
  return `${name} ${date.toISOString().slice(0, 10)}`;
}

const dateOf = (serial: number): Date => new Date((serial - EPOCH) * DAY * 1000);

/** The day that a sheet's serial stands for, `2026-11-30`; undefined where it can be none. */
export function calendarDay(serial: number): string | undefined {
  return serial >= 1 && serial <= LAST_SERIAL ? dateOf(Math.floor(serial)).toISOString().slice(0, 10) : undefined;
}

/**
 * The start of a job as it is typed: `07:00`, `7:30 pm`, `2026-11-30 07:00`, or what a sheet makes of these, a fraction of a day
 * or a day's serial with one. A whole number up to 24 is an hour.
 * @example parseStart('7:30 pm').time // 70200
 */
export function parseStart(text: string): Start {
  const plain = text.trim().toLowerCase().replace(/\s+/g, ' ');
  const number = Number(plain);
  if (plain !== '' && Number.isFinite(number)) {
    if (Number.isInteger(number) && number >= 0 && number <= 24) return { time: (number % 24) * HOUR, day: undefined };
    const minutes = Math.round((number % 1) * 24 * 60);
    if (number >= 0 && number < 1) return { time: (minutes % (24 * 60)) * MINUTE, day: undefined };
    if (number >= 1 && number <= LAST_SERIAL) return { time: minutes * MINUTE, day: Math.floor(number) };
    throw notAClock(text);
  }
  const parts =
    /^(?:(\d{4})-(\d{1,2})-(\d{1,2})[t ]?)?(?:(\d{1,2})[:.h](\d{2})(?::\d{2})?|(\d{1,2})(?= ?[ap]))? ?([ap])?\.?(?:m\.?)?$/.exec(
      plain,
    );
  if (!parts) throw notAClock(text);
  const [, year, month, date, hour24, minute = '0', hour12, half] = parts;
  const given = Number(hour24 ?? hour12 ?? NaN);
  if (Number.isNaN(given) && year === undefined) throw notAClock(text);
  const hour = half === undefined ? given : (given % 12) + (half === 'p' ? 12 : 0);
  if (hour > 24 || Number(minute) > 59 || (half !== undefined && (given < 1 || given > 12))) throw notAClock(text);
  const time = Number.isNaN(given) ? undefined : (hour % 24) * HOUR + Number(minute) * MINUTE;
  const day = year === undefined ? undefined : serialOf(Number(year), Number(month), Number(date));
  if (year !== undefined && day === undefined) throw notAClock(text);
  return { time: time ?? NaN, day };
}

function serialOf(year: number, month: number, date: number): number | undefined {
  const time = Date.UTC(year, month - 1, date);
  const back = new Date(time);
  return back.getUTCMonth() === month - 1 && back.getUTCDate() === date ? time / (DAY * 1000) + EPOCH : undefined;
}
