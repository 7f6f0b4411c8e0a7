import { isMissing, tooManyHours } from '../messages.ts';
import type { Trace } from '../trace/trace.ts';
import { requireAtLeast } from './check.ts';
import { noiseHours } from './noise-hours.ts';
import type { NoiseRule } from './noise-rules.ts';

/** One task of a shift. */
export interface NoiseTask {
  /** [dBA] */
  readonly level: number;
  /** [s] */
  readonly time: number;
}

const DAY = 24 * 3600;

/**
 * Noise dose of a shift of several tasks, 1 being all that the rule allows.
 *
 *     D = C1/T1 + C2/T2 + ...
 *
 * Tasks under the level the rule counts from (80 dBA for OSHA and NIOSH) add nothing. Step symbols: `D`.
 *
 * Source: 29 CFR 1910.95 Appendix A, I(1) and (d)(2)(i); NIOSH 98-126, 1.1.2; ISO 9612 for equal energy.
 *
 * @param tasks levels [dBA] and times [s], together at most 24 h
 * @returns D, a pure number: 1 is 100 percent
 */
export function noiseDose(tasks: readonly NoiseTask[], rule: NoiseRule, trace?: Trace, criterion: number = rule.criterion): number {
  if (tasks.length === 0) throw isMissing('levels');
  let total = 0;
  let dose = 0;
  for (const task of tasks) {
    requireAtLeast('hours', task.time / 3600, 0, 'h');
    const allowed = noiseHours(task.level, rule, undefined, criterion);
    total += task.time;
    if (task.level >= rule.countedFrom) dose += task.time / allowed;
  }
  if (total > DAY * (1 + 1e-9)) throw tooManyHours(total / 3600);
  trace?.add({
    name: 'noise dose', symbol: 'D', value: dose, quantity: 'percent', kind: 'calculated', source: rule.source,
    formula: `sum of (time at each level / time ${rule.name} allows there)${rule.countedFrom > 0 ? `, levels from ${String(rule.countedFrom)} dBA counted` : ''}`,
  });
  return dose;
}
