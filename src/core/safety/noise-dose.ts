import { isMissing, tooManyHours } from '../messages.ts';
import { calculated, given, type Step } from '../model/step.ts';
import { workAll, type Working } from '../model/working.ts';
import { requireAtLeast } from './check.ts';
import { hoursStep, noiseRuleSteps, requireLevel, shiftStep } from './noise-hours.ts';
import type { NoiseRule } from './noise-rules.ts';

/** One task of a shift. */
export interface NoiseTask {
  /** [dBA] */
  readonly level: number;
  /** [s] */
  readonly time: number;
}

const DAY = 24 * 3600;
/** Terms of one sum; more stand in sums of sums, so that the formula of thousands of tasks does not nest deeply. */
const MOST_TERMS = 100;

function sum(terms: readonly string[]): string {
  if (terms.length <= MOST_TERMS) return terms.length > 0 ? terms.join(' + ') : '0';
  const parts = Array.from({ length: Math.ceil(terms.length / MOST_TERMS) }, (_, i) =>
    terms.slice(i * MOST_TERMS, (i + 1) * MOST_TERMS),
  );
  return sum(parts.map((part) => `(${sum(part)})`));
}

/**
 * How the noise dose `D` of a shift is worked out, with steps to stand before it and after. Tasks are numbered: `L_1`, `C_1`,
 * and `T_1` where the task counts.
 */
export function noiseDoseWorking(
  tasks: readonly NoiseTask[],
  rule: NoiseRule,
  before: readonly Step[] = [],
  after: readonly Step[] = [],
): Working {
  if (tasks.length === 0) throw isMissing('levels');
  const values: Record<string, number> = {};
  const terms: string[] = [];
  const steps = tasks.flatMap((task, i): readonly Step[] => {
    requireAtLeast('hours', task.time / 3600, 0, 'h');
    requireLevel('level', task.level);
    const n = i + 1;
    values[`L_${n}`] = task.level;
    values[`C_${n}`] = task.time;
    const own = [given(`L_${n}`, `level of task ${n}`, 'level'), given(`C_${n}`, `time of task ${n}`, 'hours')];
    if (task.level < rule.countedFrom) return own;
    terms.push(`C_${n} / T_${n}`);
    return [...own, hoursStep(`T_${n}`, `time allowed at the level of task ${n}`, `L_${n}`, rule)];
  });
  const total = tasks.reduce((hours, task) => hours + task.time, 0);
  if (total > DAY * (1 + 1e-9)) throw tooManyHours(total / 3600);
  const dose = calculated(
    'D',
    'noise dose',
    'percent',
    sum(terms),
    `sum of (time at each level / time ${rule.name} allows there)${rule.countedFrom > 0 ? `, levels from ${String(rule.countedFrom)} dBA counted` : ''}`,
    { source: rule.source },
  );
  return workAll([...before, ...noiseRuleSteps(rule), shiftStep(rule), ...steps, dose, ...after], values, 'D');
}

/**
 * Noise dose of a shift of several tasks, 1 being all that the rule allows.
 *
 *     D = C1/T1 + C2/T2 + ...
 *
 * Tasks under the level the rule counts from (80 dBA for OSHA and NIOSH) add nothing.
 *
 * Source: 29 CFR 1910.95 Appendix A, I(1) and (d)(2)(i); NIOSH 98-126, 1.1.2; ISO 9612 for equal energy.
 * @example noiseDose([{ level: 95, time: 7200 }, { level: 90, time: 7200 }], findNoiseRule('OSHA')) // 0.75
 *
 * @param tasks levels [dBA] and times [s], together at most 24 h
 * @returns D, a pure number: 1 is 100 percent
 */
export function noiseDose(tasks: readonly NoiseTask[], rule: NoiseRule): number {
  return noiseDoseWorking(tasks, rule).value;
}
