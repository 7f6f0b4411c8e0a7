/** How the result of each function moves with its arguments and with what is assumed. Tests read it; no host loads it. */
import type { ChoiceName, NumberName } from '../core/assumptions/registry.ts';
import { OPERATIONS, operationOf, type OperationId } from '../core/operations/all.ts';
import type { Operation } from '../core/operations/operation.ts';
import type { Declaration } from './declaration.ts';

/**
 * How a number moves while one thing it depends on grows and all else stands: never against it. Tested on pairs of values
 * over all that is accepted.
 */
export interface Monotone {
  /** Column of the first row, of functions that give rows or a table. */
  readonly column?: string;
  /** Parameters with which it rises, or falls. */
  readonly rises?: readonly string[];
  readonly falls?: readonly string[];
  /** Assumptions with which it rises, or falls. */
  readonly risesWith?: readonly NumberName[];
  readonly fallsWith?: readonly NumberName[];
  /** Optional parameters that it holds with only, and without. */
  readonly given?: readonly string[];
  readonly without?: readonly string[];
  /** Words of assumptions that it holds with only. */
  readonly assuming?: Readonly<Partial<Record<ChoiceName, string>>>;
}

/** The part of a function's name behind its operation. */
type Result = 'RODS' | 'OXYGEN' | 'BURN' | 'TIME' | 'PRESSURE';

/**
 * Sizes with which the results of an operation rise, none where there is no such size; with a rod and its length given, since a picked rod changes on the way.
 *
 * The width of a hole is not among them: a narrow pierce is held up by its slag, so that a somewhat wider one burns faster.
 */
const SIZES: Readonly<Record<OperationId, Readonly<Record<Result, readonly string[]>>>> = {
  PIN: {
    RODS: ['diameter', 'length', 'hole'],
    OXYGEN: ['diameter', 'length', 'hole'],
    BURN: ['diameter', 'length', 'hole'],
    TIME: ['length'],
    PRESSURE: ['length'],
  },
  HOLE: { RODS: ['depth'], OXYGEN: ['depth'], BURN: ['depth'], TIME: ['depth'], PRESSURE: ['depth'] },
  GOUGE: {
    RODS: ['width', 'depth', 'length'],
    OXYGEN: ['width', 'depth', 'length'],
    BURN: ['width', 'depth', 'length'],
    TIME: ['width', 'depth', 'length'],
    PRESSURE: ['width', 'depth'],
  },
  CUT: {
    RODS: ['thickness', 'length'],
    OXYGEN: ['thickness', 'length'],
    BURN: ['thickness', 'length'],
    TIME: ['thickness', 'length'],
    PRESSURE: ['thickness'],
  },
  STUD: {
    RODS: ['diameter', 'count'],
    OXYGEN: ['diameter', 'count'],
    BURN: ['diameter', 'count'],
    TIME: ['diameter', 'count'],
    PRESSURE: ['diameter'],
  },
  BREACH: {
    RODS: ['thickness', 'count'],
    OXYGEN: ['thickness', 'count'],
    BURN: ['thickness', 'count'],
    TIME: ['thickness', 'count'],
    PRESSURE: [],
  },
};
/** An operation that is only tried out has none. */
const sizesOf = (operation: string, result: string): readonly string[] | undefined =>
  (SIZES as Readonly<Record<string, Readonly<Record<string, readonly string[]>>>>)[operation]?.[result];

/**
 * Assumptions with which the results of every operation move. Not among them are the rod's own iron (it brings heat and takes
 * it) and the stub (rods that end long pass less oxygen all along, so that less is lost in lighting them).
 */
const ASSUMED: Readonly<Partial<Record<Result, Pick<Monotone, 'risesWith' | 'fallsWith'>>>> = {
  RODS: { risesWith: ['reach loss', 'heat lost share'], fallsWith: ['oxygen burnt share', 'bar oxygen burnt share'] },
  OXYGEN: {
    risesWith: ['idle oxygen share', 'lighting time', 'heat lost share'],
    fallsWith: ['oxygen burnt share', 'bar oxygen burnt share'],
  },
  BURN: {
    risesWith: ['heat lost share'],
    fallsWith: [
      'oxygen burnt share',
      'bar oxygen burnt share',
      'flow factor',
      'holder orifice',
      'bar holder ratio',
      'advance limit',
      'advance depth',
      'limit sharpness',
    ],
  },
  TIME: {
    risesWith: ['set-up time', 'clean-up time', 'rod change time', 'heat lost share'],
    fallsWith: ['burning duty'],
  },
};

/**
 * How a result of an operation moves with its sizes and with what is assumed. The cheapest of several ways may burn more or take longer, so
 * what is taken jumps where the ways change places; each by itself moves as it should, and so does the cost of the cheapest.
 */
function operationMoves({ id, methods }: Pick<Operation, 'id' | 'methods'>, result: string): readonly Monotone[] {
  const sizes = sizesOf(id, result);
  const assumed = ASSUMED[result as Result];
  if (!sizes?.length && !assumed) return [];
  const moves: Monotone = { ...(sizes && { rises: sizes }), ...assumed, given: ['rod'] };
  const ways = result === 'PRESSURE' ? undefined : methods;
  return ways?.names.map((name) => ({ ...moves, assuming: { [ways.choice]: name } })) ?? [moves];
}

/** Of the functions that are no operation's, by their names without BURN. */
const MOVES: Readonly<Record<string, readonly Monotone[]>> = {
  'AIR.RELEASE': [
    { rises: ['flow'], risesWith: ['leak flow'], fallsWith: ['oxygen burnt share', 'bar oxygen burnt share'] },
  ],
  'AIR.OXYGEN': [
    { rises: ['release', 'start'], risesWith: ['fresh air oxygen'] },
    { rises: ['minutes'], falls: ['volume', 'freshAir'], without: ['start'] },
  ],
  'AIR.RISE': [
    { rises: ['volume', 'limit'], falls: ['release', 'start'] },
    { rises: ['freshAir'], without: ['start'] },
  ],
  'AIR.CLEAR': [
    { rises: ['volume', 'start'], falls: ['freshAir', 'limit'], risesWith: ['air mixing factor', 'fresh air oxygen'] },
  ],
  'AIR.FRESH': [{ rises: ['release'], falls: ['limit'], risesWith: ['air mixing factor', 'fresh air oxygen'] }],
  'AIR.PEOPLE': [{ rises: ['people'], falls: ['volume', 'ceiling'] }],
  'AIR.FUME': [
    {
      column: 'in the air',
      rises: ['minutes'],
      falls: ['volume', 'freshAir'],
      risesWith: ['fume factor', 'air mixing factor'],
    },
  ],
  'EYE.SHADE': [{ rises: ['thickness'] }],
  'CYLINDER.SEPARATION': [
    { column: 'missing', falls: ['separation'] },
    { column: 'distance', rises: ['separation'] },
  ],
  'CYLINDER.LIMITS': [
    { column: 'oxygen', rises: ['cylinders', 'content'], risesWith: ['cylinder volume', 'cylinder pressure'] },
  ],
  'LEAD.DROP': [{ rises: ['amps', 'length'], risesWith: ['lead temperature', 'lead lay'] }],
  'BATTERY.STRIKES': [{ rises: ['ampHours'], falls: ['amps', 'seconds'], risesWith: ['battery usable share'] }],
  'FIRE.REACH': [{ rises: ['height'], risesWith: ['throw speed', 'wind', 'bounce'] }],
  'GRIP.PRESSURE': [
    {
      rises: ['interference', 'boss'],
      falls: ['hole'],
      risesWith: ['pin modulus', 'boss modulus', 'pin yield strength', 'boss yield strength'],
    },
    { falls: ['diameter'], without: ['hole'] },
  ],
  'GRIP.FORCE': [
    { rises: ['length', 'interference', 'boss'], falls: ['hole'], risesWith: ['joint friction', 'rust bond'] },
  ],
  'GRIP.AFTER': [{ column: 'likely', rises: ['force tried'] }],
  'PUSH.RAM': [{ rises: ['force'], fallsWith: ['ram use'] }],
  'PUSH.SPACERS': [
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
  'PUSH.CHECK': [
    { column: 'used', rises: ['force', 'hole'], falls: ['spacerDiameter'], fallsWith: ['pin yield strength'] },
  ],
  'GUARD.PLATES': [{ column: 'value', rises: ['diameter'], risesWith: ['base plate margin'] }],
  'COOL.TIME': [
    {
      falls: ['target'],
      risesWith: ['heat into the part'],
      without: ['method'],
      assuming: { 'cooling method': 'air' },
    },
  ],
  SPREAD: [{ column: 'value', rises: ['percentile'] }],
  'JOB.STOCK': [{ column: 'amount', rises: ['confidence'] }],
  'NOISE.HOURS': [{ falls: ['level'] }],
  'PIN.HOLE': [{ rises: ['diameter'], risesWith: ['bore ratio'] }],
  'ROD.FLOW': [
    {
      rises: ['pressure'],
      falls: ['length'],
      risesWith: ['holder orifice', 'bar holder ratio', 'air pressure'],
      fallsWith: ['gas temperature'],
    },
  ],
  'ROD.PRESSURE': [
    { rises: ['flow', 'length'], fallsWith: ['holder orifice', 'bar holder ratio'], risesWith: ['gas temperature'] },
  ],
  'CYLINDER.CONTENT': [{ rises: ['waterVolume', 'pressure'], falls: ['temperature', 'leftoverPressure'] }],
  'CYLINDER.COUNT': [
    { rises: ['oxygen'], falls: ['content'], risesWith: ['cylinder change loss', 'leftover pressure'] },
  ],
  'CYLINDER.GAUGE': [{ rises: ['pressure at 70 F', 'temperature'] }],
  'HOSE.LOSS': [
    {
      rises: ['flow', 'length'],
      falls: ['setting', 'bore'],
      risesWith: ['hose fittings', 'hose roughness', 'gas temperature'],
    },
  ],
  'HOSE.SETTING': [
    {
      rises: ['tipPressure', 'flow', 'length', 'depth'],
      falls: ['bore'],
      risesWith: ['hose fittings', 'hose roughness'],
    },
  ],
  'SUPPLY.CHECK': [
    {
      column: 'now',
      rises: ['setting', 'bore', 'cylinders', 'content'],
      falls: ['hoseLength', 'depth'],
      risesWith: ['holder orifice'],
      fallsWith: ['hose fittings'],
    },
  ],
};

/** How a function's result moves; empty where nothing is said of it. */
export function movesOf({ name }: Pick<Declaration, 'name'>): readonly Monotone[] {
  const [, first = '', result = ''] = name.split('.');
  const operation = first in OPERATIONS ? operationOf(first as OperationId) : undefined;
  return MOVES[name.slice('BURN.'.length)] ?? (operation ? operationMoves(operation, result) : []);
}
