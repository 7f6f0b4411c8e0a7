import type { Basis } from '../core/basis.ts';
import type { CalcError } from '../core/errors.ts';
import { isErrorValue, itemsTwice, sizesOfOne } from '../core/messages.ts';
import type { Remark } from '../core/job/job-list.ts';
import { cautionsOf } from '../core/safety/cautions.ts';
import { OPERATION_IDS, isOperation, type OperationId } from '../core/operations/all.ts';
import { parseConditions, type Condition } from '../core/safety/conditions.ts';
import type { KnownItem } from '../core/safety/item.ts';
import { wearFor } from '../core/safety/ppe.ts';
import { findSource } from '../core/sources/register.ts';
import { isBlankOrZero, isCellError } from './cell.ts';
import { conditionTexts, operationsIn } from './condition-cells.ts';
import { optional, required, tableFunction, type Declaration, type Output } from './declaration.ts';
import { jobSheet } from './job-sheet.ts';
import { forMarks, itemsOf, jobItems, jobKnown, listItems } from './job-items.ts';
import { jobOf, listParameter } from './read-list.ts';
import { isPlan, planItems } from './read-plan.ts';
import type { Cells } from './read-table.ts';

const operationOrList = required(
  { kind: 'cells' },
  `${OPERATION_IDS.slice(0, -1).join(', ')} or ${OPERATION_IDS.at(-1) ?? ''}, several with commas between; or a job list, as BURN.JOB.PLAN takes it`,
  '"PIN"',
);
const conditionCells = optional(
  { kind: 'cells' },
  'Cells that say how the job is, such as confined, height 30 ft, galvanised; BURN.CONDITIONS lists the words; none when left out',
  'A2:A9',
);

const itemCells = optional(
  { kind: 'cells' },
  'What is burnt: region of a PLAN, or items one a row, sizes in the order of the operation, then rod and material; material, place and grounding as assumed when left out',
  'A1#',
);

interface Asked {
  /** Words of operations, or a job list. */
  readonly operation: Cells;
  readonly conditions: Cells | undefined;
  readonly items: Cells | undefined;
}

/** The words of a range that holds nothing but operations; undefined for a job list. */
function operationText(cells: Cells): string | undefined {
  const [first, ...rest] = cells.flat().filter((cell) => !isBlankOrZero(cell));
  const error = [first, ...rest].find((cell) => cell !== undefined && isCellError(cell));
  if (error !== undefined && isCellError(error)) throw isErrorValue('operation', error.error);
  // A heading has two cells at least.
  if (rest.length === 0) return first === undefined || isCellError(first) ? '' : String(first);
  const words = [first, ...rest].map(String);
  return words.every((word) => isOperation(word.trim().toUpperCase())) ? words.join(', ') : undefined;
}

interface Found {
  readonly known: readonly KnownItem[];
  /** Rows that do not say what they are, and columns that are not read. */
  readonly bad: readonly CalcError[];
  readonly remarks: readonly Remark[];
}

/** The items asked about. */
function asked({ operation: cells, conditions: given, items }: Asked, basis: Basis): Found {
  const conditions = parseConditions(conditionTexts(given), basis.a.system);
  const text = operationText(cells);
  if (text !== undefined) return { remarks: [], ...askedByOperation(operationsIn(text), conditions, items, basis) };
  if (items !== undefined) throw itemsTwice();
  const job = jobOf(cells, basis);
  return {
    known: jobItems([], jobKnown(job), conditions, basis.a),
    bad: job.list.bad.map(({ problem }) => problem),
    remarks: job.list.remarks,
  };
}

function askedByOperation(
  operations: readonly OperationId[],
  conditions: readonly Condition[],
  items: Cells | undefined,
  basis: Basis,
): Omit<Found, 'remarks'> {
  if (items === undefined || items.every((row) => row.every(isBlankOrZero)))
    return { known: jobItems(operations, [], conditions, basis.a), bad: [] };
  if (isPlan(items)) {
    const { items: rows, bad } = planItems(items, basis.a.system);
    return { known: jobItems(operations, rows, conditions, basis.a), bad };
  }
  const [operation] = operations;
  if (operation === undefined || operations.length > 1) throw sizesOfOne(operations);
  const { items: rows, bad } = listItems(operation, 'items', items, basis);
  return { known: jobItems(operations, rows, conditions, basis.a), bad };
}

/** Rows that could not be asked about and what is said of the list, named rather than passed over. */
const leftOut = ({ bad, remarks }: Found): readonly (readonly Output[])[] => [
  ...bad.map(({ message }) => ['left out', message]),
  ...remarks.map(({ kind, text }) => [kind, text]),
];

/** Which items of a list something is for, in a column. */
const forCell = (marks: readonly string[], { known }: Found): Output =>
  marks.length > 0 ? forMarks(marks) : known.some((k) => (k.marks ?? []).length > 0) ? 'all' : null;

const about = (values: Asked, basis: Basis): readonly KnownItem[] => asked(values, basis).known;

export const CAUTION_FUNCTIONS: readonly Declaration[] = [
  tableFunction({
    name: 'BURN.CAUTIONS',
    family: 'CAUTIONS',
    summary:
      'Cautions for an operation or a job list under the conditions given and assumed, or for a plan: most severe first, with what to do and for which marks. What is known here, not all there is; local codes, the permit and qualified people rule.',
    parameters: { operation: operationOrList, conditions: conditionCells, items: itemCells },
    assume: true,
    result: {
      kind: 'table',
      columns: ['severity', 'caution', 'what to do', 'because', 'for', 'clause', 'source', 'edition'].map(
        (heading) => ({ heading }),
      ),
    },
    sources: ['osha 1910.252', 'osha 1910.253', 'osha 1910.146', 'osha 1910.147', 'osha 1910.1000', 'common practice'],
    cautions: [],
    examples: [
      '=BURN.CAUTIONS("PIN")',
      '=BURN.CAUTIONS("CUT",{"confined";"height 30 ft";"galvanised"})',
      '=BURN.CAUTIONS({"mark","dia","length","condition";"Boom foot",5,18,"height 30 ft";"Lock pin",2,6,"galvanised"})',
      '=BURN.CAUTIONS("PIN","grease-packed",BURN.PIN.PLAN(4,10,,,"stainless steel"))',
    ],
    about,
    calculate: (values, basis) => {
      const found = asked(values, basis);
      const cautions = cautionsOf(itemsOf(found.known, basis.a)).map(
        ({ severity, title, action, because, marks, clause, source }) => {
          const from = findSource(source);
          const who = forCell(marks, found);
          return [severity, title, action, because, who, clause, from?.citation ?? source, from?.edition ?? ''];
        },
      );
      return [...cautions, ...leftOut(found)];
    },
  }),
  tableFunction({
    name: 'BURN.PPE.LIST',
    family: 'PPE',
    summary:
      "What to wear for an operation or a job list under the conditions given and assumed, or for the items of a plan, against what, and at which marks. The least; the employer's own assessment decides.",
    parameters: { operation: operationOrList, conditions: conditionCells, items: itemCells },
    assume: true,
    result: {
      kind: 'table',
      columns: ['wear', 'against', 'because', 'for', 'clause', 'source'].map((heading) => ({ heading })),
    },
    sources: ['osha 1910.133', 'osha 1910.252', 'osha 1910.95', 'osha 1910.134', 'ansi z49.1'],
    cautions: [],
    examples: [
      '=BURN.PPE.LIST("PIN")',
      '=BURN.PPE.LIST({"mark","dia","length","condition";"Boom foot",5,18,"height 30 ft";"Lock pin",2,6,""})',
      '=BURN.PPE.LIST("BREACH",{"height 20 ft";"confined"})',
    ],
    about,
    calculate: (values, basis) => {
      const found = asked(values, basis);
      const worn = wearFor(itemsOf(found.known, basis.a)).map(({ item, against, because, marks, clause, source }) => [
        item,
        against,
        because,
        forCell(marks, found),
        clause,
        findSource(source)?.citation ?? source,
      ]);
      return [...worn, ...leftOut(found)];
    },
  }),
  tableFunction({
    name: 'BURN.JOB.SHEET',
    family: 'JOB',
    summary:
      'A sheet for the crew to print: cautions first, then the list by mark, what to load, clock times, what departs from the defaults, fire watch, what to wear, and lines to sign. It permits nothing.',
    parameters: {
      list: listParameter,
      conditions: conditionCells,
      title: optional(
        { kind: 'text' },
        'What the job is called; exothermic rod work when left out',
        '"Boom foot pins, dragline 2"',
      ),
    },
    assume: true,
    result: {
      kind: 'table',
      columns: ['section', 'what', 'figure', 'note'].map((heading) => ({ heading })),
      headless: true,
    },
    sources: ['osha 1910.252', 'osha 1910.253', 'osha 1910.95', 'nfpa 51b 2019', 'hadlock bickel', 'common practice'],
    cautions: ['JOB'],
    examples: [
      '=BURN.JOB.SHEET({"mark","dia","length";"Boom foot left",5,18;"Boom foot right",5,18},{"height 30 ft";"grease-packed"},"Boom foot pins, dragline 2")',
    ],
    about: ({ list, conditions }, basis) => {
      const given = parseConditions(conditionTexts(conditions), basis.a.system);
      const job = jobOf(list, basis);
      return jobItems([], jobKnown(job), given, basis.a);
    },
    calculate: ({ list, conditions: cells, title }, basis) =>
      jobSheet({ job: jobOf(list, basis), conditions: conditionTexts(cells), title }, basis).map(
        ({ section, what, figure, note }) => [section, what, figure, note],
      ),
  }),
];
