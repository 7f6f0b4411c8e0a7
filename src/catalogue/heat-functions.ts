import type { Assumptions } from '../core/assumptions/assumptions.ts';
import type { CoolingMethod } from '../core/heat/cool-pin.ts';
import { methodInForce } from '../core/heat/heat-in-force.ts';
import { burntPinCooling, burntPinCurve, burntPinLoosening, type Cooled } from '../core/operations/burnt-pin.ts';
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

/** The way of cooling, and what decides it. */
const wayOf = (word: string | undefined, a: Assumptions): Cooled => ({
  method: methodOr(word, a),
  decidedBy: word === undefined ? ['cooling method'] : [],
});

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
    about: ({ method: word }, { a }) => [{ cooling: methodOr(word, a) }],
    working: ({ method: word, target, ...pin }, basis) =>
      burntPinCooling(pin, { ...wayOf(word, basis.a), target }, basis),
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
    calculate: ({ method: word, points = 21, ...pin }, basis) =>
      burntPinCurve(pin, wayOf(word, basis.a), points, basis).map((p) => [p.time, p.bore, p.surface, p.bossOutside]),
    working: ({ method: word, points: _, ...pin }, basis) => burntPinCooling(pin, wayOf(word, basis.a), basis),
  }),
  workedFunction({
    name: 'BURN.COOL.SHRINK',
    family: 'COOL',
    summary:
      'How much burning and cooling take off the interference of a pin, on the diameter, when it is pushed, in the middle of the cases. Its working has low and high, the chance that nothing loosens, and why.',
    parameters: { diameter, hole, method },
    assume: true,
    result: { kind: 'value', quantity: 'length' },
    sources: [...SOURCES, 'hill', 'timoshenko goodier', 'simo hughes', 'lame'],
    cautions: ['COOL'],
    examples: ['=BURN.COOL.SHRINK(4,2.5)', '=BURN.COOL.SHRINK(4,2.5,"water")'],
    about: ({ method: word }, { a }) => [{ cooling: methodOr(word, a) }],
    working: ({ method: word, ...pin }, basis) => burntPinLoosening(pin, wayOf(word, basis.a), basis),
  }),
];
