import type { Basis } from '../basis.ts';
import { findMaterial, type Material } from '../burn/materials.ts';
import { shown } from '../messages.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { removalOf } from '../burn/heat-balance.ts';
import { showCost } from './price-words.ts';
import { stubOf, type FittedRod } from './rod-fit.ts';
import { underWater } from './site.ts';
import type { Sized } from './sized.ts';

/** Oxygen for a volume of the material over that for the same volume of carbon steel, by the heat balance with the same rod. */
export function oxygenOverSteel({ rod, material }: Sized, basis: Basis): number {
  const share = (of: Material): number =>
    basis.once(`oxygen for ${rod.rod.kind} ${of.name}`, () => {
      const { density, removed } = removalOf(rod.rod, of, basis.a);
      return density / removed;
    });
  return share(material) / share(findMaterial('carbon steel'));
}

/** What a reader of the plan should know of an item: why this rod, which way it is done, how dear the material is. */
export function notesOf(sizing: Sized, basis: Basis): readonly string[] {
  return [
    sizing.rod.reason,
    methodNote(sizing, basis),
    deepNote(sizing, basis),
    slagNote(sizing),
    materialNote(sizing, basis),
    waterNote(basis),
  ].filter((note) => note !== '');
}

const slagNote = ({ slagged, operation }: Sized): string =>
  slagged
    ? `slag gets out of so narrow a ${operation.piercedAt ?? ''} slowly: a wider one burns faster and costs less`
    : '';

const deepNote = ({ rod, rods, consumed, reach }: Sized, basis: Basis): string =>
  rod.coupled ? '' : tooDeepFor(rod, reach, rods, consumed, basis);

/**
 * What is said of a depth [m] that is unreasonable for single rods of a length: they take at least three, and twice as many as if
 * they were coupled; '' where it is not. `consumed` is the length burned [m].
 */
export function tooDeepFor(
  { rod, length }: Pick<FittedRod, 'rod' | 'length'>,
  depth: number,
  rods: number,
  consumed: number,
  basis: Basis,
): string {
  const coupled = Math.max(1, Math.ceil((consumed + stubOf(rod, basis) + depth) / length - 1e-9));
  if (rods < 3 || rods < 2 * coupled) return '';
  const shownLength = (x: number): string => showQuantity(x, 'length', basis.a.system, 4);
  return `${shownLength(depth)} is deep for single rods of ${shownLength(length)}, which must keep their stub and the depth: ${rods} of them, where ${coupled} coupled ones would do; take longer or coupled rods`;
}

function methodNote({ method, cost, timeAtWork, otherWays }: Sized, { a }: Basis): string {
  if (method === undefined || otherWays.length === 0) return '';
  const minutes = (time: number): string => showQuantity(time, 'time', a.system, 3);
  const others = otherWays.map((w) => `${showCost(w.cost)} in ${minutes(w.time)} with a ${w.method ?? ''}`);
  return `${method}: the work costs ${showCost(cost)} in ${minutes(timeAtWork)}, against ${others.join(', ')}`;
}

function materialNote(sizing: Sized, basis: Basis): string {
  const { material } = sizing;
  const { burns } = material.kind === 'metal' ? material : { burns: 0 };
  if (burns === 1) return '';
  const over = oxygenOverSteel(sizing, basis);
  const times = Math.abs(over - 1) < 0.05 ? 'about' : `${shown(over, 2)} times`;
  const reinforced = material.kind === 'masonry' && material.steel !== undefined && basis.a.value(material.steel) > 0;
  const how = reinforced
    ? 'is only melted, but for the steel in it, which may burn'
    : burns === 0
      ? "is only melted, by the rod's heat alone"
      : 'burns only in part';
  const also = material.remark === undefined ? '' : `; ${material.remark}`;
  return `${material.name} ${how}: by the heat balance ${times} the oxygen of the same volume of carbon steel${also}`;
}

function waterNote({ a }: Basis): string {
  return underWater(a) ? 'tip pressure is counted from the pressure of the water at the work' : '';
}
