import { symbol, symbolCircle, symbolCross, symbolDiamond, symbolTriangle } from 'd3-shape';
import { Figure, FootAxis, RowName } from './figure.tsx';
import { numberText } from './number-text.ts';
import { drawRows, type RowPlot } from './row-plot.ts';

const SHAPES = [symbolCircle, symbolDiamond, symbolTriangle, symbolCross];
const shape = (series: number, size = 34): string =>
  symbol(SHAPES[series % SHAPES.length] ?? symbolCircle, size).digits(2)() ?? '';

const rangeLine = ({ from, to }: { readonly from: number; readonly to: number }, y: number): string =>
  `M${from} ${y}H${to}M${from} ${y - 4}v8M${to} ${y - 4}v8`;

/** The shapes of the series with their names. */
function Keys({ series }: { readonly series: readonly string[] }) {
  return (
    <p class="plot-keys">
      {series.map((name, i) => (
        <span key={name}>
          <svg class="plot-key-shape" viewBox="-6 -6 12 12" aria-hidden="true">
            <path class={`plot-dot plot-dot-${i}`} d={shape(i)} />
          </svg>{' '}
          {name}
        </span>
      ))}
    </p>
  );
}

/** Rows with their words, and their figures folded below. */
export function RowFigure({ plot }: { readonly plot: RowPlot }) {
  const drawn = drawRows(plot);
  const { width, left, foot, ticks, mark, rows } = drawn;
  const { series = [], range: [low, high] = ['low', 'high'] } = plot;
  const headings = { value: plot.label, low, high };
  const unit = plot.unit === '' ? '' : `, ${plot.unit}`;
  const columns = (['value', 'low', 'high'] as const).filter((key) => plot.rows.some((r) => r[key] !== undefined));
  const text = (v: number | undefined): string => (v === undefined ? '' : numberText(v));
  return (
    <Figure
      plot={plot}
      drawn={drawn}
      keys={series.length > 0 && <Keys series={series} />}
      headings={[plot.of, ...columns.map((c) => `${headings[c]}${unit}`), ...series.map((s) => `${s}${unit}`)]}
      rows={plot.rows.map((r) => ({
        name: r.name,
        cells: [...columns.map((c) => text(r[c])), ...series.map((_, i) => text(r.dots?.[i]))],
      }))}
    >
      <FootAxis ticks={ticks} foot={foot} top={14} middle={(left + width) / 2} label={`${plot.label}${unit}`} />
      {mark !== undefined && <path class="plot-value" d={`M${mark.at} 12V${foot}`} />}
      {mark !== undefined && (
        <text x={mark.at} y={10} text-anchor={mark.anchor}>
          {plot.mark?.name}
        </text>
      )}
      {rows.map((r, i) => {
        const middle = r.y + r.height / 2;
        return (
          <g key={i}>
            <RowName lines={r.shown} x={left - 6} y={middle} />
            {r.bar && <rect class="plot-bar plot-bar-high" x={r.bar.x} y={r.y} width={r.bar.width} height={r.height} />}
            {r.range && <path class="plot-range-ground" d={rangeLine(r.range, middle)} />}
            {r.range && <path class="plot-range" d={rangeLine(r.range, middle)} />}
            {!r.bar && r.value !== undefined && (
              <path class="plot-dot plot-dot-0" d={shape(0, 44)} transform={`translate(${r.value} ${middle})`} />
            )}
            {r.dots.map((d) => (
              <path
                key={d.series}
                class={`plot-dot plot-dot-${d.series}`}
                d={shape(d.series)}
                transform={`translate(${d.x} ${middle})`}
              />
            ))}
          </g>
        );
      })}
    </Figure>
  );
}
