import type { Basis } from '../basis.ts';
import { rodMassPerLength } from '../burn/rods.ts';
import { calculatedFlow, rodGiven } from '../burn/rod-line.ts';
import type { Material } from '../burn/materials.ts';
import { Evaluation, valueAt, type Column } from '../model/evaluation.ts';
import { given as givenStep } from '../model/step.ts';
import { itemList, type ItemShape } from './item-steps.ts';
import type { Operation, Planned } from './operation.ts';
import { reaches, tooShort, type FittedRod } from './rod-fit.ts';

/** One way to do the work of one item with one rod, and what it takes; SI. */
export interface Way {
  /** Its name, where the operation has several. */
  readonly method: string | undefined;
  /** Burning with its pauses, rod changes and tasks [s]. */
  readonly time: number;
  /** Cost of the work by which ways and rods are weighed. */
  readonly cost: number;
  readonly rods: number;
  /** Rods, not rounded. */
  readonly used: number;
  /** Length of rod consumed, not rounded. */
  readonly consumed: number;
  readonly oxygen: number;
  readonly burnTime: number;
  /** Times a rod is lit. */
  readonly lightings: number;
  /** Work metal removed. */
  readonly removed: number;
  /** Whether slag holds its pierces up so much that wider ones would burn faster. */
  readonly slagged: boolean;
  /** How deep in the work the tip gets [m]. */
  readonly reach: number;
  /** Crew times that burning does not change [s]. */
  readonly fixedTime: number;
}

/** A rod that one item may be done with, with its flows. */
export interface Fed extends Flows {
  readonly rod: FittedRod;
}

/** Flows as calculated, before the flow factor [kg/s]. */
export interface Flows {
  readonly flow: number;
  /** While widening, where the operation widens what it pierced. */
  readonly widenFlow: number | undefined;
}

/** One operation's sizes, as planned, at a tip pressure, on a material. */
export interface Task {
  readonly operation: Operation;
  readonly planned: Planned;
  /** Gauge, at the holder's inlet [Pa]. */
  readonly pressure: number;
  /** The same while widening, where the operation widens what it pierced. */
  readonly widenPressure: number | undefined;
  readonly material: Material;
  /** Where the item is one of a long list: its flows and ways, read from columns of all items. */
  readonly listed?: Listed | undefined;
}

export type RodLength = Pick<FittedRod, 'rod' | 'length'>;

/** A length of a rod with the flows that the tip pressures drive through it. */
export interface FedLength extends RodLength, Flows {}

/** A rod that fits an item, and what it would take. */
export interface Candidate {
  readonly rod: FittedRod;
  /** Of the cheapest way. */
  readonly cost: number;
  /** Cheapest first. */
  readonly ways: readonly [Way, ...Way[]];
}

/** The rods whose work costs least and next to least, the first of equal ones, of so many that fit; `singles` of them as asked for. */
export interface Cheapest {
  readonly best: Candidate;
  readonly next: Candidate | undefined;
  readonly fitting: number;
  readonly singles: number;
}

/** Flows and ways of an item of a long list, worked out for many items at once. What it gives holds until it turns to another item. */
export interface Listed {
  fed(rod: RodLength): FedLength;
  /** Of some lengths, coupled where that was asked for, or where it may be and costs less. */
  cheapest(of: readonly RodLength[], asked: { readonly coupled: boolean; readonly mayCouple: boolean }): Cheapest;
  /** Of one rod. */
  ways(rod: FittedRod): readonly Way[];
  /** Rating of the ram that pushes the item out [N]; undefined where the operation pushes none, or that is to be found for it alone. */
  readonly ram: number | undefined;
}

/** Rods of one construction have the same steps; sizes, rod and flow are given anew for each item. */
const ROD_SYMBOLS = ['p', 'L_rod', 'd_rod', 'mu', 'm_0'] as const;
const WIDEN_SYMBOLS = ['p_widen', 'm_widen_0'] as const;

/** Step of cooling where it is given: evaluations of many items take it as found. */
const COOLING_GIVEN = [givenStep('t_cool', 'cooling time', 'time')];

/** Symbols of the sizes of an operation, in its order. */
const sizeSymbols = (operation: Operation): readonly string[] =>
  operation.order.map((name) => operation.sizes[name]!.symbol);

/** What the evaluations of items are given anew, in the order of `givenOf`. */
export const anewOf = (operation: Operation): readonly string[] => [
  ...sizeSymbols(operation),
  ...ROD_SYMBOLS,
  ...(operation.widening ? WIDEN_SYMBOLS : []),
];

/**
 * Flow of a rod before the flow factor [kg/s].
 *
 * @example flowOf(item.rod, 90 * PSI, basis) / (SCF / 60) // 8.663
 */
export const flowOf = ({ rod, length }: RodLength, pressure: number, basis: Basis): number =>
  calculatedFlow(rod, length, pressure, basis);

/** Flows of a rod at the pressures of an item, before the flow factor. */
export const flowsOf = (
  rod: RodLength,
  { pressure, widenPressure, listed }: Pick<Task, 'pressure' | 'widenPressure' | 'listed'>,
  basis: Basis,
): Flows =>
  listed?.fed(rod) ?? {
    flow: flowOf(rod, pressure, basis),
    widenFlow: widenPressure === undefined ? undefined : flowOf(rod, widenPressure, basis),
  };

/** Values for `anewOf`: numbers, or a column over rods. */
export function givenOf(
  { operation, planned, pressure, widenPressure }: GivenTask,
  rods: { readonly [K in 'length' | 'diameter' | 'mass' | 'flow']: Column } & {
    readonly widenFlow: Column | undefined;
  },
): readonly Column[] {
  return [
    ...operation.order.map((name) => planned[name]!),
    ...[pressure, rods.length, rods.diameter, rods.mass, rods.flow],
    ...(operation.widening ? [widenPressure ?? NaN, rods.widenFlow ?? NaN] : []),
  ];
}

/** What is given anew of a task: numbers, or a column over items. */
interface GivenTask {
  readonly operation: Operation;
  readonly planned: { readonly [name: string]: Column };
  readonly pressure: Column;
  readonly widenPressure: Column | undefined;
}

/**
 * The steps of items that differ in sizes, rod size and flow only, on the assumptions in force or `drawn`. Cooling is given where
 * the operation has any: it is found apart.
 */
export function itemEvaluation(
  shape: Omit<ItemShape, 'sizes'>,
  basis: Basis,
  drawn: (assumption: string) => Column | undefined = () => undefined,
): Evaluation {
  const { operation, rod } = shape;
  const list = basis.once(`steps ${shapeKey(shape)}`, () =>
    itemList({ ...shape, sizes: operation.order }, basis, operation.cooling ? COOLING_GIVEN : []),
  );
  const given: Record<string, Column | string> = { ...rodGiven(rod), t_cool: 0 };
  for (const { step } of list.nodes) {
    const column = 'assumption' in step.from ? drawn(step.from.assumption) : undefined;
    if (column !== undefined) given[step.symbol] = column;
  }
  return new Evaluation(list, given, basis.a);
}

/** What the steps of an item depend on, besides the assumptions in force. */
export const shapeKey = ({ operation, rod, coupled, material, method }: Omit<ItemShape, 'sizes'>): string =>
  `${operation.id} ${method} ${rod.kind} ${coupled} ${material.name}`;

/** Ways that the operation's word asks for; all where it names none. */
export function methodsOf(operation: Operation, { a }: Basis): readonly (string | undefined)[] {
  const { methods } = operation;
  if (!methods) return [undefined];
  const named = methods.names.filter((name) => name === a.word(methods.choice));
  return named.length > 0 ? named : methods.names;
}

/**
 * The ways to do one item's work with each of some rods, cheapest first; only the one that the operation's word asks for, where
 * it names one. Empty for a rod that does not reach. The steps are evaluated for all rods at once.
 */
export function waysOf(task: Task, fed: readonly Fed[], basis: Basis): readonly (readonly Way[])[] {
  const { listed } = task;
  if (listed) return fed.map(({ rod }) => listed.ways(rod));
  const ways: Way[][] = fed.map(() => []);
  for (const kind of ['short', 'bar'] as const) {
    for (const coupled of [false, true]) {
      const places = fed.flatMap(({ rod }, i) => (rod.rod.kind === kind && rod.coupled === coupled ? [i] : []));
      if (places.length === 0) continue;
      const alike = places.map((i) => fed[i]!);
      for (const method of methodsOf(task.operation, basis)) {
        waysWith(task, alike, method, basis).forEach((way, i) => {
          if (way) ways[places[i]!]!.push(way);
        });
      }
    }
  }
  for (const each of ways) if (each.length > 1) each.sort((x, y) => x.cost - y.cost);
  return ways;
}

function columnOf<T>(of: readonly T[], value: (each: T) => number): Column {
  return of.length === 1 ? value(of[0]!) : Float64Array.from(of, value);
}

function waysWith(
  task: Task,
  fed: readonly Fed[],
  method: string | undefined,
  basis: Basis,
): readonly (Way | undefined)[] {
  const { operation, material } = task;
  const [{ rod: first }] = fed as readonly [Fed, ...Fed[]];
  const shape = { operation, rod: first.rod, coupled: first.coupled, material, method };
  const { reach, columns } = waysAt(
    shape,
    givenOf(task, {
      length: columnOf(fed, ({ rod }) => rod.length),
      diameter: columnOf(fed, ({ rod }) => rod.rod.outsideDiameter),
      mass: columnOf(fed, ({ rod }) => rodMassPerLength(rod.rod)),
      flow: columnOf(fed, ({ flow }) => flow),
      widenFlow: columnOf(fed, ({ widenFlow }) => widenFlow ?? NaN),
    }),
    basis,
  );
  const each = fed.map(({ rod }, i) => reaches(rod, valueAt(reach, i), basis));
  if (!each.includes(true)) return fed.map(() => undefined);
  const of = columns();
  return fed.map((_, i) => (each[i] ? wayOf(of, i) : undefined));
}

/** The way at one place. */
function wayOf(of: WayColumns, i: number): Way {
  const way: Record<string, unknown> = {};
  for (const name in of) {
    const value = of[name as keyof WayColumns];
    way[name] = typeof value === 'function' ? value(i) : typeof value === 'object' ? value[i] : value;
  }
  return way as unknown as Way;
}

/** What one way takes at many places: with several rods, or for several items. */
export type WayColumns = { readonly [K in Exclude<keyof Way, 'method' | 'slagged'>]: Column } & {
  readonly method: string | undefined;
  readonly slagged: (i: number) => boolean;
};

/**
 * One way at many places, `given` as `givenOf` has it. All but the reach is worked out when it is asked for; it can be read until the
 * next places are given, and for ever where `kept`, which may fill in steps that it finds otherwise.
 */
export function waysAt(
  shape: Omit<ItemShape, 'sizes'>,
  given: readonly Column[],
  basis: Basis,
  kept?: (at: Evaluation) => void,
): { readonly reach: Column; readonly columns: () => WayColumns } {
  const { operation, method } = shape;
  const at = basis
    .reading(`ways ${shapeKey(shape)}`, () => {
      const all = itemEvaluation(shape, basis);
      // Refuses assumptions that no rod can work with.
      all.number('share');
      all.number('r_pure');
      return all.over(anewOf(operation));
    })
    .give(given);
  const read = (symbol: string): Column => {
    const value = at.column(symbol);
    return kept && typeof value === 'object' ? value.slice() : value;
  };
  kept?.(at);
  const reach = read('reach');
  return {
    reach,
    columns: () => ({
      method,
      reach,
      time: read('t_work'),
      cost: read('C_work'),
      rods: read('N'),
      used: read('N_used'),
      consumed: read('l'),
      oxygen: read('O'),
      burnTime: read('t'),
      lightings: read('n_light'),
      removed: read('M'),
      fixedTime: read('t_fixed'),
      slagged: operation.piercedAt === undefined ? () => false : slaggedOf(read),
    }),
  };
}

/**
 * Whether a wider pierce would burn faster: the time (t_melt^n + t_slag^n)^(1/n) falls with the width w where
 * t_slag^n x / (x + 2 s) > 2 t_melt^n, since t_melt goes with w^2, and of t_slag the part that comes of the depth with 1 / w.
 */
function slaggedOf(read: (symbol: string) => Column): (i: number) => boolean {
  const columns = ['x', 's', 't_melt', 't_slag', 'sharp'].map(read);
  return (i) => {
    const [x, s, heat, slag, n] = columns.map((column) => valueAt(column, i)) as [
      number,
      number,
      number,
      number,
      number,
    ];
    return ((slag / heat) ** n * x) / (x + 2 * s) > 2;
  };
}

/** The error of a rod that does not reach. */
export function unreachable(task: Task, rod: FittedRod, basis: Basis): Error {
  const { operation, material } = task;
  const [method] = methodsOf(operation, basis);
  const at = itemEvaluation({ operation, rod: rod.rod, coupled: rod.coupled, material, method }, basis)
    .over(anewOf(operation))
    .give(
      givenOf(task, {
        length: rod.length,
        diameter: rod.rod.outsideDiameter,
        mass: rodMassPerLength(rod.rod),
        flow: NaN,
        widenFlow: NaN,
      }),
    );
  return tooShort(rod, at.number('reach'), basis);
}
