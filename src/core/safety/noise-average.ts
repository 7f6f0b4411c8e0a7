import type { Trace } from '../model/trace.ts';
import { requireAtLeast } from './check.ts';
import type { NoiseRule } from './noise-rules.ts';

/**
 * Average level of a shift over 8 hours (TWA, or daily exposure level): the steady 8-hour level with the same dose.
 *
 *     TWA = Lc + q lg(D) / lg(2)
 *
 * The multiplier q / lg 2 is 16.61 for OSHA and 9.97 for NIOSH, whose own text rounds it to 10.0; kept exact, so
 * that a steady 8 hours gives back its own level. No dose has no average: undefined.
 * Step symbols expected before: `D`.
 *
 * Source: 29 CFR 1910.95 Appendix A, I(2); NIOSH 98-126, 1.1.3; Directive 2003/10/EC Article 2 with ISO 1999.
 *
 * @param dose D, against the rule's own criterion
 * @returns TWA [dBA]
 */
export function noiseAverage(dose: number, rule: NoiseRule, trace?: Trace): number | undefined {
  requireAtLeast('dose', dose, 0);
  if (dose === 0) return undefined;
  const average = rule.criterion + (rule.exchange * Math.log(dose)) / Math.LN2;
  trace?.add({
    name: 'average over 8 hours',
    symbol: 'TWA',
    value: average,
    quantity: 'level',
    formula: 'level allowed for 8 hours + exchange rate x log(dose) / log(2)',
    expression: `${rule.criterion} + ${rule.exchange} * log(D) / log(2)`,
    kind: 'calculated',
    source: rule.source,
  });
  return average;
}
