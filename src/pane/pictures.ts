import { counted } from '../core/units/counted.ts';
import { isCellError, type Cell } from '../catalogue/cell.ts';
import { startOf } from '../catalogue/job-functions.ts';
import { jobOf } from '../catalogue/read-list.ts';
import { cylinderPressures } from '../core/job/cylinder-pressure.ts';
import { crewingOf, jobSchedule } from '../core/job/job-schedule.ts';
import { fromSi, plainUnit } from '../core/units/parse-quantity.ts';
import type { BarPlot } from './charts/bar-plot.ts';
import type { LinePlot, Series } from './charts/line-plot.ts';
import type { PlotRow, RowPlot } from './charts/row-plot.ts';
import type { Explained } from './explained.ts';
import { scheduleChart, type ScheduleChart } from './schedule-chart.ts';
import { showCell, showNumber } from './show-cell.ts';
import { tableColumns, type TableColumns } from './table-columns.ts';

/** A picture of what a cell's table says. */
export type PanePlot =
  | { readonly kind: 'rows'; readonly plot: RowPlot }
  | { readonly kind: 'bars'; readonly plot: BarPlot }
  | { readonly kind: 'lines'; readonly plot: LinePlot }
  | { readonly kind: 'shifts'; readonly plot: ScheduleChart };

/** More rows than these are no picture any more; the table has them. */
const MOST = 40;
/** Assumptions of a tornado, largest first. */
const TORNADO = 10;

type Row = readonly Cell[];

/** Names of rows that stand once each, so that like pins are told apart. */
function named(rows: readonly Row[], { text }: TableColumns): readonly string[] {
  const seen = new Map<string, number>();
  return rows.map((row) => {
    const name = text(row, 'mark') || text(row, 'item');
    const before = seen.get(name) ?? 0;
    seen.set(name, before + 1);
    return before === 0 ? name : `${name} (${before + 1})`;
  });
}

const someLeft = (all: number): string => (all > MOST ? ` The first ${MOST} of ${all}; the table has all.` : '');

function planPlots(table: TableColumns): readonly PanePlot[] {
  const { number } = table;
  const items = table.rows.filter((row) => number(row, 'item') !== undefined && number(row, 'rods') !== undefined);
  if (items.length < 2) return [];
  const names = named(items, table);
  return [
    {
      kind: 'rows',
      plot: {
        name: 'rs-plan-rods',
        title: 'Rods for each item, with low and high',
        caption: `Bars are what is planned; lines go from low to high, in eight cases of ten.${someLeft(items.length)}`,
        label: 'rods',
        unit: '',
        of: 'item',
        bars: true,
        rows: items
          .slice(0, MOST)
          .map((row, i) => ({
            name: names[i] ?? '',
            value: number(row, 'rods'),
            low: number(row, 'rods low'),
            high: number(row, 'rods high'),
          })),
      },
    },
    ...cylinderPlots(items, names, table),
  ];
}

/** What each item leaves in the cylinder that is open then, where the plan says it. */
function cylinderPlots(
  items: readonly Row[],
  names: readonly string[],
  { number, unit }: TableColumns,
): readonly PanePlot[] {
  const left = items.map((row) => number(row, 'left in cylinder'));
  if (!left.some((x) => x !== undefined)) return [];
  const last = items.map((row) => number(row, 'cylinders so far')).findLast((n) => n !== undefined);
  return [
    {
      kind: 'rows',
      plot: {
        name: 'rs-plan-cylinders',
        title: 'Left in the cylinder after each item',
        caption: `In the order of the list.${last === undefined ? '' : ` ${last} ${last === 1 ? 'cylinder is' : 'cylinders are'} opened in all.`}`,
        label: 'left in the cylinder',
        unit: unit('left in cylinder'),
        of: 'item',
        bars: true,
        rows: items.slice(0, MOST).map((_, i) => ({ name: names[i] ?? '', value: left[i] })),
      },
    },
  ];
}

/** Lines of a cost before the first sum. */
const SUMS = ['subtotal', 'cost', 'price', 'total'];

function costPlots({ rows, text, number }: TableColumns): readonly PanePlot[] {
  const name = (row: Row): string => text(row, 'line');
  const end = rows.findIndex((row) => SUMS.includes(name(row).toLowerCase()));
  const lines = rows.slice(0, end < 0 ? rows.length : end).filter((row) => number(row, 'quoted') !== undefined);
  if (lines.length < 2) return [];
  const price = [...rows].reverse().find((row) => SUMS.includes(name(row).toLowerCase()));
  const shown = (heading: string): string => {
    const x = price && number(price, heading);
    return x === undefined ? '' : showNumber(Number(x.toPrecision(4)));
  };
  return [
    {
      kind: 'rows',
      plot: {
        name: 'rs-cost-lines',
        title: 'Cost by line, with what is used',
        caption: `Bars are what is quoted, for what is loaded; lines go from used low to used high, what the job takes in eight cases of ten.${price ? ` The ${name(price)}: quoted ${shown('quoted')}, used ${shown('used low')} to ${shown('used high')}.` : ''}`,
        label: 'quoted',
        unit: '',
        of: 'line',
        range: ['used low', 'used high'],
        bars: true,
        rows: lines
          .slice(0, MOST)
          .map((row) => ({
            name: name(row),
            value: number(row, 'quoted'),
            low: number(row, 'used low'),
            high: number(row, 'used high'),
          })),
      },
    },
  ];
}

function tornadoPlots({ rows, text, number }: TableColumns): readonly PanePlot[] {
  const results = [...new Set(rows.map((row) => text(row, 'result')))].filter((r) => r !== '');
  return results.flatMap((result): readonly PanePlot[] => {
    const own = rows.filter(
      (row) =>
        text(row, 'result') === result &&
        ((number(row, 'change at low') ?? 0) !== 0 || (number(row, 'change at high') ?? 0) !== 0),
    );
    if (own.length === 0) return [];
    const unit = text(own[0] ?? [], 'unit');
    return [
      {
        kind: 'bars',
        plot: {
          name: `rs-tornado-${result.replace(/\W+/g, '-')}`,
          title: `What moves the ${result}`,
          caption: `Each assumption alone at its low and its high, the others as assumed; largest first.${own.length > TORNADO ? ` The first ${TORNADO} of ${own.length}.` : ''}`,
          label: `change of the ${result}`,
          unit,
          ends: ['at low', 'at high'],
          base: 0,
          of: 'assumption',
          bars: own
            .slice(0, TORNADO)
            .map((row) => ({
              name: text(row, 'assumption'),
              low: number(row, 'change at low'),
              high: number(row, 'change at high'),
            })),
        },
      },
    ];
  });
}

function stockPlots({ rows, text, number }: TableColumns): readonly PanePlot[] {
  const lines = rows.flatMap((row) => {
    const [name, load, sum] = [text(row, 'load'), number(row, 'load falls short'), number(row, 'sum falls short')];
    // Oxygen comes in the cylinders, which have a line of their own.
    return name === 'oxygen' || load === undefined || sum === undefined ? [] : [{ name, low: load, high: sum }];
  });
  const all = lines.find((l) => l.name === 'all together');
  if (!all) return [];
  const percent = (x: number): string => `${showNumber(Number(x.toPrecision(2)))}%`;
  return [
    {
      kind: 'bars',
      plot: {
        name: 'rs-stock',
        title: 'How often a load falls short',
        caption: `Loaded as advised, something runs short on ${percent(all.low)} of such jobs; loaded as the plans add up, on ${percent(all.high)}.`,
        label: 'jobs on which it runs short',
        unit: '%',
        ends: ['loaded as advised', 'loaded as the plans add up'],
        base: 0,
        of: 'load',
        bars: lines,
      },
    },
  ];
}

/** The table of jobs below the fitted rows: how each job's noted figures compare with its estimates. */
function fitPlots(cells: readonly Row[]): readonly PanePlot[] {
  const at = cells.findIndex((row, i) => i > 0 && row[1] === 'job');
  if (at < 0) return [];
  const headings = (cells[at] ?? []).map((cell) => (typeof cell === 'string' ? cell : ''));
  const jobs = cells
    .slice(at + 1)
    .filter((row) => typeof row[1] !== 'object' && row[1] !== 'all' && row[1] !== 'left out');
  const columns = headings.flatMap((heading, i) => {
    const [name = '', of] = heading.split(', ');
    return of === 'noted over fitted' && jobs.some((row) => typeof row[i] === 'number') ? [{ heading: name, i }] : [];
  });
  if (jobs.length === 0 || columns.length === 0) return [];
  return [
    {
      kind: 'rows',
      plot: {
        name: 'rs-fit-jobs',
        title: 'Noted over estimated, job by job',
        caption: `1 is a job that took what the fitted assumptions say; to the right it took more.${someLeft(jobs.length)}`,
        label: 'noted over estimated',
        unit: '',
        of: 'job',
        bars: false,
        series: columns.map((c) => c.heading),
        mark: { at: 1, name: 'as estimated' },
        rows: jobs
          .slice(0, MOST)
          .map((row) => ({
            name: showCell(row[1] ?? null),
            dots: columns.map(({ i }) => (typeof row[i] === 'number' ? row[i] : undefined)),
          })),
      },
    },
  ];
}

function scorePlots({ rows, text, number }: TableColumns): readonly PanePlot[] {
  const scored = rows.flatMap((row): readonly PlotRow[] => {
    const bias = number(row, 'noted over estimated');
    const spread = number(row, 'spread');
    if (bias === undefined) return [];
    const factor = spread === undefined ? undefined : 1 + spread / 100;
    return [
      {
        name: text(row, 'figure'),
        value: bias,
        low: factor === undefined ? undefined : bias / factor,
        high: factor === undefined ? undefined : bias * factor,
      },
    ];
  });
  return scored.length === 0
    ? []
    : [
        {
          kind: 'rows',
          plot: {
            name: 'rs-score',
            title: 'Noted over estimated',
            caption: 'Marks are the middle of the jobs, lines their spread; on the line at 1 the estimates were right.',
            label: 'noted over estimated',
            unit: '',
            of: 'figure',
            bars: false,
            mark: { at: 1, name: 'as estimated' },
            rows: scored,
          },
        },
      ];
}

/** The least cost for each time, a line for each chance that both hold. */
function jointPlots({ rows, text, number }: TableColumns): readonly PanePlot[] {
  const points = rows.flatMap((row) => {
    const [, chance] = /^both (.*)$/.exec(text(row, 'what')) ?? [];
    const [hours, cost] = [number(row, 'hours'), number(row, 'cost')];
    return chance === undefined || hours === undefined || cost === undefined ? [] : [{ chance, x: hours, y: cost }];
  });
  const [asked] = rows;
  const both = asked && number(asked, 'both hold');
  if (points.length < 2 || !asked || both === undefined) return [];
  return [
    {
      kind: 'lines',
      plot: {
        name: 'rs-joint',
        title: 'Least cost for each time, so that both hold',
        caption: `Each line is a chance that cost and time both hold. As asked, both hold in ${showNumber(Number(both.toPrecision(2)))}% of such jobs.`,
        x: { label: 'time', unit: 'h' },
        y: { label: 'cost', unit: text(asked, 'note') },
        series: [...new Set(points.map((p) => p.chance))].map((chance) => ({
          name: chance,
          points: points.filter((p) => p.chance === chance).sort((p, q) => p.x - q.x),
        })),
      },
    },
  ];
}

function worthPlots({ rows, text, number }: TableColumns): readonly PanePlot[] {
  const worth = rows.filter((row) => number(row, 'rank') !== undefined);
  if (worth.length < 2) return [];
  const named = (row: Row): string => {
    const [first = '', ...others] = text(row, 'measure').split(', ');
    return others.length > 0 ? `${first} and ${others.length} more` : first;
  };
  return [
    {
      kind: 'rows',
      plot: {
        name: 'rs-worth',
        title: 'What it is worth to measure',
        caption: `In the money of the prices, before the job is quoted.${worth.length > TORNADO ? ` The first ${TORNADO} of ${worth.length}.` : ''}`,
        label: 'worth',
        unit: '',
        of: 'assumption',
        bars: true,
        rows: worth.slice(0, TORNADO).map((row) => ({ name: named(row), value: number(row, 'worth') })),
      },
    },
  ];
}

/** Shifts that a plot of the pressure shows; lines are told apart up to so many. */
const MOST_SHIFTS = 4;

/** The pressure in the cylinder in use over the clock times of a schedule. */
function pressurePlots({ values, basis }: Drawn): readonly PanePlot[] {
  if (!values || !basis) return [];
  const { list, crews, shift, start } = values as {
    readonly list: readonly (readonly Cell[])[];
    readonly crews?: number;
    readonly shift?: number;
    readonly start?: string;
  };
  const job = jobOf(list, basis);
  const schedule = jobSchedule(job, crewingOf(basis, crews, shift));
  const points = cylinderPressures(job, schedule);
  if (points.length < 2) return [];
  const { system } = basis.a;
  const { time: begin } = startOf(start, basis);
  const shifts = [...new Set(points.map((p) => p.shift))];
  const series = shifts
    .slice(0, MOST_SHIFTS)
    .map((n): Series => ({
      name: shifts.length === 1 ? 'cylinder' : `shift ${n}`,
      points: points
        .filter((p) => p.shift === n)
        .map(({ time, pressure }) => ({
          x: (begin + time) / 3600,
          y: Number(fromSi(pressure, 'pressure', system).toPrecision(6)),
        })),
    }));
  const count = points.at(-1)?.cylinder ?? 0;
  const further = shifts.length > MOST_SHIFTS ? ` The first ${MOST_SHIFTS} of ${shifts.length} shifts.` : '';
  return [
    {
      kind: 'lines',
      plot: {
        name: 'rs-pressure',
        title: 'Pressure in the cylinder in use',
        caption: `What its gauge reads at rest, at the gas temperature assumed; while it is drawn fast it is colder and reads less. A line that jumps up is a change: ${counted(count, 'cylinder')} in all.${further}`,
        x: { label: 'time of day', unit: '', clock: true },
        y: { label: 'gauge', unit: plainUnit('pressure', system), low: 0 },
        series,
      },
    },
  ];
}

type Drawn = Pick<Explained, 'declaration' | 'table'> & Partial<Pick<Explained, 'values' | 'basis'>>;

/** The pictures that belong to the table of a cell; none where it has no numbers for one. */
export function picturesOf(explained: Drawn): readonly PanePlot[] {
  const { declaration, table } = explained;
  if (table.length < 2 || isCellError(table[0]?.[0] ?? null)) return [];
  const columns = tableColumns(table);
  const { name } = declaration;
  if (name.endsWith('.PLAN')) return planPlots(columns);
  if (name === 'BURN.JOB.SCHEDULE') {
    const shifts = scheduleChart(table);
    return shifts ? [{ kind: 'shifts', plot: shifts }, ...pressurePlots(explained)] : [];
  }
  if (name === 'BURN.JOB.COST') return costPlots(columns);
  if (name === 'BURN.JOB.STOCK') return stockPlots(columns);
  if (name === 'BURN.JOB.JOINT') return jointPlots(columns);
  if (name === 'BURN.ASSUME.WORTH') return worthPlots(columns);
  if (name === 'BURN.ASSUME.EFFECT') return tornadoPlots(columns);
  if (name === 'BURN.LOG.FIT') return fitPlots(table);
  if (name === 'BURN.LOG.SCORE') return scorePlots(columns);
  return [];
}
