import type { Assumptions } from '../assumptions/assumptions.ts';
import type { Basis } from '../basis.ts';
import type { ChoiceName } from '../assumptions/registry.ts';
import { findMaterial, type Material } from '../burn/materials.ts';
import { rodGiven } from '../burn/rod-line.ts';
import { rodMassPerLength, rodName, rodNames, type Rod, type RodChoice } from '../burn/rods.ts';
import { CalcError } from '../errors.ts';
import { isMissing } from '../messages.ts';
import { Evaluation, type Given } from '../model/evaluation.ts';
import { given, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { Working, type Said } from '../model/working.ts';
import { itemList, planningList, type ItemShape } from './item-steps.ts';
import type { Operation, Planned, Sizes } from './operation.ts';
import { considered, pickRod } from './pick-rod.ts';
import { pricesOf, showCost } from './price-words.ts';
import { checkOpening, type FittedRod } from './rod-fit.ts';
import { flowsOf, shapeKey, unreachable, waysOf, type Listed, type Task, type Way } from './ways.ts';

/** One thing to do: an operation on a piece of some size and material, with a rod where one is named. */
export interface Item<G extends string = string> {
  readonly operation: Operation<G>;
  readonly sizes: Sizes<G>;
  readonly rod?: RodChoice | undefined;
  /** That of the assumptions where left out. */
  readonly material?: Material | undefined;
  readonly basis: Basis;
  /** What columns of a long list hold for it. */
  readonly listed?: (Listed & ReturnType<typeof plannedItem>) | undefined;
}

/** What one item takes; SI. */
export interface Sized {
  readonly operation: Operation;
  readonly rod: FittedRod;
  readonly name: string;
  /** Gauge, at the holder's inlet. */
  readonly pressure: number;
  /** Mean over a rod, at that pressure. */
  readonly flow: number;
  /** The same while widening, where the operation widens what it pierced. */
  readonly widenPressure: number | undefined;
  /** Length of rod consumed, not rounded. */
  readonly consumed: number;
  readonly rods: number;
  /** Rods, not rounded. */
  readonly used: number;
  /** Times a rod is lit. */
  readonly lightings: number;
  readonly oxygen: number;
  readonly burnTime: number;
  /** From set-up to clean-up, cooling included; worked out when it is asked for, since cooling costs more than all the rest. */
  readonly crewTime: number;
  /** Cooling before the next step [s]; 0 where the operation has none. */
  readonly cooling: number;
  /** Work metal removed. */
  readonly removed: number;
  /** How deep in the work the tip gets [m]. */
  readonly reach: number;
  /** How it is done, where there are several ways, and the others, cheapest first. */
  readonly method: string | undefined;
  readonly otherWays: readonly Way[];
  /** Burning with its pauses, rod changes and tasks [s]. */
  readonly timeAtWork: number;
  /** Crew time without cooling [s]: what keeps a crew busy. */
  readonly workTime: number;
  /** Cost of the work by which its way and rod were weighed against others. */
  readonly cost: number;
  /** Whether slag holds its pierces up so much that wider ones would burn faster. */
  readonly slagged: boolean;
  readonly material: Material;
  /** Sizes with those the operation planned. */
  readonly planned: Planned;
  /** Rating of the ram that pushes the item out [N]; undefined where nothing is pushed. `#N/A` beyond the largest. */
  ram(): number | undefined;
  /** The steps of all this, one of them the result, after which there may be more, in their symbols; `shown` besides it. */
  working(result: string, besides?: Besides, shown?: readonly string[], decidedBy?: readonly string[]): Working;
  /** Steps of the ram to bring, as far as a common ram has the rating needed. */
  ramSteps(): Besides;
  /** All steps, with the ram to bring and more that is shown besides, in their symbols. */
  allSteps(besides?: Besides): Working;
}

/** More steps to show with an item's, in its symbols, and their results. */
export interface Besides {
  readonly steps: readonly Step[];
  readonly results: readonly string[];
  /** What the `given` ones among them are. */
  readonly values?: Given;
  /** In place of the item's own steps of cooling. */
  readonly cooled?: readonly Step[];
}

/** Sizes and tip pressure of an item, before there is a rod. */
export function plannedItem<G extends string>(
  operation: Operation<G>,
  sizes: Sizes<G>,
  basis: Basis,
): { readonly planned: Planned<G>; readonly pressure: number; readonly widenPressure: number | undefined } {
  const { a } = basis;
  const with_ = withDefaults(operation, sizes);
  for (const name of operation.order) if (with_[name] === undefined && !operation.plans?.[name]) throw isMissing(name);
  operation.check?.(with_, a);
  const names = operation.order.filter((name) => with_[name] !== undefined);
  const at = basis.reading(`sizes ${operation.id} ${names.join(' ')}`, () => {
    const list = basis.once(`sizes ${operation.id} ${names.join(' ')}`, () =>
      planningList(operation as Operation, names, a),
    );
    return new Evaluation(list, {}, a).over(names.map((name) => operation.sizes[name].symbol));
  });
  at.give(names.map((name) => with_[name] as number));
  const planned = Object.fromEntries(operation.order.map((name) => [name, at.number(operation.sizes[name].symbol)]));
  return {
    planned: planned as Record<G, number>,
    pressure: at.number('p'),
    widenPressure: operation.widening && at.number('p_widen'),
  };
}

export function withDefaults<G extends string>(operation: Operation<G>, sizes: Sizes<G>): Sizes<G> {
  const all: { [K in G]?: number | undefined } = {};
  for (const name of operation.order) all[name] = sizes[name] ?? operation.sizes[name].default;
  return all;
}

/**
 * Sizes one item of an operation: rod, pressure, flow, rods, oxygen, burning minutes and crew minutes.
 *
 * The work follows from the geometry and the rod; the flow from rod and tip pressure; what a kilogram of oxygen
 * removes from the heat balance; so time = metal / removal rate, with a pierce limited by slag getting out.
 * Oxygen = (flow x burning time) x (1 + idle share) + lightings x flow x lighting time, as many lightings as rods or
 * places to start at. Of several ways the one that costs least is taken. All of it is the list of steps in item-steps.ts.
 */
export function sized<G extends string>({
  operation: declared,
  sizes,
  rod: choice,
  material: named,
  basis,
  listed,
}: Item<G>): Sized {
  const { a } = basis;
  const operation = declared as Operation;
  const material = named ?? findMaterial(a.word(materialWord(operation)));
  const { planned, pressure, widenPressure } = listed ?? plannedItem(declared, sizes, basis);
  const task: Task = { operation, planned, pressure, widenPressure, material, listed };
  if (choice) checkOpening(operation.opening(planned), choice.rod, basis);
  const { rod, ways } = pickRod(task, choice, basis);
  const [way, ...otherWays] = ways ?? waysOf(task, [{ ...flowsOf(rod, task, basis), rod }], basis)[0] ?? [];
  if (!way) throw unreachable(task, rod, basis);
  return new SizedItem(task, rod, way, otherWays, { sizes, choice, named }, basis);
}

/** What was given of an item that is sized. */
interface Asked {
  readonly sizes: Sizes;
  readonly choice: RodChoice | undefined;
  /** Material that was named. */
  readonly named: Material | undefined;
}

/** A class, since lists have many: no functions are made for each. */
class SizedItem implements Sized {
  readonly operation: Operation;
  readonly name: string;
  readonly pressure: number;
  readonly flow: number;
  readonly widenPressure: number | undefined;
  readonly consumed: number;
  readonly rods: number;
  readonly used: number;
  readonly lightings: number;
  readonly oxygen: number;
  readonly burnTime: number;
  readonly removed: number;
  readonly reach: number;
  readonly method: string | undefined;
  readonly timeAtWork: number;
  readonly workTime: number;
  readonly cost: number;
  readonly slagged: boolean;
  readonly material: Material;
  readonly planned: Planned;
  private readonly fixedTime: number;
  private cooled: number | undefined;

  constructor(
    private readonly task: Task,
    readonly rod: FittedRod,
    way: Way,
    readonly otherWays: readonly Way[],
    private readonly asked: Asked,
    private readonly basis: Basis,
  ) {
    this.operation = task.operation;
    this.name = rodName(rod.rod, rod.length, rod.coupled);
    this.pressure = task.pressure;
    this.flow = basis.a.value('flow factor') * flowsOf(rod, task, basis).flow;
    this.widenPressure = task.widenPressure;
    this.consumed = way.consumed;
    this.rods = way.rods;
    this.used = way.used;
    this.lightings = way.lightings;
    this.oxygen = way.oxygen;
    this.burnTime = way.burnTime;
    this.removed = way.removed;
    this.reach = way.reach;
    this.method = way.method;
    this.timeAtWork = way.time;
    this.fixedTime = way.fixedTime;
    this.workTime = way.fixedTime + way.time;
    this.cost = way.cost;
    this.slagged = way.slagged;
    this.material = task.material;
    this.planned = task.planned;
  }

  get cooling(): number {
    const { operation, planned, removed, timeAtWork, basis } = this;
    return (this.cooled ??= operation.cooling?.time(planned, removed / timeAtWork, basis) ?? 0);
  }

  get crewTime(): number {
    return this.fixedTime + this.cooling + this.timeAtWork;
  }

  ram(): number | undefined {
    return this.task.listed?.ram ?? ramOf(this.operation, this.planned, this.basis);
  }

  ramSteps(): Besides {
    return ramSteps(this.operation, this.planned, this.basis);
  }

  working(result: string, besides?: Besides, shown?: readonly string[], decidedBy: readonly string[] = []): Working {
    const at = this.evaluated(besides);
    const words = [...new Set([...(shown ?? []), ...wordsWith(at.list, result)])];
    return new Working(at, result, words, { ...this.said(), decidedBy });
  }

  allSteps(more: Besides = { steps: [], results: [] }): Working {
    const ram = this.ramSteps();
    const all = this.evaluated({ steps: [...more.steps, ...ram.steps], results: [...more.results, ...ram.results] });
    return new Working(all, 't_crew', all.list.results, this.said());
  }

  private evaluated(besides?: Besides): Evaluation {
    const { operation, rod: fitted, name, material, method, planned, basis } = this;
    const { rod, length, coupled, reason } = fitted;
    const { choice, named } = this.asked;
    const all = withDefaults(operation, this.asked.sizes);
    const sizes = operation.order.filter((each) => all[each] !== undefined);
    const shape = { operation, sizes, rod, coupled, material, method, picked: reason !== '' };
    const list = workingList(shape, { choice, materialNamed: named !== undefined }, planned, basis, besides);
    return new Evaluation(
      list,
      {
        ...Object.fromEntries(sizes.map((each) => [operation.sizes[each]!.symbol, all[each]!])),
        ...rodGiven(rod),
        rod: name,
        L_rod: length,
        mu: rodMassPerLength(rod),
        ...(method !== undefined && { method }),
        ...besides?.values,
      },
      basis.a,
    );
  }

  private said(): Said {
    const { rod, basis } = this;
    return { words: { ...(rod.reason !== '' && { rod: rod.reason }), method: wayReason(this, rod.rod, basis.a) } };
  }
}

/** Word that names the material of an operation's work where the item does not. */
export const materialWord = ({ material }: Pick<Operation, 'material'>): ChoiceName => material ?? 'material';

/** What an item leaves to the assumptions. */
interface Open {
  readonly choice: RodChoice | undefined;
  readonly materialNamed: boolean;
}

/** The steps of an item with what decides them; those of alike items are made once. */
function workingList(
  shape: ItemShape,
  open: Open,
  planned: Planned,
  basis: Basis,
  besides: Besides = { steps: [], results: [] },
): StepList {
  const { operation, sizes, picked = false } = shape;
  const { choice, materialNamed } = open;
  const key = `${shapeKey(shape)} ${sizes.join()} ${picked} ${choice?.coupled} ${materialNamed}`;
  const decidedBy = basis.once(`decided ${key}`, () => decisions(shape, open, planned, basis));
  const make = (): StepList =>
    itemList({ ...shape, decidedBy }, basis, besides.cooled ?? operation.cooling?.steps(basis) ?? [], besides);
  return besides.steps.length === 0 && besides.cooled === undefined ? basis.once(`working ${key}`, make) : make();
}

/**
 * The assumptions that decide an item's material, way and rod. Ways and rods are picked by what their work costs, so whatever
 * this rests on decides them too, besides what lets a rod in and feeds it.
 */
function decisions(
  shape: ItemShape,
  { choice, materialNamed }: Open,
  planned: Planned,
  basis: Basis,
): NonNullable<ItemShape['decidedBy']> {
  const { a } = basis;
  const { operation, material, picked } = shape;
  const { methods } = operation;
  const byCost = (): readonly string[] =>
    (methods?.names ?? [undefined]).flatMap((method) => [
      ...itemList({ ...shape, method }, basis, operation.cooling?.steps(basis) ?? []).assumptionsOf('C_work'),
    ]);
  const ofMaterial = materialNamed ? [] : [materialWord(operation)];
  const ofMethod = methods ? [methods.choice, ...(methods.names.includes(a.word(methods.choice)) ? [] : byCost())] : [];
  const rods = considered(material, basis);
  const ofRod = picked
    ? [
        ...byCost(),
        ...(choice ? [] : rods.flatMap((rod) => Object.values(rodNames(rod)))),
        ...[...(choice ? [] : ['work grounded']), 'supply flow', operation.opening(planned)?.ratio ?? 'pierce width'],
        ...[rodNames(shape.rod).access, ...ofMaterial],
      ]
    : [];
  const joints = picked ? ['coupling price', 'coupling time', 'string rods'] : [];
  const coupling = choice?.coupled ? [] : ['coupled rods', ...joints];
  return { material: ofMaterial, method: ofMethod, rod: [...ofRod, ...coupling] };
}

/** Rating of the ram that pushes a planned item out [N]; undefined where nothing is pushed. */
function ramOf(operation: Operation, planned: Planned, basis: Basis): number | undefined {
  if (!operation.ram) return undefined;
  return ramEvaluation(operation, basis)
    .give(operation.order.map((name) => planned[name]!))
    .number('R_ram');
}

/** The steps of the ram, to be given the planned sizes. */
export function ramEvaluation(operation: Operation, basis: Basis): Evaluation {
  const { order, sizes } = operation;
  return basis.reading(`ram ${operation.id}`, () => {
    const given_ = order.map((name) => given(sizes[name]!.symbol, name, sizes[name]!.quantity));
    const list = new StepList([...given_, ...(operation.ram?.(basis.a) ?? [])], ['R_ram']);
    return new Evaluation(list, {}, basis.a).over(order.map((name) => sizes[name]!.symbol));
  });
}

/** Steps of the ram to bring; up to the rating needed where no common ram has it. */
function ramSteps(operation: Operation, planned: Planned, basis: Basis): Besides {
  const steps = operation.ram?.(basis.a) ?? [];
  if (steps.length === 0) return { steps, results: [] };
  try {
    ramOf(operation, planned, basis);
    return { steps, results: ['R_ram'] };
  } catch (e) {
    if (e instanceof CalcError) return { steps: steps.slice(0, -1), results: ['R_min'] };
    throw e;
  }
}

/** Why one way is taken of several. */
function wayReason(item: Pick<Sized, 'method' | 'cost' | 'otherWays'>, rod: Rod, a: Assumptions): string {
  const { otherWays } = item;
  if (otherWays.length === 0) return 'given';
  const costs = [item, ...otherWays].map(({ method = '', cost }) => `${method} ${showCost(cost)}`);
  return `the work costs least: ${costs.join(', ')} (${pricesOf(rod, a)})`;
}

/** Words that say what a step was worked out for: no formula takes them, so they are shown beside it. */
const WORDS = { rod: 'L_rod', material: 'k', method: 'V', cooled: 't_cool' } as const;

/** The words that belong to what a result rests on. */
function wordsWith(list: StepList, result: string): readonly string[] {
  const needed = list.neededFor([result]);
  return Object.entries(WORDS).flatMap(([word, step]) =>
    list.has(word) && list.has(step) && needed.has(list.place(step)) ? [word] : [],
  );
}
