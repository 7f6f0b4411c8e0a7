import { Assumptions } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import { DRAWN_FROM, drawnCylinder, solvedYield } from '../../../src/core/oxygen/drawable-content.ts';

/** The texts that kept-yield.ts must have. */
export function keptYield(): Readonly<Record<'KEPT_DRAW' | 'KEPT_YIELD', string>> {
  const cylinder = drawnCylinder(new Basis(Assumptions.defaults()));
  const values = DRAWN_FROM.map((symbol) => cylinder.number(symbol));
  return { KEPT_DRAW: values.join(' '), KEPT_YIELD: solvedYield(values).join(' ') };
}
