import type { Basis } from '../basis.ts';
import type { Material } from '../burn/materials.ts';
import { meanFlow } from '../burn/rod-line.ts';
import { RODS, type Rod, type RodChoice } from '../burn/rods.ts';
import * as messages from '../messages.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { consume, ratesInForce } from './consumption.ts';
import type { Operation } from './operation.ts';
import { reaches, rodsFor, wholeUp, type FittedRod } from './rod-fit.ts';

interface Candidate {
  readonly rod: Rod;
  readonly length: number;
  readonly coupled: boolean;
  /** Burning with pauses and rod changes [s]. */
  readonly time: number;
}

/**
 * The rod for one item: the one named, or the quickest that fits.
 *
 * A rod fits where its pierce is no wider than the opening, it is no longer than the access, its flow is no
 * more than the supply's, and it reaches the far end with its stub. Among those the least time of burning and
 * rod changes is taken, the shorter and thinner of equals. Where no single rod reaches, rods are coupled.
 * A rod named without a length gets one the same way.
 */
export function pickRod<G extends string>(
  operation: Operation<G>, planned: Readonly<Record<G, number>>, choice: RodChoice | undefined, material: Material, pressure: number, basis: Basis,
): FittedRod {
  const { a } = basis;
  const coupledByRule = a.word('coupled rods') === 'yes';
  const stub = a.value('stub');
  const longerThanStub = (length: number): boolean => length > stub;
  if (choice?.length !== undefined) {
    if (!longerThanStub(choice.length)) throw messages.stubTooLong(showQuantity(stub, 'length', a.system), showQuantity(choice.length, 'length', a.system));
    return { rod: choice.rod, length: choice.length, coupled: choice.coupled || coupledByRule, reason: '' };
  }
  const coupled = (choice?.coupled ?? false) || coupledByRule;
  const opening = operation.opening(planned);
  const widths = a.value('pierce width');
  const shorts = choice ? [choice.rod] : RODS.filter((r) => r.kind === 'short');
  const passing = choice ? shorts : shorts.filter((r) => !opening || widths * r.outsideDiameter <= opening.width * (1 + 1e-9));
  const shown = (x: number, quantity: 'length' | 'flow' = 'length'): string => showQuantity(x, quantity, a.system);
  const thinnest = shorts[0] as Rod;
  if (passing.length === 0 && opening) throw messages.noRodFits(opening.name, shown(opening.width), thinnest.name, shown(widths * thinnest.outsideDiameter));

  const access = a.value('access length');
  const lengths = passing.flatMap((rod) => rod.lengths.filter((l) => l <= access * (1 + 1e-9)).map((length) => ({ rod, length })));
  if (lengths.length === 0) throw messages.noRodForAccess(shown(access), shown(Math.min(...shorts.flatMap((r) => r.lengths))));
  const longest = Math.max(...lengths.map((l) => l.length));
  if (!longerThanStub(longest)) throw messages.stubTooLong(shown(stub), shown(longest));
  const supply = a.value('supply flow');
  const usable = lengths.filter((l) => longerThanStub(l.length));
  const fed = usable.filter(({ rod, length }) => meanFlow(rod, length, pressure, basis) <= supply * (1 + 1e-9));
  const least = usable[0] as { rod: Rod; length: number };
  if (fed.length === 0) throw messages.noRodFed(least.rod.name, shown(meanFlow(least.rod, least.length, pressure, basis), 'flow'), shown(supply, 'flow'));

  const rate = (coupling: boolean): Candidate[] =>
    fed.flatMap(({ rod, length }) => {
      const fitted = { rod, length, coupled: coupling, reason: '' };
      const work = operation.work(planned, rod, widths, a);
      if (!coupling && !reaches(length, work.reach, basis)) return [];
      const used = consume(work, rod, meanFlow(rod, length, pressure, basis), material.density, ratesInForce(rod, material, basis));
      const rods = wholeUp(rodsFor(used.consumed, fitted, work.reach, basis));
      return [{ rod, length, coupled: coupling, time: used.burnTime / a.value('burning duty') + rods * a.value('rod change time') }];
    });
  let candidates = rate(coupled);
  const coupling = coupled || candidates.length === 0;
  if (candidates.length === 0) candidates = rate(true);
  const best = candidates.reduce((x, y) => (y.time < x.time * (1 - 1e-9) ? y : x));
  const reasons = [
    opening ? `its pierce of ${shown(widths * best.rod.outsideDiameter)} passes the ${opening.name} of ${shown(opening.width)}` : '',
    `least burning and changing time of ${candidates.length} that fit an access of ${shown(access)}`,
    coupling && !coupled ? 'coupled, since no single rod reaches' : '',
  ];
  return { rod: best.rod, length: best.length, coupled: coupling, reason: reasons.filter((r) => r !== '').join('; ') };
}

