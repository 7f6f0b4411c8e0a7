import { Assumptions } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import * as draws from '../../../src/core/heat/cooling-draws.ts';
import * as table from '../../../src/core/heat/cooling-table.ts';
import { everyPlace, written } from '../../../src/core/heat/kept.ts';

/** The texts that kept-times.ts must have: all of its times, solved. */
export function solvedKept(): Readonly<Record<'KEPT_TABLE' | 'KEPT_DRAWS', string>> {
  const basis = new Basis(Assumptions.defaults());
  const text = ({ KEPT, solvedEntry }: Pick<typeof table, 'KEPT' | 'solvedEntry'>): string =>
    everyPlace(KEPT)
      .flatMap((place) => Array.from(solvedEntry(place, basis), written))
      .join('');
  return { KEPT_TABLE: text(table), KEPT_DRAWS: text(draws) };
}
