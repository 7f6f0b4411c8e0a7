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
 * Source: Damerau, A technique for computer detection and correction of spelling errors, Communications of the
 * ACM 7 (1964) 171; Wagner and Fischer, Journal of the ACM 21 (1974) 168 for the recurrence.
 */
export function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = (last[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      let best = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, change);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        best = Math.min(best, (before[j - 2] ?? 0) + 1);
      row.push(best);
    }
    before = last;
    last = row;
  }
  return last[b.length] ?? 0;
}

/** How far a text is from a name; a name that begins with the text, or holds it as a word, counts as near. */
function farness(text: string, name: string): number {
  if (text === name) return 0;
  const letters = editDistance(text, name);
  if (text.length >= 2 && name.startsWith(text)) return Math.min(letters, 1);
  if (text.length >= 3 && ` ${name} `.includes(` ${text} `)) return Math.min(letters, 1.5);
  if (name.length >= 3 && ` ${text} `.includes(` ${name} `)) return Math.min(letters, 1.5);
  return letters;
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
  return names
    .map((name, order) => ({ name, order, far: farness(typed, tidy(name)) }))
    .sort((a, b) => a.far - b.far || a.order - b.order)
    .slice(0, most)
    .map((n) => n.name);
}
