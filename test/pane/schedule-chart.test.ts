import { describe, expect, it } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import type { Cell } from '../../src/catalogue/cell.ts';
import { SCHEDULE_CHART, scheduleChart } from '../../src/pane/schedule-chart.ts';
import { call } from '../../src/sheet/call.ts';
import type { Argument } from '../../src/sheet/host-function.ts';

const run = (name: string, ...args: readonly Argument[]): readonly (readonly Cell[])[] =>
  call(findFunction(name)!, args);

const hours = (clock: Cell): number => {
  const [hour, minute] = String(clock).split(':').map(Number);
  return hour! + minute! / 60;
};

describe('the chart of a schedule', () => {
  const list: Argument = [
    ['mark', 'dia', 'length'],
    ...[
      [4, 10],
      [3.5, 12],
      [5, 14],
      [4, 8],
      [6, 18],
      [4, 12],
      [3, 9],
      [4.5, 10],
    ].map(([d, l], i): Cell[] => [`P${i + 1}`, d!, l!]),
  ];
  const table = run('BURN.JOB.SCHEDULE', list, 2, 6);
  const chart = scheduleChart(table)!;

  it('has a lane for each crew and the fire watch of each shift, in order', () => {
    const names = chart.lanes.map((l) => l.name);
    expect(names.slice(0, 3)).toEqual(['shift 1 crew 1', 'shift 1 crew 2', 'shift 1 watch']);
    expect(new Set(chart.lanes.map((l) => l.y)).size).toBe(chart.lanes.length);
  });

  it('shows each item burnt once and pressed out once, where the table has it', () => {
    const blocks = chart.lanes.flatMap((l) => l.blocks);
    const items = table.slice(1).filter((row) => typeof row[0] === 'number');
    expect(
      blocks
        .filter((b) => b.kind === 'hot')
        .map((b) => b.item)
        .sort(),
    ).toEqual(items.map((row) => row[1]).sort());
    expect(blocks.filter((b) => b.kind === 'push')).toHaveLength(items.length);
    const perHour = chart.ticks[1]!.x - chart.ticks[0]!.x;
    const [first, second] = chart.ticks.map((t) => hours(t.text)) as [number, number];
    const hour = perHour / (second - first);
    for (const row of items) {
      const hot = blocks.find((b) => b.kind === 'hot' && b.item === row[1])!;
      expect(hot.x).toBeCloseTo(SCHEDULE_CHART.left + (hours(row[6]!) - first) * hour, 9);
      expect(hot.width).toBeCloseTo((hours(row[7]!) - hours(row[6]!)) * hour, 9);
    }
    for (const b of blocks) expect(b.x + b.width).toBeLessThanOrEqual(SCHEDULE_CHART.width);
  });

  it('writes whole marks into the blocks where all have room, else numbers with the marks below; nothing is cut', () => {
    const roomy = scheduleChart(
      run(
        'BURN.JOB.SCHEDULE',
        [
          ['mark', 'dia', 'length'],
          ['P1', 6, 18],
          ['P2', 6, 18],
        ],
        1,
        6,
      ),
    )!;
    const written = (of: typeof chart): readonly string[] =>
      of.lanes.flatMap((l) => l.blocks.map((b) => b.label)).filter((label) => label !== '');
    expect(written(roomy)).toEqual(['P1', 'P2']);
    const named = list.map((row, i) => (i === 0 ? row : [`P${i} Boom foot, left`, ...row.slice(1)])) as Argument;
    const long = scheduleChart(run('BURN.JOB.SCHEDULE', named, 2, 6))!;
    expect(written(long).length).toBeGreaterThan(4);
    for (const label of written(long)) {
      expect(label).toMatch(/^\d+$/);
      expect(long.caption).toMatch(new RegExp(`[ ;] ?${label} P\\d Boom foot, left`));
    }
  });

  it('says the same in words', () => {
    expect(chart.description).toMatch(/^shift 1 crew 1: burns P\d \d\d:\d\d to \d\d:\d\d, /);
    expect(chart.description).toMatch(/shift 1 watch: \d\d:\d\d to \d\d:\d\d/);
    expect(chart.caption).toMatch(/^\d+ shifts?; times of day\. In order: 1 P\d; 2 P\d; .*\.$/);
  });

  it('is none where nothing is scheduled', () => {
    expect(scheduleChart([['order', 'mark']])).toBeUndefined();
  });
});
