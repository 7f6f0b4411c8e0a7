import { describe, expect, it } from 'vitest';
import { recorder, type Step, type Trace } from '../../../src/core/model/trace.ts';
import { batteryStrikes } from '../../../src/core/safety/battery-strikes.ts';
import { eyeShade } from '../../../src/core/safety/eye-shade.ts';
import { fireReach } from '../../../src/core/safety/fire-reach.ts';
import { freshAirForOxygen } from '../../../src/core/safety/fresh-air-for-oxygen.ts';
import { leadDrop } from '../../../src/core/safety/lead-drop.ts';
import { noiseAverage } from '../../../src/core/safety/noise-average.ts';
import { noiseDose } from '../../../src/core/safety/noise-dose.ts';
import { noiseHours } from '../../../src/core/safety/noise-hours.ts';
import { NOISE_RULES } from '../../../src/core/safety/noise-rules.ts';
import { oxygenClearTime } from '../../../src/core/safety/oxygen-clear-time.ts';
import { oxygenByVolume, oxygenRelease } from '../../../src/core/safety/oxygen-release.ts';
import { oxygenRiseTime } from '../../../src/core/safety/oxygen-rise-time.ts';
import { roomOxygen, type RoomAir } from '../../../src/core/safety/room-oxygen.ts';
import { ventilation } from '../../../src/core/safety/ventilation.ts';
import { ATMOSPHERE } from '../../../src/core/units/quantities.ts';
import { replay } from '../model/replay.ts';

type Inputs = Readonly<Record<string, number>>;

/** Puts the inputs down as the caller does, under the symbols the doc comment asks for, then the working. */
function working(
  inputs: Inputs,
  run: (trace: Trace) => number,
): { readonly value: number; readonly steps: readonly Step[] } {
  const trace = recorder();
  for (const [symbol, value] of Object.entries(inputs))
    trace.add({ name: symbol, symbol, value, quantity: 'ratio', formula: '', kind: 'input', source: '' });
  return { value: run(trace), steps: trace.steps };
}

const room: RoomAir = { volume: 60, release: 0.004, freshAir: 0.1, mixing: 3, outside: 0.209 };
const air: Inputs = {
  V: room.volume,
  q: room.release,
  Q: room.freshAir,
  K: room.mixing,
  x_a: room.outside,
  x_0: 0.215,
};

const CASES: readonly (readonly [string, Inputs, (trace: Trace) => number])[] = [
  ...NOISE_RULES.map((rule) => [`hours by ${rule.name}`, { L: 97 }, (t: Trace) => noiseHours(97, rule, t)] as const),
  ...NOISE_RULES.map(
    (rule) =>
      [
        `average by ${rule.name}`,
        {},
        (t: Trace) => noiseAverage(noiseDose([{ level: 97, time: 5400 }], rule, t), rule, t) ?? NaN,
      ] as const,
  ),
  ['oxygen in a room', { ...air, t: 700 }, (t) => roomOxygen(room, 0.215, 700, t)],
  [
    'oxygen in a room into which nothing flows',
    { ...air, t: 700 },
    (t) => roomOxygen({ ...room, release: 0, freshAir: 0 }, 0.215, 700, t),
  ],
  ['time until 23.5 percent', air, (t) => oxygenRiseTime(room, 0.215, undefined, t)],
  ['time until 23.5 percent from above it', { ...air, x_0: 0.24 }, (t) => oxygenRiseTime(room, 0.24, undefined, t)],
  ['time to clear', { ...air, x_0: 0.28 }, (t) => oxygenClearTime(room, 0.28, undefined, t)],
  ['time to clear from within the limit', air, (t) => oxygenClearTime(room, 0.215, undefined, t)],
  [
    'fresh air for a limit',
    { q: room.release, K: room.mixing, x_a: room.outside },
    (t) => freshAirForOxygen(room.release, room.mixing, room.outside, undefined, t),
  ],
  ['oxygen let out', { m: 0.0056, eta: 0.25, m_leak: 1e-4 }, (t) => oxygenRelease(0.0056, 0.25, 1e-4, t)],
  [
    'oxygen let out by volume',
    { m_free: 0.0043, T: 295, p_air: ATMOSPHERE },
    (t) => oxygenByVolume(0.0043, 295, ATMOSPHERE, t),
  ],
  [
    'reach of drops',
    {},
    (t) =>
      fireReach(9, [1e-3, 3e-3], 6000, { density: 1.2, viscosity: 15e-6, wind: 0 }, { speed: 8, bounce: 0.3 }, t).reach,
  ],
  ['filter shade', {}, (t) => eyeShade(0.1, t).shade],
  ['ventilation', { n: 3 }, (t) => ventilation(100, 3, 3, false, t).freshAir],
  ['ventilation by nature alone', { n: 1 }, (t) => ventilation(1e5, 9, 1, false, t).freshAir],
  ['lead', { I: 150, L: 30, T: 315, s: 1.02 }, (t) => leadDrop(150, 30, '2/0', 315, 1.02, t)],
  [
    'ignitions',
    { C: 252000, I: 120, t: 2, share: 0.5, k: 1.25 },
    (t) => batteryStrikes(252000, 120, 2, 0.5, 1.25, t).strikes,
  ],
];

describe('the working', () => {
  it.each(CASES)('of %s ends in the value, and every formula gives its own number again', (_, inputs, run) => {
    const { value, steps } = working(inputs, run);
    expect(steps.at(-1)?.value).toBe(value);
    expect(new Set(steps.map((s) => s.symbol)).size).toBe(steps.length);
    const again = replay(steps);
    for (const { step, value: replayed } of again) {
      const was = step.value as number;
      expect(Math.abs(replayed - was), `${step.symbol} = ${step.expression ?? ''}`).toBeLessThanOrEqual(
        1e-12 * Math.abs(was),
      );
    }
  });
});
