import { isMissing, tooManyHours } from '../messages.ts';
import type { Trace } from '../model/trace.ts';
import { requireAtLeast } from './check.ts';
import { HOURS_IN_WORDS, hoursInSymbols, noiseHours, recordNoiseRule } from './noise-hours.ts';
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
 * Tasks under the level the rule counts from (80 dBA for OSHA and NIOSH) add nothing. The working numbers the tasks: `L_1`,
 * `C_1`, and `T_1` where the task counts.
 *
 * Source: 29 CFR 1910.95 Appendix A, I(1) and (d)(2)(i); NIOSH 98-126, 1.1.2; ISO 9612 for equal energy.
 *
 * @param tasks levels [dBA] and times [s], together at most 24 h
 * @returns D, a pure number: 1 is 100 percent
 */
export function noiseDose(
  tasks: readonly NoiseTask[],
  rule: NoiseRule,
  trace?: Trace,
  criterion: number = rule.criterion,
): number {
  if (tasks.length === 0) throw isMissing('levels');
  let total = 0;
  let dose = 0;
  const terms: string[] = [];
  if (trace) recordNoiseRule(rule, criterion, trace);
  tasks.forEach((task, i) => {
    requireAtLeast('hours', task.time / 3600, 0, 'h');
    const allowed = noiseHours(task.level, rule, undefined, criterion);
    const counts = task.level >= rule.countedFrom;
    total += task.time;
    if (counts) dose += task.time / allowed;
    if (!trace) return;
    const n = i + 1;
    trace.add({
      name: `level of task ${n}`,
      symbol: `L_${n}`,
      value: task.level,
      quantity: 'level',
      formula: 'given',
      kind: 'input',
      source: '',
    });
    trace.add({
      name: `time of task ${n}`,
      symbol: `C_${n}`,
      value: task.time,
      quantity: 'hours',
      formula: 'given',
      kind: 'input',
      source: '',
    });
    if (!counts) return;
    trace.add({
      name: `time allowed at the level of task ${n}`,
      symbol: `T_${n}`,
      value: allowed,
      quantity: 'hours',
      formula: HOURS_IN_WORDS,
      expression: hoursInSymbols(`L_${n}`),
      kind: 'calculated',
      source: rule.source,
    });
    terms.push(`C_${n} / T_${n}`);
  });
  if (total > DAY * (1 + 1e-9)) throw tooManyHours(total / 3600);
  trace?.add({
    name: 'noise dose',
    symbol: 'D',
    value: dose,
    quantity: 'percent',
    kind: 'calculated',
    source: rule.source,
    expression: terms.length > 0 ? terms.join(' + ') : '0',
    formula: `sum of (time at each level / time ${rule.name} allows there)${rule.countedFrom > 0 ? `, levels from ${String(rule.countedFrom)} dBA counted` : ''}`,
  });
  return dose;
}
