/** Days from the first of January 1900, as most sheets count them, and from 1904, as some old ones do; both to the day before 1970. */
const DATE_SYSTEMS: readonly number[] = [25569, 24107];
const DAY = 86_400_000;

/** Denominators of an inch, of which a day of the month or a month can be one, and those that are read as a year. */
const PARTS = [2, 4, 8, 16];
const YEARS: Readonly<Record<number, number>> = { 1932: 32, 1964: 64 };
const FIRST_YEAR = 1990;
const LAST_YEAR = 2099;

/** How a sheet could have made a day of a fraction: what was typed, and whether a tape has such a fraction. */
interface Typed {
  readonly text: string;
  readonly onTape: boolean;
}

function typedFor(serial: number, epoch: number): readonly Typed[] {
  const date = new Date((serial - epoch) * DAY);
  const [year, month, day] = [date.getUTCFullYear(), date.getUTCMonth() + 1, date.getUTCDate()];
  const parts = YEARS[year];
  if (day === 1 && parts !== undefined) return [{ text: `${month}/${parts}`, onTape: month % 2 === 1 }];
  if (!(year >= FIRST_YEAR && year <= LAST_YEAR)) return [];
  const onTape = (over: number, under: number): boolean => over < under && over % 2 === 1 && PARTS.includes(under);
  return [
    { text: `${month}/${day}`, onTape: onTape(month, day) },
    { text: `${day}/${month}`, onTape: onTape(day, month) },
  ];
}

/**
 * The fractions that a number could have been before the sheet took them for a day: 46211 is 8 July 2026, so 7/8. Empty where
 * the number cannot be such a day.
 *
 * Month and day are tried in both orders and the number as of both date systems; those that a tape has come alone, where there
 * are any. 1/32 and 1/64 become the first of a month of 1932 or 1964. Source of the date systems: ECMA-376-1:2016, 18.17.4.
 *
 * @example fractionsOfDate(46211).indexOf("7/8") // 0
 */
export function fractionsOfDate(serial: number): readonly string[] {
  if (!Number.isInteger(serial) || serial < 1 || serial > 80_000) return [];
  const typed = DATE_SYSTEMS.flatMap((epoch) => typedFor(serial, epoch));
  const onTape = typed.filter((t) => t.onTape);
  return [...new Set((onTape.length > 0 ? onTape : typed.slice(0, 2)).map((t) => t.text))];
}
