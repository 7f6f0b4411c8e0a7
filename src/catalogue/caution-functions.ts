import { OPERATION_IDS } from '../core/operations/all.ts';
import { cautionsFor } from '../core/safety/cautions.ts';
import { ppeFor } from '../core/safety/ppe.ts';
import { findSource } from '../core/sources/register.ts';
import { optional, required, tableFunction, type Declaration } from './declaration.ts';
import { jobSheet } from './job-sheet.ts';
import { conditionTexts, impliedConditions, operationsIn } from './condition-cells.ts';

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

export const CAUTION_FUNCTIONS: readonly Declaration[] = [
  tableFunction({
    name: 'BURN.CAUTIONS',
    family: 'CAUTIONS',
    summary:
      'Cautions for an operation under the conditions given, most severe first, with what to do. What is known here, not all there is; local codes, the permit and qualified people rule.',
    parameters: { operation: operationWords, conditions: conditionCells },
    assume: true,
    result: {
      kind: 'table',
      columns: ['severity', 'caution', 'what to do', 'because', 'clause', 'source', 'edition'].map((heading) => ({
        heading,
      })),
    },
    sources: ['osha 1910.252', 'osha 1910.253', 'osha 1910.146', 'osha 1910.147', 'osha 1910.1000', 'common practice'],
    cautions: [],
    examples: ['=BURN.CAUTIONS("PIN")', '=BURN.CAUTIONS("CUT",{"confined";"height 30 ft";"galvanised"})'],
    calculate: ({ operation: word, conditions: cells }, { a }) =>
      cautionsFor(operationsIn(word), conditionTexts(cells), {}, a.system).map(
        ({ severity, title, action, because, clause, source }) => {
          const from = findSource(source);
          return [severity, title, action, because, clause, from?.citation ?? source, from?.edition ?? ''];
        },
      ),
  }),
  tableFunction({
    name: 'BURN.PPE.LIST',
    family: 'PPE',
    summary:
      "What to wear for an operation under the conditions given, and against what. The least; the employer's own assessment decides.",
    parameters: { operation: operationWords, conditions: conditionCells },
    assume: true,
    result: {
      kind: 'table',
      columns: ['wear', 'against', 'because', 'clause', 'source'].map((heading) => ({ heading })),
    },
    sources: ['osha 1910.133', 'osha 1910.252', 'osha 1910.95', 'osha 1910.134', 'ansi z49.1'],
    cautions: [],
    examples: ['=BURN.PPE.LIST("PIN")', '=BURN.PPE.LIST("BREACH",{"height 20 ft";"confined"})'],
    calculate: ({ operation: word, conditions: cells }, { a }) => {
      const operations = operationsIn(word);
      const plain = new Set(ppeFor([]));
      return ppeFor([...conditionTexts(cells), ...impliedConditions(operations)], a.system).map((p) => [
        p.item,
        p.against,
        plain.has(p) ? 'every burn' : 'the conditions',
        p.clause,
        findSource(p.source)?.citation ?? p.source,
      ]);
    },
  }),
  tableFunction({
    name: 'BURN.JOB.SHEET',
    family: 'JOB',
    summary:
      'A sheet to print on one page: cautions first, then job, rods, oxygen, crew, what departs from the defaults, fire watch, what to wear, and lines to sign. It permits nothing.',
    parameters: {
      plan: required(
        { kind: 'cells' },
        'Region of a PLAN, or several below each other, with heading rows; columns are found by heading',
        'A1#',
      ),
      operation: operationWords,
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
      '=BURN.JOB.SHEET(BURN.PIN.PLAN({4;3},{10;8}),"PIN",{"height 30 ft";"grease-packed"},"Boom foot pins, dragline 2")',
    ],
    calculate: ({ plan, operation: word, conditions: cells, title }, basis) =>
      jobSheet({ plan, operations: operationsIn(word), conditions: conditionTexts(cells), title }, basis).map(
        ({ section, what, figure, note }) => [section, what, figure, note],
      ),
  }),
];
