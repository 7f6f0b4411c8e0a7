/** A longer range is a whole column, or meant as one; a shorter one is taken as it stands. */
const LONG = 20_000;
/** So many rows without anything end a range: a whole column has a million, and looking at each takes longer than the calculation. */
const GAP = 50_000;

type Rows<T> = readonly (readonly T[])[];

/** How an argument is trimmed. */
export interface Trim<T> {
  /** A range whose own length says nothing, as that of the assumptions: cut however short it is, and by itself. */
  readonly alone: boolean;
  readonly isBlank: (value: T) => boolean;
}

/**
 * The arguments of one call without the rows after the last that holds anything, so that whole columns cost what their filled
 * part does. Long ranges of one height are cut at the same row, and still fit one another. What is no range stays.
 */
export function trimmed<T, A>(
  args: readonly (A | Rows<T>)[],
  how: (place: number) => Trim<T>,
): readonly (A | Rows<T>)[] {
  const filled = args.map((arg, i) => {
    if (!isRows<T>(arg)) return 0;
    const { alone, isBlank } = how(i);
    return alone || arg.length > LONG ? Math.max(1, filledRows(arg, isBlank)) : arg.length;
  });
  return args.map((arg, i) => {
    if (!isRows<T>(arg)) return arg;
    const rows = how(i).alone
      ? (filled[i] ?? 0)
      : Math.max(...filled.filter((_, k) => !how(k).alone && isRows(args[k]) && args[k].length === arg.length));
    return rows < arg.length ? arg.slice(0, rows) : arg;
  });
}

const isRows = <T>(arg: unknown): arg is Rows<T> => Array.isArray(arg) && (arg.length === 0 || Array.isArray(arg[0]));

function filledRows<T>(rows: Rows<T>, isBlank: (value: T) => boolean): number {
  let filled = 0;
  for (let r = 0; r < rows.length && r - filled < GAP; r++) {
    for (const value of rows[r] ?? []) {
      if (isBlank(value)) continue;
      filled = r + 1;
      break;
    }
  }
  return filled;
}
