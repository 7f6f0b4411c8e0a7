import { calculated, entered, given, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { valueOf } from '../model/working.ts';
import { requireAtLeast, requireAtMost } from './check.ts';
import type { NoiseRule } from './noise-rules.ts';

/** Length of the shift all three rules are drawn up for [s]. */
const SHIFT = 8 * 3600;

/** Levels the functions take [dBA]: from a quiet room to the peak no rule lets anyone meet. */
export const NOISE_RANGE = { quietest: 30, loudest: 140 } as const;

export function requireLevel(argument: string, level: number): void {
  requireAtLeast(argument, level, NOISE_RANGE.quietest, 'dBA');
  requireAtMost(argument, level, NOISE_RANGE.loudest, 'dBA');
}

/** What a rule sets: steps `L_c` and `q`; `criterion` is another level of the rule than its own, such as an action value. */
export const noiseRuleSteps = (
  { name, clause, exchange, source, criterion: own }: NoiseRule,
  criterion: number = own,
): readonly Step[] => [
  entered('L_c', 'level allowed for 8 hours', 'level', criterion, `from ${name}, ${clause}`, 'published', source),
  entered('q', 'exchange rate', 'level', exchange, 'rise that halves the time', 'published', source),
];

/** The shift that a rule allows its level for: step `T_shift`. */
export const shiftStep = ({ source }: NoiseRule): Step =>
  entered('T_shift', 'shift of the rule', 'hours', SHIFT, 'that the rule allows its level for', 'published', source);

/** Time that a rule allows at the level `level`. Steps before: `L_c`, `q`, `T_shift`. */
export const hoursStep = (symbol: string, name: string, level: string, { source }: NoiseRule): Step =>
  calculated(
    symbol,
    name,
    'hours',
    `T_shift / 2 ^ ((${level} - L_c) / q)`,
    '8 hours / 2 to the power ((level - level allowed for 8 hours) / exchange rate)',
    { source },
  );

/** Time that a rule allows at a steady level: step `T` from `L`. */
export const noiseHoursSteps = (rule: NoiseRule, criterion?: number): readonly Step[] => [
  given('L', 'level', 'level'),
  ...noiseRuleSteps(rule, criterion),
  shiftStep(rule),
  hoursStep('T', 'time allowed', 'L', rule),
];

/**
 * Time that a rule allows at a steady level, ears unprotected.
 *
 *     T = 8 h / 2^((L - Lc) / q)
 *
 * Above the rule's highest level (115 dBA for OSHA, where Table G-16 ends) the formula is still given; the rule itself allows
 * no such exposure, and the caller says so. The value is not cut off at a day: 40 h means that the level alone does not use up
 * the allowance of a shift.
 *
 * Source: 29 CFR 1910.95 Table G-16a, note; NIOSH 98-126, 1.1; Directive 2003/10/EC Article 3 (equal energy).
 * Example: 92 dBA gives 6.06 h by OSHA, 1.59 h by NIOSH.
 * @example noiseHours(92, findNoiseRule('OSHA')) / 3600 // 6.063
 * @example noiseHours(92, findNoiseRule('NIOSH')) / 3600 // 1.587
 *
 * @param level L [dBA], 30 to 140
 * @param rule OSHA, NIOSH or EU
 * @param criterion Lc [dBA]; another level of the rule than its own, such as an action value
 * @returns T [s]
 */
export function noiseHours(level: number, rule: NoiseRule, criterion?: number): number {
  requireLevel('level', level);
  return valueOf(new StepList(noiseHoursSteps(rule, criterion), ['T']), { L: level });
}
