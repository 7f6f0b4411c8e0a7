import type { Basis } from '../basis.ts';
import type { Material } from '../burn/materials.ts';
import { rodMassPerLength, type Rod } from '../burn/rods.ts';
import { CalcError } from '../errors.ts';
import { Evaluation, valueAt, type Column } from '../model/evaluation.ts';
import { LatticePlaces, SmoothLattice } from '../model/smooth-lattice.ts';
import { fillRodsSaved } from './pierce-lattice.ts';
import { itemSetting } from './item-supply.ts';
import { planningList } from './item-steps.ts';
import type { Operation, Planned, Sizes } from './operation.ts';
import { couldPay, couplingOf, dearer, highest, mostFed, type Coupling } from './pick-rod.ts';
import { farthest, type FittedRod } from './rod-fit.ts';
import { ramEvaluation, withDefaults } from './sized.ts';
import {
  flowOf,
  givenOf,
  methodsOf,
  waysAt,
  type Candidate,
  type Cheapest,
  type FedLength,
  type Listed,
  type RodLength,
  type Way,
  type WayColumns,
} from './ways.ts';

/** Step in the logarithm of the pressure at which flows and settings are solved. */
const PRESSURE_STEP = 1 / 64;

type Columns = Readonly<Record<string, Float64Array>>;

/** A way of one item, read from columns when it is asked for: of most ways it is the cost alone. Turned to one item after the other. */
class ListedWay implements Way {
  /** For each item; Infinity where the rod does not get so far. */
  readonly costs: Float64Array;
  private i = 0;

  constructor(
    private readonly of: WayColumns,
    count: number,
    farthest: number,
  ) {
    this.costs = new Float64Array(count);
    for (let i = 0; i < count; i++)
      this.costs[i] = farthest > valueAt(of.reach, i) * (1 + 1e-9) ? valueAt(of.cost, i) : Infinity;
  }

  turnTo(i: number): this {
    this.i = i;
    return this;
  }

  get method() {
    return this.of.method;
  }
  get time() {
    return valueAt(this.of.time, this.i);
  }
  get cost() {
    return this.costs[this.i]!;
  }
  get rods() {
    return valueAt(this.of.rods, this.i);
  }
  get used() {
    return valueAt(this.of.used, this.i);
  }
  get consumed() {
    return valueAt(this.of.consumed, this.i);
  }
  get oxygen() {
    return valueAt(this.of.oxygen, this.i);
  }
  get burnTime() {
    return valueAt(this.of.burnTime, this.i);
  }
  get lightings() {
    return valueAt(this.of.lightings, this.i);
  }
  get removed() {
    return valueAt(this.of.removed, this.i);
  }
  get slagged() {
    return this.of.slagged(this.i);
  }
  get reach() {
    return valueAt(this.of.reach, this.i);
  }
  get fixedTime() {
    return valueAt(this.of.fixedTime, this.i);
  }
}

/** A rod of one length, single or coupled, for all items; turned to one of them. */
class ListedCandidate implements Candidate {
  /** Of the cheapest way for each item; Infinity where none gets so far. */
  private readonly costs: Float64Array;
  private i = 0;

  constructor(
    readonly rod: FittedRod,
    private readonly all: readonly ListedWay[],
  ) {
    const [first, ...others] = all as readonly [ListedWay, ...ListedWay[]];
    this.costs =
      others.length === 0
        ? first.costs
        : first.costs.map((cost, i) => others.reduce((least, way) => Math.min(least, way.costs[i]!), cost));
  }

  turnTo(i: number): this {
    this.i = i;
    return this;
  }

  get cost(): number {
    return solved(this.costs[this.i]!);
  }

  /** Those that get so far, the cheapest first. */
  get ways(): Candidate['ways'] {
    const ways = this.all.map((way) => way.turnTo(this.i)).filter(({ cost }) => cost < Infinity);
    return ways.sort((x, y) => x.cost - y.cost) as readonly Way[] as Candidate['ways'];
  }

  /** Whether coupling it could pay. */
  pays(fed: FedLength, coupling: Coupling): boolean {
    for (const way of this.all) {
      if (way.turnTo(this.i).cost < Infinity && couldPay(way, fed, coupling)) return true;
    }
    return false;
  }
}

/** A rod of one length for all items; its flows are those of one of them. */
class RodColumns implements FedLength {
  readonly rod: Rod;
  readonly length: number;
  /** Its ways, single and coupled, where they were asked for. */
  readonly candidates: (ListedCandidate | undefined)[] = [];
  /** What burning takes by each way, single or coupled: it is worked out for whichever is asked for first. */
  readonly burning = new Map<string | undefined, Readonly<Record<string, Column>>>();
  readonly coupling: Coupling;
  settings: SmoothLattice | undefined;
  /** Whether the supply feeds it for every item, and for the one that was asked for. */
  readonly alwaysFed: boolean;
  fed = false;
  private i = 0;

  constructor(
    fitted: RodLength,
    readonly flows: Float64Array,
    readonly widenFlows: Float64Array | undefined,
    basis: Basis,
  ) {
    this.rod = fitted.rod;
    this.length = fitted.length;
    this.coupling = couplingOf(fitted.rod, basis);
    const most = mostFed(basis);
    this.alwaysFed = flows.every((flow) => flow <= most) && (widenFlows?.every((flow) => flow <= most) ?? true);
  }

  turnTo(i: number): this {
    this.i = i;
    return this;
  }

  get flow(): number {
    return solved(this.flows[this.i]!);
  }

  get widenFlow(): number | undefined {
    return this.widenFlows && solved(this.widenFlows[this.i]!);
  }
}

/** What is picked from, as far as it was looked at. */
type Found = { -readonly [K in keyof Cheapest]: Cheapest[K] | undefined } & { fitting: number; singles: number };

function offer(found: Found, candidate: ListedCandidate): void {
  if (!(candidate.cost < Infinity)) return;
  const { best, next } = found;
  found.fitting++;
  if (!best) found.best = candidate;
  else if (dearer(best, candidate) > 0) [found.best, found.next] = [candidate, best];
  else if (!next || dearer(next, candidate) > 0) found.next = candidate;
}

/** An item that columns do not hold: it is worked out by itself, which says what is wrong with it, if anything is. */
export class NotListed extends Error {}

/**
 * Items of a long list that differ in their sizes only, worked out together: each step is evaluated for all of them at once, what is
 * solved from a pressure is solved on a lattice of pressures (`SmoothLattice`) and read between its points. What is picked, and what is
 * said of it, is decided item by item as ever: `sized` reads what it needs from here.
 *
 * All sizes that are given must be given of every item.
 */
export class ItemColumns implements Listed {
  /** Sizes that are not left to the plan. */
  readonly names: readonly string[];
  private readonly given: Columns;
  private readonly plan: Columns;
  private readonly pressures: Float64Array;
  private readonly widenPressures: Float64Array | undefined;
  private readonly rods = new Map<Rod, RodColumns[]>();
  private readonly lengths = new Map<readonly RodLength[], readonly RodColumns[]>();
  private readonly most: number;
  private readonly places: LatticePlaces;
  private readonly widenPlaces: LatticePlaces | undefined;
  private rams: Float64Array | undefined;
  /** The item that is asked for, and its sizes that are given. */
  private at = 0;
  private readonly sizes: Record<string, number> = {};

  constructor(
    private readonly operation: Operation,
    readonly material: Material,
    sizes: readonly Sizes[],
    private readonly basis: Basis,
  ) {
    const { order, plans } = operation;
    const first = withDefaults(operation, sizes[0] ?? {});
    this.names = order.filter((name) => first[name] !== undefined);
    const column = (name: string): Float64Array => {
      const values = new Float64Array(sizes.length);
      const otherwise = operation.sizes[name]!.default ?? NaN;
      for (let i = 0; i < values.length; i++) values[i] = sizes[i]![name] ?? otherwise;
      return values;
    };
    this.given = Object.fromEntries(this.names.map((name) => [name, column(name)]));
    if (order.some((name) => first[name] === undefined && !plans?.[name])) throw new NotListed();
    const symbol = (name: string): string => operation.sizes[name]!.symbol;
    const at = new Evaluation(planningList(operation, this.names, basis.a), {}, basis.a)
      .over(this.names.map(symbol))
      .give(this.names.map((name) => this.given[name]!));
    const read = (step: string): Float64Array => columnOf(at, step, sizes.length);
    this.plan = Object.fromEntries(order.map((name) => [name, read(symbol(name))]));
    this.pressures = read('p');
    this.widenPressures = operation.widening && read('p_widen');
    this.places = new LatticePlaces(PRESSURE_STEP, this.pressures);
    this.widenPlaces = this.widenPressures && new LatticePlaces(PRESSURE_STEP, this.widenPressures);
    this.most = mostFed(basis);
  }

  /** Turns to one item. */
  turnTo(i: number): this {
    const { operation, basis, sizes } = this;
    this.at = i;
    for (const name of this.names) sizes[name] = this.given[name]![i]!;
    operation.check?.(sizes, basis.a);
    return this;
  }

  get planned(): Planned {
    const planned: Record<string, number> = {};
    for (const name in this.plan) planned[name] = solved(this.plan[name]![this.at]!);
    return planned;
  }

  get pressure(): number {
    return solved(this.pressures[this.at]!);
  }

  get widenPressure(): number | undefined {
    return this.widenPressures && solved(this.widenPressures[this.at]!);
  }

  fed(rod: RodLength): FedLength {
    return this.columnsOf(rod).turnTo(this.at);
  }

  cheapest(of: readonly RodLength[], { coupled, mayCouple }: { coupled: boolean; mayCouple: boolean }): Cheapest {
    let lengths = this.lengths.get(of);
    if (!lengths) this.lengths.set(of, (lengths = of.map((each) => this.columnsOf(each))));
    const found: Found = { best: undefined, next: undefined, fitting: 0, singles: 0 };
    for (const each of lengths) {
      each.turnTo(this.at);
      each.fed = each.alwaysFed || highest(each) <= this.most;
      if (each.fed) offer(found, this.candidateOf(each, coupled));
    }
    found.singles = found.fitting;
    if (mayCouple || found.singles === 0)
      for (const each of lengths)
        if (each.fed && (found.singles === 0 || this.candidateOf(each, false).pays(each, each.coupling)))
          offer(found, this.candidateOf(each, true));
    if (!found.best) throw new NotListed();
    return found as Cheapest;
  }

  ways(rod: FittedRod): readonly Way[] {
    return this.candidateOf(this.columnsOf(rod), rod.coupled).ways;
  }

  /** Regulator setting for the item with a rod [Pa]; NaN where the hose cannot feed it, or nearly so. */
  setting(rod: RodLength): number {
    const columns = this.columnsOf(rod);
    columns.settings ??= settingsAt(columns.rod, columns.length, this.basis);
    return columns.settings.at(this.pressures[this.at]!);
  }

  get ram(): number | undefined {
    const { operation, basis } = this;
    if (!operation.ram) return undefined;
    this.rams ??= columnOf(
      ramEvaluation(operation, basis).give(operation.order.map((name) => this.plan[name]!)),
      'R_ram',
      this.pressures.length,
    );
    const ram = this.rams[this.at]!;
    return Number.isNaN(ram) ? undefined : ram;
  }

  private columnsOf(fitted: RodLength): RodColumns {
    const { rod, length } = fitted;
    let lengths = this.rods.get(rod);
    if (!lengths) this.rods.set(rod, (lengths = []));
    for (const each of lengths) if (each.length === length) return each;
    const flow = flowsAt(rod, length, this.basis);
    const columns = new RodColumns(
      fitted,
      flow.over(this.places),
      this.widenPlaces && flow.over(this.widenPlaces),
      this.basis,
    );
    lengths.push(columns);
    return columns;
  }

  private candidateOf(columns: RodColumns, coupled: boolean): ListedCandidate {
    return (columns.candidates[Number(coupled)] ??= this.candidate(columns, coupled)).turnTo(this.at);
  }

  private candidate(columns: RodColumns, coupled: boolean): ListedCandidate {
    const { rod, length, flows: flow, widenFlows: widenFlow, burning } = columns;
    const { operation, material, basis } = this;
    const given = givenOf(
      { operation, planned: this.plan, pressure: this.pressures, widenPressure: this.widenPressures },
      { length, diameter: rod.outsideDiameter, mass: rodMassPerLength(rod), flow, widenFlow },
    );
    const ways = methodsOf(operation, basis).map((method) => {
      const known = burning.get(method);
      const own: Record<string, Column> = {};
      const way = waysAt({ operation, rod, coupled, material, method }, given, basis, (at) => {
        fillRodsSaved(at, basis);
        if (known) for (const step in known) at.fill(step, known[step]!);
        else
          for (const step of ['t_pierce', 'O_burn'])
            if (at.list.has(step)) own[step] = columnOf(at, step, this.pressures.length);
      }).columns();
      burning.set(method, known ?? { ...own, reach: way.reach, t: way.burnTime, l: way.consumed, M: way.removed });
      return way;
    });
    const fitted = { rod, length, coupled, reason: '' };
    const far = farthest(fitted, basis);
    return new ListedCandidate(
      fitted,
      ways.map((way) => new ListedWay(way, this.pressures.length, far)),
    );
  }
}

/** A step for each item, to be kept. */
function columnOf(at: Evaluation, step: string, count: number): Float64Array {
  const value = at.column(step);
  return typeof value === 'number' ? new Float64Array(count).fill(value) : value.slice();
}

function solved(x: number): number {
  if (Number.isNaN(x)) throw new NotListed();
  return x;
}

const orNaN = (solve: () => number): number => {
  try {
    return solve();
  } catch (e) {
    if (e instanceof CalcError) return NaN;
    throw e;
  }
};

/** Flow of a rod at any pressure, before the flow factor [kg/s]; within 3e-7 of `flowOf`, which is solved no closer. */
const flowsAt = (rod: Rod, length: number, basis: Basis): SmoothLattice =>
  basis.reading(
    `flows ${rod.name} ${length}`,
    () => new SmoothLattice(PRESSURE_STEP, (p) => orNaN(() => flowOf({ rod, length }, p, basis))),
  );

/** Regulator setting for a rod at any pressure [Pa]; NaN where the hose cannot feed it, or nearly so. */
const settingsAt = (rod: Rod, length: number, basis: Basis): SmoothLattice =>
  basis.reading(`settings ${rod.name} ${length}`, () => {
    const flows = flowsAt(rod, length, basis);
    const over = basis.a.value('flow factor');
    return new SmoothLattice(PRESSURE_STEP, (p) =>
      orNaN(() => itemSetting({ pressure: p, flow: over * flows.at(p) }, basis).gauge),
    );
  });
