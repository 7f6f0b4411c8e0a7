import { symbol, symbolCircle, symbolCross, symbolDiamond, symbolTriangle } from 'd3-shape';
import { Picture } from '../parts/picture.tsx';
import { DataTable } from './data-table.tsx';
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
  const { width, height, left, foot, ticks, mark, rows, description } = drawRows(plot);
  const { series = [] } = plot;
  const unit = plot.unit === '' ? '' : `, ${plot.unit}`;
  const has = (key: 'value' | 'low' | 'high'): boolean => plot.rows.some((r) => r[key] !== undefined);
  const columns = (['value', 'low', 'high'] as const).filter(has);
  const text = (v: number | undefined): string => (v === undefined ? '' : numberText(v));
  const caption = (
    <>
      {series.length > 0 && <Keys series={series} />}
      <p>
        <strong>{plot.title}.</strong> {plot.caption}
      </p>
      <DataTable
        title={plot.title}
        headings={[
          plot.of,
          ...columns.map((c) => `${c === 'value' ? plot.label : c}${unit}`),
          ...series.map((s) => `${s}${unit}`),
        ]}
        rows={plot.rows.map((r) => ({
          name: r.name,
          cells: [...columns.map((c) => text(r[c])), ...series.map((_, i) => text(r.dots?.[i]))],
        }))}
      />
    </>
  );
  return (
    <Picture
      name={plot.name}
      width={width}
      height={height}
      title={plot.title}
      description={description}
      caption={caption}
    >
      <g aria-hidden="true">
        {ticks.map((t) => (
          <path key={t.text} class="plot-grid" d={`M${t.at} 14V${foot}`} />
        ))}
        {ticks.map((t) => (
          <text key={t.text} x={t.at} y={foot + 14} text-anchor="middle">
            {t.text}
          </text>
        ))}
        <text class="plot-title" x={(left + width) / 2} y={foot + 30} text-anchor="middle">
          {`${plot.label}${unit}`}
        </text>
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
              <text class="plot-name" x={left - 6} y={middle + 4} text-anchor="end">
                {r.shown}
              </text>
              {r.bar && (
                <rect class="plot-bar plot-bar-high" x={r.bar.x} y={r.y} width={r.bar.width} height={r.height} />
              )}
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
      </g>
    </Picture>
  );
}
