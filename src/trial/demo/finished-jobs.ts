import type { CellContent, SheetDescription } from '../../sheet/described-workbook.ts';
import { FINISHED_JOBS } from './finished-jobs-log.ts';
import { HEADING, INPUT, ITEM, typed } from './looks.ts';

const FIRST = 5;
const LAST = FIRST + FINISHED_JOBS.length - 1;
const LOG = `$A$${FIRST}:$M$${LAST}`;
/** Where the fit spills: rows of assumptions, then the jobs; with room for what it may hold. */
const FIT = `$S$${FIRST}:$Z$${FIRST + 59}`;
const SCORE = LAST + 4;

/** Finished pins of an invented crew: what they tell of its factors, and how estimates do before and after. */
export function finishedJobsSheet(): SheetDescription {
  const rows: CellContent[][] = [
    ["Finished jobs: what the crew's own log tells"],
    [
      'An invented crew. Oxygen stands in scf, or as gauge readings with the temperature of the gas; blanks are jobs where nobody wrote it down. Job 17 went wrong.',
    ],
    ['="Calculation "&BURN.VERSION()'],
    ['The log', ...new Array<null>(17).fill(null), 'The fit: rows that work as assume, then each job beside it'],
    ...FINISHED_JOBS.map((row) => row.map((cell) => (typeof cell === 'string' ? typed(cell) : cell))),
    [],
    [],
    ['How estimates with the default assumptions do on these jobs'],
    [`=BURN.LOG.SCORE(${LOG})`],
  ];
  return {
    name: 'Finished jobs',
    rows,
    cells: {
      [`S${FIRST}`]: `=BURN.LOG.FIT(${LOG})`,
      [`A${SCORE + 7}`]: 'How those fitted to the log do on the same jobs, which flatters them',
      [`A${SCORE + 8}`]: `=BURN.LOG.SCORE(${LOG},${FIT})`,
      [`A${SCORE + 27}`]: 'A pin of 4 x 12 in: plan by default, and with the fit',
      [`A${SCORE + 28}`]: '=BURN.PIN.PLAN(4,12)',
      [`A${SCORE + 31}`]: `=BURN.PIN.PLAN(4,12,,,,${FIT})`,
    },
    size: [LAST + 110, 40],
    looks: {
      A1: { bold: true, size: 16 },
      'A2:A3': { italic: true },
      'A4:S4': { bold: true },
      [`A${FIRST}:M${FIRST}`]: HEADING,
      [`S${FIRST}:Z${FIRST}`]: HEADING,
      [`A${FIRST + 1}:M${LAST}`]: INPUT,
      [`A${FIRST + 1}:A${LAST}`]: { ...INPUT, ...ITEM },
      [`E${FIRST + 1}:E${LAST}`]: { ...INPUT, align: 'right' },
      [`T${FIRST + 1}:V${FIRST + 30}`]: { format: '0.0##' },
      [`U${FIRST + 22}:Y${FIRST + 59}`]: { format: '0.00' },
      ...Object.fromEntries([SCORE - 1, SCORE + 7, SCORE + 27].map((r) => [`A${r}`, { bold: true }])),
      ...Object.fromEntries([SCORE, SCORE + 8].map((r) => [`A${r}:Q${r}`, HEADING])),
      ...Object.fromEntries([SCORE, SCORE + 8].map((r) => [`C${r + 1}:C${r + 5}`, { format: '0.00' }])),
      ...Object.fromEntries([SCORE, SCORE + 8].map((r) => [`D${r + 1}:K${r + 5}`, { format: '0' }])),
      ...Object.fromEntries([SCORE, SCORE + 8].map((r) => [`M${r + 1}:N${r + 5}`, { format: '0' }])),
      ...Object.fromEntries([SCORE, SCORE + 8].map((r) => [`O${r + 1}:P${r + 5}`, { format: '0.00' }])),
      ...Object.fromEntries([SCORE + 28, SCORE + 31].map((r) => [`A${r}:T${r}`, HEADING])),
      ...Object.fromEntries([SCORE + 28, SCORE + 31].map((r) => [`A${r + 1}`, ITEM])),
      ...Object.fromEntries([SCORE + 28, SCORE + 31].map((r) => [`C${r + 1}:R${r + 1}`, { format: '0.0' }])),
    },
    widths: {
      A: 60,
      B: 150,
      'C:D': 76,
      E: 124,
      'F:I': 76,
      J: 100,
      'K:L': 76,
      M: 190,
      'N:P': 76,
      Q: 300,
      R: 20,
      S: 150,
      'T:V': 70,
      W: 60,
      X: 110,
      Y: 300,
      Z: 420,
    },
    heights: { 1: 30, [FIRST]: 54, [SCORE]: 54, [SCORE + 8]: 54, [SCORE + 28]: 40, [SCORE + 31]: 40 },
    frozenRows: 3,
  };
}
