/** The list of a job: what stands in its rows, sized, and what all of it takes together. */
import type { Basis } from '../basis.ts';
import { rodName } from '../burn/rods.ts';
import { CalcError } from '../errors.ts';
import { lowAndHighOff, shown } from '../messages.ts';
import {
  cylindersOpened,
  sharedDelivery,
  type CylindersSoFar,
  type SuppliedItem,
} from '../operations/cylinders-opened.ts';
import { drawItem } from '../operations/draw-item.ts';
import { drawnClosely } from '../operations/drawn-closely.ts';
import { itemSetting } from '../operations/item-supply.ts';
import { ownScatter } from '../operations/own-scatter.ts';
import type { Sized } from '../operations/sized.ts';
import { DRAWS, spreadItem, wholeTowards, type Spread } from '../operations/spread-item.ts';
import { drawableContent, type Delivery } from '../oxygen/drawable-content.ts';
import type { Condition } from '../safety/conditions.ts';
import { percentilesWithin, type Percentile } from '../spread/draw-percentile.ts';

/** One row of a job list that could be sized. */
export interface ListItem {
  /** Counted from 1, the range's first row. */
  readonly row: number;
  /** What it is called; empty where nothing was written. */
  readonly mark: string;
  /** Pieces of it. */
  readonly quantity: number;
  readonly sized: Sized;
  /** The assumptions of this row: those of the call, and what its own columns set. */
  readonly basis: Basis;
  /** Conditions its row names. */
  readonly conditions: readonly Condition[];
  /** What to ask before its sizes are believed; empty where nothing is. */
  readonly question: string;
  /** What whoever reads the row should know besides. */
  readonly notes: readonly string[];
}

/** A row that could not be sized. */
export interface BadItem {
  readonly row: number;
  readonly mark: string;
  /** Names the row. */
  readonly problem: CalcError;
}

/** What a row of the range is. */
export type ListRow =
  | { readonly kind: 'blank' }
  | { readonly kind: 'item'; readonly item: ListItem }
  | { readonly kind: 'bad'; readonly bad: BadItem };

/** What is said of a list besides its rows: a column that is not read, or what to ask before the list is believed. */
export interface Remark {
  readonly kind: 'not read' | 'to ask';
  readonly text: string;
}

/** What a job list holds, in its order. */
export interface JobList {
  readonly rows: readonly ListRow[];
  readonly items: readonly ListItem[];
  readonly bad: readonly BadItem[];
  readonly remarks: readonly Remark[];
}

/** What a row is called in messages, tables and charts. */
export const nameOf = ({ mark, row }: { readonly mark: string; readonly row: number }): string => mark || `row ${row}`;

/** A piece of a row: its name, with its number where there are several. */
export const pieceName = (item: ListItem, piece: number): string =>
  item.quantity === 1 ? nameOf(item) : `${nameOf(item)}, ${piece + 1} of ${item.quantity}`;

/** Rods as they lie in the crate: coupled ones are the same. */
export const crateName = ({ rod }: Sized): string => rodName(rod.rod, rod.length, false);

/** What the list takes in each world of the draws, and by its plans; SI. */
export interface JobNeeds {
  /** Rods by name, in the order of the list. */
  readonly rods: ReadonlyMap<string, Need>;
  readonly allRods: Need;
  readonly oxygen: Need;
  /** From set-up to clean-up, cooling included. */
  readonly crewTime: Need;
  /** The same without cooling. */
  readonly workTime: Need;
  readonly lightings: Need;
  /** Pieces that take guide and shield plates. */
  readonly plated: number;
  /** Number of worlds. */
  readonly count: number;
  /** Low (P10) and high (P90). */
  readonly ends: Readonly<Record<'rods' | 'oxygen' | 'crew', Ends>>;
}

/** Low (P10) and high (P90), as near as the number of draws brings them. */
export type Ends = readonly [low: Percentile, high: Percentile];
export const endsOf = (draws: Float64Array, whole = false): Ends => percentilesWithin(draws, [0.1, 0.9], whole) as Ends;

/** A need in each world, and by the plans. */
export interface Need {
  readonly draws: Float64Array;
  readonly plain: number;
}

const piecesOf = (items: readonly ListItem[]): number => items.reduce((sum, { quantity }) => sum + quantity, 0);

/** Draws of all pieces together at the most. */
const MOST_OF_ALL = 2 ** 20;

/** Low (P10) and high (P90) of what several pieces take together. */
export type JobSpread = Spread;

class Total implements Need {
  readonly draws: Float64Array;
  plain = 0;

  constructor(count: number) {
    this.draws = new Float64Array(count);
  }

  add(plain: number, draws: Float64Array): void {
    this.plain += plain;
    for (let i = 0; i < draws.length; i++) this.draws[i] = this.draws[i]! + draws[i]!;
  }
}

/**
 * A job list evaluated once, for all that is asked of it: what one function says of a job, every other says too. What is asked
 * for is worked out at its first use.
 */
export class Job {
  private readonly kept = new Map<string, unknown>();

  /** @param most draws at the most: the more pieces, the longer each takes */
  constructor(
    readonly list: JobList,
    readonly basis: Basis,
    readonly most = MOST_OF_ALL / piecesOf(list.items),
  ) {}

  /** Something worked out for this job, kept. The key names all that it depends on besides the list and the assumptions. */
  once<T>(key: string, make: () => T): T {
    if (!this.kept.has(key)) this.kept.set(key, make());
    return this.kept.get(key) as T;
  }

  get items(): readonly ListItem[] {
    return this.list.items;
  }

  get pieces(): number {
    return piecesOf(this.items);
  }

  /** What the regulator delivers to the most demanding item. */
  get delivery(): Delivery {
    return this.once('delivery', () => sharedDelivery(this.items.map(supplied), this.basis));
  }

  /** Where the cylinders stand after each item, in the order of the list; the reason where none can be drawn. */
  get cylinders(): readonly CylindersSoFar[] | CalcError {
    return this.once('cylinders', () => {
      try {
        return cylindersOpened(this.items.map(supplied), this.basis);
      } catch (e) {
        if (e instanceof CalcError) return e;
        throw e;
      }
    });
  }

  /** Oxygen that one cylinder serves by the plan [kg]. */
  get content(): number {
    return drawableContent(this.basis, this.delivery);
  }

  /** Low and high of each row by itself, all its pieces together. */
  spread(item: ListItem): JobSpread {
    return this.once(`spread ${item.row}`, () => {
      if (item.quantity === 1) return spreadItem(item.sized, item.basis);
      return new Job({ ...this.list, items: [item] }, item.basis, this.most).total;
    });
  }

  /** Low and high of the whole list. */
  get total(): JobSpread {
    const { rods, oxygen, crew } = this.needs.ends;
    return {
      lowOxygen: oxygen[0].value,
      highOxygen: oxygen[1].value,
      lowRods: wholeTowards(rods[0].value, 0.1),
      highRods: wholeTowards(rods[1].value, 0.9),
      lowCrewTime: crew[0].value,
      highCrewTime: crew[1].value,
    };
  }

  /**
   * What all pieces take in each world: they share crew, gas and rods, and each has its own scatter. Worlds are added until low and
   * high are close enough; a single piece has those of its own plan.
   */
  get needs(): JobNeeds {
    return drawnClosely(
      (count) => this.needsIn(count),
      ({ ends: { rods, oxygen, crew } }) => [...rods, ...oxygen, ...crew],
      this.pieces > 1 ? this.most : DRAWS,
    );
  }

  /** The needs in so many worlds. */
  needsIn(count: number): JobNeeds {
    return this.once(`needs ${count}`, () => this.drawn(count));
  }

  /** The needs, with low and high of each row: what all pieces of an item have in common is then drawn once for both. */
  drawRows(): void {
    this.once(`needs ${DRAWS}`, () => this.drawn(DRAWS, (item) => this.spread(item)));
  }

  private drawn(count: number, besides?: (item: ListItem) => void): JobNeeds {
    const rods = new Map<string, Total>();
    const total = (): Total => new Total(count);
    const [allRods, oxygen, crewTime, workTime, lightings] = [total(), total(), total(), total(), total()];
    let piece = 0;
    let plated = 0;
    for (const item of this.items) {
      const { sized, quantity, basis } = item;
      besides?.(item);
      const name = crateName(sized);
      const line = rods.get(name) ?? total();
      rods.set(name, line);
      if (sized.operation.crewTimes.includes('plate time')) plated += quantity;
      for (let n = 0; n < quantity; n++) {
        const each = drawItem(sized, count, basis, ownScatter(piece++, count, basis));
        line.add(sized.rods, each.rods);
        allRods.add(sized.rods, each.rods);
        oxygen.add(sized.oxygen, each.oxygen);
        crewTime.add(sized.crewTime, each.crewTime);
        workTime.add(sized.workTime, each.workTime);
        lightings.add(sized.lightings, each.lightings);
      }
    }
    const ends = { rods: endsOf(allRods.draws, true), oxygen: endsOf(oxygen.draws), crew: endsOf(crewTime.draws) };
    return { rods, allRods, oxygen, crewTime, workTime, lightings, plated, count, ends };
  }
}

/** What a row asks of the supply, all its pieces together. */
function supplied({ sized, quantity, basis }: ListItem): SuppliedItem {
  const { oxygen, flow } = sized;
  return { oxygen: quantity * oxygen, flow, setting: settingOf(sized, basis) };
}

function settingOf(sized: Sized, basis: Basis): number | undefined {
  try {
    return itemSetting(sized, basis).gauge;
  } catch (e) {
    if (e instanceof CalcError) return undefined;
    throw e;
  }
}

/** How far low and high may be off for the number of draws, in words: of themselves, or as they are counted; '' where one is without end, or nothing. */
export function endsOff([low, high]: Ends, counted = false): string {
  const off = ({ value, within }: Percentile): string =>
    counted ? shown(within, 2) : `${shown(100 * (within / value), 2)}%`;
  return low.value > 0 && high.within < Infinity ? lowAndHighOff(off(low), off(high)) : '';
}
