/** Workbooks as people build them, of our own invention, each made from its seed; and faults put into them at known cells. */
import { addressOf, columnName, readAddress, sheetPrefix } from '../../src/files/xlsx/address.ts';
import type { NewSheet } from '../../src/files/xlsx/new-workbook.ts';
import type { CellContent } from '../../src/sheet/described-workbook.ts';
import { Chance } from '../hostile/chance.ts';

/** A workbook being made: cells by sheet and address. */
export interface Made {
  readonly sheets: Map<string, Map<string, CellContent>>;
  readonly names: Record<string, string>;
  /** What is changed in the saved values after the calculation: the cell's value is multiplied. */
  stale?: { readonly sheet: string; readonly cell: string };
  /** Text that stands in place of today's version. */
  older?: { readonly sheet: string; readonly cell: string };
}

interface List {
  readonly sheet: string;
  readonly operation: string;
  /** Sizes that must be there, in the order of the function, and their columns. */
  readonly sizes: readonly { readonly name: string; readonly column: number }[];
  readonly mark: number;
  readonly number: number | undefined;
  /** All columns of the list, from the first to the last. */
  readonly from: number;
  readonly to: number;
  readonly heading: number;
  /** Rows of the items. */
  readonly rows: readonly number[];
  readonly results: readonly { readonly name: string; readonly column: number }[];
  readonly total: number | undefined;
  readonly hasGap: boolean;
}

export interface Job {
  readonly made: Made;
  readonly list: List;
  readonly assume: string | undefined;
  readonly assumeSheet: string;
  /** Cells with one formula that spills. */
  readonly plan: { readonly sheet: string; readonly cell: string; readonly kind: 'sizes' | 'list' } | undefined;
  readonly version: { readonly sheet: string; readonly cell: string } | undefined;
}

const OPERATIONS = {
  PIN: ['diameter', 'length'],
  HOLE: ['hole', 'depth'],
  CUT: ['thickness', 'length'],
  GOUGE: ['width', 'depth', 'length'],
} as const;
type Operation = keyof typeof OPERATIONS;

const HEADINGS: Readonly<Record<string, readonly string[]>> = {
  diameter: ['Diameter', 'Dia', 'Pin dia', 'DIAMETER, in', 'Dia.'],
  length: ['Length', 'Len', 'Length, in', 'LENGTH'],
  hole: ['Hole', 'Hole dia', 'Bore'],
  depth: ['Depth', 'Deep'],
  thickness: ['Thickness', 'Thk', 'Plate'],
  width: ['Width', 'Width, in'],
  mark: ['Mark', 'Where', 'Location', 'Tag', 'Part'],
  number: ['No.', 'No', '#'],
  note: ['Remarks', 'Note'],
};
const RANGES: Readonly<Record<string, readonly (number | string)[]>> = {
  diameter: [2, 2.5, 3, 3.5, 4, 5, '90 mm', '4-1/2'],
  length: [6, 8, 9, 10, 12, 14, '300 mm'],
  hole: [1, 1.25, 1.5],
  depth: [1, 1.5, 2, 3],
  thickness: [0.5, 0.75, 1, 1.5],
  width: [0.5, 0.75, 1],
};
const PLACES = [
  'Boom foot',
  'Stick pivot',
  'Hinge',
  'Link',
  'Sheave',
  'Trunnion',
  'Clevis',
  'Frame',
  'Apron',
  'Ladder',
];
const RESULTS = ['RODS', 'OXYGEN', 'BURN', 'TIME', 'PRESSURE'];
const RESULT_HEADINGS: Readonly<Record<string, string>> = {
  RODS: 'Rods',
  OXYGEN: 'Oxygen, scf',
  BURN: 'Burning, min',
  TIME: 'Crew, min',
  PRESSURE: 'Tip pressure, psi',
};

function put(made: Made, sheet: string, row: number, column: number, content: CellContent): void {
  const cells = made.sheets.get(sheet) ?? new Map<string, CellContent>();
  made.sheets.set(sheet, cells);
  if (content === null) cells.delete(addressOf(row, column));
  else cells.set(addressOf(row, column), content);
}

const typed = (value: number | string): CellContent => (typeof value === 'string' ? { text: value } : value);

/** A workbook without a fault. */
export function makeJob(chance: Chance): Job {
  const made: Made = { sheets: new Map(), names: {} };
  const sheet = chance.one(['Pins', 'Job', 'Work list', 'Sheet1']);
  const { assume, assumeSheet } = makeAssumptions(made, chance, sheet);
  const operation = chance.one(['PIN', 'PIN', 'PIN', 'HOLE', 'CUT', 'GOUGE'] as const);
  const list = makeList(made, chance, sheet, operation, chance.below(4), assume, 6 + chance.below(8));
  if (chance.in(3)) secondList(made, chance, list, assume);
  const plan = makePlan(made, chance, list, assume);
  const version = chance.in(2) ? undefined : { sheet, cell: addressOf(0, 9) };
  if (version) put(made, sheet, 0, 9, chance.in(2) ? '=BURN.VERSION()' : '="Calculation "&BURN.VERSION()');
  if (chance.in(3)) strangers(made, chance);
  return { made, list, assume, assumeSheet, plan, version };
}

function makeAssumptions(
  made: Made,
  chance: Chance,
  sheet: string,
): { readonly assume: string | undefined; readonly assumeSheet: string } {
  const rows: readonly (readonly CellContent[])[] = [
    ['name', 'value', 'low', 'high', 'unit'],
    ['stub', 4, 3, 6, 'in'],
    ['idle oxygen share', 0.1, 0.05, 0.2, null],
    ['day length', 9, null, null, 'h'],
  ];
  if (chance.in(3)) return { assume: undefined, assumeSheet: sheet };
  const own = chance.in(2);
  const assumeSheet = own ? 'Assumptions' : sheet;
  const [top, left] = own ? [chance.below(3), chance.below(2)] : [1, 20];
  rows.forEach((row, r) => row.forEach((cell, c) => put(made, assumeSheet, top + r, left + c, cell)));
  const area = `$${columnName(left)}$${top + 1}:$${columnName(left + 4)}$${top + rows.length}`;
  const full = `${sheetPrefix(assumeSheet)}${area}`;
  if (own && chance.in(3)) {
    made.names['JobAssume'] = full;
    return { assume: 'JobAssume', assumeSheet };
  }
  return { assume: own ? full : area, assumeSheet };
}

/** A list with its results beside it, in one of many layouts. */
function makeList(
  made: Made,
  chance: Chance,
  sheet: string,
  operation: Operation,
  heading: number,
  assume: string | undefined,
  count: number,
): List {
  const sizes = OPERATIONS[operation];
  const words: string[] = [...(chance.in(2) ? ['number'] : []), 'mark', ...sizes];
  if (chance.in(2)) words.push('note');
  // Marks may stand behind the sizes, sizes in any order.
  if (chance.in(3)) words.sort(() => chance.below(3) - 1);
  const from = chance.below(3);
  const at = (word: string): number => from + words.indexOf(word);
  words.forEach((word, i) => put(made, sheet, heading, from + i, chance.one(HEADINGS[word] ?? [word])));
  const gap = chance.in(4) ? 2 + chance.below(count - 3) : undefined;
  const rows: number[] = [];
  let row = heading + 1;
  for (let i = 0; i < count; i++) {
    if (i === gap) row++;
    rows.push(row);
    if (words.includes('number')) put(made, sheet, row, at('number'), i + 1);
    put(made, sheet, row, at('mark'), `${chance.one(PLACES)} ${i + 1}`);
    for (const size of sizes) put(made, sheet, row, at(size), typed(chance.one(RANGES[size] ?? [1])));
    if (words.includes('note') && chance.in(4))
      put(made, sheet, row, at('note'), chance.one(['urgent', 'see photo', '2 off']));
    row++;
  }
  const to = from + words.length - 1;
  const first = to + 1 + (chance.in(3) ? 1 : 0);
  const names = RESULTS.slice(0, 2 + chance.below(3));
  const results = names.map((name, i) => ({ name, column: first + i }));
  const wrapped = chance.in(3);
  const dollar = chance.in(3) ? '$' : '';
  const optional = operation === 'PIN' ? ',,,' : ',,';
  for (const { name, column } of results) {
    put(made, sheet, heading, column, RESULT_HEADINGS[name] ?? name);
    for (const r of rows) {
      const cells = sizes.map((size) => `${dollar}${columnName(at(size))}${r + 1}`);
      const call = `BURN.${operation}.${name}(${cells.join(',')}${assume === undefined ? '' : `${optional},${assume}`})`;
      put(made, sheet, r, column, wrapped ? `=IF(${cells[0]}="","",${call})` : `=${call}`);
    }
  }
  const total = chance.in(4) ? undefined : row + (chance.in(2) ? 1 : 0);
  if (total !== undefined) {
    put(made, sheet, total, at('mark'), chance.one(['Total', 'In all', 'Sum']));
    for (const { name, column } of results) {
      if (name === 'PRESSURE') continue;
      const c = columnName(column);
      put(made, sheet, total, column, `=SUM(${c}${rows[0]! + 1}:${c}${rows.at(-1)! + 1})`);
    }
    if (chance.in(2)) {
      put(made, sheet, total + 1, at('mark'), 'Average');
      const c = columnName(results[0]!.column);
      put(made, sheet, total + 1, results[0]!.column, `=AVERAGE(${c}${rows[0]! + 1}:${c}${rows.at(-1)! + 1})`);
    }
  }
  if (chance.in(5)) {
    // Oxygen so far, down the list.
    const last = results.at(-1)!.column;
    const c = columnName(results[1]!.column);
    put(made, sheet, heading, last + 1, 'Oxygen so far');
    for (const r of rows) put(made, sheet, r, last + 1, `=SUM(${c}$${rows[0]! + 1}:${c}${r + 1})`);
  }
  return {
    sheet,
    operation,
    sizes: sizes.map((name) => ({ name, column: at(name) })),
    mark: at('mark'),
    number: words.includes('number') ? at('number') : undefined,
    from,
    to,
    heading,
    rows,
    results,
    total,
    hasGap: gap !== undefined,
  };
}

/** Another list below the first, of other work, with headings of its own. */
function secondList(made: Made, chance: Chance, list: List, assume: string | undefined): void {
  const others = (Object.keys(OPERATIONS) as Operation[]).filter((o) => o !== list.operation);
  const heading = (list.total ?? list.rows.at(-1)!) + 4;
  put(made, list.sheet, heading - 1, list.from, 'Other work');
  makeList(made, chance, list.sheet, chance.one(others), heading, assume, 4 + chance.below(3));
}

function makePlan(made: Made, chance: Chance, list: List, assume: string | undefined): Job['plan'] {
  const kind = list.operation === 'PIN' && chance.in(2) ? 'list' : 'sizes';
  if (chance.in(4)) return undefined;
  const [first, last] = [list.rows[0]! + 1, list.rows.at(-1)! + 1];
  const prefix = sheetPrefix(list.sheet);
  const range = (column: number, top = first): string =>
    `${prefix}$${columnName(column)}$${top}:$${columnName(column)}$${last}`;
  const optional = list.operation === 'PIN' ? ',,,' : ',,';
  const formula =
    kind === 'list'
      ? `=BURN.JOB.PLAN(${prefix}$${columnName(list.from)}$${list.heading + 1}:$${columnName(list.to)}$${last}${assume === undefined ? '' : `,${assume}`})`
      : `=BURN.${list.operation}.PLAN(${list.sizes.map((s) => range(s.column)).join(',')}${assume === undefined ? '' : `${optional},${assume}`})`;
  const qualified =
    assume !== undefined && !assume.includes('!') && assume.startsWith('$')
      ? formula.replace(assume, `${prefix}${assume}`)
      : formula;
  put(made, 'Plan', 0, 0, 'Plan');
  put(made, 'Plan', 2, 0, qualified);
  if (kind === 'sizes' && chance.in(2)) {
    // Columns of a plan are added up by place.
    put(made, 'Summary', 0, 0, 'Rods in all');
    put(made, 'Summary', 0, 1, `=SUM(Plan!C4:C${3 + list.rows.length + (list.hasGap ? 1 : 0)})`);
  }
  return { sheet: 'Plan', cell: 'A3', kind };
}

/** Sheets that have nothing to do with ours, and faults of their own. */
function strangers(made: Made, chance: Chance): void {
  for (let r = 0; r < 8; r++) {
    put(made, 'Wages', r, 0, `Hand ${r + 1}`);
    put(made, 'Wages', r, 1, 20 + chance.below(20));
    put(made, 'Wages', r, 2, r === 4 ? 777 : `=B${r + 1}*8`);
  }
  put(made, 'Wages', 9, 2, '=SUM(C1:C6)');
}

/** A fault and the cell at which it must be found. */
export interface Fault {
  readonly kind: string;
  readonly sheet: string;
  readonly cell: string;
}

type Seed = (job: Job, chance: Chance) => Fault | undefined;

const content = ({ made }: Job, sheet: string, cell: string): CellContent => made.sheets.get(sheet)?.get(cell) ?? null;

function setCell({ made }: Job, sheet: string, cell: string, value: CellContent): void {
  const { row, column } = readAddress(cell)!;
  put(made, sheet, row, column, value);
}

function formulaAt(job: Job, sheet: string, cell: string): string {
  const found = content(job, sheet, cell);
  if (typeof found !== 'string') throw new Error(`there is no formula in ${sheet} ${cell}`);
  return found;
}

const inner = (rows: readonly number[], chance: Chance): number => rows[1 + chance.below(rows.length - 2)]!;

/** The cell of a result in a row of the list. */
const resultCell = ({ list }: Job, row: number, chance: Chance): string =>
  addressOf(row, chance.one(list.results).column);

/** Faults that people make, each as it comes about. */
export const FAULTS: Readonly<Record<string, Seed>> = {
  'a number typed over a formula': (job, chance) => {
    const cell = resultCell(job, inner(job.list.rows, chance), chance);
    setCell(job, job.list.sheet, cell, 7 + chance.below(30));
    return { kind: 'typed over', sheet: job.list.sheet, cell };
  },
  'a number typed over the last formula': (job, chance) => {
    const cell = resultCell(job, job.list.rows.at(-1)!, chance);
    setCell(job, job.list.sheet, cell, 7 + chance.below(30));
    return { kind: 'typed over', sheet: job.list.sheet, cell };
  },
  'a formula that reads the row below': (job, chance) => {
    const { list } = job;
    const row = list.rows[1 + chance.below(list.rows.length - 3)]!;
    const cell = resultCell(job, row, chance);
    const letter = columnName(list.sizes[1]!.column);
    const other = list.rows[list.rows.indexOf(row) + 1]!;
    setCell(
      job,
      list.sheet,
      cell,
      formulaAt(job, list.sheet, cell).replaceAll(`${letter}${row + 1}`, `${letter}${other + 1}`),
    );
    return { kind: 'differs from its neighbours', sheet: list.sheet, cell };
  },
  'a constant in place of a size': (job, chance) => {
    const { list } = job;
    const row = inner(list.rows, chance);
    const cell = resultCell(job, row, chance);
    const letter = columnName(list.sizes[1]!.column);
    const formula = formulaAt(job, list.sheet, cell);
    setCell(job, list.sheet, cell, formula.replace(new RegExp(`,\\$?${letter}${row + 1}\\b`), ',3'));
    return { kind: 'differs from its neighbours', sheet: list.sheet, cell };
  },
  'another function in one cell': (job, chance) => {
    const { list } = job;
    const row = inner(list.rows, chance);
    const { name, column } = chance.one(list.results);
    const cell = addressOf(row, column);
    setCell(
      job,
      list.sheet,
      cell,
      formulaAt(job, list.sheet, cell).replace(`.${name}(`, `.${name === 'TIME' ? 'BURN' : 'TIME'}(`),
    );
    return { kind: 'differs from its neighbours', sheet: list.sheet, cell };
  },
  'a formula that was deleted': (job, chance) => {
    const cell = resultCell(job, inner(job.list.rows, chance), chance);
    setCell(job, job.list.sheet, cell, null);
    return { kind: 'formula missing', sheet: job.list.sheet, cell };
  },
  'rows added below, formulas not filled down': (job, chance) => {
    const { list } = job;
    const { column } = chance.one(list.results);
    const short = list.rows.slice(-1 - chance.below(2));
    if (list.rows.length - short.length < 3) return undefined;
    for (const row of short) put(job.made, list.sheet, row, column, null);
    return { kind: 'formula missing', sheet: list.sheet, cell: addressOf(short[0]!, column) };
  },
  'a sum that misses the last row': (job, chance) => sumFault(job, chance, 'last'),
  'a sum that misses the first row': (job, chance) => sumFault(job, chance, 'first'),
  'a plan that stops short': (job) => planFault(job, 'short'),
  'a plan that starts late': (job) => planFault(job, 'late'),
  'columns of a plan in different rows': (job) => {
    const { list, plan } = job;
    if (plan?.kind !== 'sizes') return undefined;
    const letter = columnName(list.sizes[1]!.column);
    const [first, last] = [list.rows[0]! + 1, list.rows.at(-1)! + 1];
    setCell(
      job,
      plan.sheet,
      plan.cell,
      formulaAt(job, plan.sheet, plan.cell).replace(
        `$${letter}$${first}:$${letter}$${last}`,
        `$${letter}$${first + 1}:$${letter}$${last + 1}`,
      ),
    );
    return { kind: 'rows do not match', sheet: plan.sheet, cell: plan.cell };
  },
  'two sizes swapped': (job, chance) => {
    const { list } = job;
    const [one, other] = list.sizes;
    return columnFault(job, chance, one!.column, other!.column, true);
  },
  'a size read from the column beside it': (job, chance) => {
    const { list } = job;
    const [one] = list.sizes;
    const wrong = list.number ?? list.sizes.at(-1)!.column;
    return columnFault(job, chance, one!.column, wrong, false);
  },
  'one column without the assumptions': (job, chance) => {
    const { list, assume } = job;
    if (assume === undefined || list.results.length < 3) return undefined;
    const { column } = chance.one(list.results);
    for (const row of list.rows) {
      const cell = addressOf(row, column);
      setCell(job, list.sheet, cell, formulaAt(job, list.sheet, cell).replace(/,,,?,[^,()]*\)/, ')'));
    }
    return { kind: 'mixed assumptions', sheet: list.sheet, cell: addressOf(list.rows[0]!, column) };
  },
  'assumptions that slide down': (job, chance) => {
    const { list, assume } = job;
    if (!assume?.includes('$')) return undefined;
    const { column } = chance.one(list.results);
    const [, top = '', bottom = ''] = /\$(\d+):\$[A-Z]+\$(\d+)$/.exec(assume) ?? [];
    list.rows.forEach((row) => {
      const by = row - list.rows[0]!;
      const moved = assume
        .replaceAll('$', '')
        .replace(new RegExp(`${top}:`), `${Number(top) + by}:`)
        .replace(/\d+$/, String(Number(bottom) + by));
      const cell = addressOf(row, column);
      setCell(
        job,
        list.sheet,
        cell,
        formulaAt(job, list.sheet, cell).replace(assume, () => moved),
      );
    });
    return { kind: 'range slides', sheet: list.sheet, cell: addressOf(list.rows[1]!, column) };
  },
  'a size that is none': (job, chance) => {
    const { list } = job;
    const row = inner(list.rows, chance);
    put(job.made, list.sheet, row, list.sizes[0]!.column, { text: '4 in approx' });
    return { kind: 'error', sheet: list.sheet, cell: addressOf(row, list.results[0]!.column) };
  },
  'a formula typed as a text': (job, chance) => {
    const cell = resultCell(job, inner(job.list.rows, chance), chance);
    setCell(job, job.list.sheet, cell, { text: formulaAt(job, job.list.sheet, cell) });
    return { kind: 'formula as text', sheet: job.list.sheet, cell };
  },
  'a value that was not calculated again': (job, chance) => {
    const cell = resultCell(job, inner(job.list.rows, chance), chance);
    job.made.stale = { sheet: job.list.sheet, cell };
    return { kind: 'moved', ...job.made.stale };
  },
  'figures of an older version': (job) => {
    if (!job.version) return undefined;
    job.made.older = job.version;
    return { kind: 'older version', ...job.version };
  },
};

function sumFault(job: Job, chance: Chance, end: 'first' | 'last'): Fault | undefined {
  const { list } = job;
  if (list.total === undefined) return undefined;
  const { column } = chance.one(list.results.filter((r) => r.name !== 'PRESSURE'));
  const c = columnName(column);
  const rows = end === 'last' ? list.rows.slice(0, -1) : list.rows.slice(1);
  const cell = addressOf(list.total, column);
  setCell(job, list.sheet, cell, `=SUM(${c}${rows[0]! + 1}:${c}${rows.at(-1)! + 1})`);
  return { kind: end === 'last' ? 'range stops short' : 'range starts late', sheet: list.sheet, cell };
}

function planFault(job: Job, how: 'short' | 'late'): Fault | undefined {
  const { list, plan } = job;
  if (!plan) return undefined;
  const first = plan.kind === 'list' ? list.heading + 1 : list.rows[0]! + 1;
  const [late, last] = [list.rows[1]! + 1, list.rows.at(-1)! + 1];
  const formula = formulaAt(job, plan.sheet, plan.cell);
  const changed =
    how === 'short'
      ? formula.replaceAll(
          new RegExp(`(\\$[A-Z]+\\$${first}:\\$[A-Z]+\\$)${last}\\b`, 'g'),
          `$1${list.rows.at(-2)! + 1}`,
        )
      : formula.replaceAll(new RegExp(`(\\$[A-Z]+\\$)${first}(:\\$[A-Z]+\\$${last}\\b)`, 'g'), `$1${late}$2`);
  setCell(job, plan.sheet, plan.cell, changed);
  return { kind: how === 'short' ? 'range stops short' : 'range starts late', sheet: plan.sheet, cell: plan.cell };
}

/** A whole column of a result that reads a size from another column. */
function columnFault(job: Job, chance: Chance, right: number, wrong: number, swap: boolean): Fault {
  const { list } = job;
  const { column } = chance.one(list.results);
  for (const row of list.rows) {
    const cell = addressOf(row, column);
    const [x, y] = [`${columnName(right)}${row + 1}`, `${columnName(wrong)}${row + 1}`];
    const formula = formulaAt(job, list.sheet, cell);
    const changed = swap
      ? formula.replaceAll(new RegExp(`\\b(${x}|${y})\\b`, 'g'), (found) => (found === x ? y : x))
      : formula.replaceAll(new RegExp(`\\b${x}\\b`, 'g'), y);
    setCell(job, list.sheet, cell, changed);
  }
  return { kind: 'wrong column', sheet: list.sheet, cell: addressOf(list.rows[0]!, column) };
}

/** The job with a fault; kinds that its layout has no room for are passed over. */
export function makeFaulty(seed: number): { readonly job: Job; readonly fault: Fault; readonly name: string } {
  const names = Object.keys(FAULTS);
  for (let i = 0; ; i++) {
    const chance = new Chance(seed + 10_000 * i);
    const job = makeJob(chance);
    const name = names[seed % names.length]!;
    const fault = FAULTS[name]!(job, chance);
    if (fault) return { job, fault, name };
  }
}

/** As sheets to be written. */
export function sheetsOf({ sheets }: Made): readonly NewSheet[] {
  return [...sheets].map(([name, cells]) => ({ name, cells: Object.fromEntries(cells), size: [120, 60] }));
}
