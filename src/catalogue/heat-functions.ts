import type { Assumptions } from '../core/assumptions/assumptions.ts';
import type { Basis } from '../core/basis.ts';
import { loosening } from '../core/fit/shrink-in-force.ts';
import type { CoolingMethod, PinInBoss } from '../core/heat/cool-pin.ts';
import { coolingCurve } from '../core/heat/cooling-curve.ts';
import {
  bossInForce,
  bossSteps,
  coolingInForce,
  coolingSteps,
  methodInForce,
  physicsInForce,
} from '../core/heat/heat-in-force.ts';
import { Evaluation } from '../core/model/evaluation.ts';
import { given } from '../core/model/step.ts';
import { StepList } from '../core/model/step-list.ts';
import { Working, type Said } from '../core/model/working.ts';
import { optional, required, tableFunction, workedFunction, type Declaration } from './declaration.ts';
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

/** What decides the way of cooling. */
const wayOf = (word: string | undefined): Said => (word === undefined ? { decidedBy: ['cooling method'] } : {});

export const HEAT_FUNCTIONS: readonly Declaration[] = [
  workedFunction({
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
    working: ({ diameter: D, hole: d, length: L, method: word, target }, basis) => {
      const { a } = basis;
      const way = methodOr(word, a);
      const pin = { diameter: D, hole: d, boss: bossInForce(D, a), length: L };
      const list = new StepList(
        [
          given('D', 'diameter', 'length'),
          given('d', 'hole', 'length'),
          given('L', 'length', 'length'),
          ...bossSteps,
          ...coolingSteps(pin, way, target, basis),
        ],
        ['t_cool', 'cooled'],
      );
      const values = { D, d, L, ...(target !== undefined && { T_push: target }) };
      return new Working(new Evaluation(list, values, a), 't_cool', ['cooled'], wayOf(word));
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
    calculate: ({ diameter, hole, boss: outside, length: long, method: word, points = 21 }, basis) => {
      const pin = { diameter, hole, boss: outside, length: long };
      return curveUntilPushed(pin, methodOr(word, basis.a), points, basis).map((p) => [
        p.time,
        p.bore,
        p.surface,
        p.bossOutside,
      ]);
    },
    working: ({ diameter, hole, boss: outside, length: long, method: word }, basis) =>
      coolingWorking({ diameter, hole, boss: outside, length: long }, methodOr(word, basis.a), basis, wayOf(word)),
  }),
  workedFunction({
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
    working: ({ diameter: D, hole: d, method: word }, { a }) => loosening(D, d, methodOr(word, a), a, wayOf(word)),
  }),
];

/** Where nothing has to cool, the curve still shows this much [s]. */
const SHORTEST = 600;

/** Cooling time of a pin in a boss that is given. */
function coolingWorking(pin: PinInBoss, way: CoolingMethod, basis: Basis, said: Said = {}): Working {
  const list = new StepList(
    [
      given('D', 'diameter', 'length'),
      given('d', 'hole', 'length'),
      given('D_o', 'boss', 'length'),
      given('L', 'length', 'length'),
      ...coolingSteps(pin, way, undefined, basis),
    ],
    ['t_cool', 'cooled'],
  );
  const values = { D: pin.diameter, d: pin.hole, D_o: pin.boss, L: pin.length };
  return new Working(new Evaluation(list, values, basis.a), 't_cool', ['cooled'], said);
}

/** Temperatures until the pin can be pushed, at moments that lie closer in the beginning. */
function curveUntilPushed(pin: PinInBoss, way: CoolingMethod, points: number, basis: Basis) {
  const { a } = basis;
  const until = coolingWorking(pin, way, basis).value || SHORTEST;
  const times = Array.from({ length: points }, (_, i) => until * (i / (points - 1)) ** 2);
  return coolingCurve({ ...coolingInForce(pin, way, undefined, a), times }, physicsInForce(a), undefined, a.system);
}
