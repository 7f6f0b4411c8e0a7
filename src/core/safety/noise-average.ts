import { calculated, given, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { valueOf } from '../model/working.ts';
import { requireAtLeast } from './check.ts';
import { noiseRuleSteps } from './noise-hours.ts';
import type { NoiseRule } from './noise-rules.ts';

/** The average over 8 hours, `TWA`. Steps before: `D`, `L_c`, `q`. */
export const averageStep = ({ source }: NoiseRule): Step =>
  calculated(
    'TWA',
    'average over 8 hours',
    'level',
    'L_c + q * ln(D) / ln(2)',
    'level allowed for 8 hours + exchange rate x log(dose) / log(2)',
    { source },
  );

/**
 * Average level of a shift over 8 hours (TWA, or daily exposure level): the steady 8-hour level with the same dose.
 *
 *     TWA = Lc + q lg(D) / lg(2)
 *
 * The multiplier q / lg 2 is 16.61 for OSHA and 9.97 for NIOSH, whose own text rounds it to 10.0; kept exact, so
 * that a steady 8 hours gives back its own level. No dose has no average: undefined.
 *
 * Source: 29 CFR 1910.95 Appendix A, I(2); NIOSH 98-126, 1.1.3; Directive 2003/10/EC Article 2 with ISO 1999.
 * @example noiseAverage(0.5, findNoiseRule('OSHA')) // 85
 *
 * @param dose D, against the rule's own criterion
 * @returns TWA [dBA]
 */
export function noiseAverage(dose: number, rule: NoiseRule): number | undefined {
  requireAtLeast('dose', dose, 0);
  if (dose === 0) return undefined;
  const steps = [...noiseRuleSteps(rule), given('D', 'noise dose', 'percent'), averageStep(rule)];
  return valueOf(new StepList(steps, ['TWA']), { D: dose });
}
