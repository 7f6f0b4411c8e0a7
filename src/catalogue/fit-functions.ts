import { pressedForce, pressedPressure } from '../core/fit/grip-force.ts';
import { GUARD_RESULTS, guardSteps, platesOf, type GuardPlates } from '../core/fit/guard-plates.ts';
import { pushCheck, type ColumnDemand, type Demand } from '../core/fit/push-check.ts';
import { pushRam, RAM_TONS, SHORT_TON } from '../core/fit/push-ram.ts';
import { pushSpacers } from '../core/fit/push-spacers.ts';
import type { Basis } from '../core/basis.ts';
import { methodInForce } from '../core/heat/heat-in-force.ts';
import { Working } from '../core/model/working.ts';
import { burntPinGrip, type BurntPinGrip } from '../core/operations/burnt-pin.ts';
import { forCases, shown } from '../core/messages.ts';
import { PIN } from '../core/operations/pin.ts';
import { sized } from '../core/operations/sized.ts';
import { fromSi, plainUnit } from '../core/units/parse-quantity.ts';
import type { QuantityName } from '../core/units/quantities.ts';
import { showQuantity } from '../core/units/show-quantity.ts';
import {
  optional,
  required,
  rowsFunction,
  tableFunction,
  workedFunction,
  type Declaration,
  type Output,
  type QuantityKind,
} from './declaration.ts';
import { LENGTH } from './limits.ts';

const FORCE: QuantityKind = { kind: 'quantity', quantity: 'force', above: 0, max: 20_000 * SHORT_TON };
const GRIP = ['lame', 'din 7190-1', 'common practice'];

const diameter = required(LENGTH, 'Pin diameter', '4');
const length = required(LENGTH, 'Length of pin in the boss', '10');
const boss = required(LENGTH, 'Outside diameter of the boss', '10');
const hole = required(LENGTH, 'Bore burnt out of the pin', '2.5');
const interference = required(
  { kind: 'quantity', quantity: 'length', min: 0, max: 0.05 },
  'Interference, on the diameter',
  '0.0012',
);
const bore = optional({ ...LENGTH, above: undefined, min: 0 }, 'Bore of the pin; solid when left out', '2.5');

/** Values stand in the unit beside them, as in the working of a cell. */
const DIMENSION_COLUMNS = [
  { heading: 'what' },
  { heading: 'value' },
  { heading: 'unit' },
  { heading: 'meaning' },
] as const;
const CHECK_COLUMNS = [
  { heading: 'check' },
  { heading: 'stress', quantity: 'stress' },
  { heading: 'allowed', quantity: 'stress' },
  { heading: 'used', quantity: 'percent' },
  { heading: 'meaning' },
] as const;
const AFTER_COLUMNS = [
  { heading: 'what' },
  { heading: 'low', quantity: 'force' },
  { heading: 'likely', quantity: 'force' },
  { heading: 'high', quantity: 'force' },
  { heading: 'chance', quantity: 'percent' },
  { heading: 'meaning' },
] as const;

export const FIT_FUNCTIONS: readonly Declaration[] = [
  workedFunction({
    name: 'BURN.GRIP.PRESSURE',
    family: 'GRIP',
    summary:
      'Contact pressure of a pin pressed or rusted into a boss, solid or bored, by Lame; where pin or boss yields, with yielding.',
    parameters: { diameter, interference, boss, hole: bore },
    assume: true,
    result: { kind: 'value', quantity: 'stress' },
    sources: [...GRIP, 'hill', 'simo hughes', 'timoshenko goodier'],
    cautions: ['GRIP'],
    examples: ['=BURN.GRIP.PRESSURE(4,0.001,6)', '=BURN.GRIP.PRESSURE(4,0.001,6,2.5)'],
    about: (_, { a }) => [{ cooling: methodInForce(a) }],
    working: ({ hole: d = 0, ...pin }, { a }) => pressedPressure({ ...pin, hole: d }, a),
  }),
  workedFunction({
    name: 'BURN.GRIP.FORCE',
    family: 'GRIP',
    summary:
      'Force to start a pin held by contact pressure with friction and by rust, before it is heated, solid or bored.',
    parameters: { diameter, length, interference, boss, hole: bore },
    assume: true,
    result: { kind: 'value', quantity: 'force' },
    sources: GRIP,
    cautions: ['GRIP'],
    examples: ['=BURN.GRIP.FORCE(4,10,0.0012,10)', '=BURN.GRIP.FORCE(4,10,0.0012,10,2.5)'],
    about: (_, { a }) => [{ cooling: methodInForce(a) }],
    working: ({ hole: d = 0, ...pin }, { a }) => pressedForce({ ...pin, hole: d }, a),
  }),
  tableFunction({
    name: 'BURN.GRIP.AFTER',
    family: 'GRIP',
    summary:
      'Force to start a pin after its core is burnt out and it has cooled, learnt from a push that did not move it: low, likely, high, and the chance that each common ram suffices.',
    parameters: {
      diameter,
      length,
      boss,
      hole,
      'force tried': required(
        { kind: 'quantity', quantity: 'force', min: 0, max: FORCE.max },
        'Push that did not move the pin before burning; 0 where none was tried',
        '60',
      ),
    },
    assume: true,
    result: { kind: 'table', columns: AFTER_COLUMNS },
    sources: [...GRIP, 'importance sampling', 'en 1993-1-2', 'hill', 'simo hughes', 'churchill chu'],
    cautions: ['GRIP'],
    examples: ['=BURN.GRIP.AFTER(4,10,10,2.5,60)'],
    about: (_, { a }) => [{ cooling: methodInForce(a) }],
    working: ({ 'force tried': tried, ...pin }, basis) => burntPinGrip(pin, tried, basis).working(),
    calculate: ({ 'force tried': tried, ...pin }, basis) => {
      const { a } = basis;
      const { grip, method, cases } = burntPinGrip(pin, tried, basis);
      const use = a.value('ram use');
      const share = showQuantity(use, 'percent', a.system);
      const chances = [];
      for (const tons of RAM_TONS) {
        const push = tons * SHORT_TON * use;
        const chance = grip.chance(push);
        chances.push({ tons, push, ...chance });
        if (chance.value >= 0.95) break;
      }
      const rams = chances.slice(Math.max(0, chances.findIndex((c) => c.value >= 0.05) - 1));
      return [
        [
          'force before',
          grip.before.low,
          grip.before.likely,
          grip.before.high,
          null,
          `${tried > 0 ? `given that ${showQuantity(tried, 'force', a.system)} did not move it` : 'nothing tried'}; one case in ten is less than low, one more than high`,
        ],
        [
          'force after',
          grip.after.low,
          grip.after.likely,
          grip.after.high,
          null,
          `heat, pace and cooling drawn from their ranges, cooled with ${method}; ${yieldingIn(cases)}`,
        ],
        [
          'nothing loosens',
          null,
          null,
          null,
          grip.nothing.value,
          `chance that burning and cooling take nothing off the interference; then the lost core and the broken rust bond alone help the push${forCases(grip.nothing.within)}`,
        ],
        ...rams.map(({ tons, push, value, within }): readonly Output[] => [
          `ram of ${showQuantity(tons * SHORT_TON, 'force', a.system)}`,
          null,
          push,
          null,
          value,
          `likely moves it when pushed with ${share} of its rating${forCases(within)}`,
        ]),
      ];
    },
  }),
  workedFunction({
    name: 'BURN.PUSH.RAM',
    family: 'PUSH',
    summary: 'The ram to bring for a force: the smallest common rating that is worked only in part.',
    parameters: { force: required(FORCE, 'Force to start the pin', '30') },
    assume: true,
    result: { kind: 'value', quantity: 'force' },
    sources: ['common practice'],
    cautions: ['PUSH'],
    examples: ['=BURN.PUSH.RAM(30)', '=BURN.PUSH.RAM("270 kN")'],
    working: ({ force }, { a }) => pushRam(force, a),
  }),
  rowsFunction({
    name: 'BURN.PUSH.SPACERS',
    family: 'PUSH',
    summary:
      'Strokes and spacers that push a pin through its boss: how many spacers to make, how long, and the stack at the last stroke.',
    parameters: { length, stroke: required(LENGTH, 'Stroke of the ram', '6') },
    assume: true,
    result: {
      kind: 'rows',
      columns: [
        { heading: 'item' },
        { heading: 'strokes', quantity: 'count' },
        { heading: 'spacers', quantity: 'count' },
        { heading: 'spacer length', quantity: 'length' },
        { heading: 'travel', quantity: 'length' },
        { heading: 'last stack', quantity: 'length' },
        { heading: 'note' },
      ],
    },
    sources: ['common practice'],
    cautions: ['PUSH'],
    examples: ['=BURN.PUSH.SPACERS(10,6)'],
    working: ({ length: L, stroke }, { a }) => pushSpacers(L, stroke, a),
    calculate: ({ length: L, stroke }, { a }) => {
      const at = pushSpacers(L, stroke, a).evaluation;
      const spacers = at.number('n_s');
      return [
        null,
        at.number('n'),
        spacers,
        at.number('s'),
        at.number('x'),
        at.number('stack'),
        spacers === 0 ? 'one stroke pushes it out' : 'one spacer goes in after every stroke but the last',
      ];
    },
  }),
  tableFunction({
    name: 'BURN.PUSH.CHECK',
    family: 'PUSH',
    summary:
      'What a push does to pin, spacers and boss: bearing, buckling, reaction, each against what is allowed, and the energy let go when the pin starts. It is no proof that a push is safe.',
    parameters: {
      force: required(FORCE, 'Push', '30'),
      'pin diameter': diameter,
      hole,
      length,
      spacerDiameter: optional(
        LENGTH,
        "Diameter of the spacers; the pin's less the assumption spacer clearance when left out",
        '3.5',
      ),
    },
    assume: true,
    result: { kind: 'table', columns: CHECK_COLUMNS },
    sources: ['column formulas', 'common practice'],
    cautions: ['PUSH'],
    examples: ['=BURN.PUSH.CHECK(30,4,2.5,10)', '=BURN.PUSH.CHECK(30,4,2.5,10,3.5)'],
    working: ({ 'pin diameter': D, ...push }, { a }) => pushCheck({ ...push, diameter: D }, a).working,
    calculate: ({ 'pin diameter': D, ...push }, { a }) => {
      const c = pushCheck({ ...push, diameter: D }, a);
      const energy = `${shown(c.energy.total, 3)} J`;
      const row = (name: string, demand: Demand, meaning: string): readonly Output[] => [
        name,
        demand.stress,
        demand.limit,
        demand.share,
        demand.share > 1 ? `TOO MUCH: ${meaning}` : meaning,
      ];
      const column = ({ slenderness, rule }: ColumnDemand, what: string): string =>
        `${what}, slenderness ${shown(slenderness, 3)}, ${rule}, over the safety factor`;
      return [
        row('bearing', c.bearing, 'spacer on the end of the bored pin, against the weaker yield strength'),
        row('pin', c.pin, column(c.pin, 'bored pin as a column')),
        row('spacers', c.spacers, column(c.spacers, 'stack as a column as long as the pin')),
        row('reaction', c.reaction, 'on the face of the boss round the pin, under a frame that bears on all of it'),
        [
          'energy let go',
          null,
          null,
          null,
          `${energy} in pin, stack and oil: the pin can fly at up to ${shown(c.speed, 2)} m/s; restrain it, nobody in line`,
        ],
      ];
    },
  }),
  tableFunction({
    name: 'BURN.GUARD.PLATES',
    family: 'GUARD',
    summary:
      "Base plate that guides the rod on the pin's axis, shield plate, the weld that holds them, and how far a deep pierce may drift: wall left at the far end, and whether it may reach the boss.",
    parameters: { diameter, length: required(LENGTH, 'Length of pin to burn through', '10') },
    assume: true,
    result: { kind: 'table', columns: DIMENSION_COLUMNS },
    sources: ['common practice', 'aws d1.1'],
    cautions: ['GUARD', 'PIN'],
    examples: ['=BURN.GUARD.PLATES(4,10)'],
    working: (sizes, basis) => guardOf(sizes, basis).working,
    calculate: (sizes, basis) => {
      const { a } = basis;
      const { plates, rod } = guardOf(sizes, basis);
      const line = (
        what: string,
        value: number,
        meaning: string,
        quantity: QuantityName = 'length',
      ): readonly Output[] => [what, fromSi(value, quantity, a.system), plainUnit(quantity, a.system), meaning];
      const reach = {
        'stays in the pin': 'the hole stays in the pin',
        'may reach the boss':
          'WARNING: with much drift the hole reaches the boss: burn from both ends, or a smaller bore',
        'reaches the boss': 'WARNING: the hole reaches the boss: burn from both ends, or a smaller bore',
      }[plates.drift];
      return [
        line('base plate side', plates.base.side, "square, welded on the pin's axis"),
        line('base plate thickness', plates.base.thickness, 'guides the rod until the pierce is deep'),
        line('guide hole', plates.base.guideHole, `for ${rod}`),
        line('shield plate side', plates.shield.side, 'square, between the operator and the mouth of the pierce'),
        line('shield plate thickness', plates.shield.thickness, 'at least 1/4 in'),
        line(
          'force on the plates',
          plates.force,
          'push on the rod, and oxygen shut in by slag over the whole bore',
          'force',
        ),
        line('weld leg', plates.weld.leg, 'smallest fillet for the thickness'),
        line('weld length', plates.weld.length, 'of each plate, shared by four sides; by a qualified welder'),
        line('drift low', plates.offset.low, 'off the axis at the far end'),
        line('drift likely', plates.offset.likely, 'off the axis at the far end'),
        line('drift high', plates.offset.high, 'off the axis at the far end'),
        line('wall low', plates.wall.low, 'left on the thin side at the far end, most drift'),
        line('wall likely', plates.wall.likely, 'left on the thin side at the far end'),
        line('wall high', plates.wall.high, 'left on the thin side at the far end, least drift'),
        ['drift', plates.drift, '', reach],
      ];
    },
  }),
];

const yieldingIn = ({ all, yielding }: BurntPinGrip['cases']): string =>
  `a tight pin or its boss yields in ${yielding} of ${all} cases${yielding < all ? ', else it loosens only while colder than its boss' : ''}`;

/** Plates for a pin that is planned and worked with the rod picked for it. */
function guardOf(
  sizes: { readonly diameter: number; readonly length: number },
  basis: Basis,
): { readonly plates: GuardPlates; readonly rod: string; readonly working: Working } {
  const item = sized({ operation: PIN, sizes, basis });
  const { evaluation } = item.allSteps({ steps: guardSteps, results: GUARD_RESULTS });
  const [first, ...others] = GUARD_RESULTS;
  return { plates: platesOf(evaluation, basis.a), rod: item.name, working: new Working(evaluation, first, others) };
}
