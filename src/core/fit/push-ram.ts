/** The ram to bring: for a force, and for a burnt-out pin of which nothing else is known. */
import { assumed } from '../assumptions/assumed.ts';
import type { Assumptions } from '../assumptions/assumptions.ts';
import { bossSteps } from '../heat/heat-in-force.ts';
import { ramBeyondList } from '../messages.ts';
import { calculated, given, solved, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { work, type Working } from '../model/working.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { POUND_FORCE } from '../units/quantities.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { contactPressureSteps } from './contact-pressure.ts';
import { elasticitySteps, interferenceSteps } from './fit-in-force.ts';
import { gripForceStep } from './grip-force.ts';

export const SHORT_TON = 2000 * POUND_FORCE;

/** Hydraulic rams by rating [short tons]: classes that are commonly hired. Common practice, no source. */
export const RAM_TONS = [5, 10, 15, 20, 25, 30, 50, 60, 75, 100, 150, 200, 250, 300, 400, 500, 600, 800, 1000] as const;

/**
 * The smallest common rating that a force uses only in part.
 *
 * Smallest rating with rating >= force / use.
 * force [N], use [1]; result [N]. `#N/A` where the force is beyond the largest.
 * Source: common practice; rams are worked below their rating, since seals, gauge and alignment take their share.
 * @example commonRam(30 * SHORT_TON, 0.8) / SHORT_TON // 50
 */
export function commonRam(force: number, use: number, system: UnitSystem = 'US'): number {
  const needed = force / use;
  // A force that fits a rating to within rounding does not need the next one.
  const tons = RAM_TONS.find((each) => each * SHORT_TON * (1 + 1e-9) >= needed);
  const largest = (RAM_TONS.at(-1) ?? 0) * SHORT_TON;
  if (tons === undefined)
    throw ramBeyondList(
      showQuantity(force, 'force', system),
      showQuantity(largest * use, 'force', system),
      showQuantity(largest, 'force', system),
    );
  return tons * SHORT_TON;
}

/** Rating needed, `R_min`, and the ram to bring, for the force and the share in use under the symbols named; they stand before. */
function ramSteps(ram: string, force: string, use: string, system: UnitSystem): readonly Step[] {
  return [
    calculated(
      'R_min',
      'rating needed',
      'force',
      `${force} / ${use}`,
      'force / share of its rating at which a ram is worked',
    ),
    solved(
      ram,
      'ram',
      'force',
      ['R_min', force, use],
      (_, f, u) => commonRam(f, u, system),
      'smallest common rating that is not less',
      'common practice',
      'common practice',
    ),
  ];
}

const ramList = (system: UnitSystem): StepList =>
  new StepList([given('F', 'force', 'force'), assumed('use', 'ram use'), ...ramSteps('R', 'F', 'use', system)], ['R']);
const RAM = { US: ramList('US'), SI: ramList('SI') };

/**
 * The ram to bring for a force: `commonRam` with the share of a rating in force.
 *
 * force [N]; result [N]. Source: as `commonRam`.
 * @example pushRam(30 * SHORT_TON, basis.a).value / SHORT_TON // 50
 */
export const pushRam = (force: number, a: Assumptions): Working => work(RAM[a.system], { F: force }, a);

/**
 * Ram to bring for a burnt-out pin of which nothing else is known: step `R_ram`. Steps `D`, `d`, `L` stand before.
 *
 * The bored pin with all of the assumed interference, by Lame, and the share of the rust bond left; the smallest common
 * ram that is worked to that force. What yielding takes off the interference is left out, on the safe side. Symbols that the
 * working of a burn has for other things stand otherwise here: `p_grip`, `mu_grip`, `tau_left`, `F_grip`.
 * `#N/A` beyond the largest ram. Source: contact-pressure.ts, grip-force.ts.
 */
export function planRamSteps(a: Assumptions): readonly Step[] {
  return [
    ...bossSteps,
    ...interferenceSteps('i_fit'),
    ...elasticitySteps,
    ...contactPressureSteps('p_grip'),
    assumed('mu_grip', 'joint friction'),
    assumed('tau_rust', 'rust bond'),
    assumed('left_bond', 'bond left after burning'),
    calculated('tau_left', 'rust bond left', 'stress', 'tau_rust * left_bond', 'rust bond x share left after burning'),
    gripForceStep({ force: 'F_grip', friction: 'mu_grip', pressure: 'p_grip', bond: 'tau_left' }),
    assumed('use_ram', 'ram use'),
    ...ramSteps('R_ram', 'F_grip', 'use_ram', a.system),
  ];
}
