import type { Basis } from '../basis.ts';
import { isotherm } from '../oxygen/oxygen-state.ts';
import { drawsOfShared } from './worlds.ts';

/** Oxygen that one cylinder gives in each world [kg], by the draws of its fill and of what is left in it. */
export function cylinderDraws(count: number, basis: Basis): Float64Array {
  return basis.once(`cylinder draws ${count}`, () => {
    const { a } = basis;
    const { density } = isotherm(a.value('gas temperature'));
    const air = a.value('air pressure');
    const left = drawsOfShared('leftover pressure', count, basis);
    return drawsOfShared('cylinder pressure', count, basis).map((p, i) => a.value('cylinder volume') * Math.max(0, density(p + air) - density((left[i] ?? NaN) + air)));
  });
}
