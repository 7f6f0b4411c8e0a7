import { calculated, type Step } from '../model/step.ts';
import type { Trace } from '../model/trace.ts';

export interface Grip {
  /** Diameter and length of the joint [m]. */
  readonly diameter: number;
  readonly length: number;
  /** Contact pressure [Pa]. */
  readonly pressure: number;
  /** Friction of the joint. */
  readonly friction: number;
  /** Shear strength that rust adds [Pa]. */
  readonly bond: number;
}

/**
 * Axial force that starts a pin held by contact pressure and rust.
 *
 * F = pi d L (mu p + tau).
 * diameter, length [m], pressure and bond [Pa], friction [1]; result [N].
 * Valid for a joint that slips all at once; a long rusted joint can also peel from one end, at less.
 * Source: Coulomb friction, DIN 7190-1 (steel on steel, pressed dry, 0.11 when it starts to slip); the bond of rust is
 * common practice without a source. Example: 4 in, 2083 psi, 0.12, no rust: 3142 lbf an inch.
 */
export function gripForce({ diameter, length, pressure, friction, bond }: Grip, trace?: Trace): number {
  const force = Math.PI * diameter * length * (friction * pressure + bond);
  trace?.add({
    name: 'force to start the pin',
    symbol: 'F',
    value: force,
    quantity: 'force',
    formula: 'pi x diameter x length x (friction x contact pressure + rust bond)',
    expression: 'PI * D * L * (mu * p + tau)',
    kind: 'calculated',
    source: 'din 7190-1',
  });
  return force;
}

/** The step of `gripForce`, under the symbols named; `D` and `L` stand before. */
export function gripForceStep(symbols: {
  readonly force: string;
  readonly friction: string;
  readonly pressure: string;
  readonly bond: string;
}): Step {
  const { force, friction, pressure, bond } = symbols;
  return calculated(
    force,
    'force to start the pin',
    'force',
    `PI * D * L * (${friction} * ${pressure} + ${bond})`,
    'pi x diameter x length x (friction x contact pressure + rust bond)',
    { source: 'din 7190-1' },
  );
}
