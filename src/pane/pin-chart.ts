import { fromSi, plainUnit } from '../core/units/parse-quantity.ts';
import type { QuantityName, UnitSystem } from '../core/units/quantities.ts';
import type { PinHistory, PinMoment } from './pin-points.ts';
import { roundTicks } from './charts/scale.ts';
import { showWithUnit } from './show-cell.ts';

export const CHART = {
  width: 340,
  height: 290,
  left: 44,
  right: 282,
  top: 22,
  middle: 152,
  under: 180,
  bottom: 256,
} as const;

export interface ChartLine {
  readonly id: 'bore' | 'surface' | 'boss' | 'pressure';
  readonly name: string;
  readonly path: string;
  /** Height of its name at the right end. */
  readonly y: number;
}

export interface Tick {
  readonly at: number;
  readonly text: string;
}

export interface PinChart {
  readonly lines: readonly ChartLine[];
  readonly times: readonly Tick[];
  readonly temperatures: readonly Tick[];
  readonly pressures: readonly Tick[];
  /** Where burning ends. */
  readonly burnt: number;
  readonly units: { readonly time: string; readonly temperature: string; readonly pressure: string };
  readonly title: string;
  readonly description: string;
}

const NAMES = { bore: 'bore', surface: 'surface', boss: 'boss', pressure: 'pressure' } as const;
/** Names at the right end stand at least this far apart. */
const APART = 12;

/** Temperature and contact pressure over time as lines to draw, with the same in words. Pure. */
export function pinChart({ moments, method, pushed, reason }: PinHistory, system: UnitSystem): PinChart {
  const shown = (si: number, quantity: QuantityName): number => fromSi(si, quantity, system);
  const minutes = moments.map((m) => shown(m.time, 'time'));
  const [first, last] = [minutes[0] ?? 0, minutes.at(-1) ?? 1];
  const span = Math.max(last - first, 1e-9);
  const x = (t: number): number => CHART.left + ((t - first) / span) * (CHART.right - CHART.left);
  const of = (id: ChartLine['id']): readonly number[] =>
    moments.map((m: PinMoment) => shown(m[id], id === 'pressure' ? 'stress' : 'temperature'));
  const heats = (['bore', 'surface', 'boss'] as const).map((id) => ({ id, values: of(id) }));
  const all = heats.flatMap((h) => h.values);
  const [coolest, hottest] = [Math.min(0, ...all), Math.max(...all, 1)];
  const hot = (t: number): number => CHART.middle - ((t - coolest) / (hottest - coolest)) * (CHART.middle - CHART.top);
  const pressures = of('pressure');
  const most = Math.max(...pressures, 1);
  const pressed = (p: number): number => CHART.bottom - (p / most) * (CHART.bottom - CHART.under);
  const path = (values: readonly number[], y: (v: number) => number): string =>
    values.map((v, i) => `${i === 0 ? 'M' : 'L'}${x(minutes[i] ?? 0).toFixed(1)} ${y(v).toFixed(1)}`).join(' ');
  let above = -Infinity;
  const lines = [...heats]
    .sort((p, q) => (q.values.at(-1) ?? 0) - (p.values.at(-1) ?? 0))
    .map(({ id, values }): ChartLine => {
      above = Math.max(hot(values.at(-1) ?? 0), above + APART);
      return { id, name: NAMES[id], path: path(values, hot), y: above };
    });
  // Names pushed under the frame move up together.
  const over = Math.max(0, above - CHART.middle);
  const digits = (si: number, quantity: QuantityName): string =>
    showWithUnit(Number(shown(si, quantity).toPrecision(3)), plainUnit(quantity, system));
  const start = moments.find((m) => m.time >= 0) ?? moments[0];
  const end = moments.at(-1);
  const words =
    start && end
      ? `When burning ends the bore is at ${digits(start.bore, 'temperature')}, the pin's surface at ${digits(start.surface, 'temperature')}, the boss outside at ${digits(start.boss, 'temperature')}. ` +
        `After ${digits(pushed, 'time')} in ${method} the pin can be pushed: bore ${digits(end.bore, 'temperature')}, boss ${digits(end.boss, 'temperature')}. ` +
        `Contact pressure rises to ${digits(Math.max(...moments.map((m) => m.pressure)), 'stress')} while hot and ends at ${digits(end.pressure, 'stress')}: ${reason}.`
      : '';
  return {
    lines: [
      ...lines.map((l) => ({ ...l, y: l.y - over })),
      {
        id: 'pressure',
        name: NAMES.pressure,
        path: path(pressures, pressed),
        y: Math.min(pressed(pressures.at(-1) ?? 0), CHART.bottom - 2),
      },
    ],
    times: roundTicks(first, last).map((t) => ({ at: x(t), text: String(Number(t.toPrecision(6))) })),
    temperatures: roundTicks(coolest, hottest).map((t) => ({ at: hot(t), text: String(Number(t.toPrecision(6))) })),
    pressures: roundTicks(0, most)
      .filter((_, i) => i % 2 === 0)
      .map((p) => ({ at: pressed(p), text: String(Number(p.toPrecision(6))) })),
    burnt: x(Math.max(0, first)),
    units: {
      time: plainUnit('time', system),
      temperature: plainUnit('temperature', system),
      pressure: plainUnit('stress', system),
    },
    title: 'Temperature and contact pressure over time',
    description: words,
  };
}
