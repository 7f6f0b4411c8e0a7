import { BARS, drawBars, type BarPlot } from './bar-plot.ts';
import { Figure, FootAxis, RowName } from './figure.tsx';
import { numberText } from './number-text.ts';

/** What the two ends of the bars are. */
function Keys({ low, high }: { readonly low: string; readonly high: string }) {
  return (
    <p class="plot-keys">
      <span>
        <span class="plot-key plot-key-low" aria-hidden="true" /> {low}
      </span>
      <span>
        <span class="plot-key plot-key-high" aria-hidden="true" /> {high}
      </span>
    </p>
  );
}

/** Bars with their words, and their figures folded below. */
export function BarFigure({ plot }: { readonly plot: BarPlot }) {
  const drawn = drawBars(plot);
  const { width, height, ticks, base, row, bars } = drawn;
  const foot = height - BARS.foot;
  const text = (v: number | undefined): string => (v === undefined ? 'none' : numberText(v));
  const [first, second] = plot.ends;
  return (
    <Figure
      plot={plot}
      drawn={drawn}
      keys={second !== undefined && <Keys low={first} high={second} />}
      headings={[plot.of, ...plot.ends.map((e) => (plot.unit === '' ? e : `${e}, ${plot.unit}`))]}
      rows={plot.bars.map((b) => ({
        name: b.name,
        cells: second === undefined ? [text(b.high)] : [text(b.low), text(b.high)],
      }))}
    >
      <FootAxis
        ticks={ticks}
        foot={foot}
        top={2}
        middle={(BARS.left + width) / 2}
        label={plot.unit === '' ? plot.label : `${plot.label}, ${plot.unit}`}
      />
      {bars.map((b) => (
        <g key={b.name}>
          <RowName lines={b.shown} x={BARS.left - 5} y={b.y + row / 2} />
          {b.ends.map((e) => (
            <rect
              key={e.end}
              class={`plot-bar plot-bar-${e.end}`}
              x={e.x}
              y={b.y + (row - BARS.bar) / 2}
              width={e.width}
              height={BARS.bar}
            />
          ))}
          {b.ends
            .filter((e) => e.width > 0)
            .map((e) => (
              <text key={e.end} x={e.textX} y={b.y + row / 2 + 4} text-anchor={e.anchor}>
                {e.text}
              </text>
            ))}
        </g>
      ))}
      <path class="plot-frame" d={`M${base} 2V${foot}`} />
    </Figure>
  );
}
