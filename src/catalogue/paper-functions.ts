/** Papers of a job for whoever judges it. */
import { optional, tableFunction, type Declaration } from './declaration.ts';
import { jobBasis } from './job-basis.ts';
import { jobKnown } from './job-items.ts';
import { jobReport } from './job-report.ts';
import { jobOf, listParameter } from './read-list.ts';
import { STEP_COLUMNS } from './step-table.ts';

export const PAPER_FUNCTIONS: readonly Declaration[] = [
  tableFunction({
    name: 'BURN.JOB.BASIS',
    family: 'JOB',
    summary:
      'The basis of an estimate, to print: what it covers and leaves out, how sure it is, the assumptions that matter with range, source and reason, cautions, checks, version, lines to sign.',
    parameters: {
      list: listParameter,
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
    sources: ['aace 34r-05', 'aace 18r-97', 'hadlock bickel', 'common practice'],
    cautions: ['JOB'],
    examples: [
      '=BURN.JOB.BASIS({"mark","qty","dia","length";"Boom foot",2,5,18;"Lock pin",4,"1-1/2",6},"Boom foot pins, dragline 2")',
    ],
    about: ({ list }, basis) => jobKnown(jobOf(list, basis)),
    calculate: ({ list, title }, basis) =>
      jobBasis(list, title, basis).map(({ section, what, figure, note }) => [section, what, figure, note]),
  }),
  tableFunction({
    name: 'BURN.JOB.REPORT',
    family: 'JOB',
    summary: 'A job list for a reviewer: one row worked in full, then every row in a table.',
    parameters: {
      list: listParameter,
      item: optional(
        { kind: 'text' },
        'Row worked in full: its mark or number; the one that costs most when left out',
        '"Boom foot"',
      ),
    },
    assume: true,
    result: { kind: 'table', columns: STEP_COLUMNS, headless: true },
    sources: ['hadlock bickel', 'common practice'],
    cautions: ['JOB'],
    examples: ['=BURN.JOB.REPORT({"mark","qty","dia","length";"Boom foot",2,5,18;"Lock pin",4,"1-1/2",6},"Lock pin")'],
    about: ({ list }, basis) => jobKnown(jobOf(list, basis)),
    calculate: ({ list, item }, basis) => jobReport(jobOf(list, basis), item),
  }),
];
