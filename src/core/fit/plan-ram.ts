import type { Assumptions } from '../assumptions/assumptions.ts';
import { bossInForce, recordBoss } from '../heat/heat-in-force.ts';
import type { Trace } from '../model/trace.ts';
import { contactPressure } from './contact-pressure.ts';
import { pressFitInForce, recordElasticity } from './fit-in-force.ts';
import { gripForce } from './grip-force.ts';
import { pushRam } from './push-ram.ts';

/** Symbols that the working of a burn has for other things. */
const OTHERWISE: Readonly<Record<string, string>> = {
  mu: 'mu_grip',
  p: 'p_grip',
  tau: 'tau_left',
  F: 'F_grip',
  i: 'i_fit',
  use: 'use_ram',
  R: 'R_ram',
  left: 'left_bond',
};

function renamed(trace: Trace | undefined): Trace | undefined {
  const rename = (text: string): string => text.replace(/[A-Za-z_][A-Za-z_0-9]*/g, (name) => OTHERWISE[name] ?? name);
  return (
    trace && {
      add: ({ expression, ...step }) =>
        trace.add({
          ...step,
          symbol: rename(step.symbol),
          ...(expression !== undefined && { expression: rename(expression) }),
        }),
    }
  );
}

/**
 * Ram to bring for a burnt-out pin of which nothing else is known.
 *
 * The bored pin with all of the assumed interference, by Lame, and the share of the rust bond left; the smallest common
 * ram that is worked to that force. What yielding takes off the interference is left out, on the safe side.
 * lengths [m]; result [N]. `#N/A` beyond the largest ram. Source: contact-pressure.ts, grip-force.ts, push-ram.ts.
 */
export function planRam(
  { diameter, hole, length }: { readonly diameter: number; readonly hole: number; readonly length: number },
  a: Assumptions,
  trace?: Trace,
): number {
  const steps = renamed(trace);
  const step = (
    name: string,
    symbol: string,
    value: number,
    quantity: 'length' | 'stress',
    formula: string,
    expression: string,
  ): void =>
    steps?.add({ name, symbol, value, quantity, formula, expression, kind: 'calculated', source: 'arithmetic' });
  recordBoss(diameter, a, steps);
  const interference = a.record('interference over diameter', 'i', steps) * diameter;
  step('interference', 'delta', interference, 'length', 'interference over diameter x diameter', 'i * D');
  recordElasticity(a, steps);
  const pressure = contactPressure(
    pressFitInForce({ diameter, hole, boss: bossInForce(diameter, a) }, a),
    interference,
    a.system,
    steps,
  );
  const friction = a.record('joint friction', 'mu', steps);
  const bond = a.record('rust bond', 'tau_rust', steps) * a.record('bond left after burning', 'left', steps);
  step('rust bond left', 'tau', bond, 'stress', 'rust bond x share left after burning', 'tau_rust * left');
  const force = gripForce({ diameter, length, pressure, friction, bond }, steps);
  return pushRam(force, a.record('ram use', 'use', steps), undefined, a.system, steps).rating;
}
