import type { OperationId } from '../core/operations/all.ts';
import type { Operation } from '../core/operations/operation.ts';
import type { Monotone } from './declaration.ts';

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
export function operationMoves<N extends string>(
  { id, methods }: Pick<Operation, 'id' | 'methods'>,
  result: string,
): readonly Monotone<N>[] {
  const sizes = sizesOf(id, result);
  const assumed = ASSUMED[result as Result];
  if (!sizes?.length && !assumed) return [];
  const moves: Monotone<N> = {
    ...(sizes && { rises: sizes as readonly N[] }),
    ...assumed,
    given: ['rod'] as unknown as readonly N[],
  };
  const ways = result === 'PRESSURE' ? undefined : methods;
  return ways?.names.map((name) => ({ ...moves, assuming: { [ways.choice]: name } })) ?? [moves];
}
