import { batteryStrikesInForce } from '../core/safety/battery-strikes.ts';
import { cylinderSeparation, type Barrier } from '../core/safety/cylinder-separation.ts';
import { eyeShadeWorking } from '../core/safety/eye-shade.ts';
import { leadDropInForce } from '../core/safety/lead-drop.ts';
import { LIMITS, compareWithLimit } from '../core/safety/limits.ts';
import { manifoldLimits } from '../core/safety/manifold-limits.ts';
import { FOOT, SCF } from '../core/units/quantities.ts';
import {
  optional,
  required,
  rowsFunction,
  tableFunction,
  workedFunction,
  type Declaration,
  type QuantityKind,
} from './declaration.ts';
import { figureOf } from './condition-cells.ts';
import { LENGTH } from './limits.ts';

const AWAY: QuantityKind = { kind: 'quantity', quantity: 'distance', min: 0, max: 10_000 * FOOT };
const RATING: QuantityKind = { kind: 'quantity', quantity: 'time', min: 0, max: 24 * 3600 };
const CYLINDERS: QuantityKind = { kind: 'quantity', quantity: 'count', above: 0, max: 100_000, whole: true };
const CONTENT: QuantityKind = { kind: 'quantity', quantity: 'oxygen', above: 0, max: 1e6 * SCF };
const RESERVE: QuantityKind = { kind: 'quantity', quantity: 'oxygen', min: 0, max: 1e8 * SCF };
const AMPS: QuantityKind = { kind: 'quantity', quantity: 'current', above: 0, max: 5000 };
const CHARGE: QuantityKind = { kind: 'quantity', quantity: 'charge', above: 0, max: 10_000 * 3600 };
const STRIKE: QuantityKind = { kind: 'quantity', quantity: 'seconds', above: 0, max: 120 };
const LEAD: QuantityKind = { kind: 'quantity', quantity: 'distance', above: 0, max: 10_000 * FOOT };

/** A barrier, where it has a height. */
const barrierOf = (height: number | undefined, rating = 0): Barrier | undefined =>
  height === undefined ? undefined : { height, rating };

/** Eyes, stored and connected cylinders, and what lights the rod. */
export const EQUIPMENT_FUNCTIONS: readonly Declaration[] = [
  workedFunction({
    name: 'BURN.EYE.SHADE',
    family: 'EYE',
    summary:
      'Least filter shade for cutting with oxygen, by the thickness cut: 3 under 1 in, 4 to 6 in, 5 over. An exothermic rod burns brighter: begin darker.',
    parameters: { thickness: required(LENGTH, 'Thickness cut or pierced', '3') },
    assume: true,
    result: { kind: 'value', quantity: 'count' },
    sources: ['osha 1910.133'],
    cautions: ['EYE'],
    examples: ['=BURN.EYE.SHADE(3)', '=BURN.EYE.SHADE("20 mm")'],
    working: ({ thickness }) => eyeShadeWorking(thickness),
  }),
  rowsFunction({
    name: 'BURN.CYLINDER.SEPARATION',
    family: 'CYLINDER',
    summary:
      'Distance of stored oxygen cylinders from fuel gas or combustibles beside the 20 ft, or the barrier, of 29 CFR 1910.253(b)(4)(iii), and what is missing.',
    parameters: {
      separation: required(AWAY, 'Distance of the oxygen from fuel gas or combustibles, ft', '12'),
      barrierHeight: optional(
        AWAY,
        'Height of a noncombustible barrier between them, ft; no barrier when left out',
        '5',
      ),
      barrierMinutes: optional(RATING, 'Fire resistance of the barrier, min; 0 when left out', '30'),
    },
    assume: true,
    result: {
      kind: 'rows',
      columns: [
        { heading: 'item' },
        { heading: 'distance', quantity: 'distance' },
        { heading: 'least', quantity: 'distance' },
        { heading: 'missing', quantity: 'distance' },
        { heading: 'barrier counts' },
        { heading: 'stands' },
      ],
    },
    sources: ['osha 1910.253'],
    cautions: ['CYLINDER'],
    examples: ['=BURN.CYLINDER.SEPARATION(12)', '=BURN.CYLINDER.SEPARATION({12;8},{0;6},{0;30})'],
    calculate: ({ separation, barrierHeight, barrierMinutes }, { a }) => {
      const barrier = barrierOf(barrierHeight, barrierMinutes);
      const { needed, missing, barrierCounts, short } = cylinderSeparation(separation, barrier);
      const { words } = compareWithLimit(separation, LIMITS.cylinderDistance, a.system);
      const instead =
        missing > 0 && barrierCounts
          ? '; the barrier takes the place of the distance by the same clause'
          : short && barrier
            ? '; the barrier is too low or too weak to take its place'
            : '';
      return [null, separation, needed, missing, barrier ? (barrierCounts ? 'yes' : 'no') : '', `${words}${instead}`];
    },
    working: ({ separation, barrierHeight, barrierMinutes }) =>
      cylinderSeparation(separation, barrierOf(barrierHeight, barrierMinutes)).working,
  }),
  tableFunction({
    name: 'BURN.CYLINDER.LIMITS',
    family: 'CYLINDER',
    summary:
      'Oxygen on one manifold and on the site beside the limits of 29 CFR 1910.253(c)(2) and 1910.104(b)(1), and what is due where one is passed.',
    parameters: {
      cylinders: required(CYLINDERS, 'Cylinders connected to one manifold', '12'),
      content: optional(
        CONTENT,
        'Oxygen in one full cylinder, scf; from the assumptions cylinder volume and cylinder pressure when left out',
        '244',
      ),
      reserve: optional(RESERVE, 'Oxygen on the site that is not connected, scf; 0 when left out', '0'),
    },
    assume: true,
    result: {
      kind: 'table',
      columns: [
        { heading: 'figure' },
        { heading: 'oxygen', quantity: 'oxygen' },
        { heading: 'limit', quantity: 'oxygen' },
        { heading: 'stands' },
        { heading: 'due' },
        { heading: 'source' },
        { heading: 'clause' },
      ],
    },
    sources: ['osha 1910.253', 'osha 1910.104'],
    cautions: ['CYLINDER.LIMITS'],
    examples: ['=BURN.CYLINDER.LIMITS(12)', '=BURN.CYLINDER.LIMITS(26,244,8000)'],
    calculate: ({ cylinders, content, reserve }, { a }) => {
      const check = manifoldLimits(cylinders, content, reserve ?? 0, a);
      return (
        [
          ['connected to the manifold', check.connected, LIMITS.manifoldOxygen],
          ['connected to the manifold', check.connected, LIMITS.bulkConnected],
          ['connected and in reserve', check.site, LIMITS.bulkWithReserve],
        ] as const
      ).map(([what, amount, of]) => {
        const passed = check.over.find((o) => o.limit === of);
        return [
          what,
          amount,
          of.value,
          passed ? 'exceeds' : 'does not exceed',
          passed?.due ?? '',
          of.source,
          of.clause,
        ];
      });
    },
    working: ({ cylinders, content, reserve }, { a }) => manifoldLimits(cylinders, content, reserve ?? 0, a).working,
  }),
  workedFunction({
    name: 'BURN.LEAD.DROP',
    family: 'LEAD',
    summary: 'Volts lost in copper leads. Joints, clamps and the battery lose more.',
    parameters: {
      amps: required(AMPS, 'Current, A', '150'),
      length: required(LEAD, 'All the lead the current runs through, out and back, ft', '100'),
      gauge: required({ kind: 'text' }, 'American wire gauge, such as 2/0 or 4', '"2/0"'),
    },
    assume: true,
    result: { kind: 'value', quantity: 'voltage' },
    sources: ['astm b258', 'nbs handbook 100'],
    cautions: ['LEAD'],
    examples: ['=BURN.LEAD.DROP(150,100,"2/0")'],
    about: ({ amps }) => figureOf('welding machine', amps),
    working: ({ amps, length, gauge }, { a }) => leadDropInForce(amps, length, gauge, a),
  }),
  workedFunction({
    name: 'BURN.BATTERY.STRIKES',
    family: 'BATTERY',
    summary: 'Rods that a lead-acid battery lights before it is to be recharged. Cold and age lower it.',
    parameters: {
      ampHours: required(CHARGE, 'Charge of the battery as rated over 20 hours, Ah', '100'),
      amps: optional(AMPS, 'Current while a rod lights, A; the assumption strike current when left out', '100'),
      seconds: optional(STRIKE, 'Time of one strike, s; the assumption strike time when left out', '2'),
    },
    assume: true,
    result: { kind: 'value', quantity: 'count' },
    sources: ['peukert 1897', 'common practice'],
    cautions: ['BATTERY'],
    examples: ['=BURN.BATTERY.STRIKES(100)', '=BURN.BATTERY.STRIKES(70,150,3)'],
    about: () => [{ conditions: [{ name: 'battery' }] }],
    working: ({ ampHours, amps, seconds }, { a }) => batteryStrikesInForce(ampHours, amps, seconds, a),
  }),
];
