import { notAbove } from '../messages.ts';
import type { Trace } from '../model/trace.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { showQuantity } from '../units/show-quantity.ts';

export interface PushTravel {
  /** Length of pin in the boss [m]. */
  readonly length: number;
  /** Stroke of the ram [m]. */
  readonly stroke: number;
  /** Share of the stroke that is used. */
  readonly strokeUse: number;
  /** Travel beyond the boss until the pin is clear [m]. */
  readonly clearance: number;
}

export interface Spacers {
  /** Strokes of the ram. */
  readonly pushes: number;
  /** Spacers to make, each of `spacerLength`. */
  readonly spacers: number;
  readonly spacerLength: number;
  /** Whole travel [m]. */
  readonly travel: number;
  /** Length of the stack at the last stroke [m]. */
  readonly stack: number;
}

/**
 * Strokes and spacers that push a pin through its boss.
 *
 * travel = length + clearance; one spacer of strokeUse x stroke goes in after every stroke but the last:
 * pushes = ceil(travel / (strokeUse stroke)), spacers = pushes - 1.
 * lengths [m]. Source: geometry; common practice for the share of the stroke.
 */
export function pushSpacers(
  { length, stroke, strokeUse, clearance }: PushTravel,
  system: UnitSystem = 'US',
  trace?: Trace,
): Spacers {
  if (!(length > 0))
    throw notAbove('length', showQuantity(length, 'length', system), showQuantity(0, 'length', system));
  if (!(stroke > 0))
    throw notAbove('stroke', showQuantity(stroke, 'length', system), showQuantity(0, 'length', system));
  const spacerLength = strokeUse * stroke;
  const travel = length + clearance;
  const pushes = Math.max(1, Math.ceil(travel / spacerLength - 1e-9));
  trace?.add({
    name: 'spacer',
    symbol: 's',
    value: spacerLength,
    quantity: 'length',
    formula: 'stroke x share of it that is used',
    expression: 'stroke * share',
    kind: 'calculated',
    source: 'arithmetic',
  });
  trace?.add({
    name: 'travel',
    symbol: 'x',
    value: travel,
    quantity: 'length',
    formula: 'length + clearance beyond the boss',
    expression: 'L + clear',
    kind: 'calculated',
    source: 'arithmetic',
  });
  trace?.add({
    name: 'strokes',
    symbol: 'n',
    value: pushes,
    quantity: 'count',
    formula: 'travel / spacer, up to a whole number',
    expression: 'ceil(x / s - 1e-9)',
    kind: 'calculated',
    source: 'arithmetic',
  });
  return { pushes, spacers: pushes - 1, spacerLength, travel, stack: (pushes - 1) * spacerLength };
}
