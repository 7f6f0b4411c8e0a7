import { noiseAverage } from './noise-average.ts';
import { noiseDose, type NoiseTask } from './noise-dose.ts';
import { DOUBLE_PROTECTION, type NoiseLimit, type NoiseRule } from './noise-rules.ts';

export interface NoiseShift {
  /** 1 is all the rule allows. */
  readonly dose: number;
  /** 8-hour average [dBA]; undefined where no level counts. */
  readonly average: number | undefined;
  /** Limits of the rule that the average meets or passes, lowest first. */
  readonly over: readonly NoiseLimit[];
  /** Whether plugs and muffs are to be worn together. */
  readonly double: boolean;
  /** Loudest task above the level where the rule's table ends, [dBA]. */
  readonly aboveTable: number | undefined;
}

/**
 * Whether an 8-hour average calls for plugs and muffs worn together: above 100 dBA (NIOSH 98-126), or 105 dBA in
 * mines (30 CFR 62.101, 62.140).
 */
export function needsDoubleProtection(average: number, where: keyof typeof DOUBLE_PROTECTION = 'recommended'): boolean {
  return average > DOUBLE_PROTECTION[where].level;
}

/** A figure at a limit, worked back from a dose, is at it and not a rounding below. */
const meets = (average: number, limit: NoiseLimit): boolean =>
  limit.counts === 'reaches' ? average >= limit.level - 1e-9 : average > limit.level + 1e-9;

/**
 * Dose, average and the limits met in a shift of several tasks. It says which limits the figures pass; it never
 * says that a shift harms nobody.
 */
export function noiseShift(tasks: readonly NoiseTask[], rule: NoiseRule): NoiseShift {
  const dose = noiseDose(tasks, rule);
  const average = noiseAverage(dose, rule);
  const loudest = Math.max(...tasks.filter((t) => t.time > 0).map((t) => t.level));
  return {
    dose,
    average,
    over: average === undefined ? [] : rule.limits.filter((limit) => meets(average, limit)),
    double: average !== undefined && needsDoubleProtection(average),
    aboveTable: loudest > rule.highest ? loudest : undefined,
  };
}
