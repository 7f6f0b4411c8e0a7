import type { Basis } from '../core/basis.ts';
import { findMaterial, type Material } from '../core/burn/materials.ts';
import type { RodChoice } from '../core/burn/rods.ts';
import { CalcError } from '../core/errors.ts';
import { ItemColumns, NotListed } from '../core/operations/item-columns.ts';
import type { Sizes } from '../core/operations/operation.ts';
import { materialWord, sized } from '../core/operations/sized.ts';
import { spreadBetween } from '../core/operations/spread-lattice.ts';
import { spreadItem } from '../core/operations/spread-item.ts';
import type { Output, RowsFunction } from './declaration.ts';
import { LONG } from './long.ts';
import { planLine } from './plan-line.ts';

type PlanValues = Readonly<Record<string, unknown>> & {
  readonly rod?: RodChoice | undefined;
  readonly material?: Material | undefined;
};

/** The items of a list of a declaration, by their place. */
export interface ListedItems {
  readonly count: number;
  /** Names of the parameters that are not the same for all. */
  readonly varying: readonly string[];
  readonly basis: Basis;
  /** What an item is given as, in a text. */
  readonly key: (at: number) => string;
  /** What it is given, in SI; throws CalcError. */
  readonly values: (at: number) => PlanValues;
}

/** Gives the lines of a long list, by the places of its items, which are asked for in order; undefined where the list is not long. */
export type LongList = (d: RowsFunction, items: ListedItems) => ((at: number) => readonly Output[]) | undefined;

/** Items of a long list that are worked out together. */
const CHUNK = 1000;

function isLong({ count, key }: ListedItems): boolean {
  const seen = new Set<string>();
  for (let at = 0; at < count && seen.size + count - at >= LONG; at++) if (seen.add(key(at)).size === LONG) return true;
  return false;
}

/**
 * Rows of a long plan, worked out in columns, a thousand items at a time: those of `calculate` but for what is read between points of
 * a lattice (`ItemColumns`, `spreadBetween`). A row that columns do not hold is worked out by itself.
 */
export const planList: LongList = (d, items) => {
  if (!isLong(items)) return undefined;
  let [start, end] = [0, 0];
  let read: readonly (number | CalcError)[] = [];
  let line: (i: number) => readonly Output[] = () => [];
  return (at) => {
    if (at >= end) {
      start = at;
      end = Math.min(at + CHUNK, items.count);
      const values: PlanValues[] = [];
      read = Array.from({ length: end - start }, (_, i) => {
        try {
          return values.push(items.values(start + i)) - 1;
        } catch (e) {
          if (e instanceof CalcError) return e;
          throw e;
        }
      });
      line = lines(d, values, items);
    }
    const place = read[at - start]!;
    if (typeof place !== 'number') throw place;
    return line(place);
  };
};

function lines(
  d: RowsFunction,
  items: readonly PlanValues[],
  { varying, basis }: Pick<ListedItems, 'varying' | 'basis'>,
): (i: number) => readonly Output[] {
  const plan = d.plan!;
  const { operation } = plan;
  const alike = new Map<string | number, PlanValues[]>();
  const keys = items.map((values) => {
    let given = 0;
    for (const name of operation.order) given = 2 * given + Number(values[name] !== undefined);
    const { rod, material } = values;
    return rod || material ? `${given} ${rod?.rod.name} ${rod?.length} ${rod?.coupled} ${material?.name}` : given;
  });
  const place = keys.map((key, i) => {
    const each = alike.get(key) ?? [];
    alike.set(key, each);
    return each.push(items[i]!) - 1;
  });
  const columns = new Map<string | number, ReturnType<typeof make>>();
  const columnsOf = (key: string | number): ReturnType<typeof make> => {
    if (!columns.has(key)) columns.set(key, make(alike.get(key) ?? []));
    return columns.get(key);
  };
  const make = (each: readonly PlanValues[]) => {
    const material = each[0]?.material ?? findMaterial(basis.a.word(materialWord(operation)));
    return listedOrNone(() => {
      const of = new ItemColumns(operation, material, each as unknown as readonly Sizes[], basis);
      return { of, spread: spreadBetween(operation, { given: of.names, varying }, basis) };
    });
  };
  return (i) => {
    const values = items[i]!;
    const listed = columnsOf(keys[i]!);
    return (
      (listed && listedOrNone(() => lineOf(plan, values, listed, place[i]!, basis))) ??
      d.calculate(values as never, basis)
    );
  };
}

/** The columns of alike items, and what reads their low and high. */
interface Alike {
  readonly of: ItemColumns;
  readonly spread: ReturnType<typeof spreadBetween>;
}

function lineOf(
  plan: NonNullable<RowsFunction['plan']>,
  values: PlanValues,
  { of, spread }: Alike,
  place: number,
  basis: Basis,
): readonly Output[] {
  const { rod, material = of.material } = values;
  // What stands in it besides sizes is passed over.
  const sizes = values as unknown as Sizes;
  const item = sized({ operation: plan.operation, sizes, rod, material, basis, listed: of.turnTo(place) });
  const setting = of.setting(item.rod);
  return planLine(item, basis, {
    spread: spread(item) ?? spreadItem(item, basis),
    notes: plan.notes(values as never, basis),
    ...(Number.isNaN(setting) ? undefined : { setting }),
  });
}

/** Nothing where the way in columns has no answer: the item by itself has one, or tells why not. */
function listedOrNone<T>(make: () => T): T | undefined {
  try {
    return make();
  } catch (e) {
    if (e instanceof NotListed || e instanceof CalcError) return undefined;
    throw e;
  }
}
