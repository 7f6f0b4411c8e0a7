import type { Assumptions } from '../assumptions/assumptions.ts';
import type { Trace } from '../model/trace.ts';
import { underWater } from './site.ts';

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

/** How an operation sets its tip pressure. */
export interface PressureRule {
  readonly words: string;
  /** In symbols of the steps that `value` records and those before. */
  readonly expression: string;
  /** Thickness of the work [m], for the rule under water. */
  readonly thickness: number;
  value(): number;
}

/**
 * Tip pressure, gauge [Pa]; records the step `p`. The assumption `tip pressure` sets it for all; under water it is counted
 * from the pressure of the water at the work and is 90 psi, or 110 psi over 3 in of metal; else the operation's own rule.
 *
 * Source: US Navy S0300-BB-MAN-010 under water; common practice for the rules of operations.
 */
export function tipPressure(a: Assumptions, trace: Trace | undefined, rule: PressureRule): number {
  if (a.value('tip pressure') > 0) return a.record('tip pressure', 'p', trace);
  if (underWater(a)) {
    const thick = a.record('underwater thick metal', 'x_thick', trace);
    return a.record(rule.thickness > thick ? 'underwater thick pressure' : 'underwater pressure', 'p', trace);
  }
  const value = rule.value();
  trace?.add({
    name: 'tip pressure',
    symbol: 'p',
    value,
    quantity: 'pressure',
    formula: rule.words,
    expression: rule.expression,
    kind: 'common practice',
    source: 'common practice',
  });
  return value;
}

/** Tip pressure for severing: p = min(p_top, p_0 + rise x thickness), 70 to 90 psi; `symbol` is the step of the thickness [m]. */
export function severPressure(thickness: number, symbol: string, a: Assumptions, trace?: Trace): number {
  return tipPressure(a, trace, {
    words: 'sever pressure + rise x thickness, at most the top',
    expression: `min(max(p_top, p_0), p_0 + rise * ${symbol})`,
    thickness,
    value: () => {
      const base = a.record('sever pressure', 'p_0', trace);
      const rise = a.record('sever pressure rise', 'rise', trace);
      const top = a.record('sever pressure top', 'p_top', trace);
      return Math.min(Math.max(top, base), base + rise * thickness);
    },
  });
}
