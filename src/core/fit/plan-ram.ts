import { assumed } from '../assumptions/assumed.ts';
import type { Assumptions } from '../assumptions/assumptions.ts';
import { bossSteps } from '../heat/heat-in-force.ts';
import { calculated, solved, type Step } from '../model/step.ts';
import { contactPressureSteps } from './contact-pressure.ts';
import { elasticitySteps } from './fit-in-force.ts';
import { gripForceStep } from './grip-force.ts';
import { pushRam } from './push-ram.ts';

/**
 * Ram to bring for a burnt-out pin of which nothing else is known: step `R_ram`. Steps `D`, `d`, `L` stand before.
 *
 * The bored pin with all of the assumed interference, by Lame, and the share of the rust bond left; the smallest common
 * ram that is worked to that force. What yielding takes off the interference is left out, on the safe side. Symbols that the
 * working of a burn has for other things stand otherwise here: `p_grip`, `mu_grip`, `tau_left`, `F_grip`.
 * `#N/A` beyond the largest ram. Source: contact-pressure.ts, grip-force.ts, push-ram.ts.
 */
export function planRamSteps(a: Assumptions): readonly Step[] {
  return [
    ...bossSteps,
    assumed('i_fit', 'interference over diameter'),
    calculated('delta', 'interference', 'length', 'i_fit * D', 'interference over diameter x diameter'),
    ...elasticitySteps,
    ...contactPressureSteps('p_grip'),
    assumed('mu_grip', 'joint friction'),
    assumed('tau_rust', 'rust bond'),
    assumed('left_bond', 'bond left after burning'),
    calculated('tau_left', 'rust bond left', 'stress', 'tau_rust * left_bond', 'rust bond x share left after burning'),
    gripForceStep({ force: 'F_grip', friction: 'mu_grip', pressure: 'p_grip', bond: 'tau_left' }),
    assumed('use_ram', 'ram use'),
    calculated(
      'R_min',
      'rating needed',
      'force',
      'F_grip / use_ram',
      'force / share of its rating at which a ram is worked',
    ),
    solved(
      'R_ram',
      'ram',
      'force',
      ['R_min', 'F_grip', 'use_ram'],
      (_, force, use) => pushRam(force, use, undefined, a.system).rating,
      'smallest common rating that is not less',
      'common practice',
      'common practice',
    ),
  ];
}
