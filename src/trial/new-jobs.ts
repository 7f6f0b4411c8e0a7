import { findFunction } from '../catalogue/catalogue.ts';
import { jobWorkbook } from '../files/template/job-workbook.ts';
import type { NewSheet, NewWorkbook } from '../files/xlsx/new-workbook.ts';
import { columnName } from '../files/xlsx/address.ts';
import type { CellContent, CellLook } from '../sheet/described-workbook.ts';
import type { HostFunction } from '../sheet/host-function.ts';
import { demoWorkbook } from './demo/demo-workbook.ts';
import type { Scalar } from '../sheet/host-function.ts';

export type NewJob = 'list' | 'template' | 'example';

/** One row of a job list, as the functions read it. */
export type ListRow = Readonly<Partial<Record<ListColumn, Scalar>>>;
export const LIST_COLUMNS = ['mark', 'diameter', 'length', 'hole', 'rod', 'material', 'note'] as const;
export type ListColumn = (typeof LIST_COLUMNS)[number];

/** Rows kept free below a list. */
const SPARE = 30;
const WIDTHS: Readonly<Record<ListColumn, number>> = {
  mark: 180,
  diameter: 90,
  length: 90,
  hole: 90,
  rod: 90,
  material: 110,
  note: 260,
};
const FIRST = 4;

export function newJob(kind: NewJob, functions: readonly HostFunction[]): NewWorkbook {
  if (kind === 'example') return { title: 'Example', ...demoWorkbook() };
  if (kind === 'list') return jobList('Pins to burn', []);
  const assumed = functions.find((f) => f.name === 'BURN.ASSUMED');
  return jobWorkbook(functions, assumed?.call([]) ?? []);
}

/** A list of pins and the plan for it, to be typed on. */
export function jobList(title: string, rows: readonly ListRow[]): NewWorkbook {
  const last = FIRST + Math.max(rows.length, 1) + SPARE;
  const column = (name: ListColumn): string => {
    const letter = columnName(LIST_COLUMNS.indexOf(name));
    return `'Job list'!$${letter}$${FIRST + 1}:$${letter}$${last}`;
  };
  const list: NewSheet = {
    name: 'Job list',
    rows: [
      [title],
      ['One row for each pin. Sizes in inches unless a unit stands with them: 90 mm, 3-1/2.'],
      [],
      LIST_COLUMNS.map((name): CellContent => name),
      ...rows.map((row) => LIST_COLUMNS.map((name): CellContent => contentOf(row[name] ?? null))),
    ],
    looks: {
      A1: { bold: true, size: 16 },
      A2: { italic: true, color: '#5b6662' },
      [`A${FIRST}:${columnName(LIST_COLUMNS.length - 1)}${FIRST}`]: { bold: true, background: '#dfe6e4' },
      [`A${FIRST + 1}:${columnName(LIST_COLUMNS.length - 1)}${last}`]: { background: '#fff8e3' },
    },
    widths: Object.fromEntries(LIST_COLUMNS.map((name, i) => [columnName(i), WIDTHS[name]])),
    frozenRows: FIRST,
    size: [last + 200, 80],
    printedHeading: FIRST,
  };
  const plan: NewSheet = {
    name: 'Plan',
    rows: [
      ['Plan'],
      ['An estimate, with low and high; it does not say that a job is safe.'],
      [],
      [`=BURN.PIN.PLAN(${(['diameter', 'length', 'hole', 'rod', 'material'] as const).map(column).join(',')})`],
    ],
    looks: {
      A1: { bold: true, size: 16 },
      A2: { italic: true, color: '#5b6662' },
      'A4:Z4': { bold: true, wrap: true, background: '#dfe6e4' },
      ...decimals(last),
    },
    heights: { 4: 54 },
    frozenRows: 4,
    landscape: true,
    printedHeading: 4,
  };
  return { title, sheets: [list, plan] };
}

/** One decimal for the quantities of the plan. */
function decimals(last: number): Record<string, CellLook> {
  const result = findFunction('BURN.PIN.PLAN')?.result;
  const columns = result && 'columns' in result ? result.columns : [];
  return Object.fromEntries(
    columns.flatMap(({ quantity }, i) =>
      quantity === undefined || quantity === 'count'
        ? []
        : [[`${columnName(i)}${FIRST + 1}:${columnName(i)}${last}`, { format: '#,##0.0' }]],
    ),
  );
}

const contentOf = (value: Scalar): CellContent => (typeof value === 'string' ? { text: value } : value);
