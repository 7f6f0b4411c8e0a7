import { CATALOGUE } from '../catalogue/catalogue.ts';
import { hostFunction } from '../sheet/as-host-function.ts';

export const TABLE_START = '<!-- functions: written by `npm run readme` from the catalogue -->';
export const TABLE_END = '<!-- end of functions -->';

/** The README's table of functions, from their declarations. */
export function functionTable(): string {
  const rows = CATALOGUE.map((d) => {
    const f = hostFunction(d);
    const names = f.parameters.map((p) => (p.optional ? `[${p.name}]` : p.name)).join(', ');
    return `| \`${f.name}(${names})\` | ${f.summary.replaceAll('|', '\\|')} |`;
  });
  return ['| function | gives |', '|---|---|', ...rows].join('\n');
}

/** A text with the table between its two marks brought up to date. */
export function withFunctionTable(readme: string): string {
  const start = readme.indexOf(TABLE_START);
  const end = readme.indexOf(TABLE_END);
  if (start < 0 || end < start) throw new Error(`README.md lacks the line ${TABLE_START} or ${TABLE_END}`);
  return `${readme.slice(0, start + TABLE_START.length)}\n\n${functionTable()}\n\n${readme.slice(end)}`;
}
