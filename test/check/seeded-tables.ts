/** The workbooks of our own invention with their list made into a table, as people make one, and faults of tables. */
import { addressOf, areaName, columnName, readAddress, sheetPrefix, type Area } from '../../src/files/xlsx/address.ts';
import { readWorkbook } from '../../src/files/xlsx/read-workbook.ts';
import { Chance } from '../hostile/chance.ts';
import { altered } from '../files/xlsx/make.ts';
import { fileOf } from './file-of.ts';
import { FAULTS, makeJob, type Fault, type Job } from './seeded-workbooks.ts';

interface Table {
  readonly name: string;
  readonly sheet: string;
  /** With its headings, and its row of totals where it has one. */
  readonly area: Area;
  readonly totals: boolean;
  readonly columns: readonly string[];
}

/** A job with tables, to be written as a file. */
export interface TabledJob {
  readonly job: Job;
  readonly tables: readonly Table[];
  /** How the list is handed over: as a whole, without its headings, or with the columns of the list alone. */
  readonly handed: 'all' | 'body' | 'columns';
  /** A row whose formulas were typed with cells, as those of a table may be. */
  readonly typed: number | undefined;
  /** Whether its row of totals counts the rows in sight alone, as the host writes it. */
  readonly inSight: boolean;
}

const ASSUMED = ['name', 'value', 'low', 'high', 'unit'];

const textAt = ({ made }: Job, sheet: string, row: number, column: number): string | undefined => {
  const found = made.sheets.get(sheet)?.get(addressOf(row, column));
  return typeof found === 'string' && !found.startsWith('=') ? found : undefined;
};

/** The list as a table; undefined where a layout has no room for one: a blank row, or a column without a heading. */
function tableOf(job: Job, name: string): Table | undefined {
  const { list } = job;
  const columns: string[] = [];
  for (let column = list.from; ; column++) {
    const heading = textAt(job, list.sheet, list.heading, column);
    if (heading === undefined) break;
    columns.push(heading);
  }
  const right = list.from + columns.length - 1;
  const isWhole = list.results.every((r) => r.column <= right) && new Set(columns).size === columns.length;
  if (!isWhole || list.hasGap) return undefined;
  const last = list.rows.at(-1)!;
  const totals = list.total === last + 1;
  return {
    name,
    sheet: list.sheet,
    area: { top: list.heading, left: list.from, bottom: totals ? last + 1 : last, right },
    totals,
    columns,
  };
}

/** The rows of assumptions as a table, where they are a range. */
function assumedTable({ assume, assumeSheet }: Job): Table | undefined {
  const [, first = '', last = ''] = /\$([A-Z]+\$\d+):\$([A-Z]+\$\d+)$/.exec(assume ?? '') ?? [];
  const [top, bottom] = [first, last].map((at) => readAddress(at.replace('$', '')));
  if (!top || !bottom) return undefined;
  const area = { top: top.row, left: top.column, bottom: bottom.row, right: bottom.column };
  return { name: 'Assume', sheet: assumeSheet, area, totals: false, columns: ASSUMED };
}

function tabled(chance: Chance): TabledJob {
  for (;;) {
    const job = makeJob(chance);
    const table = tableOf(job, chance.one(['Pins', 'tblPins', 'Table1', 'Job_list']));
    if (!table) continue;
    const assumed = chance.in(2) ? assumedTable(job) : undefined;
    const handed = chance.in(2) ? 'all' : 'columns';
    if (handed === 'all') withAllColumns(job, table);
    return {
      job,
      tables: assumed ? [table, assumed] : [table],
      handed,
      typed: chance.in(4) ? chance.one(job.list.rows) : undefined,
      inSight: chance.in(2),
    };
  }
}

/** A plan of the whole table reads the results beside the list too. */
function withAllColumns({ made, list, plan }: Job, { area }: Table): void {
  if (plan?.kind !== 'list') return;
  const cells = made.sheets.get(plan.sheet)!;
  const formula = String(cells.get(plan.cell));
  const [first, last] = [list.heading + 1, list.rows.at(-1)! + 1];
  cells.set(plan.cell, formula.replace(`:$${columnName(list.to)}$${last}`, `:$${columnName(area.right)}$${last}`));
  if (!String(cells.get(plan.cell)).includes(`$${first}:$${columnName(area.right)}$`))
    throw new Error(`the plan ${formula} does not read the list`);
}

export const tabledJob = (seed: number): TabledJob => tabled(new Chance(seed));

type Seed = (tabled: TabledJob, chance: Chance) => { readonly fault: Fault; readonly tabled: TabledJob } | undefined;

/** The table without its last rows. */
const shorter = ({ area, ...table }: Table, by: number): Table => ({
  ...table,
  totals: false,
  area: { ...area, bottom: area.bottom - by - (table.totals ? 1 : 0) },
});

/** Faults that tables bring about; of the others each is tried in a table too. */
const OF_TABLES: Readonly<Record<string, Seed>> = {
  'a table that ends before its list, read by a plan': ({ job, tables: [table, ...others], ...how }, chance) => {
    const { plan } = job;
    return plan && table
      ? {
          fault: { kind: 'range stops short', sheet: plan.sheet, cell: plan.cell },
          tabled: { job, tables: [shorter(table, 1 + chance.below(2)), ...others], ...how },
        }
      : undefined;
  },
  'a table that ends before its list, added up': ({ job, tables: [table, ...others], ...how }, chance) => {
    const { list, made } = job;
    if (list.total === undefined || !table) return undefined;
    const short = shorter(table, 1 + chance.below(2));
    const { column } = chance.one(list.results.filter((r) => r.name !== 'PRESSURE'));
    const cell = addressOf(list.total, column);
    const letter = columnName(column);
    made.sheets.get(list.sheet)!.set(cell, `=SUM(${letter}${short.area.top + 2}:${letter}${short.area.bottom + 1})`);
    return {
      fault: { kind: 'range stops short', sheet: list.sheet, cell },
      tabled: { job, tables: [short, ...others], ...how },
    };
  },
  'a table handed over without its headings': ({ job, ...how }) => {
    const { plan } = job;
    return plan?.kind === 'list'
      ? {
          fault: { kind: 'range starts late', sheet: plan.sheet, cell: plan.cell },
          tabled: { job, ...how, handed: 'body' },
        }
      : undefined;
  },
  'one cell that reads another column of its table': ({ job, ...how }, chance) => {
    const { list, made } = job;
    const row = list.rows[1 + chance.below(list.rows.length - 2)]!;
    const { column } = chance.one(list.results);
    const cell = addressOf(row, column);
    const [one, other] = list.sizes;
    const cells = made.sheets.get(list.sheet)!;
    const [right, wrong] = [one!, other!].map((s) => `${columnName(s.column)}${row + 1}`);
    cells.set(cell, String(cells.get(cell)).replaceAll(new RegExp(`\\b${right!}\\b`, 'g'), wrong!));
    return { fault: { kind: 'differs from its neighbours', sheet: list.sheet, cell }, tabled: { job, ...how } };
  },
  'a table of assumptions that ends before they do': ({ job, tables: [table, assumed], ...how }) =>
    table && assumed
      ? {
          fault: {
            kind: 'range stops short',
            sheet: job.list.sheet,
            // A row that was typed with cells reads all of them.
            cell: addressOf(
              job.list.rows.find((row) => row !== how.typed)!,
              job.list.results[0]!.column,
            ),
          },
          tabled: { job, tables: [table, shorter(assumed, 1)], ...how },
        }
      : undefined,
};

/** Faults of any list, put in before it becomes a table. */
const OF_LISTS = Object.fromEntries(
  Object.entries(FAULTS).map(([name, seed]): [string, Seed] => [
    name,
    ({ job, ...rest }, chance) => {
      const fault = seed(job, chance);
      return fault && { fault, tabled: { job, ...rest } };
    },
  ]),
);

export const TABLE_FAULTS: Readonly<Record<string, Seed>> = { ...OF_TABLES, ...OF_LISTS };

/** A job in a table with a fault; kinds that its layout has no room for are passed over. */
export function faultyTable(seed: number): {
  readonly tabled: TabledJob;
  readonly fault: Fault;
  readonly name: string;
} {
  const names = Object.keys(TABLE_FAULTS);
  const name = names[seed % names.length]!;
  for (let i = 0; ; i++) {
    const chance = new Chance(seed + 10_000 * i);
    const made = TABLE_FAULTS[name]!(tabled(chance), chance);
    if (made) return { ...made, name };
  }
}

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
/** A column's name inside brackets. */
const inBrackets = (column: string): string => column.replace(/[[\]#'@]/g, "'$&");

/** The file of such a job: its references into tables are written as those of tables. */
export async function fileOfTables(tabled: TabledJob): Promise<Uint8Array> {
  const { job, tables } = tabled;
  const file = Buffer.from(await fileOf(job.made));
  const { sheets } = readWorkbook(file);
  const parts: Record<string, (xml: string) => string> = {};
  for (const { name, part } of sheets)
    parts[part] = (xml) =>
      xml.replace(
        /(<c r="([A-Z]+\d+)"[^>]*>\s*<f[^>]*>)([^<]*)(<\/f>)/g,
        (_, before: string, at: string, formula: string, after: string) =>
          `${before}${escaped(structured(unescaped(formula), tabled, name, readAddress(at)!.row))}${after}`,
      );
  for (const [i, table] of tables.entries()) {
    parts[`xl/tables/table${i + 1}.xml`] = () => tableXml(table, i + 1);
    const { part } = sheets.find((s) => s.name === table.sheet)!;
    const rels = part.replace(/worksheets\/(.*)$/, 'worksheets/_rels/$1.rels');
    const others = parts[rels] ?? (() => '');
    const link = `<Relationship Id="table${i + 1}" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/table" Target="../tables/table${i + 1}.xml"/>`;
    parts[rels] = (xml) => withRelation(others(xml), link);
  }
  return altered(file, parts);
}

const withRelation = (xml: string, link: string): string =>
  xml.includes('</Relationships>')
    ? xml.replace('</Relationships>', `${link}</Relationships>`)
    : `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${link}</Relationships>`;

const unescaped = (text: string): string =>
  text
    .replace(/&#(\d+);/g, (_, code: string) => String.fromCharCode(Number(code)))
    .replaceAll('&quot;', '"')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&');

function tableXml({ name, area, totals, columns }: Table, id: number): string {
  const each = columns.map((column, i) => `<tableColumn id="${i + 1}" name="${escaped(column)}"/>`).join('');
  return `<table xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" id="${id}" name="${name}" displayName="${name}" ref="${areaName(area)}"${totals ? ' totalsRowCount="1"' : ' totalsRowShown="0"'}><tableColumns count="${columns.length}">${each}</tableColumns></table>`;
}

/** A reference with or without its sheet and signs. */
const REFERENCE =
  /((?:'(?:[^']|'')+'|[A-Za-z_][\w.]*)!)?\$?([A-Z]{1,3})\$?(\d+)(?::\$?([A-Z]{1,3})\$?(\d+))?(?![\w(.])/g;

function structured(
  formula: string,
  { job: { list }, tables, handed, typed, inSight }: TabledJob,
  sheet: string,
  row: number,
): string {
  if (sheet === list.sheet && row === typed) return formula;
  const isTotals = tables.some((t) => t.totals && t.sheet === sheet && t.area.bottom === row);
  return (isTotals && inSight ? formula.replace(/^SUM\(/, 'SUBTOTAL(109,') : formula).replace(
    REFERENCE,
    (text, prefix: string | undefined, left: string, top: string, right = left, bottom = top, offset: number) => {
      if (/[\w$.]/.test(formula[offset - 1] ?? '')) return text;
      for (const table of tables) {
        const own = prefix === undefined ? sheet === table.sheet : prefix === sheetPrefix(table.sheet);
        if (!own) continue;
        const [from, to] = [readAddress(`${left}${top}`)!, readAddress(`${right}${bottom}`)!];
        const { area, totals, name, columns } = table;
        if (from.column < area.left || to.column > area.right) continue;
        const [first, last] = [area.top + 1, area.bottom - (totals ? 1 : 0)];
        const [one, other] = [from, to].map((at) => inBrackets(columns[at.column - area.left]!));
        const isAssumed = name === 'Assume';
        if (!isAssumed && from.row === row && to.row === row && row >= first && row <= last && left === right)
          return sheet === table.sheet ? `${name}[[#This Row],[${one!}]]` : text;
        // What read the whole list reads the whole table, however far that goes.
        const whole = isAssumed ? to.row >= area.bottom : to.row === list.rows.at(-1)! || to.row === last;
        if (from.row === first && whole && left === right) return `${name}[${one!}]`;
        if (from.row !== area.top || !whole) continue;
        const isBody = handed === 'body' && !isAssumed;
        // A row of totals is none of the list.
        const parts = isBody ? [] : totals ? ['[#Headers]', '[#Data]'] : ['[#All]'];
        if (from.column !== area.left || to.column !== area.right) parts.push(`[${one!}]:[${other!}]`);
        return parts.length === 0
          ? name
          : parts.length === 1 && parts[0] === '[#All]'
            ? `${name}[#All]`
            : `${name}[${parts.join(',')}]`;
      }
      return text;
    },
  );
}
