import type { Assumptions } from '../core/assumptions/assumptions.ts';
import { contactPressure } from '../core/fit/contact-pressure.ts';
import {
  bossSteelInForce,
  levelsInForce,
  pinSteelInForce,
  pressFitInForce,
  recordElasticity,
} from '../core/fit/fit-in-force.ts';
import { gripAfter } from '../core/fit/grip-after.ts';
import { gripForce } from '../core/fit/grip-force.ts';
import { guardPlates } from '../core/fit/guard-plates.ts';
import { pressedPressure } from '../core/fit/pressed-pressure.ts';
import { pushCheck, type Demand } from '../core/fit/push-check.ts';
import { pushRam, RAM_TONS } from '../core/fit/push-ram.ts';
import { pushSpacers } from '../core/fit/push-spacers.ts';
import { retainedInterference } from '../core/fit/retained-interference.ts';
import { LONGEST } from '../core/heat/cooling-time.ts';
import {
  bossInForce,
  coolingInForce,
  methodInForce,
  passesInForce,
  physicsInForce,
  recordHeating,
} from '../core/heat/heat-in-force.ts';
import { findMaterial } from '../core/burn/materials.ts';
import { STEEL_DENSITY } from '../core/burn/rods.ts';
import { PIN } from '../core/operations/pin.ts';
import { sized } from '../core/operations/sized.ts';
import { distinct } from '../core/model/distinct.ts';
import type { Trace } from '../core/model/trace.ts';
import { fromSi, plainUnit } from '../core/units/parse-quantity.ts';
import { POUND_FORCE, type QuantityName } from '../core/units/quantities.ts';
import { showQuantity } from '../core/units/show-quantity.ts';
import {
  optional,
  required,
  rowsFunction,
  tableFunction,
  valueFunction,
  type Declaration,
  type Output,
  type QuantityKind,
} from './declaration.ts';
import { recordGiven } from './given.ts';
import { recordShrink, shrinkInForce } from './heat-functions.ts';
import { LENGTH } from './limits.ts';

const SHORT_TON = 2000 * POUND_FORCE;
const FORCE: QuantityKind = { kind: 'quantity', quantity: 'force', above: 0, max: 20_000 * SHORT_TON };
const GRIP = ['lame', 'din 7190-1', 'common practice'];
/** Draws and seed of a grip after burning; the seed is any, fixed so that a cell stays as it is. */
const DRAWS = 1024;
const SEED = 1;

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

/** Contact pressure of a pin as given, with its working. */
function pressureOf(D: number, delta: number, Do: number, d: number, a: Assumptions, trace: Trace | undefined): number {
  recordGiven(
    trace,
    ['diameter', 'D', D, 'length'],
    ['interference', 'delta', delta, 'length'],
    ['boss', 'D_o', Do, 'length'],
    ['hole', 'd', d, 'length'],
  );
  recordElasticity(a, trace);
  a.record('pin yield strength', 'f_s', trace);
  a.record('boss yield strength', 'f_h', trace);
  const fit = pressFitInForce({ diameter: D, hole: d, boss: Do }, a);
  return pressedPressure(fit, delta, a, trace);
}

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
  valueFunction({
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
    monotone: [
      {
        rises: ['interference', 'boss'],
        falls: ['hole'],
        risesWith: ['pin modulus', 'boss modulus', 'pin yield strength', 'boss yield strength'],
      },
      { falls: ['diameter'], without: ['hole'] },
    ],
    about: (_, { a }) => [{ cooling: methodInForce(a) }],
    calculate: ({ diameter: D, interference: delta, boss: Do, hole: d = 0 }, { a }, trace) =>
      pressureOf(D, delta, Do, d, a, trace),
  }),
  valueFunction({
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
    monotone: [
      { rises: ['length', 'interference', 'boss'], falls: ['hole'], risesWith: ['joint friction', 'rust bond'] },
    ],
    about: (_, { a }) => [{ cooling: methodInForce(a) }],
    calculate: ({ diameter: D, length: L, interference: delta, boss: Do, hole: d = 0 }, { a }, trace) => {
      const pressure = pressureOf(D, delta, Do, d, a, trace);
      recordGiven(trace, ['length', 'L', L, 'length']);
      return gripForce(
        {
          diameter: D,
          length: L,
          pressure,
          friction: a.record('joint friction', 'mu', trace),
          bond: a.record('rust bond', 'tau', trace),
        },
        trace,
      );
    },
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
    monotone: [{ column: 'likely', rises: ['force tried'] }],
    about: (_, { a }) => [{ cooling: methodInForce(a) }],
    calculate: ({ diameter: D, length: L, boss: Do, hole: d, 'force tried': tried }, { a }, trace) => {
      const steps = distinct(trace);
      recordGiven(
        steps,
        ['diameter', 'D', D, 'length'],
        ['length', 'L', L, 'length'],
        ['boss', 'D_o', Do, 'length'],
        ['hole', 'd', d, 'length'],
        ['force tried', 'T', tried, 'force'],
      );
      const method = methodInForce(a);
      const pin = { diameter: D, hole: d, boss: Do, length: L };
      const fit = pressFitInForce(pin, a);
      // Refuses diameters that do not fit before the long way.
      contactPressure(fit, 0, a.system);
      recordHeating(pin, method, undefined, a, steps);
      for (const [name, symbol] of [
        ['interference over diameter', 'i'],
        ['joint friction', 'mu'],
        ['rust bond', 'tau'],
        ['bond left after burning', 'left'],
        ['pin yield strength', 'f_s'],
        ['boss yield strength', 'f_h'],
      ] as const)
        a.record(name, symbol, steps);
      recordElasticity(a, steps);
      steps?.add({
        name: 'interference',
        symbol: 'delta',
        value: a.value('interference over diameter') * D,
        quantity: 'length',
        formula: 'interference over diameter x diameter',
        expression: 'i * D',
        kind: 'calculated',
        source: 'arithmetic',
      });
      const interferences = levelsInForce('interference over diameter', a, D);
      const heat = levelsInForce('heat into the part', a);
      const pace = levelsInForce('burning pace', a);
      const retained = retainedInterference(
        {
          ...coolingInForce(pin, method, undefined, a),
          pin,
          passes: (h, p) => passesInForce(pin, a, h, p),
          heat,
          pace,
          longest: LONGEST,
          pinSteel: pinSteelInForce(a),
          bossSteel: bossSteelInForce(a),
          most: interferences.high,
        },
        physicsInForce(a),
      );
      const shrink = shrinkInForce(pin, method, a);
      recordShrink(shrink, steps);
      const grip = gripAfter(
        {
          fit,
          length: L,
          tried,
          retained,
          draws: DRAWS,
          seed: SEED,
          priors: {
            interference: interferences,
            friction: levelsInForce('joint friction', a),
            bond: levelsInForce('rust bond', a),
            bondLeft: levelsInForce('bond left after burning', a),
            heat,
            pace,
          },
        },
        a.system,
        steps,
      );
      const use = a.record('ram use', 'use', steps);
      const share = showQuantity(use, 'percent', a.system);
      const chances = RAM_TONS.map((tons) => ({
        tons,
        push: tons * SHORT_TON * use,
        chance: grip.chance(tons * SHORT_TON * use),
      }));
      const from = Math.max(0, chances.findIndex((c) => c.chance >= 0.05) - 1);
      const to = chances.findIndex((c) => c.chance >= 0.95);
      const rams = chances.slice(from, to < 0 ? undefined : to + 1);
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
          `heat and pace of burning drawn from their ranges, cooled with ${method}; at their values: ${whyOf(shrink.reason)}`,
        ],
        ...rams.map(({ tons, push, chance }): readonly Output[] => [
          `ram of ${showQuantity(tons * SHORT_TON, 'force', a.system)}`,
          null,
          push,
          null,
          chance,
          `likely moves it when pushed with ${share} of its rating`,
        ]),
      ];
    },
  }),
  valueFunction({
    name: 'BURN.PUSH.RAM',
    family: 'PUSH',
    summary: 'The ram to bring for a force: the smallest common rating that is worked only in part.',
    parameters: { force: required(FORCE, 'Force to start the pin', '30') },
    assume: true,
    result: { kind: 'value', quantity: 'force' },
    sources: ['common practice'],
    cautions: ['PUSH'],
    examples: ['=BURN.PUSH.RAM(30)', '=BURN.PUSH.RAM("270 kN")'],
    monotone: [{ rises: ['force'], fallsWith: ['ram use'] }],
    calculate: ({ force }, { a }, trace) => {
      recordGiven(trace, ['force', 'F', force, 'force']);
      return pushRam(force, a.record('ram use', 'use', trace), undefined, a.system, trace).rating;
    },
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
    monotone: [
      {
        column: 'strokes',
        rises: ['length'],
        falls: ['stroke'],
        risesWith: ['push clearance'],
        fallsWith: ['stroke use'],
      },
      { column: 'spacers', rises: ['length'], falls: ['stroke'] },
      { column: 'travel', rises: ['length'] },
    ],
    calculate: ({ length: L, stroke }, { a }, trace) => {
      recordGiven(trace, ['length', 'L', L, 'length'], ['stroke', 'stroke', stroke, 'length']);
      const s = pushSpacers(
        {
          length: L,
          stroke,
          strokeUse: a.record('stroke use', 'share', trace),
          clearance: a.record('push clearance', 'clear', trace),
        },
        a.system,
        trace,
      );
      return [
        null,
        s.pushes,
        s.spacers,
        s.spacerLength,
        s.travel,
        s.stack,
        s.spacers === 0 ? 'one stroke pushes it out' : 'one spacer goes in after every stroke but the last',
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
    monotone: [
      { column: 'used', rises: ['force', 'hole'], falls: ['spacerDiameter'], fallsWith: ['pin yield strength'] },
    ],
    calculate: ({ force, 'pin diameter': D, hole: d, length: L, spacerDiameter }, { a }, trace) => {
      recordGiven(
        trace,
        ['force', 'F', force, 'force'],
        ['pin diameter', 'D', D, 'length'],
        ['hole', 'd', d, 'length'],
        ['length', 'L', L, 'length'],
      );
      const spacer = spacerDiameter ?? D - a.record('spacer clearance', 'c_s', trace);
      trace?.add({
        name: 'spacer diameter',
        symbol: 'd_s',
        value: spacer,
        quantity: 'length',
        formula: spacerDiameter === undefined ? 'pin diameter - spacer clearance' : 'given',
        ...(spacerDiameter === undefined && { expression: 'D - c_s' }),
        kind: spacerDiameter === undefined ? 'calculated' : 'input',
        source: '',
      });
      const strength = {
        modulus: a.record('pin modulus', 'E', trace),
        pinYield: a.record('pin yield strength', 'f_s', trace),
        spacerYield: a.record('spacer yield strength', 'f_spacer', trace),
        bossYield: a.record('boss yield strength', 'f_h', trace),
        endFactor: a.record('column end factor', 'K', trace),
        safetyFactor: a.record('buckling safety factor', 'SF', trace),
        stroke: a.record('ram stroke', 'stroke', trace),
        oilPressure: a.record('ram oil pressure', 'p_oil', trace),
        oilModulus: a.record('oil bulk modulus', 'K_oil', trace),
        density: STEEL_DENSITY,
      };
      a.record('boss over pin', 'b', trace);
      const c = pushCheck(
        { force, diameter: D, hole: d, length: L, spacerDiameter: spacer, boss: bossInForce(D, a) },
        strength,
        a.system,
      );
      const energy = { total: c.energy.total, quantity: `${String(Number(c.energy.total.toPrecision(3)))} J` };
      if (trace) {
        const stress = (name: string, symbol: string, demand: Demand, expression: string): void =>
          trace.add({
            name,
            symbol,
            value: demand.stress,
            quantity: 'stress',
            formula: 'force / area',
            expression,
            kind: 'calculated',
            source: 'arithmetic',
          });
        stress('bearing of spacer on pin', 's_bear', c.bearing, 'F / ((PI / 4) * (d_s * d_s - d * d))');
        stress('stress in the pin', 's_pin', c.pin, 'F / ((PI / 4) * (D * D - d * d))');
        stress('stress in the spacers', 's_spacer', c.spacers, 'F / ((PI / 4) * d_s * d_s)');
      }
      const row = (name: string, demand: Demand, meaning: string): readonly Output[] => [
        name,
        demand.stress,
        demand.limit,
        demand.share,
        demand.share > 1 ? `TOO MUCH: ${meaning}` : meaning,
      ];
      const column = ({ slenderness, rule }: (typeof c)['pin'], what: string): string =>
        `${what}, slenderness ${String(Number(slenderness.toPrecision(3)))}, ${rule}, over the safety factor`;
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
          `${energy.quantity} in pin, stack and oil: the pin can fly at up to ${String(Number(c.speed.toPrecision(2)))} m/s; restrain it, nobody in line`,
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
    monotone: [{ column: 'value', rises: ['diameter'], risesWith: ['base plate margin'] }],
    calculate: ({ diameter: D, length: L }, basis, trace) => {
      const { a } = basis;
      const item = sized({
        operation: PIN,
        sizes: { diameter: D, length: L },
        material: findMaterial(a.word('material')),
        basis,
      });
      const planned = item.planned['hole'] ?? 0;
      const depth = L / a.value('ends worked');
      if (trace) for (const each of item.working('p').steps()) trace.add(each);
      a.record('bore ratio', 'ratio', trace);
      const step = (
        name: string,
        symbol: string,
        value: number,
        quantity: QuantityName,
        formula: string,
        expression?: string,
      ): void =>
        trace?.add({
          name,
          symbol,
          value,
          quantity,
          formula,
          ...(expression !== undefined && { expression }),
          kind: 'calculated',
          source: 'arithmetic',
        });
      step('planned bore', 'd', planned, 'length', 'bore ratio x diameter', 'ratio * D');
      step('depth pierced from an end', 'x', depth, 'length', 'length / ends worked', 'L / ends');
      const plates = guardPlates(
        { diameter: D, hole: planned, depth, rod: item.rod.rod.outsideDiameter, pressure: item.pressure },
        {
          baseMargin: a.record('base plate margin', 'margin', trace),
          baseThickness: a.record('base plate thickness', 't_base', trace),
          shieldRatio: a.record('shield plate over pin', 'k_shield', trace),
          shieldLeast: a.record('shield plate least side', 's_least', trace),
          shieldThickness: a.record('shield plate thickness', 't_shield', trace),
          guideClearance: a.record('guide hole clearance', 'c_guide', trace),
          thrust: a.record('rod thrust', 'F_rod', trace),
          weldStrength: a.record('weld metal strength', 'f_weld', trace),
          weldFactor: a.record('plate weld factor', 'k_weld', trace),
          drift: levelsInForce('pierce drift', a),
        },
        a.system,
      );
      a.record('pierce drift', 'drift', trace);
      step('base plate side', 'S_base', plates.base.side, 'length', 'diameter + 2 x margin', 'D + 2 * margin');
      step(
        'shield plate side',
        'S_shield',
        plates.shield.side,
        'length',
        'shield plate over pin x diameter, at least the least side',
        'max(k_shield * D, s_least)',
      );
      step(
        'force on the plates',
        'F',
        plates.force,
        'force',
        'push on the rod + tip pressure over the whole bore, shut in by slag',
        'F_rod + p * PI * d * d / 4',
      );
      step('drift at the far end', 'o', plates.offset.likely, 'length', 'drift x depth', 'drift * x');
      step(
        'wall left at the far end',
        'wall',
        plates.wall.likely,
        'length',
        '(diameter - bore) / 2 - drift at the far end',
        '(D - d) / 2 - o',
      );
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
        line('guide hole', plates.base.guideHole, `for ${item.name}`),
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

const whyOf = (reason: string): string =>
  reason === 'stayed elastic' ? 'nothing yields, so it loosens only while colder than its boss' : reason;
