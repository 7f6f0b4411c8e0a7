import { isChoice, unitIn } from '../core/assumptions/assumption.ts';
import { Assumptions, type Correlation } from '../core/assumptions/assumptions.ts';
import { REGISTRY, numberAssumption } from '../core/assumptions/registry.ts';
import type { Basis } from '../core/basis.ts';
import type { CalcError } from '../core/errors.ts';
import { logFit, type FittedFactor, type JobFit, type LogFit } from '../core/job/log-fit.ts';
import { CHANNELS } from '../core/job/log-job.ts';
import { FEW_JOBS, logScore, type ChannelScore } from '../core/job/log-score.ts';
import { RANGE_OF, vouchedRanges, type VouchedRange } from '../core/job/vouched-ranges.ts';
import * as messages from '../core/messages.ts';
import { findSource } from '../core/sources/register.ts';
import { normalQuantile } from '../core/spread/normal.ts';
import { fromSi } from '../core/units/parse-quantity.ts';
import { correlationName } from './correlation-rows.ts';
import { required, tableFunction, type Column, type Declaration, type Output } from './declaration.ts';
import { readLog } from './read-log.ts';

const log = required(
  { kind: 'cells' },
  'Range with a heading row: operation, sizes by name, rod, material, rods used, oxygen used or gauge before, gauge after, temperature; burning minutes, crew minutes. Blanks are fine',
  'A1:K31',
);

/** As BURN.ASSUMED has them, so that the first rows work as `assume`. The table of jobs below has its own heading. */
const FIT_COLUMNS = ['name', 'value', 'low', 'high', 'unit', 'kind', 'source', 'meaning'].map((heading) => ({
  heading,
})) satisfies readonly Column[];
/** Under `name` the table of jobs is blank, so that the whole spill works as `assume` too. */
const JOB_HEADING: readonly Output[] = [
  null,
  'job',
  'rods, noted over fitted',
  'oxygen, noted over fitted',
  'burning, noted over fitted',
  'crew, noted over fitted',
  'misfit, deviations',
  'note',
];

/** Digits of what was fitted, as it is handed back. */
const FITTED_DIGITS = 6;

const percent = (x: number): string => `${messages.shown(100 * x, 2)}%`;

function factorLine(f: FittedFactor, basis: Basis): readonly Output[] {
  const entry = numberAssumption(f.name);
  const { quantity, summary } = entry;
  const unit = unitIn(entry, basis.a.system);
  // A fit stands to some eight digits, by which engines differ; others stand without the last bits of the way through SI and back.
  const digits = f.role === 'kept' ? 12 : FITTED_DIGITS;
  const shown = (x: number): number => Number(fromSi(x, quantity, 'US', unit).toPrecision(digits));
  const { low, value, high } = f.range;
  const { kind, source } = basis.a.inForce(f.name);
  const line = (as: string, from: string, meaning: string): readonly Output[] => [
    f.name,
    shown(value),
    shown(low),
    shown(high),
    unit,
    as,
    from,
    meaning,
  ];
  switch (f.role) {
    case 'fitted':
    case 'paced':
      return line(
        'your log',
        f.name === 'item scatter'
          ? messages.fittedScatter(f.jobs)
          : messages.fittedTo(
              f.jobs,
              Number.isNaN(f.error)
                ? `${messages.shown(shown((high - low) / (2 * normalQuantile(0.9))), 2)} ${unit}`
                : percent(f.error),
              messages.shown(shown(low), 3),
              messages.shown(shown(high), 3),
            ),
        f.role === 'paced' ? `${summary}; moved with the other fixed crew times` : summary,
      );
    case 'held':
      return line('your log', messages.heldFactor(), summary);
    case 'widened':
      return line('your log', messages.widenedFactor(), summary);
    case 'kept':
      return line(kind, findSource(source)?.citation ?? source, summary);
  }
}

const correlationLine = ({ names, value, kind }: Correlation): readonly Output[] => [
  correlationName(names),
  kind === 'your log' ? Number(value.toPrecision(FITTED_DIGITS)) : value,
  null,
  null,
  '',
  kind,
  kind,
  'of their normal scores',
];

/** What the call's `assume` changed besides: it must come along where these rows take the place of that range. */
function carriedOver(names: readonly Output[], { a }: Basis): readonly (readonly Output[])[] {
  const standard = Assumptions.defaults();
  const done = new Set(names);
  return REGISTRY.flatMap((entry): readonly (readonly Output[])[] => {
    if (done.has(entry.name)) return [];
    if (isChoice(entry)) {
      const word = a.word(entry.name);
      return word === entry.value
        ? []
        : [[entry.name, word, null, null, entry.choices.join(' or '), 'your value', 'your value', entry.summary]];
    }
    const name = entry.name;
    const [now, before] = [a.inForce(name), standard.inForce(name)];
    if (now.value === before.value && now.low === before.low && now.high === before.high) return [];
    const unit = unitIn(entry, a.system);
    const shown = (x: number): number => fromSi(x, entry.quantity, 'US', unit);
    return [[name, shown(now.value), shown(now.low), shown(now.high), unit, now.kind, now.source, entry.summary]];
  });
}

/** An outlier counts less than fully; a job that counts under half is called one. */
function jobNote({ weight, distance }: JobFit): string | null {
  if (weight >= 1) return null;
  return messages.outlier(percent(weight), messages.shown(distance, 2));
}

function jobLine(fit: JobFit): readonly Output[] {
  return [null, fit.job.label, ...CHANNELS.map((c): Output => fit.ratios[c] ?? null), fit.distance, jobNote(fit)];
}

function summaryLine(fit: LogFit, left: number): readonly Output[] {
  const outliers = fit.jobs.filter((j) => j.weight < 1).map((j) => j.job.label);
  const notes = [
    messages.jobsFitted(fit.jobs.length, percent(fit.scatter)),
    outliers.length > 0 ? messages.outliersNamed(outliers) : '',
    fit.disagree ? messages.jobsDisagree() : '',
    fit.converged ? '' : messages.fitUnsettled(),
    left > 0 ? messages.rowsLeftOut(left) : '',
  ];
  return [null, 'all', null, null, null, null, fit.scatter, messages.joined(notes)];
}

/** The row of a range; of a figure that has none why not, under a blank name. */
function rangeLine({ channel, jobs, by }: VouchedRange): readonly Output[] {
  const name = RANGE_OF[channel];
  const { min, max, summary } = numberAssumption(name);
  if (by === undefined || by > max) {
    const why = by === undefined ? messages.cannotVouch() : messages.rangeNotReached();
    return [null, channel, null, null, null, null, null, why];
  }
  const as = Math.max(min, Number(by.toPrecision(4)));
  return [name, as, as, as, '', 'your log', messages.vouchedBy(jobs), summary];
}

const fromLog = (a: Assumptions): boolean =>
  REGISTRY.some((entry) => !isChoice(entry) && a.inForce(entry.name).kind === 'your log');

const SCORE_COLUMNS = [
  { heading: 'figure' },
  { heading: 'jobs' },
  { heading: 'noted over estimated' },
  { heading: 'spread', quantity: 'percent' },
  { heading: 'spread claimed', quantity: 'percent' },
  { heading: 'inside low to high', quantity: 'percent' },
  { heading: 'honest at least', quantity: 'percent' },
  { heading: 'honest at most', quantity: 'percent' },
  { heading: 'under low', quantity: 'percent' },
  { heading: 'under middle', quantity: 'percent' },
  { heading: 'under high', quantity: 'percent' },
  { heading: 'verdict' },
  { heading: 'CRPS', quantity: 'percent' },
  { heading: 'skill', quantity: 'percent' },
  { heading: 'vouched from' },
  { heading: 'vouched to' },
  { heading: 'note' },
] as const satisfies readonly Column[];

function scoreLine(s: ChannelScore): readonly Output[] {
  const skill = s.jobs < FEW_JOBS ? undefined : 1 - s.crps / s.crpsOfOwn;
  return [
    s.channel,
    s.jobs,
    s.bias,
    s.spread,
    s.claimedSpread,
    s.inside,
    s.honestLeast,
    s.honestMost,
    s.underLow,
    s.underMiddle,
    s.underHigh,
    messages.verdict(s.verdict, percent(Math.abs(s.bias - 1))),
    s.crps,
    skill ?? null,
    s.vouched?.[0] ?? null,
    s.vouched?.[1] ?? null,
    messages.joined([
      skill !== undefined && skill < 0 ? messages.losesToOwn() : '',
      s.vouched ? '' : messages.cannotVouch(),
    ]) || null,
  ];
}

const leftOut = (bad: readonly CalcError[], columns: number, first: Output): readonly (readonly Output[])[] =>
  bad.map(({ message }) =>
    Array.from({ length: columns }, (_, i): Output =>
      i === columns - 1 ? message : i === (first === null ? 1 : 0) ? 'left out' : null,
    ),
  );

export const LOG_FUNCTIONS: readonly Declaration[] = [
  tableFunction({
    name: 'BURN.LOG.FIT',
    family: 'LOG',
    summary:
      'Assumptions fitted to your own finished jobs, ready to use as assume, with low and high (P10, P90), number of jobs and standard error; below them how each job agrees, outliers named.',
    parameters: { log },
    assume: true,
    result: { kind: 'table', columns: FIT_COLUMNS },
    sources: ['bayes', 'huber', 'copula', 'hadlock bickel', 'common practice'],
    cautions: [],
    examples: [
      '=BURN.LOG.FIT({"diameter","length","rods used","oxygen used","burning minutes","crew minutes";4,10,7,140,9,62;3.5,12,6,128,8,58;5,16,16,330,18,85})',
    ],
    calculate: ({ log: cells }, basis) => {
      const { jobs, bad } = readLog(cells, basis);
      const fit = logFit(jobs, basis);
      return [
        ...fit.factors.map((f) => factorLine(f, basis)),
        ...carriedOver(
          fit.factors.map(({ name }) => name),
          basis,
        ),
        ...fit.correlations.map(correlationLine),
        FIT_COLUMNS.map(() => null),
        JOB_HEADING,
        summaryLine(fit, bad.length),
        ...fit.jobs.map(jobLine),
        ...leftOut(bad, FIT_COLUMNS.length, null),
      ];
    },
  }),
  tableFunction({
    name: 'BURN.LOG.RANGE',
    family: 'LOG',
    summary:
      'What widens or narrows low and high so that your finished jobs come out between them in eight cases of ten, whatever the model: rows ready to use as assume, with all that assume changed. From nine jobs on.',
    parameters: { log },
    assume: true,
    result: { kind: 'table', columns: FIT_COLUMNS },
    sources: ['conformal', 'sobol', 'percentile', 'latin hypercube', 'common practice'],
    cautions: [],
    examples: [
      '=BURN.LOG.RANGE({"diameter","length","oxygen used";4,10,140;3.5,12,128;5,16,330;4,12,180;3,8,70;4.5,9,150;3,14,125;6,12,360;5,10,210})',
    ],
    calculate: ({ log: cells }, basis) => {
      const { jobs, bad } = readLog(cells, basis);
      const lines = vouchedRanges(jobs, basis);
      if (lines.length === 0) throw messages.nothingNoted();
      const told = lines.map(rangeLine);
      const rows = told.filter(([name]) => name !== null);
      if (lines.every(({ by }) => by === undefined)) throw messages.noRangeVouched();
      return [
        ...rows,
        ...carriedOver(
          rows.map(([name]) => name ?? null),
          basis,
        ),
        ...basis.a.correlations.map(correlationLine),
        FIT_COLUMNS.map(() => null),
        ...told.filter(([name]) => name === null),
        ...(fromLog(basis.a) ? [[null, 'note', null, null, null, null, null, messages.scoredOnItself()]] : []),
        ...leftOut(bad, FIT_COLUMNS.length, null),
      ];
    },
  }),
  tableFunction({
    name: 'BURN.LOG.SCORE',
    family: 'LOG',
    summary:
      'How estimates with these assumptions do on finished jobs: bias, spread, share of jobs inside low to high, whether the confidence they claim is honest, whether they beat your own ratios alone, and the range that the log vouches for.',
    parameters: { log },
    assume: true,
    result: { kind: 'table', columns: SCORE_COLUMNS },
    sources: ['hadlock bickel', 'sobol', 'percentile', 'latin hypercube', 'crps', 'conformal', 'common practice'],
    cautions: [],
    examples: ['=BURN.LOG.SCORE({"diameter","length","oxygen used";4,10,140;3.5,12,128;5,16,330;4,12,180;3,8,70})'],
    calculate: ({ log: cells }, basis) => {
      const { jobs, bad } = readLog(cells, basis);
      const scores = logScore(jobs, basis);
      if (scores.length === 0) throw messages.nothingNoted();
      const note = fromLog(basis.a)
        ? [
            SCORE_COLUMNS.map((_, i): Output =>
              i === 0 ? 'note' : i === SCORE_COLUMNS.length - 1 ? messages.scoredOnItself() : null,
            ),
          ]
        : [];
      return [...scores.map(scoreLine), ...note, ...leftOut(bad, SCORE_COLUMNS.length, '')];
    },
  }),
];
