import type { Basis } from '../basis.ts';
import type { Material } from '../burn/materials.ts';
import { calculatedFlow, meanFlow } from '../burn/rod-line.ts';
import { RODS, rodNames, type Rod, type RodChoice } from '../burn/rods.ts';
import type { CalcError } from '../errors.ts';
import * as messages from '../messages.ts';
import { showQuantity } from '../units/show-quantity.ts';
import type { Opening } from './operation.ts';
import { passes, stubOf, widthMade, type FittedRod } from './rod-fit.ts';
import { underWater } from './site.ts';
import { unreachable, waysOf, type Fed, type Task, type Way } from './ways.ts';

/** A rod that fits an item, and what it would take. */
export interface Candidate {
  readonly rod: FittedRod;
  /** Quickest first. */
  readonly ways: readonly [Way, ...Way[]];
}

/**
 * The rods a picker looks at: short ones, and long burning bars where the work is concrete or rock. Where the work is
 * grounded or under water a short rod must be insulated, and nowhere else is it.
 */
export function considered(material: Material, { a }: Basis): readonly Rod[] {
  const covered = a.word('work grounded') === 'yes' || underWater(a);
  return RODS.filter((r) => (r.kind === 'bar' ? material.kind === 'masonry' : r.insulated === covered));
}

/** Length that the access lets in [m]. */
const accessOf = (rod: Rod, clear: number | undefined, { a }: Basis): number => clear ?? a.value(rodNames(rod).access);
const letIn = (rod: Rod, clear: number | undefined, basis: Basis): readonly number[] =>
  rod.lengths.filter((l) => l <= accessOf(rod, clear, basis) * (1 + 1e-9));

/** A length of a rod with the flow that the tip pressure drives through it, before the flow factor [kg/s]. */
interface FedLength {
  readonly rod: Rod;
  readonly length: number;
  readonly flow: number;
}

/** The lengths of some rods that the access lets in, that are longer than their stub and that the supply feeds, with their flow. */
function fedRods(
  rods: readonly Rod[],
  pressure: number,
  clear: number | undefined,
  basis: Basis,
): readonly FedLength[] {
  const [supply, over] = [basis.a.value('supply flow'), basis.a.value('flow factor')];
  return rods
    .flatMap((rod) =>
      letIn(rod, clear, basis)
        .filter((length) => length > stubOf(rod, basis))
        .map((length) => ({ rod, length, flow: calculatedFlow(rod, length, pressure, basis) })),
    )
    .filter(({ flow }) => over * flow <= supply * (1 + 1e-9));
}

/** Why no rod fits, of all and of those that pass the opening. */
function noneFits(
  all: readonly Rod[],
  passing: readonly Rod[],
  opening: Opening | undefined,
  pressure: number,
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
    .map(({ rod, length }) => ({ rod, flow: meanFlow(rod, length, pressure, basis) }))
    .reduce((x, y) => (y.flow < x.flow ? y : x));
  return messages.noRodFed(least.rod.name, shown(least.flow, 'flow'), shown(a.value('supply flow'), 'flow'));
}

/**
 * The rods that fit one item, quickest first; of equals the shorter and thinner.
 *
 * A rod fits where what it makes is no wider than the opening, it is no longer than the access, its flow is no
 * more than the supply's, and it reaches the far end with its stub. Where no single rod reaches, rods are coupled.
 * `choice` names the rod and leaves the length open; `clear` [m] replaces the assumptions' clear length.
 */
export function rankRods(
  task: Task,
  choice: RodChoice | undefined,
  basis: Basis,
  clear?: number,
): readonly [Candidate, ...Candidate[]] {
  const { operation, planned, pressure, material } = task;
  const { a } = basis;
  const coupled = (choice?.coupled ?? false) || a.word('coupled rods') === 'yes';
  const opening = operation.opening(planned);
  const all = choice ? [choice.rod] : considered(material, basis);
  const passing = choice ? all : all.filter((r) => passes(r, opening, basis));
  const feed = (): readonly FedLength[] => fedRods(passing, pressure, clear, basis);
  const fed =
    clear === undefined ? basis.once(`rods fed ${passing.map((r) => r.name).join()} ${pressure}`, feed) : feed();
  if (fed.length === 0) throw noneFits(all, passing, opening, pressure, clear, basis);
  const fitted = (coupling: boolean): readonly Fed[] =>
    fed.map(({ rod, length, flow }) => ({ rod: { rod, length, coupled: coupling, reason: '' }, flow }));
  const rate = (rods: readonly Fed[]): Candidate[] =>
    waysOf(task, rods, basis).flatMap(([first, ...others], i) =>
      first ? [{ rod: rods[i]!.rod, ways: [first, ...others] }] : [],
    );
  const single = rate(fitted(coupled));
  const candidates = single.length > 0 ? single : rate(fitted(true));
  if (candidates.length === 0) {
    const { rod, length } = fed.reduce((x, y) => (y.length > x.length ? y : x));
    throw unreachable(task, { rod, length, coupled: true, reason: '' }, basis);
  }
  const timeOf = ({ ways: [way] }: Candidate): number => way.time;
  // Equal to the last bits counts as equal: the order of the register decides.
  const [best, ...rest] = [...candidates].sort((x, y) =>
    Math.abs(timeOf(x) - timeOf(y)) <= 1e-9 * timeOf(x) ? 0 : timeOf(x) - timeOf(y),
  ) as [Candidate, ...Candidate[]];
  const mustCouple = best.rod.coupled && !coupled;
  const access = accessOf(best.rod.rod, clear, basis);
  const reason = pickReason(best.rod.rod, candidates.length, opening, mustCouple, access, basis);
  return [{ ...best, rod: { ...best.rod, reason } }, ...rest];
}

/**
 * The rod for one item: the one named, or the quickest that fits (`rankRods`), with its ways. A rod named without a length gets
 * one the same way.
 */
export function pickRod(
  task: Task,
  choice: RodChoice | undefined,
  basis: Basis,
): { readonly rod: FittedRod; readonly ways: readonly Way[] | undefined } {
  const { a } = basis;
  if (choice?.length === undefined) return rankRods(task, choice, basis)[0];
  const stub = stubOf(choice.rod, basis);
  if (!(choice.length > stub))
    throw messages.stubTooLong(showQuantity(stub, 'length', a.system), showQuantity(choice.length, 'length', a.system));
  const coupled = choice.coupled || a.word('coupled rods') === 'yes';
  return { rod: { rod: choice.rod, length: choice.length, coupled, reason: '' }, ways: undefined };
}

/** Why a rod was picked, in words. */
function pickReason(
  rod: Rod,
  fitting: number,
  opening: Opening | undefined,
  mustCouple: boolean,
  access: number,
  basis: Basis,
): string {
  const { a } = basis;
  const shown = (x: number): string => showQuantity(x, 'length', a.system);
  const covered = rod.insulated
    ? `insulated, since the work is ${a.word('work grounded') === 'yes' ? 'grounded' : 'under water'}`
    : '';
  return [
    opening
      ? `it ${opening.does ?? 'pierces'} ${shown(widthMade(rod, opening, basis))} wide, within the ${opening.name} of ${shown(opening.width)}`
      : '',
    `least burning and changing time of ${fitting} that fit an access of ${shown(access)}`,
    mustCouple ? 'coupled, since no single rod reaches' : '',
    covered,
  ]
    .filter((r) => r !== '')
    .join('; ');
}
