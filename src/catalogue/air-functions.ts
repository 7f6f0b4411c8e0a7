import type { Basis } from '../core/basis.ts';
import { findMaterial } from '../core/burn/materials.ts';
import { findRod, rodName, rodNames } from '../core/burn/rods.ts';
import { burnFume } from '../core/safety/burn-fume.ts';
import { freshAirSteps } from '../core/safety/fresh-air-for-oxygen.ts';
import { EXPOSURE_RESULTS, exposureFigures, exposureSteps } from '../core/safety/fume-exposure.ts';
import { LIMITS } from '../core/safety/limits.ts';
import { oxygenClearSteps } from '../core/safety/oxygen-clear-time.ts';
import { leastBurntStep, oxygenByVolume, oxygenReleaseStep, oxygenVolumeSteps } from '../core/safety/oxygen-release.ts';
import { oxygenRiseSteps } from '../core/safety/oxygen-rise-time.ts';
import { fumeRoomGiven } from '../core/safety/room-fume.ts';
import { flowsIn, roomOxygenSteps, type RoomAir } from '../core/safety/room-oxygen.ts';
import { ventilation } from '../core/safety/ventilation.ts';
import { assumed } from '../core/assumptions/assumed.ts';
import type { RodChoice } from '../core/burn/rods.ts';
import { calculated, given, type Step } from '../core/model/step.ts';
import { StepList } from '../core/model/step-list.ts';
import { work, workAll, Working } from '../core/model/working.ts';
import { CUBIC_FOOT, FOOT, SCF } from '../core/units/quantities.ts';
import {
  optional,
  required,
  tableFunction,
  workedFunction,
  type Declaration,
  type QuantityKind,
} from './declaration.ts';
import { textStep } from './given.ts';
import { OXYGEN_FLOW } from './limits.ts';
import { shareOf } from './share.ts';

const ROOM: QuantityKind = { kind: 'quantity', quantity: 'volume', above: 0, max: 1e8 * CUBIC_FOOT };
const RELEASE: QuantityKind = { kind: 'quantity', quantity: 'flow', min: 0, max: (10_000 * SCF) / 60 };
const AIR: QuantityKind = { kind: 'quantity', quantity: 'airflow', min: 0, max: (1e7 * CUBIC_FOOT) / 60 };
const MINUTES: QuantityKind = { kind: 'quantity', quantity: 'time', min: 0, max: 7 * 24 * 3600 };
const OXYGEN: QuantityKind = { kind: 'quantity', quantity: 'percent', above: 0, max: 1 };
const LIMIT: QuantityKind = { kind: 'quantity', quantity: 'percent', above: 0, max: 0.99 };
const CEILING: QuantityKind = { kind: 'quantity', quantity: 'distance', above: 0, max: 1000 * FOOT };
const PEOPLE: QuantityKind = { kind: 'quantity', quantity: 'count', above: 0, max: 10_000, whole: true };

const volume = required(ROOM, 'Volume of the room, cu ft', '4000');
const release = required(RELEASE, 'Oxygen let into the room unburnt, scfm, as BURN.AIR.RELEASE gives it', '6');
const freshAir = required(AIR, 'Fresh air brought in, cfm; 0 where none is', '150');
const start = optional(OXYGEN, 'Oxygen in the room at the start, percent; that of fresh air when left out', '20.9');
const limit = optional(LIMIT, 'Oxygen not to be passed, percent; 23.5 when left out', '23.5');
const SOURCES = ['acgih ventilation', 'osha 1910.146', 'us standard atmosphere'];

const shareOrNone = (percent: number | undefined): number | undefined =>
  percent === undefined ? undefined : shareOf(percent);
const limitOf = (percent: number | undefined): number => shareOrNone(percent) ?? LIMITS.oxygenHigh.value;

/** The release as a volume at the room's temperature and pressure, `q`. */
const RELEASED: readonly Step[] = [
  given('m_free', 'oxygen let into the room', 'flow'),
  assumed('T', 'room temperature'),
  assumed('p_air', 'air pressure'),
  ...oxygenVolumeSteps,
];

const MIXED: readonly Step[] = [assumed('K', 'air mixing factor'), assumed('x_a', 'fresh air oxygen')];
const ROOM_STEPS: readonly Step[] = [given('V', 'volume', 'volume'), given('Q', 'fresh air', 'airflow'), ...MIXED];

/** A room as its arguments and the assumptions have it, and its oxygen at the start. */
function roomOf(
  {
    volume: V,
    release: flow = 0,
    freshAir: Q,
  }: { readonly volume: number; readonly release?: number; readonly freshAir: number },
  percent: number | undefined,
  { a }: Basis,
): { readonly room: RoomAir; readonly from: number; readonly values: Readonly<Record<string, number>> } {
  const outside = a.value('fresh air oxygen');
  const through = oxygenByVolume(flow, a.value('room temperature'), a.value('air pressure'));
  const from = shareOrNone(percent) ?? outside;
  return {
    room: { volume: V, release: through, freshAir: Q, mixing: a.value('air mixing factor'), outside },
    from,
    values: { V, Q, m_free: flow, ...(percent !== undefined && { x_0: from }) },
  };
}

const startStep = (percent: number | undefined): Step =>
  percent === undefined
    ? calculated('x_0', 'oxygen at the start', 'percent', 'x_a', 'oxygen in the fresh air')
    : given('x_0', 'oxygen at the start', 'percent');

/** The air of a room after a rod has burned in it. */
function fumeWorking(rod: RodChoice, minutes: number, V: number, Q: number, basis: Basis): Working {
  const { a } = basis;
  const { evaluation } = burnFume(rod, findMaterial(a.word('material')), basis, {
    steps: [
      ...fumeRoomGiven,
      assumed('K', 'air mixing factor'),
      ...exposureSteps({ volume: V, freshAir: Q, mixing: a.value('air mixing factor') }, minutes),
    ],
    results: EXPOSURE_RESULTS,
    values: { V, Q, t: minutes },
  });
  return new Working(evaluation, 'C_Mn', evaluation.list.results, { decidedBy: ['material'] });
}

export const AIR_FUNCTIONS: readonly Declaration[] = [
  workedFunction({
    name: 'BURN.AIR.RELEASE',
    family: 'AIR',
    summary: 'Oxygen that burning lets into the air unburnt: what the rod leaves of its flow, and leaks.',
    parameters: {
      flow: required(OXYGEN_FLOW, 'Oxygen flow through the rod, as a plan gives it', '8'),
      rod: optional({ kind: 'rod' }, 'Rod; a short rod when left out. Long bars burn more of their oxygen', '"3/8"'),
    },
    assume: true,
    result: { kind: 'value', quantity: 'flow' },
    sources: ['common practice'],
    cautions: ['AIR.RELEASE'],
    examples: ['=BURN.AIR.RELEASE(8)'],
    working: ({ flow, rod }, { a }) => {
      const choice = rod ?? findRod('3/8');
      return workAll(
        [
          given('m', 'flow', 'flow'),
          ...(rod ? [textStep('rod', 'rod', rodName(rod.rod, rod.length, rod.coupled))] : []),
          leastBurntStep(rodNames(choice.rod).burnt, a),
          assumed('m_leak', 'leak flow'),
          oxygenReleaseStep,
        ],
        { m: flow },
        'm_free',
        a,
      );
    },
  }),
  workedFunction({
    name: 'BURN.AIR.OXYGEN',
    family: 'AIR',
    summary:
      'Average percent of oxygen in a room after some minutes with oxygen and fresh air flowing in. More than 23.5 is hazardous; near the work it is higher: measure.',
    parameters: { volume, release, freshAir, minutes: required(MINUTES, 'Minutes that oxygen is let in', '30'), start },
    assume: true,
    result: { kind: 'value', quantity: 'percent' },
    sources: SOURCES,
    cautions: ['AIR.OXYGEN'],
    examples: ['=BURN.AIR.OXYGEN(4000,6,150,30)', '=BURN.AIR.OXYGEN(4000,6,{0;150;2000},30,20.9)'],
    working: ({ minutes, start: percent, ...of }, basis) => {
      const { room, values } = roomOf(of, percent, basis);
      const steps = [...ROOM_STEPS, ...RELEASED, startStep(percent), given('t', 'minutes', 'time')];
      return workAll([...steps, ...roomOxygenSteps(flowsIn(room))], { ...values, t: minutes }, 'x', basis.a);
    },
  }),
  workedFunction({
    name: 'BURN.AIR.RISE',
    family: 'AIR',
    summary:
      'Minutes until the average of a room reaches 23.5 percent of oxygen, while oxygen and fresh air flow in. #N/A where it levels off below.',
    parameters: { volume, release, freshAir, start, limit },
    assume: true,
    result: { kind: 'value', quantity: 'time' },
    sources: SOURCES,
    cautions: ['AIR.RISE'],
    examples: ['=BURN.AIR.RISE(4000,6,100)'],
    working: ({ start: percent, limit: most, ...of }, basis) => {
      const { room, from, values } = roomOf(of, percent, basis);
      const steps = [...ROOM_STEPS, ...RELEASED, startStep(percent), ...oxygenRiseSteps(room, from, limitOf(most))];
      return workAll(steps, values, 't', basis.a);
    },
  }),
  workedFunction({
    name: 'BURN.AIR.CLEAR',
    family: 'AIR',
    summary:
      'Minutes for fresh air to bring an enriched room back to 23.5 percent of oxygen with the valve shut. Measure before anyone goes back; clothing stays enriched longer.',
    parameters: { volume, freshAir, start: required(OXYGEN, 'Oxygen in the room at the start, percent', '26'), limit },
    assume: true,
    result: { kind: 'value', quantity: 'time' },
    sources: SOURCES,
    cautions: ['AIR.CLEAR'],
    examples: ['=BURN.AIR.CLEAR(4000,500,26)'],
    working: ({ start: percent, limit: most, ...of }, basis) => {
      const { room, from, values } = roomOf(of, percent, basis);
      const steps = [...ROOM_STEPS, startStep(percent), ...oxygenClearSteps(room, from, limitOf(most))];
      return workAll(steps, values, 't', basis.a);
    },
  }),
  workedFunction({
    name: 'BURN.AIR.FRESH',
    family: 'AIR',
    summary:
      'Fresh air, cfm, that holds the average of a room at 23.5 percent of oxygen while oxygen is let in. For oxygen alone: fume and people may need more.',
    parameters: { release, limit },
    assume: true,
    result: { kind: 'value', quantity: 'airflow' },
    sources: SOURCES,
    cautions: ['AIR.FRESH'],
    examples: ['=BURN.AIR.FRESH(6)', '=BURN.AIR.FRESH(6,22)'],
    working: ({ release: flow, limit: most }, { a }) => {
      const steps = [...MIXED, ...RELEASED, ...freshAirSteps(a.value('fresh air oxygen'), limitOf(most))];
      return work(new StepList(steps, ['Q']), { m_free: flow }, a);
    },
  }),
  workedFunction({
    name: 'BURN.AIR.PEOPLE',
    family: 'AIR',
    summary:
      'Fresh air by fan, cfm, that 29 CFR 1910.252(c)(2) asks for: 2000 for each person under 10,000 cu ft a person, under 16 ft, or in a confined space; else 0.',
    parameters: {
      volume,
      ceiling: required(CEILING, 'Ceiling height, ft', '14'),
      people: required(PEOPLE, 'People at the work', '2'),
      obstructed: optional(
        { kind: 'choice', choices: ['no', 'yes'] },
        'yes for a confined space, partitions or balconies that hinder cross ventilation; no when left out',
        '"no"',
      ),
    },
    assume: true,
    result: { kind: 'value', quantity: 'airflow' },
    sources: ['osha 1910.252'],
    cautions: ['AIR.PEOPLE'],
    examples: ['=BURN.AIR.PEOPLE(4000,14,2)', '=BURN.AIR.PEOPLE(60000,30,2,"yes")'],
    working: ({ volume: V, ceiling, people, obstructed }) =>
      ventilation(V, ceiling, people, obstructed === 'yes').working,
  }),
  tableFunction({
    name: 'BURN.AIR.FUME',
    family: 'AIR',
    summary:
      'Iron oxide and manganese in the average air of a room after a rod has burned for some minutes, beside their limits. An order of magnitude: only an air sample tells.',
    parameters: {
      rod: required({ kind: 'rod' }, 'Rod, such as 3/8 or 3/8 x 36', '"3/8"'),
      minutes: required(MINUTES, 'Minutes of rod burning', '20'),
      volume,
      freshAir,
    },
    assume: true,
    result: {
      kind: 'table',
      columns: [
        { heading: 'figure' },
        { heading: 'over' },
        { heading: 'in the air', quantity: 'concentration' },
        { heading: 'limit', quantity: 'concentration' },
        { heading: 'times the limit' },
        { heading: 'stands' },
        { heading: 'whose' },
        { heading: 'source' },
        { heading: 'clause' },
      ],
    },
    sources: ['ap-42 12.19', 'osha 1910.1000', 'niosh pocket guide', 'iupac atomic weights', 'acgih ventilation'],
    cautions: ['AIR.FUME'],
    examples: ['=BURN.AIR.FUME("3/8",20,4000,150)'],
    calculate: ({ rod, minutes, volume: V, freshAir: Q }, basis) =>
      exposureFigures(fumeWorking(rod, minutes, V, Q, basis).evaluation).map(({ what, value, limit: of, exceeds }) => [
        of.name,
        of.over,
        value,
        of.value,
        value / of.value,
        `${what} ${exceeds ? 'exceeds' : 'does not exceed'} it by these figures`,
        of.force === 'legal' ? 'legal limit' : 'recommended limit',
        of.source,
        of.clause,
      ]),
    working: ({ rod, minutes, volume: V, freshAir: Q }, basis) => fumeWorking(rod, minutes, V, Q, basis),
  }),
];
