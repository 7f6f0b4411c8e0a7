import { Assumptions, type InForce } from '../assumptions/assumptions.ts';
import { REGISTRY, type NumberName } from '../assumptions/registry.ts';
import { NotingBasis, type Basis } from '../basis.ts';
import { CalcError } from '../errors.ts';

/** What one assumption does to one result. */
export interface Effect {
  readonly name: NumberName;
  readonly inForce: InForce;
  /** The result with the assumption at its low and at its high; a CalcError where there is none. */
  readonly atLow: number | CalcError;
  readonly atHigh: number | CalcError;
  readonly asAssumed: number;
  /** Largest less smallest of the three; Infinity where one of them has no solution. */
  readonly swing: number;
}

/** A change below this share of the result is none: the last digits of the arithmetic. */
const NOTHING = 1e-9;

/**
 * What each assumption does to some results, one at a time from low to high with all others as they are in force,
 * largest first; those that change nothing are left out.
 *
 * `calculate` gives the results on a basis. Only assumptions that it asks for are tried: what it does not ask for cannot
 * change what it gives. Throws what `calculate` throws for the assumptions in force.
 */
export function oneAtATime(
  calculate: (basis: Basis) => readonly number[],
  a: Assumptions,
): readonly (readonly Effect[])[] {
  const basis = new NotingBasis(a);
  const results = calculate(basis);
  // In the order of the register: equal swings stand in it.
  const asked = REGISTRY.map((entry) => entry.name as NumberName).filter((name) => basis.asked.has(name));
  const tried = asked.flatMap((name) => {
    const inForce = a.inForce(name);
    if (!(inForce.low < inForce.high)) return [];
    const at = (value: number): readonly number[] | CalcError =>
      attempt(
        calculate,
        basis.changed(name, Assumptions.from([{ name, value, low: value, high: value, kind: 'your value' }], a)),
      );
    return [{ name, inForce, low: at(inForce.low), high: at(inForce.high) }];
  });
  return results.map((asAssumed, i) =>
    tried
      .map(({ name, inForce, low, high }): Effect => {
        const [atLow, atHigh] = [low, high].map((r) => (r instanceof CalcError ? r : (r[i] ?? NaN))) as [
          number | CalcError,
          number | CalcError,
        ];
        const swing =
          atLow instanceof CalcError || atHigh instanceof CalcError
            ? Infinity
            : Math.max(atLow, atHigh, asAssumed) - Math.min(atLow, atHigh, asAssumed);
        return { name, inForce, atLow, atHigh, asAssumed, swing };
      })
      .filter((e) => e.swing > NOTHING * Math.abs(asAssumed))
      .sort((x, y) => (x.swing === y.swing ? 0 : y.swing - x.swing)),
  );
}

function attempt(calculate: (basis: Basis) => readonly number[], basis: Basis): readonly number[] | CalcError {
  try {
    return calculate(basis);
  } catch (e) {
    if (e instanceof CalcError) return e;
    throw e;
  }
}
