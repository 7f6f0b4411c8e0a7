import type { Assumptions } from '../core/assumptions/assumptions.ts';
import { averageStep } from '../core/safety/noise-average.ts';
import { NOISE_RANGE, noiseHoursSteps } from '../core/safety/noise-hours.ts';
import { noiseDose, noiseDoseWorking, type NoiseTask } from '../core/safety/noise-dose.ts';
import { DOUBLE_PROTECTION, NOISE_RULES, findNoiseRule, type NoiseRule } from '../core/safety/noise-rules.ts';
import { needsDoubleProtection, noiseShift } from '../core/safety/noise-shift.ts';
import { CalcError } from '../core/errors.ts';
import { decidedBy, type Step } from '../core/model/step.ts';
import { workAll } from '../core/model/working.ts';
import { inRow, isMissing, unequalRanges } from '../core/messages.ts';
import { fromSi } from '../core/units/parse-quantity.ts';
import type { UnitSystem } from '../core/units/quantities.ts';
import { isBlankOrZero, type Cell } from './cell.ts';
import {
  optional,
  required,
  tableFunction,
  workedFunction,
  type Declaration,
  type Kind,
  type Output,
  type QuantityKind,
} from './declaration.ts';
import { figureOf } from './condition-cells.ts';
import { textStep } from './given.ts';
import { blankError, readRangeCell } from './read-cell.ts';
import type { Cells } from './read-table.ts';

const LEVEL: QuantityKind = {
  kind: 'quantity',
  quantity: 'level',
  min: NOISE_RANGE.quietest,
  max: NOISE_RANGE.loudest,
};
const HOURS: QuantityKind = { kind: 'quantity', quantity: 'hours', above: 0, max: 24 * 3600 };
const RULE = { kind: 'choice', choices: NOISE_RULES.map((r) => r.name) } as const;

const rule = optional(
  RULE,
  'OSHA (5 dB halves the hours), NIOSH or EU (3 dB); the assumption noise rule when left out',
  '"OSHA"',
);
const levels = required(
  { kind: 'cells' },
  'Range of levels at the ear, protectors not counted, dBA, one task a cell',
  'A2:A6',
);
const hours = required(
  { kind: 'cells' },
  'Hours of each task, in a range like that of the levels; one cell serves all',
  'B2:B6',
);
const SOURCES = ['osha 1910.95', 'niosh 98-126', 'eu 2003/10/ec'];

const ruleOf = (word: string | undefined, a: Assumptions): NoiseRule => findNoiseRule(word ?? a.word('noise rule'));

/** The rule, and where it comes from. */
const ruleStep = (word: string | undefined, of: NoiseRule): Step =>
  word === undefined
    ? decidedBy(textStep('rule', 'rule', of.name, 'assumption noise rule'), 'noise rule')
    : textStep('rule', 'rule', of.name);

/** A cell of a range with its row, or its place in a range of one row. */
interface Placed {
  readonly cell: Cell;
  readonly row: number;
}
const placed = (cells: Cells): readonly Placed[] =>
  cells.flatMap((row, r) => row.map((cell, c) => ({ cell, row: cells.length === 1 ? c + 1 : r + 1 })));

/** The tasks of a shift; places where both level and hours are blank, or 0, are passed over. */
function tasksOf(
  levelCells: Cells | undefined,
  hourCells: Cells | undefined,
  system: UnitSystem,
): readonly NoiseTask[] {
  const [loud, long] = [placed(levelCells ?? []), placed(hourCells ?? [])];
  const shape = (cells: Cells | undefined): string =>
    `${(cells ?? []).length} by ${(cells ?? [])[0]?.length ?? 0} cells`;
  const alike = shape(levelCells) === shape(hourCells);
  if (!alike && loud.length !== 1 && long.length !== 1)
    throw unequalRanges('levels', shape(levelCells), 'hours', shape(hourCells));
  const read = (what: string, { cell, row }: Placed, kind: Kind): number => {
    try {
      const value = readRangeCell(cell, what, kind, system);
      if (value === undefined) throw blankError(what, kind);
      return value as number;
    } catch (e) {
      if (e instanceof CalcError && (loud.length > 1 || long.length > 1))
        throw inRow(what === 'level' ? 'levels' : 'hours', row, e);
      throw e;
    }
  };
  const of = (cells: readonly Placed[], i: number): Placed => cells[cells.length === 1 ? 0 : i] as Placed;
  const count = Math.max(loud.length, long.length);
  const passedOver = (i: number): boolean =>
    count > 1 && [loud, long].every((cells) => cells.length === 1 || isBlankOrZero(of(cells, i).cell));
  const tasks = Array.from({ length: count }, (_, i) => i)
    .filter((i) => !passedOver(i))
    .map((i): NoiseTask => ({ level: read('level', of(loud, i), LEVEL), time: read('hours', of(long, i), HOURS) }));
  if (tasks.length === 0) throw isMissing('levels');
  return tasks;
}

type Line = readonly Output[];

/** The dose, the average and how they stand to each level of the rule that calls for something. */
function shiftLines(tasks: readonly NoiseTask[], of: NoiseRule): readonly Line[] {
  const shift = noiseShift(tasks, of);
  const dose = fromSi(shift.dose, 'percent', 'US');
  const lines: Line[] = [
    [
      'dose',
      dose,
      '%',
      100,
      dose > 100 * (1 + 1e-9) ? 'exceeds' : 'does not exceed',
      'all that the rule allows in a shift, ears unprotected',
      of.source,
      of.clause,
    ],
    [
      'average over 8 hours',
      shift.average ?? null,
      'dBA',
      of.criterion,
      shift.average === undefined ? 'no level counts' : '',
      'steady level with the same dose',
      of.source,
      of.clause,
    ],
  ];
  const met = new Set(shift.over);
  const { average } = shift;
  const stands = (passed: boolean, counts: string): string =>
    counts === 'reaches' ? (passed ? 'reaches' : 'does not reach') : passed ? 'exceeds' : 'does not exceed';
  for (const limit of of.limits)
    lines.push([
      limit.name,
      average ?? null,
      'dBA',
      limit.level,
      stands(met.has(limit), limit.counts),
      limit.due,
      of.source,
      limit.clause,
    ]);
  for (const [where, { level, source, clause }] of Object.entries(DOUBLE_PROTECTION) as [
    keyof typeof DOUBLE_PROTECTION,
    (typeof DOUBLE_PROTECTION)['mines'],
  ][]) {
    if (of.limits.some((l) => l.level === level && l.name.includes('double'))) continue;
    const passed = average !== undefined && needsDoubleProtection(average, where);
    lines.push([
      `double hearing protection${where === 'mines' ? ', in mines' : ', as NIOSH advises'}`,
      average ?? null,
      'dBA',
      level,
      stands(passed, 'exceeds'),
      'ear plugs and ear muffs worn together',
      source,
      clause,
    ]);
  }
  if (shift.aboveTable !== undefined)
    lines.push([
      'loudest task',
      shift.aboveTable,
      'dBA',
      of.highest,
      'exceeds',
      'the rule allows no time there without protectors',
      of.source,
      of.clause,
    ]);
  return lines;
}

export const NOISE_FUNCTIONS: readonly Declaration[] = [
  workedFunction({
    name: 'BURN.NOISE.HOURS',
    family: 'NOISE',
    summary:
      'Hours that a rule allows at a steady level, ears unprotected. Above 115 dBA the hours are for adding up a dose only: no time is allowed.',
    parameters: {
      level: required(
        LEVEL,
        'Level at the ear, dBA; short-rod work averages about 92 (common practice, no source)',
        '92',
      ),
      rule,
    },
    assume: true,
    result: { kind: 'value', quantity: 'hours' },
    sources: SOURCES,
    cautions: ['NOISE'],
    examples: ['=BURN.NOISE.HOURS(92)', '=BURN.NOISE.HOURS(92,"OSHA")', '=BURN.NOISE.HOURS({90;95;100},"NIOSH")'],
    about: ({ level }) => figureOf('noise', level),
    working: ({ level, rule: word }, { a }) => {
      const of = ruleOf(word, a);
      const allowed =
        level > of.highest
          ? [textStep('without protectors', 'allowed', `no time above ${of.highest} dBA`, of.clause, of.source)]
          : [];
      return workAll([ruleStep(word, of), ...noiseHoursSteps(of), ...allowed], { L: level }, 'T');
    },
  }),
  workedFunction({
    name: 'BURN.NOISE.DOSE',
    family: 'NOISE',
    summary:
      'Noise dose of a shift of several tasks, in percent: 100 is all that the rule allows. One dose from all cells of the two ranges.',
    parameters: { levels, hours, rule },
    assume: true,
    result: { kind: 'value', quantity: 'percent' },
    sources: SOURCES,
    cautions: ['NOISE'],
    examples: [
      '=BURN.NOISE.DOSE({92;100;85},{4;0.5;3},"OSHA")',
      '=BURN.NOISE.DOSE({92;100},{4;0.5},{"OSHA","NIOSH","EU"})',
    ],
    working: ({ levels: loud, hours: long, rule: word }, { a }) => {
      const of = ruleOf(word, a);
      return noiseDoseWorking(tasksOf(loud, long, a.system), of, [ruleStep(word, of)]);
    },
  }),
  tableFunction({
    name: 'BURN.NOISE.SHIFT',
    family: 'NOISE',
    summary:
      'Dose and 8-hour average of a shift beside each level at which the rule asks for something, and for plugs and muffs together.',
    parameters: { levels, hours, rule },
    assume: true,
    result: {
      kind: 'table',
      columns: ['figure', 'value', 'unit', 'limit', 'stands', 'due', 'source', 'clause'].map((heading) => ({
        heading,
      })),
    },
    sources: [...SOURCES, 'msha 62'],
    cautions: ['NOISE'],
    examples: ['=BURN.NOISE.SHIFT({92;104},{4;1.5},"EU")'],
    calculate: ({ levels: loud, hours: long, rule: word }, { a }) =>
      shiftLines(tasksOf(loud, long, a.system), ruleOf(word, a)),
    working: ({ levels: loud, hours: long, rule: word }, { a }) => {
      const of = ruleOf(word, a);
      const tasks = tasksOf(loud, long, a.system);
      const average = noiseDose(tasks, of) > 0 ? [averageStep(of)] : [];
      return noiseDoseWorking(tasks, of, [ruleStep(word, of)], average);
    },
  }),
];
