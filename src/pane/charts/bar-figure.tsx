import { Picture } from '../parts/picture.tsx';
import { BARS, drawBars, type BarPlot } from './bar-plot.ts';
import { DataTable } from './data-table.tsx';
import { numberText } from './number-text.ts';

/** Bars with their words, and their figures folded below. */
export function BarFigure({ plot }: { readonly plot: BarPlot }) {
  const { width, height, ticks, base, bars, description } = drawBars(plot);
  const foot = height - BARS.foot;
  const text = (v: number | undefined): string => (v === undefined ? 'none' : numberText(v));
  const [first, second] = plot.ends;
  const caption = (
    <>
      {second !== undefined && (
        <p class="plot-keys">
          <span>
            <span class="plot-key plot-key-low" aria-hidden="true" /> {first}
          </span>
          <span>
            <span class="plot-key plot-key-high" aria-hidden="true" /> {second}
          </span>
        </p>
      )}
      <p>
        <strong>{plot.title}.</strong> {plot.caption}
        {plot.formula !== undefined && (
          <>
            {' '}
            Drawn from <code>{plot.formula}</code>.
          </>
        )}
      </p>
      <DataTable
        title={plot.title}
        headings={[plot.of, ...plot.ends.map((e) => (plot.unit === '' ? e : `${e}, ${plot.unit}`))]}
        rows={plot.bars.map((b) => ({
          name: b.name,
          cells: second === undefined ? [text(b.high)] : [text(b.low), text(b.high)],
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
          <path key={t.text} class="plot-grid" d={`M${t.at} 2V${foot}`} />
        ))}
        {ticks.map((t) => (
          <text key={t.text} x={t.at} y={foot + 14} text-anchor="middle">
            {t.text}
          </text>
        ))}
        <text class="plot-title" x={(BARS.left + width) / 2} y={foot + 31} text-anchor="middle">
          {plot.unit === '' ? plot.label : `${plot.label}, ${plot.unit}`}
        </text>
        {bars.map((b) => (
          <g key={b.name}>
            <text class="plot-name" x={BARS.left - 5} y={b.y + BARS.row / 2 + 4} text-anchor="end">
              {b.name}
            </text>
            {b.ends.map((e) => (
              <rect
                key={e.end}
                class={`plot-bar plot-bar-${e.end}`}
                x={e.x}
                y={b.y + (BARS.row - BARS.bar) / 2}
                width={e.width}
                height={BARS.bar}
              />
            ))}
            {b.ends
              .filter((e) => e.width > 0)
              .map((e) => (
                <text key={e.end} x={e.textX} y={b.y + BARS.row / 2 + 4} text-anchor={e.anchor}>
                  {e.text}
                </text>
              ))}
          </g>
        ))}
        <path class="plot-frame" d={`M${base} 2V${foot}`} />
      </g>
    </Picture>
  );
}
