import { assumed } from '../assumptions/assumed.ts';
import type { Assumptions } from '../assumptions/assumptions.ts';
import { planRamSteps } from '../fit/push-ram.ts';
import { coolingDraws, coolingFactorsInForce } from '../heat/cooling-draws.ts';
import { tabulatedCoolingTime } from '../heat/cooling-table.ts';
import { bossSteps, coolingSymbols, heatingSteps, longerSteps, methodInForce } from '../heat/heat-in-force.ts';
import * as messages from '../messages.ts';
import { calculated, decidedBy, given, solved, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { work } from '../model/working.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { defineOperation } from './operation.ts';
import { piercePressure, widenPressure } from './tip-pressure.ts';

/** Planned bore of a pin: d = ratio x D. Source: common practice; what is left must be thin enough to yield hot and shrink cold. */
const PLANNED_BORE: readonly Step[] = [
  assumed('ratio', 'bore ratio'),
  calculated('d', 'planned bore', 'length', 'ratio * D', 'bore ratio x diameter'),
];

const BORE = new StepList([given('D', 'diameter', 'length'), ...PLANNED_BORE], ['d']);

/** How the bore of a pin of a diameter [m] is planned. */
export const pinHole = (diameter: number, a: Assumptions) => work(BORE, { D: diameter }, a);

/** Whether the pin is open at one end only. */
const blind = (a: Assumptions): boolean => a.word('pin ends') === 'one';

/** Burning a seized pin's core out end to end: pierce a pilot along the axis, then widen it to the bore. */
export const PIN = defineOperation({
  id: 'PIN',
  summary: "burn a seized pin's core out end to end: pierce a pilot, then widen it to the bore",
  order: ['diameter', 'length', 'hole'],
  sizes: {
    diameter: { summary: 'Pin diameter', symbol: 'D', quantity: 'length', above: 0, max: 2, example: '4' },
    length: {
      summary: 'Length of pin to burn through',
      symbol: 'L',
      quantity: 'length',
      above: 0,
      max: 10,
      example: '10',
    },
    hole: {
      summary: 'Bore to burn out; planned from the diameter when left out',
      symbol: 'd',
      quantity: 'length',
      above: 0,
      max: 2,
      optional: true,
      example: '2.5',
    },
  },
  check: ({ diameter = 0, length = Infinity, hole: named }, a) => {
    const hole = named ?? a.value('bore ratio') * diameter;
    const show = (x: number): string => showQuantity(x, 'length', a.system);
    if (hole >= diameter) throw messages.mustBeLess('hole', show(hole), `the pin's ${show(diameter)}`);
    const bore = a.value('existing bore');
    // A hair of rounding is no larger bore.
    if (bore > hole * (1 + 1e-9)) throw messages.tooHigh('existing bore', show(bore), `the hole's ${show(hole)}`);
    const ends = a.value('ends worked');
    for (const name of ['pin ends', 'access side'] as const)
      if (a.word(name) === 'one' && ends > 1) throw messages.endsNotReached(name, String(ends));
    if (blind(a) && a.value('blind floor') >= length)
      throw messages.mustBeLess('blind floor', show(a.value('blind floor')), `the pin's length of ${show(length)}`);
    if (blind(a) && bore > 0) throw messages.blindWithBore(show(bore));
  },
  plans: { hole: PLANNED_BORE },
  opening: ({ hole }) => ({ width: hole, name: 'hole' }),
  removal: (a) => (blind(a) ? { factor: 'blind removal', words: 'of a blind pin' } : undefined),
  work: (a) => ({
    steps: [
      assumed('ends', 'ends worked'),
      assumed('b_old', 'existing bore'),
      ...(blind(a) ? [assumed('floor', 'blind floor')] : []),
      decidedBy(
        calculated(
          'L_core',
          'length burnt',
          'length',
          blind(a) ? 'L - floor' : 'L',
          blind(a) ? 'length - blind floor' : 'length: it is open at both ends',
        ),
        'pin ends',
      ),
      assumed('widths', 'pierce width'),
      calculated(
        'w',
        'width of the pilot',
        'length',
        'min(widths * d_rod, d)',
        'pierce width x outside diameter of the rod, at most the hole',
      ),
      calculated('x', 'depth pierced from each end', 'length', 'L_core / ends', 'length burnt / ends worked'),
      calculated(
        'n',
        'pilots',
        'count',
        'ends * max(1e-12, 1 - (b_old * b_old) / (w * w))',
        'one from each end worked, as far as an existing bore leaves metal in its way; as good as none where the rod passes through it',
      ),
      calculated(
        'V',
        'volume to widen',
        'volume',
        'PI / 4 * (d * d - max(w, b_old) * max(w, b_old)) * L_core',
        'pi / 4 x (hole squared - pilot or existing bore, the wider, squared) x length burnt',
      ),
      calculated('reach', 'depth to reach', 'length', 'x', 'depth pierced from each end'),
    ],
  }),
  pressure: piercePressure('L / ends', 'L', [assumed('ends', 'ends worked')]),
  widening: widenPressure('L / ends', 'L'),
  crewTimes: ['set-up time', 'plate time', 'push-out time', 'clean-up time'],
  cooling: {
    time: tabulatedCoolingTime,
    factors: coolingFactorsInForce,
    draws: coolingDraws,
    steps: (basis) => {
      const method = methodInForce(basis.a);
      return [
        ...bossSteps,
        ...heatingSteps(method),
        ...longerSteps(method),
        decidedBy(
          solved(
            't_cool',
            'cooling time',
            'time',
            coolingSymbols(method),
            (diameter, hole, length, pace) => tabulatedCoolingTime({ diameter, hole, length }, pace, basis),
            `until the hottest part of the pin is at the target and the pin even with its boss, cooled with ${method}: conduction through rings, read from a table over diameter, hole, length and pace of burning`,
            'en 1993-1-2',
          ),
          'cooling method',
        ),
      ];
    },
  },
  ram: planRamSteps,
  cautions: ['PIN'],
});
