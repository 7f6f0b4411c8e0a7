/** The list of a job: a range with a heading row, a row for each item, in the words of the trade. */
import type { Assumption } from '../core/assumptions/assumption.ts';
import { Assumptions, type Override } from '../core/assumptions/assumptions.ts';
import { REGISTRY, findAssumption, type AssumptionName } from '../core/assumptions/registry.ts';
import { Basis } from '../core/basis.ts';
import type { Material } from '../core/burn/materials.ts';
import type { RodChoice } from '../core/burn/rods.ts';
import { CalcError } from '../core/errors.ts';
import {
  Job,
  nameOf,
  type BadItem,
  type JobList,
  type ListItem,
  type ListRow,
  type Remark,
} from '../core/job/job-list.ts';
import * as messages from '../core/messages.ts';
import {
  OPERATIONS,
  OPERATION_IDS,
  operationOf,
  type OperationId,
  findOperation,
  isOperation,
} from '../core/operations/all.ts';
import type { Operation } from '../core/operations/operation.ts';
import { sized, type Sized } from '../core/operations/sized.ts';
import type { ConditionName } from '../core/safety/conditions.ts';
import { conditionsOf, itemOf } from '../core/safety/item.ts';
import { slipQuestion } from '../core/operations/unit-slip.ts';
import { nearestNames } from '../core/units/nearest-names.ts';
import { knownUnit } from '../core/units/parse-quantity.ts';
import { isBlankOrZero, isCellError, type Cell } from './cell.ts';
import { conditionsIn } from './condition-cells.ts';
import { parameterLabel, required, type QuantityKind } from './declaration.ts';
import { readOverride } from './read-assume.ts';
import { readRangeCell, unitWritten } from './read-cell.ts';
import { sizeKind } from './read-items.ts';
import { quantityIn, readHeading, type Cells, type Heading } from './read-table.ts';

/** The list of a job, as all its functions take it. */
export const listParameter = required(
  { kind: 'cells' },
  'Job list with a heading row: mark, quantity, operation and its sizes, rod, material, condition, or any assumption for its row; pins need diameter and length only',
  'A1:D9',
);

/** What people write over their columns, the plainest word first: it is the one that messages use. */
const WORDS: Readonly<Record<string, readonly string[]>> = {
  mark: [
    ...['mark', 'tag', 'item', 'pin', 'name', 'where', 'location', 'description', 'desc', 'part', 'component'],
    ...['ref', 'reference', 'id', 'number', 'no', 'nr', '#'],
  ],
  operation: ['operation', 'op', 'work', 'job', 'task', 'process'],
  quantity: ['quantity', 'qty', 'qnty', 'no off', 'number off', 'off', 'pcs', 'pieces', 'pc', 'nos', 'each', 'ea'],
  diameter: ['diameter', 'dia', 'diam', 'd', 'ø', '⌀', 'od'],
  length: ['length', 'len', 'long', 'lgth', 'lg', 'lth', 'l'],
  hole: ['hole', 'bore', 'bore to', 'bored', 'hole dia', 'hole diameter', 'bore dia', 'bore diameter', 'opening'],
  depth: ['depth', 'deep', 'dp'],
  width: ['width', 'wide', 'w'],
  thickness: ['thickness', 'thk', 'thick', 't', 'wall', 'plate'],
  count: ['count'],
  rod: ['rod', 'rod size', 'bar'],
  material: ['material', 'matl', 'mat', 'grade', 'metal'],
  condition: ['condition', 'conditions', 'cond', 'hazard', 'hazards'],
  note: ['note', 'notes', 'remark', 'remarks', 'comment', 'comments'],
};

/** What a register has under a word of the user's own, which may be `constructor`. */
const ownEntry = <T>(register: Readonly<Record<string, T>>, word: string): T | undefined =>
  Object.hasOwn(register, word) ? register[word] : undefined;

/** Short forms of an assumption's name. */
const ASSUMPTION_WORDS: Readonly<Record<string, string>> = { ends: 'ends worked', cooling: 'cooling method' };

/** What people write for an operation, besides its own word. */
const OPERATION_WORDS: Readonly<Record<string, OperationId>> = {
  pins: 'PIN',
  'burn out': 'PIN',
  'pin removal': 'PIN',
  pierce: 'HOLE',
  piercing: 'HOLE',
  holes: 'HOLE',
  gouging: 'GOUGE',
  groove: 'GOUGE',
  cutting: 'CUT',
  sever: 'CUT',
  studs: 'STUD',
  bolt: 'STUD',
  bolts: 'STUD',
  breaching: 'BREACH',
};

/** Words before a size that add nothing: `pin dia`. */
const OF_WHAT = /^(pin|bolt|stud|plate|groove|work)\s+/;

/**
 * Assumptions that hold for the whole job whatever a row says: its cylinders and batteries, its days, its rules, its log, and
 * how results are shown.
 */
const OF_THE_JOB =
  /^(cylinder|battery|strike|peukert|log |lead |regulator supply)|^(leftover pressure|delivery pressure|cylinders on manifold|day length|noise rule|fire watch rule|burning noise|protector reduction|plates per pin|show working|units)$/;

const SIZES = new Set<string>(OPERATION_IDS.flatMap((id) => operationOf(id).order));
/** Conditions under which the work also takes more or less, and the assumption that its figures go by. */
const FIGURED_BY: Partial<Record<ConditionName, AssumptionName>> = {
  underwater: 'water depth',
  overhead: 'position',
  'vertical down': 'position',
  tight: 'access',
  'closed bore': 'pin ends',
  'hollow pin': 'existing bore',
  'water quench': 'cooling method',
};
const MOST_PIECES = 1000;
const QUANTITY: QuantityKind = { kind: 'quantity', quantity: 'count', above: 0, max: MOST_PIECES, whole: true };

/** What a heading means. */
type Meaning =
  | { readonly column: string; readonly heading: Heading; readonly rank: number }
  | { readonly assumption: Assumption; readonly heading: Heading }
  | { readonly unknown: string };

interface Layout {
  /** Columns of the list by their plain word. */
  readonly columns: ReadonlyMap<string, { readonly at: number; readonly heading: Heading | undefined }>;
  readonly assumptions: readonly { readonly at: number; readonly assumption: Assumption; readonly heading: Heading }[];
  readonly remarks: readonly string[];
}

const plain = (name: string): string =>
  name
    .replace(/[.:*'’]/g, '')
    .replace(/[Φφ∅]/g, 'ø')
    .replace(/\s+/g, ' ')
    .trim();

/** What a heading means; undefined for a cell that is none. */
function meaningOf(cell: Cell | undefined): Meaning | undefined {
  const read = readHeading(cell);
  if (!read) return undefined;
  // Several words behind a comma are a remark: `Bore, if not as planned`.
  const heading = read.unit.includes(' ') ? { ...read, unit: '' } : read;
  const name = plain(heading.name);
  const found = named(name, heading) ?? named(name.replace(OF_WHAT, ''), heading);
  if (found) return found;
  // A unit without a comma: `dia mm`.
  const [, word = '', unit = ''] = /^(.+)\s(\S+)$/.exec(name) ?? [];
  const apart = { ...heading, name: word, unit };
  const known = unit !== '' && knownUnit(unit, 'length') !== undefined;
  return (
    (known ? (named(word, apart) ?? named(word.replace(OF_WHAT, ''), apart)) : undefined) ?? { unknown: heading.text }
  );
}

/** A column as its heading names it: one of sizes, another of the list's own, or one of an assumption. */
export interface HeadedColumn {
  readonly name: string;
  readonly of: 'sizes' | 'list' | 'assumption';
}

/** What a list would read under a heading; undefined where it would pass the column over. */
export function columnOfHeading(cell: Cell): HeadedColumn | undefined {
  const meaning = meaningOf(cell);
  if (!meaning || 'unknown' in meaning) return undefined;
  if ('column' in meaning) return { name: meaning.column, of: SIZES.has(meaning.column) ? 'sizes' : 'list' };
  return OF_THE_JOB.test(meaning.assumption.name) ? undefined : { name: meaning.assumption.name, of: 'assumption' };
}

function named(name: string, heading: Heading): Meaning | undefined {
  for (const [column, words] of Object.entries(WORDS)) {
    const rank = words.indexOf(name);
    if (rank >= 0) return { column, heading, rank };
  }
  const assumption = findAssumption(ownEntry(ASSUMPTION_WORDS, name) ?? name);
  return assumption && { assumption, heading };
}

/** All words that a heading is known by, to offer the nearest. */
const KNOWN = [
  ...Object.values(WORDS)
    .flat()
    .filter((w) => w.length > 1),
  ...REGISTRY.map((a) => a.name as string),
];

/** The layout that a row of headings gives; undefined where the row is none. */
function layoutOf(row: readonly Cell[]): Layout | undefined {
  if (row.some((cell) => typeof cell === 'number' && cell !== 0)) return undefined;
  const meanings = row.map(meaningOf);
  const columns = new Map<string, { at: number; heading: Heading; rank: number }>();
  const assumptions: { at: number; assumption: Assumption; heading: Heading }[] = [];
  const remarks: string[] = [];
  meanings.forEach((meaning, at) => {
    if (!meaning) return;
    if ('unknown' in meaning)
      remarks.push(messages.columnNotRead(meaning.unknown, nearestNames(plain(meaning.unknown.toLowerCase()), KNOWN)));
    else if ('column' in meaning) {
      const { column, heading, rank } = meaning;
      const before = columns.get(column);
      if (before && SIZES.has(column)) throw messages.headingTwice('list', heading.text);
      const plainer = !before || rank < before.rank;
      // Marks and notes often stand in several.
      if (before && column !== 'mark' && column !== 'note')
        remarks.push(messages.columnBeside((plainer ? before.heading : heading).text));
      if (plainer) columns.set(column, { at, heading, rank });
    } else if (OF_THE_JOB.test(meaning.assumption.name)) remarks.push(messages.columnOfTheJob(meaning.heading.text));
    else if (assumptions.some(({ assumption }) => assumption === meaning.assumption))
      throw messages.headingTwice('list', meaning.heading.text);
    else assumptions.push({ at, ...meaning });
  });
  const sizes = [...columns.keys()].filter((name) => SIZES.has(name));
  // One word of a size may stand in any note; two columns that are known make a heading.
  return sizes.length > 0 && columns.size + assumptions.length > 1 ? { columns, assumptions, remarks } : undefined;
}

/** What a list's column is by its heading: its plain word, and the unit that the heading names. */
export interface ListHeading {
  readonly column: string;
  readonly unit: string;
}

/** The columns of a list by their headings; undefined for those that are not read. Of two that are the same the plainer word counts. */
export function listHeadings(row: readonly Cell[]): readonly (ListHeading | undefined)[] {
  const meanings = row.map(meaningOf);
  return meanings.map((meaning, at) => {
    if (!meaning || !('column' in meaning)) return undefined;
    const { column, rank, heading } = meaning;
    const plainer = meanings.some(
      (other, i) =>
        other && 'column' in other && other.column === column && (other.rank < rank || (other.rank === rank && i < at)),
    );
    return plainer ? undefined : { column, unit: heading.unit };
  });
}

/** Two columns of sizes without a heading can only be diameter and length of pins. */
const BARE: Layout = {
  columns: new Map([
    ['diameter', { at: 0, heading: undefined }],
    ['length', { at: 1, heading: undefined }],
  ]),
  assumptions: [],
  remarks: [],
};

const isSize = (cell: Cell | undefined): boolean =>
  typeof cell === 'number' || (typeof cell === 'string' && /^\s*[Øø⌀+-]?\s*[\d.½¼¾⅛⅜⅝⅞⅓⅔]/.test(cell));

function bareLayout(cells: Cells): Layout {
  const first = cells.find((row) => !row.every(isBlankOrZero)) ?? [];
  const further = cells.some((row) => row.slice(2).some((cell) => !isBlankOrZero(cell)));
  if (!further && (isSize(first[0]) || isSize(first[1]))) return BARE;
  throw messages.listWithoutHeading();
}

/** A job list as its range stands in the sheet. Throws where there is no row that can be sized. */
export function readList(cells: Cells, basis: Basis): JobList {
  const headings = cells.map(layoutOf);
  let layout = headings.some((h) => h !== undefined) ? undefined : bareLayout(cells);
  const rows: ListRow[] = [];
  const items: ListItem[] = [];
  const bad: BadItem[] = [];
  const bases = new RowBases(basis);
  cells.forEach((row, i) => {
    const heading = headings[i];
    if (heading) layout = heading;
    // What stands above the first heading row is a title.
    const read: ListRow = heading || !layout ? { kind: 'blank' } : readRow(row, i + 1, layout, bases);
    rows.push(read);
    if (read.kind === 'item') items.push(read.item);
    if (read.kind === 'bad') bad.push(read.bad);
  });
  if (items.length === 0) throw bad[0] ? messages.everyRowBad('list', bad[0].problem) : messages.noRows('list');
  const notRead = [...new Set(headings.flatMap((h) => h?.remarks ?? []))];
  const remarks = [...notRead.map((text): Remark => ({ kind: 'not read', text })), ...toAsk(items)];
  return { rows, items, bad, remarks };
}

/** Questions of single rows that are told one by one; of more the first stands for all. */
const MOST_QUESTIONS = 3;

/** What to ask about sizes, by the rows. */
function toAsk(items: readonly ListItem[]): readonly Remark[] {
  const asked = items.filter(({ question }) => question !== '');
  const many = asked.length > MOST_QUESTIONS;
  const first = many ? `${asked.length} rows, the first ` : '';
  return asked
    .slice(0, many ? 1 : undefined)
    .map((item) => ({ kind: 'to ask', text: `${first}${nameOf(item)}: ${item.question}` }));
}

/** Sets of assumptions of rows that are kept. */
const MOST_BASES = 64;

/** Rows with the same assumptions of their own share a basis. */
class RowBases {
  private readonly bases: Map<string, Basis>;

  constructor(readonly basis: Basis) {
    this.bases = basis.reading('rows of lists', () => new Map<string, Basis>());
  }

  under(overrides: readonly Override[]): Basis {
    if (overrides.length === 0) return this.basis;
    const key = JSON.stringify(overrides);
    if (this.bases.size > MOST_BASES) this.bases.clear();
    const found = this.bases.get(key) ?? new Basis(Assumptions.from(overrides, this.basis.a));
    this.bases.set(key, found);
    return found;
  }
}

const text = (cell: Cell): string =>
  (typeof cell === 'string' || typeof cell === 'number') && !isBlankOrZero(cell) ? String(cell).trim() : '';

function readRow(row: readonly Cell[], number: number, layout: Layout, bases: RowBases): ListRow {
  const under = (name: string): Cell => {
    const column = layout.columns.get(name);
    return column ? (row[column.at] ?? null) : null;
  };
  const known = [...layout.columns.keys()].filter((name) => name !== 'note');
  if (known.every((name) => isBlankOrZero(under(name)))) return { kind: 'blank' };
  const mark = text(under('mark'));
  try {
    return { kind: 'item', item: { row: number, mark, ...readItem(row, under, layout, bases) } };
  } catch (e) {
    if (!(e instanceof CalcError)) throw e;
    return { kind: 'bad', bad: { row: number, mark, problem: messages.inListRow(mark, number, e) } };
  }
}

function readItem(
  row: readonly Cell[],
  under: (name: string) => Cell,
  layout: Layout,
  bases: RowBases,
): Omit<ListItem, 'row' | 'mark'> {
  for (const name of layout.columns.keys()) {
    const cell = under(name);
    if (isCellError(cell)) throw messages.isErrorValue(name, cell.error);
  }
  const { system } = bases.basis.a;
  const overrides = layout.assumptions.flatMap(({ at, assumption, heading }): readonly Override[] => {
    const cell = row[at] ?? null;
    try {
      const read = readOverride(assumption, wordsFor(assumption, cell), heading.unit, system);
      return read ? [read] : [];
    } catch (e) {
      if (e instanceof CalcError) throw messages.underHeading(heading.text, e);
      throw e;
    }
  });
  const basis = bases.under(overrides);
  const operation = OPERATIONS[operationIn(under)] as Operation;
  const sizes = Object.fromEntries(
    operation.order.map((name) => [name, sizeIn(under(name), operation, name, layout, basis)]),
  );
  const unused = [...SIZES].filter((name) => !operation.order.includes(name) && !isBlankOrZero(under(name)));
  const counted = unused.includes('count');
  const { quantity, note } = quantityOf(
    under('quantity'),
    counted ? under('count') : null,
    layout.columns.has('quantity'),
    system,
  );
  const besides = unused.filter((name) => name !== 'count');
  const written = operation.order.filter(
    (name) => (layout.columns.get(name)?.heading?.unit ?? '') !== '' || unitWritten(under(name)),
  );
  const slip = slipQuestion(operation.id as OperationId, sizes, system, new Set(written));
  const rod = readRangeCell(under('rod'), 'rod', { kind: 'rod' }, system) as RodChoice | undefined;
  const material = readRangeCell(under('material'), 'material', { kind: 'material' }, system) as Material | undefined;
  let made: Sized;
  try {
    made = sized({ operation, sizes, rod, material, basis });
  } catch (e) {
    throw e instanceof CalcError && slip !== '' ? messages.alsoAsked(e, slip) : e;
  }
  const conditions = conditionsIn(text(under('condition')), system);
  const brought =
    conditions.length > 0 ? conditionsOf(itemOf({ operation: operation.id as OperationId }, basis.a)) : [];
  const asked = [
    slip,
    note,
    ...conditions.map(({ name }) => {
      const column = FIGURED_BY[name];
      return column && brought.every((b) => b.name !== name) ? messages.cautionsOnly(name, column) : '';
    }),
    quantity > 1 && 'count' in sizes && sizes['count'] === undefined ? messages.eachSetUp() : '',
  ].filter((said) => said !== '');
  return {
    quantity,
    sized: made,
    basis,
    conditions,
    question: messages.joined(asked),
    notes: [...asked, ...(besides.length > 0 ? [messages.sizesNotUsed(besides, operation.id)] : [])],
  };
}

/** Ends are written as a number or a word. */
function wordsFor({ name }: Assumption, cell: Cell): Cell {
  const word = text(cell).toLowerCase();
  if (name !== 'ends worked') return cell;
  return word === 'both' || word === 'two' ? 2 : word === 'one' ? 1 : cell;
}

const PIN_SIZES = new Set<string>([...OPERATIONS.PIN.order, 'count']);

/** The operation of a row: its word, or PIN where only sizes of a pin are given. */
function operationIn(under: (name: string) => Cell): OperationId {
  const word = text(under('operation'));
  if (word !== '') {
    const plainWord = plain(word.toLowerCase());
    if (isOperation(plainWord.toUpperCase())) return findOperation(plainWord);
    return ownEntry(OPERATION_WORDS, plainWord) ?? findOperation(word);
  }
  const others = [...SIZES].filter((name) => !PIN_SIZES.has(name) && !isBlankOrZero(under(name)));
  if (others.length > 0) throw messages.operationNeeded(others);
  return 'PIN';
}

function sizeIn(cell: Cell, operation: Operation, name: string, layout: Layout, { a }: Basis): number | undefined {
  const kind = sizeKind(operation, name);
  const label = parameterLabel(name);
  const value = quantityIn(cell, label, kind, a.system, layout.columns.get(name)?.heading);
  if (value !== undefined || operation.sizes[name]?.optional) return value;
  if (!layout.columns.has(name)) throw messages.noSuchColumn(label, operation.id);
  throw messages.blankOrZero(label);
}

/** Pieces of a row: a number, or a text such as `4 off`; one where nothing stands, which is said where a column asks for it. */
function quantityOf(
  cell: Cell,
  count: Cell,
  asked: boolean,
  system: 'US' | 'SI',
): { readonly quantity: number; readonly note: string } {
  const given = isBlankOrZero(cell) ? count : cell;
  const number =
    typeof given === 'string' ? given.replace(/^\s*x\s*|\s*(x|off|no|nos|pcs?|pieces|ea|each)\.?\s*$/gi, '') : given;
  const quantity = readRangeCell(number, 'quantity', QUANTITY, system) as number | undefined;
  return { quantity: quantity ?? 1, note: quantity === undefined && asked ? messages.quantityZero() : '' };
}

/** Lists whose evaluation is kept for one set of assumptions. */
const MOST_LISTS = 3;

/** A job list with all that is worked out for it; the functions that are given the same list share it. */
export function jobOf(cells: Cells, basis: Basis): Job {
  const kept = basis.reading('job lists', () => new Map<string, Job>());
  const key = JSON.stringify(cells);
  const job = kept.get(key) ?? new Job(readList(cells, basis), basis);
  kept.delete(key);
  kept.set(key, job);
  for (const old of [...kept.keys()].slice(0, -MOST_LISTS)) kept.delete(old);
  return job;
}
