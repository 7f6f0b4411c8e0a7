import type { Assumptions } from '../assumptions/assumptions.ts';
import type { Trace } from '../trace/trace.ts';

/**
 * Tip pressure for a pierce, gauge [Pa]: p = min(p_top, p_0 + rise * depth).
 *
 * `depth` [m]. Source: common practice, 70 to 150 psi rising with depth.
 */
export function piercePressure(depth: number, a: Assumptions, trace?: Trace): number {
  const base = a.record('pierce pressure', 'p_0', trace);
  const rise = a.record('pierce pressure rise', 'rise', trace);
  const top = a.record('pierce pressure top', 'p_top', trace);
  return Math.min(Math.max(top, base), base + rise * depth);
}

/** The rule of an operation, unless the assumption `tip pressure` sets one for all; records the step `p`. */
export function tipPressure(a: Assumptions, trace: Trace | undefined, words: string, expression: string, rule: () => number): number {
  const set = a.value('tip pressure');
  if (set > 0) return a.record('tip pressure', 'p', trace);
  const value = rule();
  trace?.add({ name: 'tip pressure', symbol: 'p', value, quantity: 'pressure', formula: words, expression, kind: 'common practice', source: 'common practice' });
  return value;
}
