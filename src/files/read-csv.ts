/**
 * The fields of a text of separated values, line by line: a field in quotes may hold separators, line breaks and doubled
 * quotes. Source: RFC 4180; a quote inside a field that does not begin with one is taken for what it is, as in 3/4".
 */
export function readCsv(text: string, separator: string): readonly (readonly string[])[] {
  const lines: string[][] = [];
  let line: string[] = [];
  let at = 0;
  const plain = text.startsWith('\ufeff') ? text.slice(1) : text;
  while (at < plain.length) {
    let field = '';
    if (plain[at] === '"') {
      const start = at;
      for (at++; ; at++) {
        const next = plain.indexOf('"', at);
        if (next < 0)
          throw new RangeError(
            `the quote that opens in line ${plain.slice(0, start).split('\n').length} is not closed`,
          );
        field += plain.slice(at, next);
        at = next + 1;
        if (plain[at] !== '"') break;
        field += '"';
      }
    }
    let end = at;
    while (end < plain.length && plain[end] !== separator && plain[end] !== '\n' && plain[end] !== '\r') end++;
    line.push(field + plain.slice(at, end));
    at = end + 1;
    if (plain[end] === separator) {
      if (at >= plain.length) line.push('');
      continue;
    }
    if (plain[end] === '\r' && plain[at] === '\n') at++;
    lines.push(line);
    line = [];
  }
  if (line.length > 0) lines.push(line);
  return lines;
}
