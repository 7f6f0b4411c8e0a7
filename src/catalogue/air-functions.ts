import type { Basis } from '../core/basis.ts';
import { findMaterial } from '../core/burn/materials.ts';
import { findRod, rodName, rodNames } from '../core/burn/rods.ts';
import { burnFume } from '../core/safety/burn-fume.ts';
import { freshAirForOxygen } from '../core/safety/fresh-air-for-oxygen.ts';
import { fumeExposure } from '../core/safety/fume-exposure.ts';
import { LIMITS } from '../core/safety/limits.ts';
import { oxygenClearTime } from '../core/safety/oxygen-clear-time.ts';
import { oxygenByVolume, oxygenRelease } from '../core/safety/oxygen-release.ts';
import { oxygenRiseTime } from '../core/safety/oxygen-rise-time.ts';
import { roomOxygen, type RoomAir } from '../core/safety/room-oxygen.ts';
import { ventilation } from '../core/safety/ventilation.ts';
import type { Trace } from '../core/model/trace.ts';
import { CUBIC_FOOT, FOOT, SCF } from '../core/units/quantities.ts';
import {
  optional,
  required,
  tableFunction,
  valueFunction,
  type Declaration,
  type QuantityKind,
} from './declaration.ts';
import { recordGiven, recordText } from './given.ts';
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

/** The release as a volume at the room's temperature and pressure. */
function releasedVolume(flow: number, { a }: Basis, trace?: Trace): number {
  recordGiven(trace, ['oxygen let into the room', 'm_free', flow, 'flow']);
  const temperature = a.record('room temperature', 'T', trace);
  return oxygenByVolume(flow, temperature, a.record('air pressure', 'p_air', trace), trace);
}

function roomOf(
  given: { readonly volume: number; readonly release?: number; readonly freshAir: number },
  basis: Basis,
  trace?: Trace,
): RoomAir {
  recordGiven(trace, ['volume', 'V', given.volume, 'volume'], ['fresh air', 'Q', given.freshAir, 'airflow']);
  const mixing = basis.a.record('air mixing factor', 'K', trace);
  const outside = basis.a.record('fresh air oxygen', 'x_a', trace);
  const through = given.release === undefined ? 0 : releasedVolume(given.release, basis, trace);
  return { volume: given.volume, release: through, freshAir: given.freshAir, mixing, outside };
}

function startOf(percent: number | undefined, room: RoomAir, trace?: Trace): number {
  const share = shareOrNone(percent) ?? room.outside;
  const fresh = percent === undefined;
  trace?.add({
    name: 'oxygen at the start',
    symbol: 'x_0',
    value: share,
    quantity: 'percent',
    formula: fresh ? 'oxygen in the fresh air' : 'given',
    ...(fresh ? { expression: 'x_a', kind: 'calculated', source: 'arithmetic' } : { kind: 'input', source: '' }),
  });
  return share;
}

export const AIR_FUNCTIONS: readonly Declaration[] = [
  valueFunction({
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
    monotone: [
      { rises: ['flow'], risesWith: ['leak flow'], fallsWith: ['oxygen burnt share', 'bar oxygen burnt share'] },
    ],
    calculate: ({ flow, rod }, { a }, trace) => {
      const choice = rod ?? findRod('3/8');
      recordGiven(trace, ['flow', 'm', flow, 'flow']);
      if (rod) recordText(trace, 'rod', 'rod', rodName(rod.rod, rod.length, rod.coupled));
      const burnt = a.record(rodNames(choice.rod).burnt, 'eta', trace);
      return oxygenRelease(flow, burnt, a.record('leak flow', 'm_leak', trace), trace);
    },
  }),
  valueFunction({
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
    monotone: [
      { rises: ['release', 'start'], risesWith: ['fresh air oxygen'] },
      { rises: ['minutes'], falls: ['volume', 'freshAir'], without: ['start'] },
    ],
    calculate: ({ minutes, start: percent, ...given }, basis, trace) => {
      const room = roomOf(given, basis, trace);
      const from = startOf(percent, room, trace);
      recordGiven(trace, ['minutes', 't', minutes, 'time']);
      return roomOxygen(room, from, minutes, trace);
    },
  }),
  valueFunction({
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
    monotone: [
      { rises: ['volume', 'limit'], falls: ['release', 'start'] },
      { rises: ['freshAir'], without: ['start'] },
    ],
    calculate: ({ start: percent, limit: most, ...given }, basis, trace) => {
      const room = roomOf(given, basis, trace);
      return oxygenRiseTime(room, startOf(percent, room, trace), limitOf(most), trace);
    },
  }),
  valueFunction({
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
    monotone: [
      {
        rises: ['volume', 'start'],
        falls: ['freshAir', 'limit'],
        risesWith: ['air mixing factor', 'fresh air oxygen'],
      },
    ],
    calculate: ({ start: percent, limit: most, ...given }, basis, trace) => {
      const room = roomOf(given, basis, trace);
      return oxygenClearTime(room, startOf(percent, room, trace), limitOf(most), trace);
    },
  }),
  valueFunction({
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
    monotone: [{ rises: ['release'], falls: ['limit'], risesWith: ['air mixing factor', 'fresh air oxygen'] }],
    calculate: ({ release: flow, limit: most }, basis, trace) => {
      const mixing = basis.a.record('air mixing factor', 'K', trace);
      const outside = basis.a.record('fresh air oxygen', 'x_a', trace);
      return freshAirForOxygen(releasedVolume(flow, basis, trace), mixing, outside, limitOf(most), trace);
    },
  }),
  valueFunction({
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
    monotone: [{ rises: ['people'], falls: ['volume', 'ceiling'] }],
    calculate: ({ volume: V, ceiling, people, obstructed }, _basis, trace) => {
      recordGiven(
        trace,
        ['volume', 'V', V, 'volume'],
        ['ceiling', 'H', ceiling, 'distance'],
        ['people', 'n', people, 'count'],
      );
      const needs = ventilation(V, ceiling, people, obstructed === 'yes', trace);
      if (needs.mechanical)
        recordText(trace, 'why', 'why', needs.reasons.join('; '), '29 CFR 1910.252(c)(2)(i)', 'osha 1910.252');
      return needs.freshAir;
    },
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
    monotone: [
      {
        column: 'in the air',
        rises: ['minutes'],
        falls: ['volume', 'freshAir'],
        risesWith: ['fume factor', 'air mixing factor'],
      },
    ],
    calculate: ({ rod, minutes, volume: V, freshAir: Q }, basis, trace) => {
      const { a } = basis;
      const working = burnFume(rod, findMaterial(a.word('material')), basis);
      if (trace) for (const step of working.evaluation.worked()) trace.add(step);
      const at = working.evaluation;
      const fume = { fume: at.number('F'), ironOxide: at.number('G_Fe'), manganese: at.number('G_Mn') };
      recordGiven(
        trace,
        ['volume', 'V', V, 'volume'],
        ['fresh air', 'Q', Q, 'airflow'],
        ['minutes', 't', minutes, 'time'],
      );
      const mixing = a.record('air mixing factor', 'K', trace);
      return fumeExposure(fume, { volume: V, freshAir: Q, mixing }, minutes, trace).map(
        ({ what, value, limit: of, exceeds }) => [
          of.name,
          of.over,
          value,
          of.value,
          value / of.value,
          `${what} ${exceeds ? 'exceeds' : 'does not exceed'} it by these figures`,
          of.force === 'legal' ? 'legal limit' : 'recommended limit',
          of.source,
          of.clause,
        ],
      );
    },
  }),
];
