/** The list of a job: what stands in its rows, sized, and what all of it takes together. */
import type { Basis } from '../basis.ts';
import { rodName } from '../burn/rods.ts';
import { CalcError } from '../errors.ts';
import { lowAndHighOff, shown } from '../messages.ts';
import { cylinderDraws } from '../operations/cylinder-draws.ts';
import {
  cylindersOpened,
  sharedDelivery,
  type CylindersSoFar,
  type SuppliedItem,
} from '../operations/cylinders-opened.ts';
import { drawItem } from '../operations/draw-item.ts';
import { itemSetting } from '../operations/item-supply.ts';
import { ownScatter } from '../operations/own-scatter.ts';
import type { Sized } from '../operations/sized.ts';
import { DRAWS, spreadItem, wholeTowards, type Spread } from '../operations/spread-item.ts';
import { drawableContent, type Delivery } from '../oxygen/drawable-content.ts';
import type { Condition } from '../safety/conditions.ts';
import { drawPercentiles, percentileWithin, type Percentile } from '../spread/draw-percentile.ts';

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
  /** Oxygen that one cylinder serves in each world. */
  readonly content: Float64Array;
  /** Pieces that take guide and shield plates. */
  readonly plated: number;
}

/** A need in each world, and by the plans. */
export interface Need {
  readonly draws: Float64Array;
  readonly plain: number;
}

/** Low (P10) and high (P90) of what several pieces take together. */
export type JobSpread = Spread;

class Total implements Need {
  readonly draws = new Float64Array(DRAWS);
  plain = 0;

  add(plain: number, draws: Float64Array): void {
    this.plain += plain;
    for (let i = 0; i < DRAWS; i++) this.draws[i] = this.draws[i]! + draws[i]!;
  }
}

/**
 * A job list evaluated once, for all that is asked of it: what one function says of a job, every other says too. What is asked
 * for is worked out at its first use.
 */
export class Job {
  private readonly kept = new Map<string, unknown>();

  constructor(
    readonly list: JobList,
    readonly basis: Basis,
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
    return this.items.reduce((sum, { quantity }) => sum + quantity, 0);
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
      const [oxygen, rods, crew] = [new Total(), new Total(), new Total()];
      for (let piece = 0; piece < item.quantity; piece++) {
        const each = drawItem(item.sized, DRAWS, item.basis, ownScatter(piece, DRAWS, item.basis));
        oxygen.add(0, each.oxygen);
        rods.add(0, each.rods);
        crew.add(0, each.crewTime);
      }
      return lowAndHigh(oxygen, rods, crew);
    });
  }

  /** Low and high of the whole list. */
  get total(): JobSpread {
    const { oxygen, allRods, crewTime } = this.needs;
    return this.once('total', () => lowAndHigh(oxygen, allRods, crewTime));
  }

  /**
   * What all pieces take in each world: they share crew, gas and rods, and each has its own scatter.
   */
  get needs(): JobNeeds {
    return this.once('needs', () => this.drawn());
  }

  /** The needs, with low and high of each row: what all pieces of an item have in common is then drawn once for both. */
  drawRows(): void {
    this.once('needs', () => this.drawn((item) => this.spread(item)));
  }

  private drawn(besides?: (item: ListItem) => void): JobNeeds {
    const rods = new Map<string, Total>();
    const [allRods, oxygen, crewTime, workTime, lightings] = [
      new Total(),
      new Total(),
      new Total(),
      new Total(),
      new Total(),
    ];
    let piece = 0;
    let plated = 0;
    for (const item of this.items) {
      const { sized, quantity, basis } = item;
      besides?.(item);
      const name = crateName(sized);
      const line = rods.get(name) ?? new Total();
      rods.set(name, line);
      if (sized.operation.crewTimes.includes('plate time')) plated += quantity;
      for (let n = 0; n < quantity; n++) {
        const each = drawItem(sized, DRAWS, basis, ownScatter(piece++, DRAWS, basis));
        line.add(sized.rods, each.rods);
        allRods.add(sized.rods, each.rods);
        oxygen.add(sized.oxygen, each.oxygen);
        crewTime.add(sized.crewTime, each.crewTime);
        workTime.add(sized.workTime, each.workTime);
        lightings.add(sized.lightings, each.lightings);
      }
    }
    const content = cylinderDraws(DRAWS, this.basis, this.delivery);
    return { rods, allRods, oxygen, crewTime, workTime, lightings, content, plated };
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
export function endsOff(draws: Float64Array, counted = false): string {
  const [low, high] = [0.1, 0.9].map((p) => percentileWithin(draws, p)) as [Percentile, Percentile];
  const off = ({ value, within }: Percentile): string =>
    counted ? shown(within, 2) : `${shown(100 * (within / value), 2)}%`;
  return low.value > 0 && high.within < Infinity ? lowAndHighOff(off(low), off(high)) : '';
}

function lowAndHigh(oxygen: Need, rods: Need, crew: Need): JobSpread {
  const ends = ({ draws }: Need): readonly number[] => drawPercentiles(draws, [0.1, 0.9]);
  const [lowOxygen = NaN, highOxygen = NaN] = ends(oxygen);
  const [lowRods = NaN, highRods = NaN] = ends(rods);
  const [lowCrewTime = NaN, highCrewTime = NaN] = ends(crew);
  return {
    lowOxygen,
    highOxygen,
    lowRods: wholeTowards(lowRods, 0.1),
    highRods: wholeTowards(highRods, 0.9),
    lowCrewTime,
    highCrewTime,
  };
}
