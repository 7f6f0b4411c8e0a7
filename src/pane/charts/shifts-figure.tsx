import { Fragment } from 'preact';
import { SCHEDULE_CHART, type ScheduleChart } from '../schedule-chart.ts';
import { Figure } from './figure.tsx';

const { left, row, bar } = SCHEDULE_CHART;
const KEYS = [
  ['before', 'set-up'],
  ['hot', 'burning'],
  ['push', 'pressing out and clean-up'],
  ['watch', 'fire watch'],
] as const;

/** What the bars are. */
const Keys = () => (
  <p>
    {KEYS.map(([kind, words]) => (
      // A line is broken between the keys, not in one.
      <Fragment key={kind}>
        <span class="rs-shifts-keys">
          <svg viewBox="0 0 12 10" aria-hidden="true">
            <rect class={`rs-shifts-${kind}`} x="0.5" y="0.5" width="11" height="9" />
          </svg>{' '}
          {words}
        </span>{' '}
      </Fragment>
    ))}
  </p>
);

/** What each crew does in each shift, with its words, and the times folded below. */
export function ShiftsFigure({ plot }: { readonly plot: ScheduleChart }) {
  const { height, lanes, ticks } = plot;
  return (
    <Figure plot={plot} drawn={plot} keys={<Keys />} headings={['who', 'what', 'from', 'to']} rows={plot.rows}>
      {ticks.map((t) => (
        <Fragment key={t.x}>
          <path class="rs-shifts-grid" d={`M${t.x} 2 V${height - 16}`} />
          <text x={t.x} y={height - 4} text-anchor="middle">
            {t.text}
          </text>
        </Fragment>
      ))}
      {lanes.map((lane) => (
        <g key={lane.name}>
          <text x={left - 5} y={lane.y + row / 2 + 4} text-anchor="end">
            {lane.name}
          </text>
          {lane.blocks.map((b, i) => (
            <Fragment key={i}>
              <rect class={`rs-shifts-${b.kind}`} x={b.x} y={lane.y + (row - bar) / 2} width={b.width} height={bar} />
              {b.label !== '' && (
                <text class="rs-shifts-item" x={b.x + b.width / 2} y={lane.y + row / 2 + 4} text-anchor="middle">
                  {b.label}
                </text>
              )}
            </Fragment>
          ))}
        </g>
      ))}
    </Figure>
  );
}
