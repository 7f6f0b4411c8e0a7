const tidy = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ');

/**
 * Least number of single-letter edits that turn one text into another: a letter added, dropped or changed, or
 * two neighbours swapped (optimal string alignment distance).
 *
 *     d(i, j) = min( d(i-1, j) + 1, d(i, j-1) + 1, d(i-1, j-1) + [a_i != b_j], d(i-2, j-2) + 1 where swapped )
 *
 * Where it is `limit` or more, `limit` is given.
 *
 * Source: Damerau, A technique for computer detection and correction of spelling errors, Communications of the
 * ACM 7 (1964) 171; Wagner and Fischer, Journal of the ACM 21 (1974) 168 for the recurrence.
 *
 * @example editDistance('diametr', 'diameter') // 1
 */
export function editDistance(a: string, b: string, limit = Infinity): number {
  if (Math.abs(a.length - b.length) >= limit) return limit;
  let leastBefore = 0;
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    let least = i;
    for (let j = 1; j <= b.length; j++) {
      const change = (last[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      let best = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, change);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        best = Math.min(best, (before[j - 2] ?? 0) + 1);
      row.push(best);
      if (best < least) least = best;
    }
    // What comes after rests on this row and the one before, and is no less.
    if (least >= limit && leastBefore >= limit) return limit;
    leastBefore = least;
    before = last;
    last = row;
  }
  return last[b.length] ?? 0;
}

/** How far a text is from a name, up to a limit; a name that begins with the text, or holds it as a word, counts as near. */
function farness(text: string, name: string, limit: number): number {
  if (text === name) return 0;
  if (text.length >= 2 && name.startsWith(text)) return Math.min(editDistance(text, name, 1), 1);
  const holds = text.length >= 3 && ` ${name} `.includes(` ${text} `);
  const held = name.length >= 3 && ` ${text} `.includes(` ${name} `);
  return editDistance(text, name, holds || held ? Math.min(1.5, limit) : limit);
}

/** No name is as long; a cell can hold a whole page, and the distance takes time as its length. */
const LONGEST = 100;

/**
 * The known names nearest to what was typed, nearest first, whatever the case, spaces and hyphens.
 *
 * Always gives a name where there is one, since a message must offer something; equal distances keep the order
 * of `names`. Used for the messages about unknown names.
 *
 * @param text what was typed
 * @param names the known names
 * @param most how many to give
 */
export function nearestNames(text: string, names: readonly string[], most = 3): readonly string[] {
  const typed = tidy(text.slice(0, LONGEST));
  const found: { readonly name: string; readonly far: number }[] = [];
  for (const name of names) {
    // One that is no nearer than the last of enough comes after it, and is not measured to the end.
    const limit = found.length < most ? Infinity : (found.at(-1)?.far ?? Infinity);
    const far = farness(typed, tidy(name), limit);
    if (far >= limit) continue;
    const at = found.findIndex((each) => each.far > far);
    found.splice(at < 0 ? found.length : at, 0, { name, far });
    if (found.length > most) found.pop();
  }
  return found.map((n) => n.name);
}
