import type { Assumptions } from '../core/assumptions/assumptions.ts';
import { pinSteelInForce, bossSteelInForce } from '../core/fit/fit-in-force.ts';
import { shrinkPin, type Shrink, type ShrinkReason } from '../core/fit/shrink-pin.ts';
import { checkPin } from '../core/heat/check-pin.ts';
import type { CoolingMethod, PinInBoss } from '../core/heat/cool-pin.ts';
import { coolingCurve } from '../core/heat/cooling-curve.ts';
import { LONGEST, coolingTime } from '../core/heat/cooling-time.ts';
import {
  bossInForce,
  coolingInForce,
  methodInForce,
  physicsInForce,
  recordBoss,
  recordHeating,
} from '../core/heat/heat-in-force.ts';
import type { Trace } from '../core/model/trace.ts';
import { optional, required, tableFunction, valueFunction, type Declaration } from './declaration.ts';
import { recordGiven } from './given.ts';
import { LENGTH } from './limits.ts';

const SOURCES = [
  'en 1993-1-2',
  'churchill chu',
  'lemmon jacobsen air',
  'incropera',
  'kreith',
  'cengel',
  'iapws transport',
  'contact resistance',
  'tr-bdf2',
  'common practice',
];
const METHODS = ['air', 'water'] as const;

const diameter = required(LENGTH, 'Pin diameter', '4');
const hole = required(LENGTH, 'Bore burnt out of the pin', '2.5');
const boss = required(LENGTH, 'Outside diameter of the boss', '10');
const length = required(LENGTH, 'Length of pin burnt through', '10');
const method = optional(
  { kind: 'choice', choices: METHODS },
  'air (still) or water (through the bore and over part of the boss); the assumption cooling method, air, when left out',
  '"water"',
);
const target = optional(
  { kind: 'quantity', quantity: 'temperature', min: 233, max: 1088 },
  'Hottest part of the pin at which the push starts; the assumption cooling target in air or with water when left out',
  '250',
);

const methodOr = (word: string | undefined, a: Assumptions): CoolingMethod =>
  word === 'air' || word === 'water' ? word : methodInForce(a);

/** Why the pin loosens, or does not. */
const REASONS: Readonly<Record<ShrinkReason, string>> = {
  'pin yielded': 'the hot ring pressed against the cold boss, yielded, and shrank smaller than it was',
  'boss yielded': 'the boss yielded round the hot ring and stays wider',
  'pin and boss yielded': 'the hot ring yielded and shrank, and the boss stays wider',
  'stayed elastic':
    'neither pin nor boss yielded: for good nothing loosens, only while the pin is colder than the boss; a larger hole or more heat would',
  'still too hot': 'the pin does not reach the target',
};

/** A pin with the assumed interference, from before burning until it is pushed: at `target` [K], or at the one assumed. */
export function shrinkInForce(pin: PinInBoss, way: CoolingMethod, a: Assumptions, target?: number): Shrink {
  checkPin(pin, a.system);
  return shrinkPin(
    {
      pin,
      ...coolingInForce(pin, way, target, a),
      longest: LONGEST,
      interference: a.value('interference over diameter') * pin.diameter,
      pinSteel: pinSteelInForce(a),
      bossSteel: bossSteelInForce(a),
    },
    physicsInForce(a),
  );
}

/** What the contact of pin and boss is followed from. */
const SHRINK =
  'solve(D, d, L, D_o, delta, E_s, E_h, nu_s, f_s, f_h, T_air, epsilon, h_joint, zone, T_melt, h_part, pace, rho_pin, dT_even, T_push)';

/** Records how a pin loosened: steps `p_bored`, `p_hot`, `p_push`, `delta_push`, `delta_cold` and `why`. */
export function recordShrink(
  { pressureBored, pressureMost, pushed, cold, reason }: Shrink,
  trace: Trace | undefined,
): void {
  if (!trace) return;
  const step = (name: string, symbol: string, value: number, quantity: 'stress' | 'length', formula: string): void =>
    trace.add({ name, symbol, value, quantity, formula, expression: SHRINK, kind: 'calculated', source: 'hill' });
  step(
    'contact pressure, bored and not yet heated',
    'p_bored',
    pressureBored,
    'stress',
    'pin ring and boss with the interference of before',
  );
  step(
    'highest contact pressure while hot',
    'p_hot',
    pressureMost,
    'stress',
    'pin ring and boss yield as their steels do at their temperatures',
  );
  step(
    'contact pressure when pushed',
    'p_push',
    pushed.pressure,
    'stress',
    'when the pin has cooled to the target and is even with its boss',
  );
  step(
    'interference left when pushed',
    'delta_push',
    pushed.interference,
    'length',
    'on the diameter; negative is clearance',
  );
  step(
    "interference left when all is at the air's temperature",
    'delta_cold',
    cold.interference,
    'length',
    'on the diameter; negative is clearance',
  );
  trace.add({
    name: 'why',
    symbol: 'why',
    value: REASONS[reason],
    quantity: 'count',
    formula: reason,
    kind: 'calculated',
    source: 'hill',
  });
}

export const HEAT_FUNCTIONS: readonly Declaration[] = [
  valueFunction({
    name: 'BURN.COOL.TIME',
    family: 'COOL',
    summary:
      'Minutes from the end of burning until the hottest part of the bored pin is at the target and the pin is even with its boss.',
    parameters: { diameter, hole, length, method, target },
    assume: true,
    result: { kind: 'value', quantity: 'time' },
    sources: SOURCES,
    cautions: ['COOL'],
    examples: [
      '=BURN.COOL.TIME(4,2.5,10)',
      '=BURN.COOL.TIME(4,2.5,10,"water")',
      '=BURN.COOL.TIME("100 mm","60 mm","250 mm","air","120 C")',
    ],
    monotone: [
      {
        falls: ['target'],
        risesWith: ['heat into the part'],
        without: ['method'],
        assuming: { 'cooling method': 'air' },
      },
    ],
    about: ({ method: word }, { a }) => [{ cooling: methodOr(word, a) }],
    calculate: ({ diameter: D, hole: d, length: L, method: word, target: wanted }, { a }, trace) => {
      recordGiven(trace, ['diameter', 'D', D, 'length'], ['hole', 'd', d, 'length'], ['length', 'L', L, 'length']);
      const way = methodOr(word, a);
      const pin = { diameter: D, hole: d, boss: bossInForce(D, a), length: L };
      recordBoss(D, a, trace);
      recordHeating(pin, way, wanted, a, trace);
      return coolingTime(coolingInForce(pin, way, wanted, a), physicsInForce(a), undefined, a.system, trace);
    },
  }),
  tableFunction({
    name: 'BURN.COOL.CURVE',
    family: 'COOL',
    summary:
      'Temperatures of a bored pin and its boss from the end of burning until it can be pushed: minutes, wall of the bore, surface of the pin in the boss, outside of the boss.',
    parameters: {
      diameter,
      hole,
      boss,
      length,
      method,
      points: optional(
        { kind: 'quantity', quantity: 'count', min: 2, max: 500, whole: true },
        'Rows of the table; 21 when left out',
        '11',
      ),
    },
    assume: true,
    result: {
      kind: 'table',
      columns: [
        { heading: 'time', quantity: 'time' },
        { heading: 'bore', quantity: 'temperature' },
        { heading: 'surface', quantity: 'temperature' },
        { heading: 'boss', quantity: 'temperature' },
      ],
    },
    sources: SOURCES,
    cautions: ['COOL'],
    examples: ['=BURN.COOL.CURVE(4,2.5,10,10)', '=BURN.COOL.CURVE(4,2.5,10,10,"water",11)'],
    about: ({ method: word }, { a }) => [{ cooling: methodOr(word, a) }],
    calculate: ({ diameter: D, hole: d, boss: Do, length: L, method: word, points = 21 }, { a }, trace) => {
      recordGiven(
        trace,
        ['diameter', 'D', D, 'length'],
        ['hole', 'd', d, 'length'],
        ['boss', 'D_o', Do, 'length'],
        ['length', 'L', L, 'length'],
      );
      const way = methodOr(word, a);
      const pin = { diameter: D, hole: d, boss: Do, length: L };
      recordHeating(pin, way, undefined, a, trace);
      return curveUntilPushed(pin, way, points, a, trace).map((p) => [p.time, p.bore, p.surface, p.bossOutside]);
    },
  }),
  valueFunction({
    name: 'BURN.COOL.SHRINK',
    family: 'COOL',
    summary:
      'How much burning and cooling take off the interference of a pin, on the diameter, when it is pushed; near 0 where nothing loosens. Its working says why.',
    parameters: { diameter, hole, method },
    assume: true,
    result: { kind: 'value', quantity: 'length' },
    sources: [...SOURCES, 'hill', 'timoshenko goodier', 'simo hughes', 'lame'],
    cautions: ['COOL'],
    examples: ['=BURN.COOL.SHRINK(4,2.5)', '=BURN.COOL.SHRINK(4,2.5,"water")'],
    about: ({ method: word }, { a }) => [{ cooling: methodOr(word, a) }],
    calculate: ({ diameter: D, hole: d, method: word }, { a }, trace) => {
      recordGiven(trace, ['diameter', 'D', D, 'length'], ['hole', 'd', d, 'length']);
      const way = methodOr(word, a);
      const pin = { diameter: D, hole: d, boss: bossInForce(D, a), length: a.value('length over diameter') * D };
      a.record('length over diameter', 'q', trace);
      trace?.add({
        name: 'length',
        symbol: 'L',
        value: pin.length,
        quantity: 'length',
        formula: 'length over diameter x diameter',
        expression: 'q * D',
        kind: 'calculated',
        source: 'arithmetic',
      });
      recordBoss(D, a, trace);
      recordHeating(pin, way, undefined, a, trace);
      a.record('interference over diameter', 'i', trace);
      trace?.add({
        name: 'interference',
        symbol: 'delta',
        value: a.value('interference over diameter') * D,
        quantity: 'length',
        formula: 'interference over diameter x diameter',
        expression: 'i * D',
        kind: 'calculated',
        source: 'arithmetic',
      });
      for (const [name, symbol] of [
        ['pin modulus', 'E_s'],
        ['boss modulus', 'E_h'],
        ['poisson ratio', 'nu_s'],
        ['pin yield strength', 'f_s'],
        ['boss yield strength', 'f_h'],
      ] as const)
        a.record(name, symbol, trace);
      const shrink = shrinkInForce(pin, way, a);
      recordShrink(shrink, trace);
      trace?.add({
        name: 'taken off the interference',
        symbol: 'loose',
        value: shrink.pushed.loosening,
        quantity: 'length',
        formula: 'interference before - interference left when pushed',
        expression: SHRINK,
        kind: 'calculated',
        source: 'hill',
      });
      return shrink.pushed.loosening;
    },
  }),
];

/** Where nothing has to cool, the curve still shows this much [s]. */
const SHORTEST = 600;

/** Temperatures until the pin can be pushed, at moments that lie closer in the beginning. */
export function curveUntilPushed(pin: PinInBoss, way: CoolingMethod, points: number, a: Assumptions, trace?: Trace) {
  const physics = physicsInForce(a);
  const inputs = coolingInForce(pin, way, undefined, a);
  const until = coolingTime(inputs, physics, undefined, a.system, trace) || SHORTEST;
  const times = Array.from({ length: points }, (_, i) => until * (i / (points - 1)) ** 2);
  return coolingCurve({ ...inputs, times }, physics, undefined, a.system);
}
