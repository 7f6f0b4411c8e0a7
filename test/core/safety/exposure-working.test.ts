import { describe, expect, it } from 'vitest';
import { Assumptions } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import type { Given } from '../../../src/core/model/evaluation.ts';
import { given, type Step } from '../../../src/core/model/step.ts';
import { workAll, type Working } from '../../../src/core/model/working.ts';
import { batteryStrikes, batteryStrikesInForce } from '../../../src/core/safety/battery-strikes.ts';
import { cylinderSeparation } from '../../../src/core/safety/cylinder-separation.ts';
import { eyeShade, eyeShadeWorking } from '../../../src/core/safety/eye-shade.ts';
import { fireReachInForce } from '../../../src/core/safety/fire-reach.ts';
import { freshAirForOxygen, freshAirSteps } from '../../../src/core/safety/fresh-air-for-oxygen.ts';
import { exposureSteps, fumeExposure } from '../../../src/core/safety/fume-exposure.ts';
import { leadDrop, leadDropInForce } from '../../../src/core/safety/lead-drop.ts';
import { manifoldLimits } from '../../../src/core/safety/manifold-limits.ts';
import { averageStep, noiseAverage } from '../../../src/core/safety/noise-average.ts';
import { noiseDose, noiseDoseWorking } from '../../../src/core/safety/noise-dose.ts';
import { noiseHours, noiseHoursSteps } from '../../../src/core/safety/noise-hours.ts';
import { NOISE_RULES } from '../../../src/core/safety/noise-rules.ts';
import { oxygenClearSteps, oxygenClearTime } from '../../../src/core/safety/oxygen-clear-time.ts';
import {
  oxygenByVolume,
  oxygenRelease,
  oxygenReleaseStep,
  oxygenVolumeSteps,
} from '../../../src/core/safety/oxygen-release.ts';
import { oxygenRiseSteps, oxygenRiseTime } from '../../../src/core/safety/oxygen-rise-time.ts';
import { fumeRoomGiven } from '../../../src/core/safety/room-fume.ts';
import {
  roomGiven,
  roomOxygen,
  roomOxygenSteps,
  roomValues,
  type RoomAir,
} from '../../../src/core/safety/room-oxygen.ts';
import { ventilation } from '../../../src/core/safety/ventilation.ts';
import { ATMOSPHERE } from '../../../src/core/units/quantities.ts';
import { replay } from '../model/replay.ts';

const a = Assumptions.defaults();
const room: RoomAir = { volume: 60, release: 0.004, freshAir: 0.1, mixing: 3, outside: 0.209 };
const still: RoomAir = { ...room, release: 0, freshAir: 0 };
const fumeRoom = { volume: 60, freshAir: 0.1, mixing: 3 };
const tasks = [{ level: 97, time: 5400 }];

/** A working of steps in a room. */
const inRoom = (steps: readonly Step[], start: number, result: string, of = room, more: Given = {}): Working =>
  workAll([...roomGiven, ...steps], { ...roomValues(of, start), ...more }, result);
const minutes = given('t', 'minutes', 'time');

/** Manganese and oxide after a task, in the list of the exposures. */
function exposed(symbol: string, time: number, air = fumeRoom): Working {
  const before = [
    given('G_Mn', 'manganese in the fume', 'massRate'),
    given('G_Fe', 'iron oxide in the fume', 'massRate'),
    ...fumeRoomGiven,
    given('K', 'air mixing factor', 'ratio'),
  ];
  const values = { G_Fe: 2e-6, G_Mn: 1e-7, V: air.volume, Q: air.freshAir, K: air.mixing, t: time };
  return workAll([...before, ...exposureSteps(air, time)], values, symbol);
}
const figure = (i: number, time: number, air = fumeRoom): number =>
  fumeExposure({ fume: 0, ironOxide: 2e-6, manganese: 1e-7 }, air, time)[i]!.value;

const CASES: readonly (readonly [string, number | undefined, Working])[] = [
  ...NOISE_RULES.map(
    (rule) => [`hours by ${rule.name}`, noiseHours(97, rule), workAll(noiseHoursSteps(rule), { L: 97 }, 'T')] as const,
  ),
  ...NOISE_RULES.map((rule) => {
    const { evaluation } = noiseDoseWorking(tasks, rule, [], [averageStep(rule)]);
    const steps = evaluation.list.nodes.map((node) => node.step);
    const working = workAll(steps, { L_1: 97, C_1: 5400 }, 'TWA');
    return [`average by ${rule.name}`, noiseAverage(noiseDose(tasks, rule), rule), working] as const;
  }),
  [
    'oxygen in a room',
    roomOxygen(room, 0.215, 700),
    inRoom([minutes, ...roomOxygenSteps(true)], 0.215, 'x', room, { t: 700 }),
  ],
  [
    'oxygen in a room into which nothing flows',
    roomOxygen(still, 0.215, 700),
    inRoom([minutes, ...roomOxygenSteps(false)], 0.215, 'x', still, { t: 700 }),
  ],
  ['time until 23.5 percent', oxygenRiseTime(room, 0.215), inRoom(oxygenRiseSteps(room, 0.215), 0.215, 't')],
  ['time until 23.5 percent from above it', oxygenRiseTime(room, 0.24), inRoom(oxygenRiseSteps(room, 0.24), 0.24, 't')],
  ['time to clear', oxygenClearTime(room, 0.28), inRoom(oxygenClearSteps(room, 0.28), 0.28, 't')],
  [
    'time to clear from within the limit',
    oxygenClearTime(room, 0.215),
    inRoom(oxygenClearSteps(room, 0.215), 0.215, 't'),
  ],
  [
    'fresh air for a limit',
    freshAirForOxygen(room.release, room.mixing, room.outside),
    workAll(
      [...roomGiven.filter(({ symbol }) => ['q', 'K', 'x_a'].includes(symbol)), ...freshAirSteps(room.outside)],
      { q: room.release, K: room.mixing, x_a: room.outside },
      'Q',
    ),
  ],
  [
    'oxygen let out',
    oxygenRelease(0.0056, 0.25, 1e-4),
    workAll(
      [
        given('m', 'flow', 'flow'),
        given('eta', 'burnt', 'percent'),
        given('m_leak', 'leak', 'flow'),
        oxygenReleaseStep,
      ],
      { m: 0.0056, eta: 0.25, m_leak: 1e-4 },
      'm_free',
    ),
  ],
  [
    'oxygen let out by volume',
    oxygenByVolume(0.0043, 295, ATMOSPHERE),
    workAll(
      [
        given('m_free', 'let out', 'flow'),
        given('T', 'room', 'temperature'),
        given('p_air', 'air', 'pressure'),
        ...oxygenVolumeSteps,
      ],
      { m_free: 0.0043, T: 295, p_air: ATMOSPHERE },
      'q',
    ),
  ],
  ...[0, 700, 30000].flatMap((time) => [
    [`iron oxide after ${time} s`, figure(0, time), exposed('C_Fe', time)] as const,
    [`iron after ${time} s`, figure(1, time), exposed('C_iron', time)] as const,
    [`manganese after ${time} s`, figure(2, time), exposed('C_Mn', time)] as const,
    [`manganese over 15 minutes after ${time} s`, figure(3, time), exposed('C_15', time)] as const,
    [`manganese over 8 hours after ${time} s`, figure(4, time), exposed('C_8', time)] as const,
  ]),
  ['reach of drops', undefined, fireReachInForce(9, new Basis(a))],
  ['filter shade', eyeShade(0.1).shade, eyeShadeWorking(0.1)],
  ['ventilation', ventilation(100, 3, 3, false).freshAir, ventilation(100, 3, 3, false).working],
  ['ventilation by nature alone', 0, ventilation(1e5, 9, 1, false).working],
  ['distance missing', cylinderSeparation(4).missing, cylinderSeparation(4).working],
  ['oxygen on the site', manifoldLimits(12, undefined, 5, a).site, manifoldLimits(12, undefined, 5, a).working],
  [
    'lead',
    leadDrop(150, 30, '2/0', a.value('lead temperature'), a.value('lead lay')),
    leadDropInForce(150, 30, '2/0', a),
  ],
  [
    'ignitions',
    batteryStrikes(252000, 120, 2, a.value('battery usable share'), a.value('peukert exponent')).strikes,
    batteryStrikesInForce(252000, 120, 2, a),
  ],
];

describe('the working', () => {
  it.each(CASES)('of %s ends in the value, and every formula gives its own number again', (_, value, working) => {
    const steps = working.steps();
    const result = steps.find((s) => s.symbol === working.result)?.value;
    expect(result).toBe(value ?? working.value);
    expect(new Set(steps.map((s) => s.symbol)).size).toBe(steps.length);
    for (const { step, value: replayed } of replay(steps)) {
      const was = step.value as number;
      expect(Math.abs(replayed - was), `${step.symbol} = ${step.expression ?? ''}`).toBeLessThanOrEqual(
        1e-12 * Math.abs(was),
      );
    }
  });
});
