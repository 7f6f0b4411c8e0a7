import type { Basis } from '../basis.ts';
import type { Material } from '../burn/materials.ts';
import { RODS, rodMassPerLength, rodName, rodNames, type Rod, type RodChoice } from '../burn/rods.ts';
import type { CalcError } from '../errors.ts';
import * as messages from '../messages.ts';
import { showQuantity } from '../units/show-quantity.ts';
import type { Opening } from './operation.ts';
import { pricesOf, showCost } from './price-words.ts';
import { passing, stubOf, widthMade, type FittedRod } from './rod-fit.ts';
import { siteHandling, underWater } from './site.ts';
import {
  flowsOf,
  unreachable,
  waysOf,
  type Candidate,
  type Cheapest,
  type Fed,
  type FedLength,
  type Flows,
  type RodLength,
  type Task,
  type Way,
} from './ways.ts';

/**
 * The rods a picker looks at: short ones, and long burning bars where the work is concrete or rock. Where the work is
 * grounded or under water a short rod must be insulated, and nowhere else is it.
 */
export function considered(material: Material, { a, reading }: Basis): readonly Rod[] {
  const known = reading('rods considered', () => new Map<Material, readonly Rod[]>());
  let rods = known.get(material);
  if (!rods) {
    const covered = a.word('work grounded') === 'yes' || underWater(a);
    rods = RODS.filter((r) => (r.kind === 'bar' ? material.kind === 'masonry' : r.insulated === covered));
    known.set(material, rods);
  }
  return rods;
}

/** Length that the access lets in [m]. */
const accessOf = (rod: Rod, clear: number | undefined, { a }: Basis): number => clear ?? a.value(rodNames(rod).access);
const letIn = (rod: Rod, clear: number | undefined, basis: Basis): readonly number[] =>
  rod.lengths.filter((l) => l <= accessOf(rod, clear, basis) * (1 + 1e-9));

export const highest = ({ flow, widenFlow }: Flows): number => Math.max(flow, widenFlow ?? 0);

/** The lengths of some rods that the access lets in and that are longer than their stub; of one list of rods they are kept. */
function lengthsOf(rods: readonly Rod[], clear: number | undefined, basis: Basis): readonly RodLength[] {
  const made = (): readonly RodLength[] =>
    rods.flatMap((rod) =>
      letIn(rod, clear, basis)
        .filter((length) => length > stubOf(rod, basis))
        .map((length) => ({ rod, length })),
    );
  if (clear !== undefined) return made();
  const known = basis.reading('lengths of rods', () => new Map<readonly Rod[], readonly RodLength[]>());
  let lengths = known.get(rods);
  if (!lengths) known.set(rods, (lengths = made()));
  return lengths;
}

/** Those of them that the supply feeds, with their flow. */
function fedRods(
  rods: readonly Rod[],
  pressures: Pick<Task, 'pressure' | 'widenPressure'>,
  clear: number | undefined,
  basis: Basis,
): readonly FedLength[] {
  const most = mostFed(basis);
  return lengthsOf(rods, clear, basis)
    .map((length): FedLength => ({ ...length, ...flowsOf(length, pressures, basis) }))
    .filter((each) => highest(each) <= most);
}

/** Highest flow before the flow factor that the supply feeds [kg/s]. */
export const mostFed = ({ a }: Basis): number => (a.value('supply flow') * (1 + 1e-9)) / a.value('flow factor');

/** Why no rod fits, of all and of those that pass the opening. */
function noneFits(
  all: readonly Rod[],
  passing: readonly Rod[],
  opening: Opening | undefined,
  pressures: Pick<Task, 'pressure' | 'widenPressure'>,
  clear: number | undefined,
  basis: Basis,
): CalcError {
  const { a } = basis;
  const shown = (x: number, quantity: 'length' | 'flow' = 'length'): string => showQuantity(x, quantity, a.system);
  const [thinnest] = all;
  if (passing.length === 0 && opening && thinnest)
    return messages.noRodFits(
      opening.name,
      shown(opening.width),
      thinnest.name,
      opening.does ?? 'pierces',
      shown(widthMade(thinnest, opening, basis)),
    );
  const lengths = passing.flatMap((rod) => letIn(rod, clear, basis).map((length) => ({ rod, length })));
  if (lengths.length === 0) {
    return messages.noRodForAccess(
      shown(Math.max(...passing.map((rod) => accessOf(rod, clear, basis)))),
      shown(Math.min(...passing.flatMap((r) => r.lengths))),
    );
  }
  const usable = lengths.filter(({ rod, length }) => length > stubOf(rod, basis));
  if (usable.length === 0) {
    const longest = lengths.reduce((x, y) => (y.length > x.length ? y : x));
    return messages.stubTooLong(shown(stubOf(longest.rod, basis)), shown(longest.length));
  }
  const least = usable
    .map((each) => ({ rod: each.rod, flow: a.value('flow factor') * highest(flowsOf(each, pressures, basis)) }))
    .reduce((x, y) => (y.flow < x.flow ? y : x));
  return messages.noRodFed(least.rod.name, shown(least.flow, 'flow'), shown(a.value('supply flow'), 'flow'));
}

/** What a rod of an item is picked from. */
interface Asked {
  /** Whether coupled ones were asked for, and whether others may be coupled where that costs less. */
  readonly coupled: boolean;
  readonly mayCouple: boolean;
  readonly clear: number | undefined;
  readonly opening: Opening | undefined;
  readonly all: readonly Rod[];
  /** Those of them that make no more than the opening. */
  readonly passing: readonly Rod[];
}

function askedOf(
  { operation, planned, material }: Task,
  choice: RodChoice | undefined,
  basis: Basis,
  clear?: number,
): Asked {
  const wanted = basis.a.word('coupled rods');
  const coupled = (choice?.coupled ?? false) || wanted === 'yes';
  const opening = operation.opening(planned);
  const all = choice ? alone(choice.rod, basis) : considered(material, basis);
  const passing = choice ? all : passingOf(all, opening, basis);
  return { coupled, mayCouple: !coupled && wanted !== 'no', clear, opening, all, passing };
}

/** The rods that fit one item, in the register's order, single ones first. */
function candidatesFor(
  task: Task,
  { coupled, mayCouple, clear, opening, all, passing }: Asked,
  basis: Basis,
): { readonly candidates: readonly Candidate[]; readonly singles: number } {
  const { pressure, widenPressure } = task;
  const fed =
    clear === undefined
      ? basis.once(`rods fed ${passing.map((r) => r.name).join()} ${pressure} ${widenPressure}`, () =>
          fedRods(passing, task, clear, basis),
        )
      : fedRods(passing, task, clear, basis);
  if (fed.length === 0) throw noneFits(all, passing, opening, task, clear, basis);
  const candidates = rated(task, fed, coupled, basis);
  const singles = candidates.length;
  if (singles === 0) candidates.push(...rated(task, fed, true, basis));
  else if (mayCouple) {
    const worth = worthCoupling(candidates, fed, basis);
    if (worth.length > 0) candidates.push(...rated(task, worth, true, basis));
  }
  if (candidates.length === 0) {
    const { rod, length } = fed.reduce((x, y) => (y.length > x.length ? y : x));
    throw unreachable(task, { rod, length, coupled: true, reason: '' }, basis);
  }
  return { candidates, singles };
}

/** The list of one rod, always the same. */
function alone(rod: Rod, { reading }: Basis): readonly Rod[] {
  const known = reading('rods alone', () => new Map<Rod, readonly Rod[]>());
  let list = known.get(rod);
  if (!list) known.set(rod, (list = [rod]));
  return list;
}

/** The rods that make no more than the opening; the same list where the same ones do. */
function passingOf(all: readonly Rod[], opening: Opening | undefined, basis: Basis): readonly Rod[] {
  if (!opening) return all;
  const known = basis.reading('rods passing', () => new Map<readonly Rod[], Map<number, readonly Rod[]>>());
  let lists = known.get(all);
  if (!lists) known.set(all, (lists = new Map<number, readonly Rod[]>()));
  let which = 0;
  const does = passing(opening, basis);
  for (const rod of all) which = 2 * which + Number(does(rod));
  let list = lists.get(which);
  if (!list) lists.set(which, (list = all.filter(does)));
  return list;
}

/** What some lengths of rods would take, of those that reach. */
function rated(task: Task, fed: readonly FedLength[], coupled: boolean, basis: Basis): Candidate[] {
  const rods = fed.map(({ rod, length, flow, widenFlow }): Fed => ({
    rod: { rod, length, coupled, reason: '' },
    flow,
    widenFlow,
  }));
  const found: Candidate[] = [];
  for (const [i, ways] of waysOf(task, rods, basis).entries())
    if (ways.length > 0) found.push({ rod: rods[i]!.rod, cost: ways[0]!.cost, ways: ways as Candidate['ways'] });
  return found;
}

/** Those that could pay if they were coupled; the single ones stand in the order of the lengths that they are of. */
function worthCoupling(single: readonly Candidate[], fed: readonly FedLength[], basis: Basis): readonly FedLength[] {
  const worth: FedLength[] = [];
  let k = 0;
  for (const each of fed) {
    const candidate = single[k];
    if (candidate?.rod.rod !== each.rod || candidate.rod.length !== each.length) continue;
    k++;
    for (const way of candidate.ways) {
      if (!couldPay(way, each, couplingOf(each.rod, basis))) continue;
      worth.push(each);
      break;
    }
  }
  return worth;
}

/** Costs that are equal to the last bits count as equal: the order of the register decides. */
export const dearer = (x: Cost, y: Cost): number => (Math.abs(x.cost - y.cost) <= 1e-9 * x.cost ? 0 : x.cost - y.cost);
type Cost = Pick<Candidate, 'cost'>;

const withReason = ({ rod, cost, ways }: Candidate, reason: string): Candidate => ({
  rod: { ...rod, reason },
  cost,
  ways,
});

/**
 * The rods that fit one item, the one whose work costs least first; of equals the shorter and thinner.
 *
 * A rod fits where what it makes is no wider than the opening, it is no longer than the access, its flow is no
 * more than the supply's, and it reaches the far end with its stub. Rods are coupled where that costs less or no single rod
 * reaches, unless `choice` or the assumption `coupled rods` says otherwise.
 * `choice` names the rod and leaves the length open; `clear` [m] replaces the assumptions' clear length.
 */
export function rankRods(
  task: Task,
  choice: RodChoice | undefined,
  basis: Basis,
  clear?: number,
): readonly [Candidate, ...Candidate[]] {
  const asked = askedOf(task, choice, basis, clear);
  const { candidates, singles } = candidatesFor(task, asked, basis);
  const [best, ...rest] = [...candidates].sort(dearer) as [Candidate, ...Candidate[]];
  const found = { best, next: rest[0], fitting: candidates.length, singles };
  return [withReason(best, pickReason(found, asked, basis)), ...rest];
}

/** The first of `rankRods`, which all others need not be put in order for. */
function cheapest(task: Task, choice: RodChoice | undefined, basis: Basis): Candidate {
  const asked = askedOf(task, choice, basis);
  const found =
    task.listed?.cheapest(lengthsOf(asked.passing, undefined, basis), asked) ?? cheapestOf(task, asked, basis);
  return withReason(found.best, pickReason(found, asked, basis));
}

function cheapestOf(task: Task, asked: Asked, basis: Basis): Cheapest {
  const { candidates, singles } = candidatesFor(task, asked, basis);
  let [best] = candidates as readonly [Candidate, ...Candidate[]];
  let next: Candidate | undefined;
  for (const each of candidates) {
    if (each === best) continue;
    if (dearer(best, each) > 0) [best, next] = [each, best];
    else if (!next || dearer(next, each) > 0) next = each;
  }
  return { best, next, fitting: candidates.length, singles };
}

/**
 * The rod for one item: the one named, or the one that fits and whose work costs least (`rankRods`), with its ways. A rod named without a length gets
 * one the same way.
 */
export function pickRod(
  task: Task,
  choice: RodChoice | undefined,
  basis: Basis,
): { readonly rod: FittedRod; readonly ways: readonly Way[] | undefined } {
  const { a } = basis;
  if (choice?.length === undefined) return cheapest(task, choice, basis);
  const stub = stubOf(choice.rod, basis);
  if (!(choice.length > stub))
    throw messages.stubTooLong(showQuantity(stub, 'length', a.system), showQuantity(choice.length, 'length', a.system));
  const coupled = choice.coupled || a.word('coupled rods') === 'yes';
  return { rod: { rod: choice.rod, length: choice.length, coupled, reason: '' }, ways: undefined };
}

/** What coupling a rod spares and takes. */
export interface Coupling {
  /** Of a metre of rod. */
  readonly price: number;
  /** For each rod less: crew, and oxygen for each flow [kg/s]. */
  readonly saved: number;
  readonly lit: number;
  /** For each coupling. */
  readonly joint: number;
  readonly stub: number;
}

export function couplingOf(rod: Rod, basis: Basis): Coupling {
  const known = basis.reading('coupling of rods', () => new Map<Rod, Coupling>());
  let coupling = known.get(rod);
  if (!coupling) {
    const { a } = basis;
    const crew = a.value('crew price') * siteHandling(a);
    coupling = {
      price: a.value(rodNames(rod).price) * rodMassPerLength(rod),
      saved: crew * a.value('rod change time'),
      joint: a.value('string rods') > 0 ? 0 : crew * a.value('coupling time') + a.value('coupling price'),
      lit: a.value('oxygen price') * a.value('flow factor') * a.value('lighting time'),
      stub: stubOf(rod, basis),
    };
    known.set(rod, coupling);
  }
  return coupling;
}

/**
 * Whether coupling could pay: the rods that it saves at most against the couplings that it takes at least. It only spares the
 * others from being worked out; what is worked out decides.
 */
export function couldPay(
  { used, consumed }: Pick<Way, 'used' | 'consumed'>,
  { length, flow }: Pick<FedLength, 'length' | 'flow'>,
  { price, saved, joint, lit, stub }: Coupling,
): boolean {
  const strung = (consumed + stub) / length;
  return (used - strung) * (price * length + saved + lit * flow) > (strung - 1) * joint;
}

/** What a reason says of a rod whatever the item: a list has it many times. */
interface RodWords {
  readonly opening: string | undefined;
  readonly does: string;
  readonly clear: number | undefined;
  /** Before the width of the opening, before the number of rods, and before and after the costs. */
  readonly parts: readonly [string, string, string, string];
}

function wordsOf(rod: Rod, { clear, opening, all, passing }: Asked, basis: Basis): RodWords['parts'] {
  const of = basis.reading('words of rods', () => new Map<readonly Rod[], Map<Rod, RodWords>>());
  let known = of.get(passing);
  if (!known) of.set(passing, (known = new Map<Rod, RodWords>()));
  const words = known.get(rod);
  const { name, does = 'pierces' } = opening ?? {};
  if (words && words.opening === name && words.does === does && words.clear === clear) return words.parts;
  const { a } = basis;
  const shown = (x: number): string => showQuantity(x, 'length', a.system);
  const wider = opening && all.find((r) => r.kind === rod.kind && !passing.includes(r));
  const parts = [
    opening ? `it ${does} ${shown(widthMade(rod, opening, basis))} wide, within the ${name} of ` : '',
    `${opening ? '; ' : ''}${wider ? `${wider.name} would make it ${shown(widthMade(wider, opening, basis))}; ` : ''}its work costs least of `,
    ` that fit an access of ${shown(accessOf(rod, clear, basis))}`,
    ` (${pricesOf(rod, a)})`,
  ] as const;
  known.set(rod, { opening: name, does, clear, parts });
  return parts;
}

/** Why a rod was picked, in words. */
function pickReason({ best, next, fitting, singles }: Cheapest, asked: Asked, basis: Basis): string {
  const { a } = basis;
  const { rod, coupled } = best.rod;
  const [within, least, access, prices] = wordsOf(rod, asked, basis);
  const { opening } = asked;
  const width = opening ? showQuantity(opening.width, 'length', a.system) : '';
  const against = next
    ? `: ${showCost(best.cost)}, against ${showCost(next.cost)} with ${rodName(next.rod.rod, next.rod.length, next.rod.coupled)}`
    : '';
  const why =
    coupled && !asked.coupled ? `; coupled, ${singles === 0 ? 'since no single rod reaches' : 'which costs less'}` : '';
  const covered = rod.insulated
    ? `; insulated, since the work is ${a.word('work grounded') === 'yes' ? 'grounded' : 'under water'}`
    : '';
  return `${within}${width}${least}${fitting}${access}${against}${prices}${why}${covered}`;
}
