import type { Basis } from '../basis.ts';
import type { Material } from '../burn/materials.ts';
import { RODS, rodMassPerLength, rodName, rodNames, type Rod, type RodChoice } from '../burn/rods.ts';
import type { CalcError } from '../errors.ts';
import * as messages from '../messages.ts';
import { showQuantity } from '../units/show-quantity.ts';
import type { Opening } from './operation.ts';
import { pricesOf, showCost } from './price-words.ts';
import { passes, stubOf, widthMade, type FittedRod } from './rod-fit.ts';
import { siteHandling, underWater } from './site.ts';
import {
  flowsOf,
  unreachable,
  waysOf,
  type Candidate,
  type Fed,
  type FedLength,
  type Flows,
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

/** The key of what is kept of a rod, put together once: lists of many items look it up for every rod of each. */
function keyOfRod(what: string): (rod: Rod) => string {
  const keys = new Map<Rod, string>();
  return (rod) => {
    let key = keys.get(rod);
    if (key === undefined) keys.set(rod, (key = `${what} ${rod.name}`));
    return key;
  };
}
const [lengthsOf, couplingOf] = [keyOfRod('lengths'), keyOfRod('coupling')];

const highest = ({ flow, widenFlow }: Flows): number => Math.max(flow, widenFlow ?? 0);

/** The lengths of some rods that the access lets in, that are longer than their stub and that the supply feeds, with their flow. */
function fedRods(
  rods: readonly Rod[],
  pressures: Pick<Task, 'pressure' | 'widenPressure' | 'listed'>,
  clear: number | undefined,
  basis: Basis,
): readonly FedLength[] {
  const [supply, over] = [basis.a.value('supply flow'), basis.a.value('flow factor')];
  const { listed } = pressures;
  const fed: FedLength[] = [];
  for (const rod of rods) {
    const lengths = basis.once(clear === undefined ? lengthsOf(rod) : `lengths ${rod.name} ${clear}`, () =>
      letIn(rod, clear, basis).filter((length) => length > stubOf(rod, basis)),
    );
    for (const length of lengths) {
      const each = listed?.fed(rod, length) ?? { rod, length, ...flowsOf({ rod, length }, pressures, basis) };
      if (over * highest(each) <= supply * (1 + 1e-9)) fed.push(each);
    }
  }
  return fed;
}

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

/** The rods that fit one item, in the register's order, single ones first, with what they were found among. */
function candidatesFor(
  task: Task,
  choice: RodChoice | undefined,
  basis: Basis,
  clear: number | undefined,
): { readonly candidates: readonly Candidate[]; readonly reasonOf: ReasonOf } {
  const { operation, planned, pressure, widenPressure, material, listed } = task;
  const { a } = basis;
  const wanted = a.word('coupled rods');
  const coupled = (choice?.coupled ?? false) || wanted === 'yes';
  const opening = operation.opening(planned);
  const all = choice ? [choice.rod] : considered(material, basis);
  const passing = choice ? all : all.filter((r) => passes(r, opening, basis));
  const feed = (): readonly FedLength[] => fedRods(passing, task, clear, basis);
  const fed =
    clear === undefined && !listed
      ? basis.once(`rods fed ${passing.map((r) => r.name).join()} ${pressure} ${widenPressure}`, feed)
      : feed();
  if (fed.length === 0) throw noneFits(all, passing, opening, task, clear, basis);
  const rate = (of: readonly FedLength[], coupling: boolean): Candidate[] => {
    if (listed) return listed.candidates(of, coupling);
    const rods = of.map(({ rod, length, flow, widenFlow }): Fed => ({
      rod: { rod, length, coupled: coupling, reason: '' },
      flow,
      widenFlow,
    }));
    const rated: Candidate[] = [];
    for (const [i, ways] of waysOf(task, rods, basis).entries())
      if (ways.length > 0) rated.push({ rod: rods[i]!.rod, cost: ways[0]!.cost, ways: ways as Candidate['ways'] });
    return rated;
  };
  const single = rate(fed, coupled);
  const worth =
    single.length === 0
      ? fed
      : coupled || wanted === 'no'
        ? []
        : fed.filter((each) =>
            single.some(
              (c) =>
                c.rod.rod === each.rod &&
                c.rod.length === each.length &&
                c.ways.some((way) => couldPay(way, each, basis)),
            ),
          );
  const candidates = worth.length > 0 ? [...single, ...rate(worth, true)] : single;
  if (candidates.length === 0) {
    const { rod, length } = fed.reduce((x, y) => (y.length > x.length ? y : x));
    throw unreachable(task, { rod, length, coupled: true, reason: '' }, basis);
  }
  const reasonOf: ReasonOf = (best, next) => {
    const why =
      best.rod.coupled && !coupled ? (single.length === 0 ? 'since no single rod reaches' : 'which costs less') : '';
    const access = accessOf(best.rod.rod, clear, basis);
    return pickReason(best, next, { fitting: candidates.length, opening, why, access, all, passing }, basis);
  };
  return { candidates, reasonOf };
}

/** Why one of several was picked, in words, against the next. */
type ReasonOf = (best: Candidate, next: Candidate | undefined) => string;

/** Costs that are equal to the last bits count as equal: the order of the register decides. */
const dearer = (x: Candidate, y: Candidate): number =>
  Math.abs(x.cost - y.cost) <= 1e-9 * x.cost ? 0 : x.cost - y.cost;

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
  const { candidates, reasonOf } = candidatesFor(task, choice, basis, clear);
  const [best, ...rest] = [...candidates].sort(dearer) as [Candidate, ...Candidate[]];
  return [withReason(best, reasonOf(best, rest[0])), ...rest];
}

/** The first of `rankRods`, which all others need not be put in order for. */
function cheapest(task: Task, choice: RodChoice | undefined, basis: Basis): Candidate {
  const { candidates, reasonOf } = candidatesFor(task, choice, basis, undefined);
  let [best] = candidates as readonly [Candidate, ...Candidate[]];
  let next: Candidate | undefined;
  for (const each of candidates) {
    if (each === best) continue;
    if (dearer(best, each) > 0) [best, next] = [each, best];
    else if (!next || dearer(next, each) > 0) next = each;
  }
  return withReason(best, reasonOf(best, next));
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

/**
 * Whether coupling could pay: the rods that it saves at most against the couplings that it takes at least. It only spares the
 * others from being worked out; what is worked out decides.
 */
function couldPay({ used, consumed }: Way, { rod, length, flow }: FedLength, basis: Basis): boolean {
  const { a } = basis;
  const { price, saved, joint, lit, stub } = basis.once(couplingOf(rod), () => {
    const slowed = siteHandling(a);
    const crew = a.value('crew price') * slowed;
    return {
      price: a.value(rodNames(rod).price) * rodMassPerLength(rod),
      saved: crew * a.value('rod change time'),
      joint: a.value('string rods') > 0 ? 0 : crew * a.value('coupling time') + a.value('coupling price'),
      lit: a.value('oxygen price') * a.value('flow factor') * a.value('lighting time'),
      stub: stubOf(rod, basis),
    };
  });
  const strung = (consumed + stub) / length;
  return (used - strung) * (price * length + saved + lit * flow) > (strung - 1) * joint;
}

/** What a rod was picked from. */
interface Field {
  readonly fitting: number;
  readonly opening: Opening | undefined;
  /** Why it is coupled, where nobody asked for it. */
  readonly why: string;
  readonly access: number;
  readonly all: readonly Rod[];
  readonly passing: readonly Rod[];
}

/** Why a rod was picked, in words. */
function pickReason(
  best: Candidate,
  next: Candidate | undefined,
  { fitting, opening, why, access, all, passing }: Field,
  basis: Basis,
): string {
  const { a } = basis;
  const { rod } = best.rod;
  // What a rod makes and the access are the same for many items.
  const texts = basis.reading('lengths in words', () => new Map<number, string>());
  const shown = (x: number): string => {
    let text = texts.get(x);
    if (text === undefined) texts.set(x, (text = showQuantity(x, 'length', a.system)));
    return text;
  };
  const covered = rod.insulated
    ? `insulated, since the work is ${a.word('work grounded') === 'yes' ? 'grounded' : 'under water'}`
    : '';
  const wider = opening && all.find((r) => r.kind === rod.kind && !passing.includes(r));
  const against = next
    ? `: ${showCost(best.cost)}, against ${showCost(next.cost)} with ${rodName(next.rod.rod, next.rod.length, next.rod.coupled)}`
    : '';
  return [
    opening
      ? `it ${opening.does ?? 'pierces'} ${shown(widthMade(rod, opening, basis))} wide, within the ${opening.name} of ${showQuantity(opening.width, 'length', a.system)}`
      : '',
    wider ? `${wider.name} would make it ${shown(widthMade(wider, opening, basis))}` : '',
    `its work costs least of ${fitting} that fit an access of ${shown(access)}${against} (${basis.once(`prices ${rod.kind}`, () => pricesOf(rod, a))})`,
    why === '' ? '' : `coupled, ${why}`,
    covered,
  ]
    .filter((r) => r !== '')
    .join('; ');
}
