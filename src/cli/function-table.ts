import { CATALOGUE } from '../catalogue/catalogue.ts';
import { parameterLabel, type Declaration } from '../catalogue/declaration.ts';
import { operationFamily } from '../catalogue/operation-family.ts';
import { OPERATION_IDS, operationOf } from '../core/operations/all.ts';
import { hostFunction } from '../sheet/as-host-function.ts';

export const TABLE_START = '<!-- functions: written by `npm run readme` from the catalogue -->';
export const TABLE_END = '<!-- end of functions -->';

const COUNTS = [
  'No',
  'One',
  'Two',
  'Three',
  'Four',
  'Five',
  'Six',
  'Seven',
  'Eight',
  'Nine',
  'Ten',
  'Eleven',
  'Twelve',
];

/** The README's list of functions, from their declarations: the operations share one table, as their functions share one shape. */
export function functionTable(): string {
  const families = OPERATION_IDS.map((id) => ({
    operation: operationOf(id),
    functions: operationFamily(operationOf(id)),
  }));
  const inFamilies = new Set(families.flatMap((f) => f.functions.map((d) => d.name)));
  const [first] = families;
  const sizeNames = ({ operation }: (typeof families)[number]): string =>
    operation.order.map((n) => bracketed(parameterLabel(n), operation.sizes[n]?.optional === true)).join(', ');
  const shared = first ? names(first.functions[0]).slice(first.operation.order.length).join(', ') : '';
  return [
    `${COUNTS[families.length] ?? families.length} operations have the same seven functions, \`BURN.OPERATION.RESULT(sizes, ${shared})\`; an argument in square brackets may be left out:`,
    '',
    '| operation | sizes | to |',
    '|---|---|---|',
    ...families.map((f) => `| \`${f.operation.id}\` | ${sizeNames(f)} | ${cell(f.operation.summary)} |`),
    '',
    '| result | gives |',
    '|---|---|',
    ...(first?.functions ?? []).map(
      (d) =>
        `| \`${d.name.slice(d.name.lastIndexOf('.') + 1)}\` | ${cell(d.summary.replace(`to ${first?.operation.summary ?? ''}`, '').replace(/,? *\.$/, ''))} |`,
    ),
    '',
    'All others:',
    '',
    '| function | gives |',
    '|---|---|',
    ...CATALOGUE.filter((d) => !inFamilies.has(d.name)).map(
      (d) => `| \`${d.name}(${names(d).join(', ')})\` | ${cell(d.summary)} |`,
    ),
  ].join('\n');
}

/** A text with the table between its two marks brought up to date. */
export function withFunctionTable(readme: string): string {
  const start = readme.indexOf(TABLE_START);
  const end = readme.indexOf(TABLE_END);
  if (start < 0 || end < start) throw new Error(`README.md lacks the line ${TABLE_START} or ${TABLE_END}`);
  return `${readme.slice(0, start + TABLE_START.length)}\n\n${functionTable()}\n\n${readme.slice(end)}`;
}

const bracketed = (name: string, optional: boolean): string => (optional ? `[${name}]` : name);
const names = (d: Declaration | undefined): readonly string[] =>
  d ? hostFunction(d).parameters.map((p) => bracketed(p.name, p.optional)) : [];
const cell = (text: string): string => text.replaceAll('|', '\\|');
