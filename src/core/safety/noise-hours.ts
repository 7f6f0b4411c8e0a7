import type { Trace } from '../model/trace.ts';
import { requireAtLeast, requireAtMost } from './check.ts';
import type { NoiseRule } from './noise-rules.ts';

/** Length of the shift all three rules are drawn up for [s]. */
export const SHIFT = 8 * 3600;

/** Levels the functions take [dBA]: from a quiet room to the peak no rule lets anyone meet. */
export const NOISE_RANGE = { quietest: 30, loudest: 140 } as const;

export function requireLevel(argument: string, level: number): void {
  requireAtLeast(argument, level, NOISE_RANGE.quietest, 'dBA');
  requireAtMost(argument, level, NOISE_RANGE.loudest, 'dBA');
}

export const HOURS_IN_WORDS = '8 hours / 2 to the power ((level - level allowed for 8 hours) / exchange rate)';
export const hoursInSymbols = (level: string): string => `${SHIFT} / pow(2, (${level} - L_c) / q)`;

/** Records what the rule sets: steps `L_c` and `q`. */
export function recordNoiseRule({ name, clause, exchange, source }: NoiseRule, criterion: number, trace: Trace): void {
  trace.add({
    name: 'level allowed for 8 hours',
    symbol: 'L_c',
    value: criterion,
    quantity: 'level',
    formula: `from ${name}, ${clause}`,
    kind: 'published',
    source,
  });
  trace.add({
    name: 'exchange rate',
    symbol: 'q',
    value: exchange,
    quantity: 'level',
    formula: 'rise that halves the time',
    kind: 'published',
    source,
  });
}

/**
 * Time that a rule allows at a steady level, ears unprotected.
 *
 *     T = 8 h / 2^((L - Lc) / q)
 *
 * Step symbols expected before: `L` the level. Above the rule's highest level (115 dBA for OSHA, where Table G-16
 * ends) the formula is still given; the rule itself allows no such exposure, and the caller says so.
 * The value is not cut off at a day: 40 h means that the level alone does not use up the allowance of a shift.
 *
 * Source: 29 CFR 1910.95 Table G-16a, note; NIOSH 98-126, 1.1; Directive 2003/10/EC Article 3 (equal energy).
 * Example: 92 dBA gives 6.06 h by OSHA, 1.59 h by NIOSH.
 *
 * @param level L [dBA], 30 to 140
 * @param rule OSHA, NIOSH or EU
 * @param criterion Lc [dBA]; another level of the rule than its own, such as an action value
 * @returns T [s]
 */
export function noiseHours(level: number, rule: NoiseRule, trace?: Trace, criterion: number = rule.criterion): number {
  requireLevel('level', level);
  const time = SHIFT / 2 ** ((level - criterion) / rule.exchange);
  if (trace) {
    recordNoiseRule(rule, criterion, trace);
    trace.add({
      name: 'time allowed',
      symbol: 'T',
      value: time,
      quantity: 'hours',
      formula: HOURS_IN_WORDS,
      expression: hoursInSymbols('L'),
      kind: 'calculated',
      source: rule.source,
    });
  }
  return time;
}
