import { describe, expect, it } from 'vitest';
import { render } from 'preact-render-to-string';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import type { Cell } from '../../src/catalogue/cell.ts';
import { drawRows, type RowPlot } from '../../src/pane/charts/row-plot.ts';
import type { BarPlot } from '../../src/pane/charts/bar-plot.ts';
import { clockText } from '../../src/pane/charts/clock-text.ts';
import { LineFigure } from '../../src/pane/charts/line-figure.tsx';
import { RowFigure } from '../../src/pane/charts/row-figure.tsx';
import { ShiftsFigure } from '../../src/pane/charts/shifts-figure.tsx';
import { picturesOf, type PanePlot } from '../../src/pane/pictures.ts';
import { call, givenItem } from '../../src/sheet/call.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { h } from 'preact';

type Table = readonly (readonly Cell[])[];
const run = (name: string, ...args: readonly Argument[]): Table => call(findFunction(name)!, args);
const pictures = (name: string, table: Table): readonly PanePlot[] =>
  picturesOf({ declaration: findFunction(name)!, table });
const rowsOf = (plots: readonly PanePlot[]): RowPlot => {
  const [first] = plots;
  if (first?.kind !== 'rows') throw new Error('no rows');
  return first.plot;
};
const barsOf = (plots: readonly PanePlot[], at = 0): BarPlot => {
  const plot = plots[at];
  if (plot?.kind !== 'bars') throw new Error('no bars');
  return plot.plot;
};
/** A cell of a table by the beginning of its heading. */
const under = (table: Table, row: number, heading: string): Cell =>
  table[row]?.[table[0]!.findIndex((c) => typeof c === 'string' && c.replace(/,[^,]*$/, '') === heading)] ?? null;

const PLAN = run('BURN.PIN.PLAN', [[4], [3.5], ['wide'], [5]], [[10], [12], [8], [16]]);

const PRICES = [
  ['rod', 9],
  ['oxygen', 0.4],
  ['crew', 180],
];

describe('the frontier of cost and time', () => {
  it('is a line for each chance through the points of the table, less cost for more time', () => {
    const table = run(
      'BURN.JOB.JOINT',
      [
        [4, 10],
        [3, 8],
      ],
      PRICES,
      1000,
      5,
    );
    const [plot] = pictures('BURN.JOB.JOINT', table);
    if (plot?.kind !== 'lines') throw new Error('no lines');
    expect(plot.plot.series.map((s) => s.name)).toEqual(['50%', '70%', '90%']);
    const points = plot.plot.series.flatMap((s) => s.points);
    expect(points.length).toBe(table.filter((row) => /^both /.test(String(row[0]))).length);
    for (const { points: own } of plot.plot.series)
      own.slice(1).forEach((p, i) => expect(p.y! < own[i]!.y! && p.x > own[i]!.x).toBe(true));
    expect(render(h(LineFigure, { plot: plot.plot }))).toContain('70%');
  });
});

describe('what it is worth to measure', () => {
  it('is a bar for each line of the table but the sum', () => {
    const table = run(
      'BURN.ASSUME.WORTH',
      [
        [4, 10],
        [3, 8],
      ],
      PRICES,
    );
    const { rows } = rowsOf(pictures('BURN.ASSUME.WORTH', table));
    expect(rows.map((r) => r.value)).toEqual(table.slice(1, -1).map((_, i) => under(table, i + 1, 'worth')));
    expect(rows.some((r) => / and \d more$/.test(r.name))).toBe(true);
  });
});

describe('the rods of a plan', () => {
  const plot = rowsOf(pictures('BURN.PIN.PLAN', PLAN));

  it('are a row for each item that could be sized, with what the table says', () => {
    expect(plot.rows.map((r) => [r.name, r.value, r.low, r.high])).toEqual(
      [1, 2, 4].map((i) => [
        String(under(PLAN, i, 'item')),
        under(PLAN, i, 'rods'),
        under(PLAN, i, 'rods low'),
        under(PLAN, i, 'rods high'),
      ]),
    );
  });

  it('go by their marks in the plan of a job, without its total, with what each leaves in the cylinder', () => {
    const table = run('BURN.JOB.PLAN', [
      ['mark', 'dia', 'length', 'qty'],
      ['Boom foot, left', 4, 10, 2],
      ['Track link', 5, 16, 3],
    ]);
    const plots = pictures('BURN.JOB.PLAN', table);
    expect(rowsOf(plots).rows.map((r) => r.name)).toEqual(['Boom foot, left', 'Track link']);
    const [, left] = plots;
    expect(left?.kind === 'rows' && left.plot.unit).toBe('scf');
    expect(left?.kind === 'rows' && left.plot.rows.map((r) => r.value)).toEqual(
      [1, 2].map((i) => under(table, i, 'left in cylinder')),
    );
  });

  it('are none for a plan of one item', () => {
    expect(pictures('BURN.PIN.PLAN', run('BURN.PIN.PLAN', 4, 10))).toEqual([]);
  });
});

describe('the cost by line', () => {
  it('has each line before the sums, with what is used of it, and says the price', () => {
    const table: Table = [
      ['line', 'used low', 'quoted', 'used high', 'note'],
      ['rods', 200, 288, 470, null],
      ['oxygen', 180, 240, 361, null],
      ['subtotal', 400, 528, 800, null],
      ['price', 500, 660, 1000, null],
      ['left out', null, null, null, 'row 6'],
    ];
    const plot = rowsOf(pictures('BURN.JOB.COST', table));
    expect(plot.rows).toEqual([
      { name: 'rods', value: 288, low: 200, high: 470 },
      { name: 'oxygen', value: 240, low: 180, high: 361 },
    ]);
    expect(plot.caption).toContain('The price: quoted 660, used 500 to 1000.');
  });
});

describe('a schedule', () => {
  const LIST: Argument = [
    ['mark', 'qty', 'dia', 'length'],
    ['Boom foot', 2, 5, 18],
    ['Stick', 3, 4, 14],
  ];
  const d = findFunction('BURN.JOB.SCHEDULE')!;
  const args = [LIST, 1, 10, '07:00'];
  const table = run('BURN.JOB.SCHEDULE', ...args);
  const plots = picturesOf({ declaration: d, table, ...givenItem(d, args, 0) });

  it('has its shifts with the marks and times of the table', () => {
    const [first] = plots;
    if (first?.kind !== 'shifts') throw new Error('no shifts');
    const burnt = first.plot.rows.filter((r) => r.cells[0]!.startsWith('burns '));
    expect(burnt.map((r) => r.cells)).toEqual(
      table
        .slice(1)
        .filter((row) => typeof row[0] === 'number')
        .map((row) => [`burns ${String(row[1])}`, row[6], row[7]]),
    );
    expect(render(h(ShiftsFigure, { plot: first.plot }))).toContain('burns Boom foot, 1 of 2');
  });

  it('has the pressure in the cylinder in use over the clock: from full to full at each change of the table', () => {
    const [, second] = plots;
    if (second?.kind !== 'lines') throw new Error('no lines');
    const [line] = second.plot.series;
    const points = line!.points;
    expect(line!.name).toBe('cylinder');
    const first = table.find((row) => row[0] === 1)!;
    expect(clockText(points[0]!.x)).toBe(first[6]);
    const jumps = points.flatMap((p, i) => (i > 0 && p.y! > points[i - 1]!.y! ? [clockText(points[i - 1]!.x)] : []));
    const changed = table.flatMap((row) =>
      [...String(row.at(-1)).matchAll(/cylinder \d+ on at (\d\d:\d\d)/g)].map((m) => m[1]),
    );
    expect(jumps.length).toBeGreaterThan(2);
    expect(jumps).toEqual(changed);
    expect(second.plot.caption).toContain(`${String(table.at(-1)![12])} cylinders in all`);
    expect(render(h(LineFigure, { plot: second.plot }))).toMatch(/<text [^>]*>07:00|08:00<\/text>/);
  });
});

describe('the tornado', () => {
  const table = run('BURN.ASSUME.EFFECT', 'PIN', [[4, 10]]);
  const plots = pictures('BURN.ASSUME.EFFECT', table);

  it('has one for each result, its bars from what is assumed, in the order of the table', () => {
    expect(plots.length).toBeGreaterThanOrEqual(2);
    const plot = barsOf(plots);
    expect(plot.bars.length).toBeGreaterThan(4);
    expect(plot.bars[0]).toEqual({
      name: under(table, 1, 'assumption'),
      low: under(table, 1, 'change at low'),
      high: under(table, 1, 'change at high'),
    });
    expect(new Set(plots.map((p) => p.plot.name)).size).toBe(plots.length);
  });
});

describe('the chance of a load to run short', () => {
  it('is two bars for each line that counts, and said in words', () => {
    const table = run(
      'BURN.JOB.STOCK',
      [
        [4, 10],
        [4, 12],
      ],
      90,
    );
    const plots = pictures('BURN.JOB.STOCK', table);
    expect(barsOf(plots).bars.map((b) => b.name)).toContain('all together');
    expect(barsOf(plots).caption).toMatch(/^Loaded as advised, something runs short on [\d.]+% of such jobs;/);
  });
});

describe('noted against estimated', () => {
  const LOG = [
    ['diameter', 'length', 'rods used', 'oxygen used', 'burning minutes', 'crew minutes'],
    [4, 10, 7, 140, 9, 62],
    [3.5, 12, 6, 128, 8, 58],
    [5, 16, 16, 330, 18, 85],
  ];

  it('is a mark for each job and figure of a fit, about 1', () => {
    const table = run('BURN.LOG.FIT', LOG);
    const plot = rowsOf(pictures('BURN.LOG.FIT', table));
    expect(plot.series).toEqual(['rods', 'oxygen', 'burning', 'crew']);
    expect(plot.mark?.at).toBe(1);
    expect(plot.rows).toHaveLength(3);
    const job = table.find((row) => row[1] === plot.rows[0]?.name || String(row[1]) === plot.rows[0]?.name);
    expect(plot.rows[0]?.dots).toEqual(job?.slice(2, 6).map((x) => x ?? undefined));
  });

  it('is the middle and spread of each figure of a score', () => {
    const table = run('BURN.LOG.SCORE', LOG);
    const plot = rowsOf(pictures('BURN.LOG.SCORE', table));
    expect(plot.rows[0]?.name).toBe(under(table, 1, 'figure'));
    expect(plot.rows[0]?.value).toBe(under(table, 1, 'noted over estimated'));
    for (const { value = NaN, low = NaN, high = NaN } of plot.rows) expect(low * high).toBeCloseTo(value ** 2, 9);
  });
});

describe('rows as they are drawn', () => {
  const plot = rowsOf(pictures('BURN.PIN.PLAN', PLAN));
  const long: RowPlot = {
    ...plot,
    rows: [{ name: 'Boom foot pin of the left side, upper, twice over', value: 3, low: 1, high: 40 }, ...plot.rows],
  };

  it('have their bars and ranges where the marks of the axis say', () => {
    const drawn = drawRows(plot);
    const [zero, one] = drawn.ticks;
    const place = (v: number): number =>
      zero!.at + ((v - Number(zero!.text)) / (Number(one!.text) - Number(zero!.text))) * (one!.at - zero!.at);
    drawn.rows.forEach((r, i) => {
      const { value = NaN, low = NaN, high = NaN } = plot.rows[i]!;
      expect(r.bar!.x).toBeCloseTo(place(0), 0);
      expect(r.bar!.width).toBeCloseTo(place(value) - place(0), 0);
      expect(r.range!.from).toBeCloseTo(place(low), 0);
      expect(r.range!.to).toBeCloseTo(place(high), 0);
    });
  });

  it('stay in the picture, long names cut and whole in the table and in the words', () => {
    const drawn = drawRows(long);
    for (const r of drawn.rows) {
      expect(r.y + r.height).toBeLessThanOrEqual(drawn.foot);
      expect(r.range!.to).toBeLessThanOrEqual(drawn.width);
      for (const line of r.shown) expect(line.length * 7).toBeLessThanOrEqual(drawn.left);
    }
    expect(drawn.rows[0]!.shown.at(-1)).toMatch(/…$/);
    expect(drawn.description).toContain(long.rows[0]!.name);
    const text = render(h(RowFigure, { plot: long }));
    expect(text).toContain(`<th scope="row">${long.rows[0]!.name}</th>`);
    expect(text).toContain('<title id="rs-plan-rods-title">');
  });
});
