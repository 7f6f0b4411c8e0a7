import { assumed } from '../assumptions/assumed.ts';
import type { Assumptions } from '../assumptions/assumptions.ts';
import { blindNotPushed, notAbove } from '../messages.ts';
import { calculated, given } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { Evaluation } from '../model/evaluation.ts';
import { Working } from '../model/working.ts';
import { showQuantity } from '../units/show-quantity.ts';

const SPACERS = new StepList(
  [
    given('L', 'length', 'length'),
    given('stroke', 'stroke', 'length'),
    assumed('share', 'stroke use'),
    assumed('clear', 'push clearance'),
    calculated('s', 'spacer', 'length', 'stroke * share', 'stroke x share of it that is used'),
    calculated('x', 'travel', 'length', 'L + clear', 'length + clearance beyond the boss'),
    // A hair of rounding must not call for one more stroke.
    calculated('n', 'strokes', 'count', 'max(1, ceil(x / s - 1e-9))', 'travel / spacer, up to a whole number'),
    calculated('n_s', 'spacers', 'count', 'n - 1', 'one fewer than strokes'),
    calculated('stack', 'last stack', 'length', 'n_s * s', 'spacers x spacer'),
  ],
  ['n', 'stack'],
);

/**
 * Strokes and spacers that push a pin through its boss: steps `n`, `n_s`, `s`, `x` (travel) and `stack`.
 *
 * travel = length + clearance; one spacer of strokeUse x stroke goes in after every stroke but the last:
 * pushes = ceil(travel / (strokeUse stroke)), spacers = pushes - 1.
 * lengths [m]; the share of the stroke in use and the clearance as assumed. Source: geometry; common practice for the share.
 * @example pushSpacers(10 * INCH, 6 * INCH, basis.a).value // 3
 */
export function pushSpacers(length: number, stroke: number, a: Assumptions): Working {
  if (a.word('pin ends') === 'one') throw blindNotPushed();
  const show = (x: number): string => showQuantity(x, 'length', a.system);
  if (!(length > 0)) throw notAbove('length', show(length), show(0));
  if (!(stroke > 0)) throw notAbove('stroke', show(stroke), show(0));
  return new Working(new Evaluation(SPACERS, { L: length, stroke }, a), 'n', ['stack'], { decidedBy: ['pin ends'] });
}
