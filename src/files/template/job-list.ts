import type { CellContent, CellLook } from '../../sheet/described-workbook.ts';
import type { Scalar } from '../../sheet/host-function.ts';
import { tableLook } from '../../sheet/table-look.ts';
import { YELLOW } from '../../sheet/yellow.ts';
import { findFunction } from '../../catalogue/catalogue.ts';
import { columnName } from '../xlsx/address.ts';
import type { NewSheet, NewWorkbook } from '../xlsx/new-workbook.ts';

/** Columns that every list begins with, in the words of the functions that read it. */
const USUAL = ['mark', 'quantity', 'diameter', 'length', 'hole', 'rod', 'material', 'condition', 'note'] as const;
/** Further columns, for lists that are not of pins alone. */
const FURTHER = ['operation', 'depth', 'width', 'thickness', 'count'] as const;
export const LIST_COLUMNS = [...USUAL, ...FURTHER] as const;
export type ListColumn = (typeof LIST_COLUMNS)[number];

/** One row of a job list, as the functions read it. */
export type ListCells = Readonly<Partial<Record<ListColumn, Scalar>>>;

/** Rows kept free below a list. */
const SPARE = 30;
const WIDTHS: Readonly<Partial<Record<ListColumn, number>>> = { mark: 180, material: 110, condition: 130, note: 260 };
const USUAL_WIDTH = 80;
const FIRST = 4;

const LIST = 'Job list';
const TITLE: CellLook = { bold: true, size: 16 };
const NOTE: CellLook = { italic: true, color: '#5b6662' };
const HEADING: CellLook = { bold: true, wrap: true, background: '#dfe6e4' };

/** A job list to be typed on, one row for each line of the customer's list with its quantity, and the plan that follows it. */
export function jobList(title: string, rows: readonly ListCells[]): NewWorkbook {
  const columns = LIST_COLUMNS.filter(
    (name) => (USUAL as readonly string[]).includes(name) || rows.some((row) => row[name] != null),
  );
  const last = FIRST + Math.max(rows.length, 1) + SPARE;
  const right = columnName(columns.length - 1);
  const list: NewSheet = {
    name: LIST,
    rows: [
      [title],
      [
        'One row for each kind of item, with its quantity. Sizes in inches unless a unit stands with them: 90 mm, 3-1/2.',
      ],
      [],
      columns.map((name): CellContent => name),
      ...rows.map((row) => columns.map((name): CellContent => contentOf(row[name] ?? null))),
    ],
    looks: {
      A1: TITLE,
      A2: NOTE,
      [`A${FIRST}:${right}${FIRST}`]: HEADING,
      [`A${FIRST + 1}:${right}${last}`]: { background: YELLOW },
    },
    widths: Object.fromEntries(columns.map((name, i) => [columnName(i), WIDTHS[name] ?? USUAL_WIDTH])),
    frozenRows: FIRST,
    size: [last + 200, 80],
    printedHeading: FIRST,
  };
  return { title, sheets: [list, planSheet(`'${LIST}'!$A$${FIRST}:$${right}$${last}`, rows.length + SPARE)] };
}

function planSheet(list: string, rows: number): NewSheet {
  const plan = findFunction('BURN.JOB.PLAN');
  const look = plan && tableLook(plan, []);
  const end = FIRST + rows + 1;
  const all = columnName((look?.columns.length ?? 1) - 1);
  return {
    name: 'Plan',
    rows: [
      ['Plan'],
      [
        `Follows the sheet ${LIST} once a row stands there. An estimate, with low and high; it does not say that a job is safe.`,
      ],
      [],
      [`=BURN.JOB.PLAN(${list})`],
    ],
    looks: {
      A1: TITLE,
      A2: NOTE,
      [`A${FIRST}:${all}${FIRST}`]: HEADING,
      ...Object.fromEntries(
        (look?.columns ?? []).map(({ format, align }, i) => [
          `${columnName(i)}${FIRST + 1}:${columnName(i)}${end}`,
          { ...(format === undefined ? {} : { format }), ...(align === undefined ? {} : { align }) },
        ]),
      ),
    },
    widths: Object.fromEntries((look?.columns ?? []).map(({ width }, i) => [columnName(i), width])),
    heights: { [FIRST]: 54 },
    frozenRows: FIRST,
    landscape: true,
    printedHeading: FIRST,
  };
}

const contentOf = (value: Scalar): CellContent => (typeof value === 'string' ? { text: value } : value);
