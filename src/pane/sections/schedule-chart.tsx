import { cut } from '../charts/row-plot.ts';
import type { Explained } from '../explained.ts';
import { Picture } from '../parts/picture.tsx';
import { SCHEDULE_CHART, scheduleChart, type ScheduleChart } from '../schedule-chart.ts';
import type { CellSection } from '../section.ts';

const { left, row, bar } = SCHEDULE_CHART;
/** Narrower blocks than this have no room for a letter of their item. */
const ROOM = 9;
const KEYS = [
  ['before', 'set-up'],
  ['hot', 'burning'],
  ['push', 'pressing out and clean-up'],
  ['watch', 'fire watch'],
] as const;

const chartOf = ({ declaration, outcome }: Explained): ScheduleChart | undefined =>
  declaration.name === 'BURN.JOB.SCHEDULE' && outcome.kind === 'table' ? scheduleChart(outcome.rows) : undefined;

function Shifts({ explained }: { readonly explained: Explained }) {
  const chart = chartOf(explained);
  if (!chart) return null;
  const { width, height, lanes, ticks, title, description, caption } = chart;
  const legend = (
    <>
      {KEYS.map(([kind, words]) => (
        // A line is broken between the keys, not in one.
        <>
          <span class="rs-shifts-keys">
            <svg viewBox="0 0 12 10" aria-hidden="true">
              <rect class={`rs-shifts-${kind}`} x="0.5" y="0.5" width="11" height="9" />
            </svg>{' '}
            {words};
          </span>{' '}
        </>
      ))}
      {caption}
    </>
  );
  return (
    <Picture name="rs-shifts" width={width} height={height} title={title} description={description} caption={legend}>
      {ticks.map((t) => (
        <g aria-hidden="true">
          <path class="rs-shifts-grid" d={`M${t.x} 2 V${height - 16}`} />
          <text x={t.x} y={height - 4} text-anchor="middle">
            {t.text}
          </text>
        </g>
      ))}
      {lanes.map((lane) => (
        <g aria-hidden="true">
          <text x={left - 5} y={lane.y + row / 2 + 4} text-anchor="end">
            {lane.name}
          </text>
          {lane.blocks.map((b) => (
            <>
              <rect class={`rs-shifts-${b.kind}`} x={b.x} y={lane.y + (row - bar) / 2} width={b.width} height={bar} />
              {b.kind === 'hot' && b.width >= ROOM && (
                <text class="rs-shifts-item" x={b.x + b.width / 2} y={lane.y + row / 2 + 4} text-anchor="middle">
                  {cut(b.item, b.width - 2)}
                </text>
              )}
            </>
          ))}
        </g>
      ))}
    </Picture>
  );
}

/** What each crew does in each shift of BURN.JOB.SCHEDULE. */
export const SHIFTS: CellSection = {
  id: 'shifts',
  heading: 'Shifts',
  shows: (explained) => chartOf(explained) !== undefined,
  Component: Shifts,
};
