import { assumed } from '../assumptions/assumed.ts';
import type { Assumptions } from '../assumptions/assumptions.ts';
import { planRamSteps } from '../fit/push-ram.ts';
import { tabulatedCoolingTime } from '../heat/cooling-table.ts';
import { bossSteps, heatingSteps, heatingSymbols, methodInForce } from '../heat/heat-in-force.ts';
import { mustBeLess } from '../messages.ts';
import { calculated, decidedBy, given, solved, type Step } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { work } from '../model/working.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { defineOperation } from './operation.ts';
import { piercePressure } from './tip-pressure.ts';

/** Planned bore of a pin: d = ratio x D. Source: common practice; what is left must be thin enough to yield hot and shrink cold. */
const PLANNED_BORE: readonly Step[] = [
  assumed('ratio', 'bore ratio'),
  calculated('d', 'planned bore', 'length', 'ratio * D', 'bore ratio x diameter'),
];

const BORE = new StepList([given('D', 'diameter', 'length'), ...PLANNED_BORE], ['d']);

/** How the bore of a pin of a diameter [m] is planned. */
export const pinHole = (diameter: number, a: Assumptions) => work(BORE, { D: diameter }, a);

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
  check: ({ diameter = 0, hole }, a) => {
    if (hole !== undefined && hole >= diameter) {
      throw mustBeLess(
        'hole',
        showQuantity(hole, 'length', a.system),
        `the pin's ${showQuantity(diameter, 'length', a.system)}`,
      );
    }
  },
  plans: { hole: PLANNED_BORE },
  opening: ({ hole }) => ({ width: hole, name: 'hole' }),
  work: () => ({
    steps: [
      assumed('ends', 'ends worked'),
      assumed('widths', 'pierce width'),
      calculated(
        'w',
        'width of the pilot',
        'length',
        'min(widths * d_rod, d)',
        'pierce width x outside diameter of the rod, at most the hole',
      ),
      calculated('x', 'depth pierced from each end', 'length', 'L / ends', 'length / ends worked'),
      calculated('n', 'pilots', 'count', 'ends', 'one from each end worked'),
      calculated(
        'V',
        'volume to widen',
        'volume',
        'PI / 4 * (d * d - w * w) * L',
        'pi / 4 x (hole squared - pilot squared) x length',
      ),
      calculated('reach', 'depth to reach', 'length', 'x', 'depth pierced from each end'),
    ],
  }),
  pressure: piercePressure('L / ends', 'L', [assumed('ends', 'ends worked')]),
  crewTimes: ['set-up time', 'plate time', 'push-out time', 'clean-up time'],
  cooling: {
    time: tabulatedCoolingTime,
    steps: (basis) => {
      const method = methodInForce(basis.a);
      return [
        ...bossSteps,
        ...heatingSteps(method),
        decidedBy(
          solved(
            't_cool',
            'cooling time',
            'time',
            heatingSymbols(method),
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
