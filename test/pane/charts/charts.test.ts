import fc from 'fast-check';
import { renderToString } from 'preact-render-to-string';
import { h } from 'preact';
import { describe, expect, it } from 'vitest';
import { BarFigure } from '../../../src/pane/charts/bar-figure.tsx';
import { BARS, drawBars, type BarPlot } from '../../../src/pane/charts/bar-plot.ts';
import { LineFigure, tableOf } from '../../../src/pane/charts/line-figure.tsx';
import { drawPlot, PLOT, type LinePlot, type Point } from '../../../src/pane/charts/line-plot.ts';
import { numberText } from '../../../src/pane/charts/number-text.ts';
import { scaleOf } from '../../../src/pane/charts/scale.ts';

const plotOf = (points: readonly Point[], more: Partial<LinePlot> = {}): LinePlot => ({
  name: 'test',
  title: 'A test',
  caption: 'Seen.',
  x: { label: 'length', unit: 'in' },
  y: { label: 'flow', unit: 'scfm', low: 0 },
  series: [{ name: 'one', points }],
  ...more,
});
const at = (path: string): readonly (readonly [number, number])[] =>
  [...path.matchAll(/(-?[\d.]+),(-?[\d.]+)/g)].map((m) => [Number(m[1]), Number(m[2])] as const);

describe('a number as text', () => {
  it.each([
    [0, 3, '0'],
    [7, 3, '7'],
    [121.7537, 3, '122'],
    [0.80187, 3, '0.802'],
    [25147, 3, '25147'],
    [0.3, 6, '0.3'],
    [-0.1443, 2, '-0.14'],
    [1e-15, 3, '0'],
    [1200000, 3, '1200000'],
    [0.10000000000000003, 6, '0.1'],
    [99.96, 3, '100'],
  ] as const)('%d to %i digits is %s', (x, digits, text) => {
    expect(numberText(x, digits)).toBe(text);
  });

  it('is right to half its last digit, has no exponent, and refuses what is no number', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e7, max: 1e7, noNaN: true }), (x) => {
        const text = numberText(x, 4);
        expect(text).toMatch(/^-?\d+(\.\d*[1-9])?$/);
        expect(Math.abs(Number(text) - x)).toBeLessThanOrEqual(Math.max(Math.abs(x) * 0.5001e-3, 1e-11));
      }),
    );
    for (const x of [NaN, Infinity, -Infinity]) expect(() => numberText(x)).toThrow('cannot be shown');
  });
});

describe('an axis', () => {
  it('moves its ends out to round marks, or keeps those it is given', () => {
    expect(scaleOf([3, 97], {}, [0, 100], 5)).toMatchObject({ low: 0, high: 100, ticks: [0, 20, 40, 60, 80, 100] });
    expect(scaleOf([3, 97], { low: 3, high: 97 }, [0, 100], 5)).toMatchObject({
      low: 3,
      high: 97,
      ticks: [20, 40, 60, 80],
    });
    expect(scaleOf([-8, 42], {}, [0, 100], 5)).toMatchObject({ low: -10, high: 50 });
    expect(() => scaleOf([5, 5], {}, [0, 100], 5)).toThrow('needs a span');
  });

  it('is straight from one place to the other', () => {
    const scale = scaleOf([0, 10], {}, [200, 20], 5);
    expect([0, 5, 10].map((v) => scale.at(v))).toEqual([200, 110, 20]);
  });

  it('holds every value it is made for', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1e5, max: 1e5, noNaN: true }), { minLength: 2, maxLength: 20 }),
        (values) => {
          fc.pre(Math.max(...values) - Math.min(...values) > 1e-6);
          const { low, high } = scaleOf(values, {}, [0, 1], 5);
          for (const v of values) expect(v >= low - 1e-9 * (high - low) && v <= high + 1e-9 * (high - low)).toBe(true);
        },
      ),
    );
  });
});

describe('a plot of lines', () => {
  const points = [0, 10, 20, 40].map((x): Point => ({ x, y: 2 * x, low: x, high: 3 * x }));
  const drawn = drawPlot(plotOf(points));
  const [line] = drawn.lines;

  it('draws its points where the marks of the axes say', () => {
    const [left, right] = [drawn.xTicks[0]!, drawn.xTicks.at(-1)!];
    const [floor, top] = [drawn.yTicks[0]!, drawn.yTicks.at(-1)!];
    const x = (v: number): number =>
      left.at + ((v - Number(left.text)) / (Number(right.text) - Number(left.text))) * (right.at - left.at);
    const y = (v: number): number =>
      floor.at + ((v - Number(floor.text)) / (Number(top.text) - Number(floor.text))) * (top.at - floor.at);
    const path = at(line!.path);
    expect(path).toHaveLength(points.length);
    path.forEach(([px, py], i) => {
      expect(px).toBeCloseTo(x(points[i]!.x), 1);
      expect(py).toBeCloseTo(y(points[i]!.y!), 1);
    });
    const band = at(line!.band);
    expect(band).toHaveLength(2 * points.length);
    expect(band[1]![1]).toBeCloseTo(y(30), 1);
    expect(band.at(-1)![1]).toBeCloseTo(y(0), 1);
    expect(line!.band.endsWith('Z')).toBe(true);
  });

  it('breaks where there is no solution, and bands only where there are both ends', () => {
    const {
      lines: [broken],
    } = drawPlot(
      plotOf([
        { x: 0, y: 1 },
        { x: 1, y: 2 },
        { x: 2, y: undefined },
        { x: 3, y: 4 },
        { x: 4, y: 5 },
      ]),
    );
    expect(broken!.path.match(/[ML]/g)).toEqual(['M', 'L', 'M', 'L']);
    expect(broken!.band).toBe('');
  });

  it('refuses values outside of a given axis, and a line without points', () => {
    expect(() => drawPlot(plotOf(points, { y: { label: 'flow', unit: '', low: 0, high: 50 } }))).toThrow(
      'A test: 60 lies outside 0 to 50',
    );
    expect(() =>
      drawPlot(
        plotOf(
          [
            { x: 0, y: undefined },
            { x: 1, y: undefined },
          ],
          { y: { label: 'y', unit: '', low: 0, high: 1 } },
        ),
      ),
    ).toThrow('no points');
  });

  it('keeps the names of lines apart and inside, however close the lines end', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { minLength: 1, maxLength: 8 }), (ends) => {
        const { lines, frame, width } = drawPlot(
          plotOf([], {
            y: { label: 'y', unit: '', low: 0, high: 100 },
            series: ends.map((y, i) => ({
              name: `line ${i}`,
              points: [
                { x: 0, y: 50 },
                { x: 1, y },
              ],
            })),
          }),
        );
        const heights = lines.map((l) => l.label.y).sort((a, b) => a - b);
        heights.slice(1).forEach((y, i) => expect(y - heights[i]!).toBeGreaterThanOrEqual(12.9));
        expect(Math.max(...heights)).toBeLessThanOrEqual(frame.bottom + 0.1);
        for (const l of lines) expect(l.label.x + l.name.length * 6 <= width).toBe(true);
      }),
    );
  });

  it('lets names share a height where they stand beside one another', () => {
    const { lines } = drawPlot(
      plotOf([], {
        series: [3, 6, 10].map((end) => ({
          name: `to ${end}`,
          points: [
            { x: 0, y: 10 },
            { x: end, y: 5 },
          ],
        })),
      }),
    );
    expect(lines[0]!.label.y).toBe(lines[1]!.label.y);
    expect(lines.map((l) => l.label.anchor)).toEqual(['middle', 'middle', 'start']);
  });

  it('shades a range no wider than the axis', () => {
    const { shade, frame } = drawPlot(
      plotOf(points, {
        x: { label: 'length', unit: 'in', low: 0, high: 40 },
        shade: { name: 'assumed', low: -5, value: 20, high: 99 },
      }),
    );
    expect([shade!.from, shade!.at, shade!.to]).toEqual([frame.left, (frame.left + frame.right) / 2, frame.right]);
  });

  it('says the same in words', () => {
    expect(
      drawPlot(
        plotOf([
          { x: 0, y: 1 },
          { x: 5, y: 9 },
          { x: 10, y: 2 },
        ]),
      ).description,
    ).toBe('flow, scfm, against length, in. one: 1 scfm at 0 in, 2 scfm at 10 in, highest 9 scfm at 5 in.');
  });

  it('is one image with title and description, and a table of all its figures', () => {
    const plot = plotOf(
      points.map((p) => ({ ...p })),
      {
        series: [
          { name: 'one', points, band: ['least', 'most'] },
          {
            name: 'two',
            points: [
              { x: 10, y: 7 },
              { x: 15, y: 8 },
            ],
          },
        ],
        formula: '=BURN.X()',
      },
    );
    const html = renderToString(h(LineFigure, { plot }));
    expect(html).toContain(`viewBox="0 0 ${PLOT.width} `);
    expect(html).toMatch(
      /<svg [^>]*role="img" aria-labelledby="test-title test-description"><title id="test-title">A test<\/title><desc id="test-description">flow, scfm/,
    );
    expect(html).toContain('<code>=BURN.X()</code>');
    expect(html).not.toMatch(/NaN|undefined|Infinity|style=/);
    expect(renderToString(h(LineFigure, { plot }))).toBe(html);
    const { headings, rows } = tableOf(plot);
    expect(headings).toEqual(['length, in', 'one, scfm', 'one least', 'one most', 'two, scfm']);
    expect(rows).toEqual([
      { name: '0', cells: ['0', '0', '0', ''] },
      { name: '10', cells: ['20', '10', '30', '7'] },
      { name: '15', cells: ['', '', '', '8'] },
      { name: '20', cells: ['40', '20', '60', ''] },
      { name: '40', cells: ['80', '40', '120', ''] },
    ]);
  });
});

describe('bars', () => {
  const plot: BarPlot = {
    name: 'bars',
    title: 'Bars',
    caption: 'Seen.',
    label: 'change',
    unit: 'min',
    ends: ['at low', 'at high'],
    base: 0,
    of: 'thing',
    bars: [
      { name: 'a', low: -10, high: 30 },
      { name: 'b', low: 8, high: 20 },
      { name: 'c', low: undefined, high: -5 },
    ],
  };
  const drawn = drawBars(plot);

  it('are as long as their values, on their side of the base', () => {
    const perMinute =
      (drawn.ticks.at(-1)!.at - drawn.ticks[0]!.at) / (Number(drawn.ticks.at(-1)!.text) - Number(drawn.ticks[0]!.text));
    const ends = drawn.bars.flatMap((b) => b.ends);
    const values = [-10, 30, 20, 8, -5];
    ends.forEach((e, i) => {
      expect(e.width).toBeCloseTo(Math.abs(values[i]!) * perMinute, 6);
      expect(values[i]! < 0 ? e.x + e.width : e.x).toBeCloseTo(drawn.base, 6);
    });
    expect(drawn.bars[2]!.ends).toHaveLength(1);
  });

  it('put the shorter of two on one side in front, without its number', () => {
    expect(drawn.bars[1]!.ends.map((e) => [e.end, e.text])).toEqual([
      ['high', '20'],
      ['low', ''],
    ]);
  });

  it('stay inside with their numbers, and say the same in words', () => {
    for (const { ends } of drawn.bars)
      for (const { textX, anchor, text } of ends) {
        expect(anchor === 'end' ? textX - 6 * text.length : textX + 6 * text.length).toBeGreaterThan(
          anchor === 'end' ? BARS.left - 6 : 0,
        );
        expect(textX).toBeLessThan(drawn.width);
      }
    expect(drawn.description).toBe(
      'change. a: -10 min at low, 30 min at high; b: 8 min at low, 20 min at high; c: -5 min at high.',
    );
    const html = renderToString(h(BarFigure, { plot }));
    expect(html).toContain('<td class="number">none</td>');
    expect(html).not.toMatch(/NaN|undefined|Infinity|style=/);
  });
});
