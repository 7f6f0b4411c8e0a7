import { batteryStrikes } from '../core/safety/battery-strikes.ts';
import { cylinderSeparation } from '../core/safety/cylinder-separation.ts';
import { eyeShade } from '../core/safety/eye-shade.ts';
import { leadDrop } from '../core/safety/lead-drop.ts';
import { LIMITS, compareWithLimit } from '../core/safety/limits.ts';
import { manifoldLimits } from '../core/safety/manifold-limits.ts';
import { cylinderContent } from '../core/oxygen/cylinder-content.ts';
import { FILL_TEMPERATURE } from '../core/oxygen/gauge-reading.ts';
import { FOOT, SCF } from '../core/units/quantities.ts';
import {
  optional,
  required,
  rowsFunction,
  tableFunction,
  valueFunction,
  type Declaration,
  type QuantityKind,
} from './declaration.ts';
import { figureOf } from './condition-cells.ts';
import { recordGiven } from './given.ts';
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

/** Eyes, stored and connected cylinders, and what lights the rod. */
export const EQUIPMENT_FUNCTIONS: readonly Declaration[] = [
  valueFunction({
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
    monotone: [{ rises: ['thickness'] }],
    calculate: ({ thickness }, _basis, trace) => {
      recordGiven(trace, ['thickness', 's', thickness, 'length']);
      return eyeShade(thickness, trace).shade;
    },
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
    monotone: [
      { column: 'missing', falls: ['separation'] },
      { column: 'distance', rises: ['separation'] },
    ],
    calculate: ({ separation, barrierHeight, barrierMinutes }, { a }, trace) => {
      const barrier = barrierHeight === undefined ? undefined : { height: barrierHeight, rating: barrierMinutes ?? 0 };
      const { needed, missing, barrierCounts, short } = cylinderSeparation(separation, barrier);
      const { clause, source } = LIMITS.cylinderDistance;
      recordGiven(trace, ['separation', 's', separation, 'distance']);
      trace?.add({
        name: 'least distance',
        symbol: 's_min',
        value: needed,
        quantity: 'distance',
        formula: clause,
        kind: 'published',
        source,
      });
      trace?.add({
        name: 'distance missing',
        symbol: 's_short',
        value: missing,
        quantity: 'distance',
        formula: 'least distance - separation, where that is more than 0',
        expression: 'max(0, s_min - s)',
        kind: 'calculated',
        source: 'arithmetic',
      });
      const { words } = compareWithLimit(separation, LIMITS.cylinderDistance, a.system);
      const instead =
        missing > 0 && barrierCounts
          ? '; the barrier takes the place of the distance by the same clause'
          : short && barrier
            ? '; the barrier is too low or too weak to take its place'
            : '';
      return [null, separation, needed, missing, barrier ? (barrierCounts ? 'yes' : 'no') : '', `${words}${instead}`];
    },
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
    monotone: [
      { column: 'oxygen', rises: ['cylinders', 'content'], risesWith: ['cylinder volume', 'cylinder pressure'] },
    ],
    calculate: ({ cylinders, content, reserve }, { a }, trace) => {
      const full =
        content ??
        cylinderContent(
          a.value('cylinder volume'),
          a.value('cylinder pressure') + a.value('air pressure'),
          FILL_TEMPERATURE,
        );
      const check = manifoldLimits(cylinders, full, reserve ?? 0);
      recordGiven(
        trace,
        ['cylinders on the manifold', 'n', cylinders, 'count'],
        ['oxygen not connected', 'm_more', reserve ?? 0, 'oxygen'],
      );
      if (trace && content === undefined) {
        a.record('cylinder volume', 'V', trace);
        a.record('cylinder pressure', 'p', trace);
        a.record('air pressure', 'p_air', trace);
        const density = full / a.value('cylinder volume');
        trace.add({
          name: 'density of the oxygen in it at 70 F',
          symbol: 'rho',
          value: density,
          quantity: 'density',
          formula: 'of oxygen at this pressure and 70 F',
          expression: 'solve(p, p_air)',
          kind: 'calculated',
          source: 'oxygen equation of state',
        });
        trace.add({
          name: 'oxygen in one cylinder',
          symbol: 'm_1',
          value: full,
          quantity: 'oxygen',
          formula: 'water volume x density of oxygen at the fill pressure and 70 F',
          expression: 'V * rho',
          kind: 'calculated',
          source: 'arithmetic',
        });
      } else recordGiven(trace, ['oxygen in one cylinder', 'm_1', full, 'oxygen']);
      trace?.add({
        name: 'oxygen connected',
        symbol: 'm',
        value: check.connected,
        quantity: 'oxygen',
        formula: 'cylinders x oxygen in one cylinder',
        expression: 'n * m_1',
        kind: 'calculated',
        source: 'arithmetic',
      });
      trace?.add({
        name: 'oxygen on the site',
        symbol: 'm_site',
        value: check.site,
        quantity: 'oxygen',
        formula: 'oxygen connected + oxygen not connected',
        expression: 'm + m_more',
        kind: 'calculated',
        source: 'arithmetic',
      });
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
  }),
  valueFunction({
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
    monotone: [{ rises: ['amps', 'length'], risesWith: ['lead temperature', 'lead lay'] }],
    about: ({ amps }) => figureOf('welding machine', amps),
    calculate: ({ amps, length, gauge }, { a }, trace) => {
      recordGiven(trace, ['amps', 'I', amps, 'current'], ['length', 'L', length, 'distance']);
      const temperature = a.record('lead temperature', 'T', trace);
      return leadDrop(amps, length, gauge, temperature, a.record('lead lay', 's', trace), trace);
    },
  }),
  valueFunction({
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
    monotone: [{ rises: ['ampHours'], falls: ['amps', 'seconds'], risesWith: ['battery usable share'] }],
    about: () => [{ conditions: [{ name: 'battery' }] }],
    calculate: ({ ampHours, amps, seconds }, { a }, trace) => {
      recordGiven(trace, ['amp hours', 'C', ampHours, 'charge']);
      if (amps !== undefined) recordGiven(trace, ['amps', 'I', amps, 'current']);
      if (seconds !== undefined) recordGiven(trace, ['seconds', 't', seconds, 'seconds']);
      const current = amps ?? a.record('strike current', 'I', trace);
      const time = seconds ?? a.record('strike time', 't', trace);
      const usable = a.record('battery usable share', 'share', trace);
      return batteryStrikes(ampHours, current, time, usable, a.record('peukert exponent', 'k', trace), trace).strikes;
    },
  }),
];
