import type { TableRow } from './data-table.tsx';
import { Figure, FootAxis } from './figure.tsx';
import { axisText, drawPlot, withUnit, type LinePlot } from './line-plot.ts';
import { numberText } from './number-text.ts';

/** A plot with its words, and its figures folded below. */
export function LineFigure({ plot }: { readonly plot: LinePlot }) {
  const drawn = drawPlot(plot);
  const {
    frame: { left, right, top, bottom },
    xTicks,
    yTicks,
    lines,
    shade,
  } = drawn;
  return (
    <Figure plot={plot} drawn={drawn} {...tableOf(plot)}>
      <text class="plot-title" x={2} y={12}>
        {withUnit(plot.y)}
      </text>
      {shade && <rect class="plot-shade" x={shade.from} y={top} width={shade.to - shade.from} height={bottom - top} />}
      {shade && <path class="plot-value" d={`M${shade.at} ${top}V${bottom}`} />}
      {shade && (
        <text x={(shade.from + shade.to) / 2} y={top - 5} text-anchor="middle">
          {shade.name}
        </text>
      )}
      {yTicks.map((t) => (
        <path key={t.text} class="plot-grid" d={`M${left} ${t.at}H${right}`} />
      ))}
      <FootAxis ticks={xTicks} foot={bottom} middle={(left + right) / 2} label={withUnit(plot.x)} />
      <path class="plot-frame" d={`M${left} ${top}V${bottom}H${right}`} />
      {yTicks.map((t) => (
        <text key={t.text} x={left - 5} y={t.at + 4} text-anchor="end">
          {t.text}
        </text>
      ))}
      {lines.map((l, i) => l.band !== '' && <path key={l.name} class={`plot-band plot-band-${i}`} d={l.band} />)}
      {lines.map((l, i) => (
        <path key={l.name} class={`plot-line plot-line-${i}`} d={l.path} />
      ))}
      {lines.map((l, i) => (
        <text
          key={l.name}
          class={`plot-name plot-name-${i}`}
          x={l.label.x}
          y={l.label.y + 4}
          text-anchor={l.label.anchor}
        >
          {l.name}
        </text>
      ))}
    </Figure>
  );
}

/** All the figures of a plot: a row for each x, a column for each line and each end of a band. */
export function tableOf({ x, y, series }: LinePlot): {
  readonly headings: readonly string[];
  readonly rows: readonly TableRow[];
} {
  const xs = [...new Set(series.flatMap((s) => s.points.map((p) => p.x)))].sort((a, b) => a - b);
  const text = (v: number | undefined): string => (v === undefined ? '' : numberText(v));
  const unit = y.unit === '' ? '' : `, ${y.unit}`;
  return {
    headings: [
      withUnit(x),
      ...series.flatMap((s) => [`${s.name}${unit}`, ...(s.band ?? []).map((end) => `${s.name} ${end}`)]),
    ],
    rows: xs.map((at) => ({
      name: axisText(at, x),
      cells: series.flatMap((s) => {
        // A line that jumps has two values there.
        const points = s.points.filter((q) => q.x === at);
        const [p] = points;
        return [points.map((q) => text(q.y)).join(', then '), ...(s.band ? [text(p?.low), text(p?.high)] : [])];
      }),
    })),
  };
}
