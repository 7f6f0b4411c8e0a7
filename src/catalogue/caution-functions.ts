import type { Basis } from '../core/basis.ts';
import type { CalcError } from '../core/errors.ts';
import { sizesOfOne } from '../core/messages.ts';
import { cautionsOf } from '../core/safety/cautions.ts';
import { OPERATION_IDS } from '../core/operations/all.ts';
import { parseConditions } from '../core/safety/conditions.ts';
import type { KnownItem } from '../core/safety/item.ts';
import { wearFor } from '../core/safety/ppe.ts';
import { findSource } from '../core/sources/register.ts';
import { isBlankOrZero } from './cell.ts';
import { conditionTexts, operationsIn } from './condition-cells.ts';
import { optional, required, tableFunction, type Declaration, type Output } from './declaration.ts';
import { jobSheet } from './job-sheet.ts';
import { itemsOf, jobItems, jobKnown, listItems } from './job-items.ts';
import { jobOf, listParameter } from './read-list.ts';
import { isPlan, planItems } from './read-plan.ts';
import type { Cells } from './read-table.ts';

export const operationWords = required(
  { kind: 'text' },
  `${OPERATION_IDS.slice(0, -1).join(', ')} or ${OPERATION_IDS.at(-1) ?? ''}; several with commas between`,
  '"PIN"',
);
export const conditionCells = optional(
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
  readonly operation: string;
  readonly conditions: Cells | undefined;
  readonly items: Cells | undefined;
}

/** The items asked about, and the problems of rows that do not say what they are. */
function asked(
  { operation: word, conditions: cells, items }: Asked,
  basis: Basis,
): { readonly known: readonly KnownItem[]; readonly bad: readonly CalcError[] } {
  const operations = operationsIn(word);
  const conditions = parseConditions(conditionTexts(cells), basis.a.system);
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

/** Rows that could not be asked about, named rather than passed over. */
const leftOut = (bad: readonly CalcError[]): readonly (readonly Output[])[] =>
  bad.map(({ message }) => ['left out', message]);

const about = (values: Asked, basis: Basis): readonly KnownItem[] => asked(values, basis).known;

export const CAUTION_FUNCTIONS: readonly Declaration[] = [
  tableFunction({
    name: 'BURN.CAUTIONS',
    family: 'CAUTIONS',
    summary:
      'Cautions for an operation under the conditions given and assumed, or for the items of a plan, most severe first, with what to do. What is known here, not all there is; local codes, the permit and qualified people rule.',
    parameters: { operation: operationWords, conditions: conditionCells, items: itemCells },
    assume: true,
    result: {
      kind: 'table',
      columns: ['severity', 'caution', 'what to do', 'because', 'clause', 'source', 'edition'].map((heading) => ({
        heading,
      })),
    },
    sources: ['osha 1910.252', 'osha 1910.253', 'osha 1910.146', 'osha 1910.147', 'osha 1910.1000', 'common practice'],
    cautions: [],
    examples: [
      '=BURN.CAUTIONS("PIN")',
      '=BURN.CAUTIONS("CUT",{"confined";"height 30 ft";"galvanised"})',
      '=BURN.CAUTIONS("PIN","grease-packed",BURN.PIN.PLAN(4,10,,,"stainless steel"))',
    ],
    about,
    calculate: (values, basis) => {
      const { known, bad } = asked(values, basis);
      const cautions = cautionsOf(itemsOf(known, basis.a)).map(
        ({ severity, title, action, because, clause, source }) => {
          const from = findSource(source);
          return [severity, title, action, because, clause, from?.citation ?? source, from?.edition ?? ''];
        },
      );
      return [...cautions, ...leftOut(bad)];
    },
  }),
  tableFunction({
    name: 'BURN.PPE.LIST',
    family: 'PPE',
    summary:
      "What to wear for an operation under the conditions given and assumed, or for the items of a plan, and against what. The least; the employer's own assessment decides.",
    parameters: { operation: operationWords, conditions: conditionCells, items: itemCells },
    assume: true,
    result: {
      kind: 'table',
      columns: ['wear', 'against', 'because', 'clause', 'source'].map((heading) => ({ heading })),
    },
    sources: ['osha 1910.133', 'osha 1910.252', 'osha 1910.95', 'osha 1910.134', 'ansi z49.1'],
    cautions: [],
    examples: ['=BURN.PPE.LIST("PIN")', '=BURN.PPE.LIST("BREACH",{"height 20 ft";"confined"})'],
    about,
    calculate: (values, basis) => {
      const { known, bad } = asked(values, basis);
      const worn = wearFor(itemsOf(known, basis.a)).map(({ item, against, because, clause, source }) => [
        item,
        against,
        because,
        clause,
        findSource(source)?.citation ?? source,
      ]);
      return [...worn, ...leftOut(bad)];
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
    sources: ['osha 1910.252', 'osha 1910.253', 'osha 1910.95', 'nfpa 51b 2019', 'pert', 'common practice'],
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
