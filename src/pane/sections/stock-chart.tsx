import type { Explained } from '../explained.ts';
import { Picture } from '../parts/picture.tsx';
import type { CellSection } from '../section.ts';
import { STOCK_CHART, showPercent, stockChart, type StockChart } from '../stock-chart.ts';

const { left, bar, row } = STOCK_CHART;

const chartOf = ({ declaration, outcome }: Explained): StockChart | undefined =>
  declaration.name === 'BURN.JOB.STOCK' && outcome.kind === 'table' ? stockChart(outcome.rows) : undefined;

function Stock({ explained }: { readonly explained: Explained }) {
  const chart = chartOf(explained);
  if (!chart) return null;
  const { width, height, bars, ticks, title, description, caption } = chart;
  const legend = (
    <>
      <span class="rs-stock-key rs-stock-key-load" aria-hidden="true" /> loaded as advised;{' '}
      <span class="rs-stock-key rs-stock-key-sum" aria-hidden="true" /> loaded as the plans add up. {caption}
    </>
  );
  return (
    <Picture name="rs-stock" width={width} height={height} title={title} description={description} caption={legend}>
      <defs>
        <pattern id="rs-stock-hatch" width="4" height="4" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0 V4" />
        </pattern>
      </defs>
      {ticks.map((t) => (
        <g aria-hidden="true">
          <path class="rs-stock-grid" d={`M${t.x} 2 V${height - 16}`} />
          <text x={t.x} y={height - 4} text-anchor="middle">
            {t.text}
          </text>
        </g>
      ))}
      {bars.map((b) => (
        <g aria-hidden="true" class={b.name === 'all together' ? 'rs-stock-all' : undefined}>
          <text x={left - 6} y={b.y + row / 2 + 1} text-anchor="end">
            {b.name}
          </text>
          <rect class="rs-stock-load" x={left} y={b.y + 4} width={b.loadWidth} height={bar} />
          <rect class="rs-stock-sum" x={left} y={b.y + 5 + bar} width={b.sumWidth} height={bar} />
          <text x={left + b.loadWidth + 3} y={b.y + 3 + bar}>
            {showPercent(b.load)}
          </text>
          <text x={left + b.sumWidth + 3} y={b.y + 4 + 2 * bar}>
            {showPercent(b.sum)}
          </text>
        </g>
      ))}
    </Picture>
  );
}

/** How often the load of BURN.JOB.STOCK falls short, beside the plain sum of the plans. */
export const STOCK: CellSection = {
  id: 'stock',
  heading: 'Chance to run short',
  shows: (explained) => chartOf(explained) !== undefined,
  Component: Stock,
};
