import type { Explained } from '../explained.ts';
import { Picture } from '../parts/picture.tsx';
import { CHART, pinChart } from '../pin-chart.ts';
import { pinHistory, pinOfCell } from '../pin-points.ts';
import type { CellSection } from '../section.ts';

const { width, height, left, right, top, middle, under, bottom } = CHART;

function CoolingChart({ explained }: { readonly explained: Explained }) {
  const pin = pinOfCell(explained);
  const history = pin && pinHistory(pin, explained);
  if (!history) return null;
  const { lines, times, temperatures, pressures, burnt, units, title, description } = pinChart(
    history,
    explained.system,
  );
  return (
    <Picture
      name="rs-cooling"
      width={width}
      height={height}
      title={title}
      description={description}
      caption={description}
    >
      <g aria-hidden="true">
        {temperatures.map(({ at, text }) => (
          <path key={text} class="rs-cooling-grid" d={`M${left} ${at} H${right}`} />
        ))}
        {pressures.map(({ at, text }) => (
          <path key={text} class="rs-cooling-grid" d={`M${left} ${at} H${right}`} />
        ))}
        <path class="rs-cooling-burnt" d={`M${burnt} ${top - 6} V${bottom}`} />
        <text x={burnt} y={top - 10} text-anchor="middle">
          burning ends
        </text>
        <path
          class="rs-cooling-frame"
          d={`M${left} ${top} V${middle} H${right} M${left} ${under} V${bottom} H${right}`}
        />
        {temperatures.map(({ at, text }) => (
          <text key={text} x={left - 4} y={at + 4} text-anchor="end">
            {text}
          </text>
        ))}
        {pressures.map(({ at, text }) => (
          <text key={text} x={left - 4} y={at + 4} text-anchor="end">
            {text}
          </text>
        ))}
        {times.map(({ at, text }) => (
          <text key={text} x={at} y={bottom + 14} text-anchor="middle">
            {text}
          </text>
        ))}
        <text x={2} y={top - 10}>
          {units.temperature}
        </text>
        <text x={2} y={under - 8}>
          {units.pressure}
        </text>
        <text x={right} y={bottom + 28} text-anchor="end">
          {units.time} from the end of burning
        </text>
        {lines.map(({ id, path }) => (
          <path key={id} class={`rs-cooling-line rs-cooling-${id}`} d={path} />
        ))}
        {lines.map(({ id, name, y }) => (
          <text key={id} class="rs-cooling-name" x={right + 4} y={y + 4}>
            {name}
          </text>
        ))}
      </g>
    </Picture>
  );
}

export const COOLING_CHART: CellSection = {
  id: 'cooling',
  heading: 'Heat and grip over time',
  shows: (explained) => (pinOfCell(explained)?.hole ?? 0) > 0,
  Component: CoolingChart,
};
