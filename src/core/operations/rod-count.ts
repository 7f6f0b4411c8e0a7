import { assumed } from '../assumptions/assumed.ts';
import type { Assumptions } from '../assumptions/assumptions.ts';
import { calculated, decidedBy, solved, type Step } from '../model/step.ts';
import { rodsOnTheWay, rodsSaved, type Deep } from './pierce-rods.ts';

/**
 * Rods for one pierce: while it burns a rod must still reach from the holder to the face, so that a fresh one is taken when what
 * is left is the stub and the depth.
 *
 *     N_x = N_deep + (l_x - l_deep) / (L_burn - x) = l_x / (L_burn - x) - N_less
 *
 * `N_deep` rods are used up on the way, `l_deep` of them burned; the next one ends the pierce, L_burn - x of it to burn. Those on the
 * way burn more than that each, since they end less deep: N_less = l_deep / (L_burn - x) - N_deep.
 */
const ONE_PIERCE: readonly Step[] = [
  calculated(
    'l_x',
    'length of rod that one pierce takes',
    'length',
    'u_rod * t_pierce * scatter / n',
    'burn-off x burning time of the pierces / pierces',
  ),
  calculated(
    'l_over',
    'what a rod lacks at the end of a pierce',
    'length',
    'l_x + x - L_burn',
    'length that one pierce takes + depth - length that a rod can burn; not positive where one rod ends it',
  ),
];
const PIERCE_RODS: readonly Step[] = [
  ...ONE_PIERCE,
  onTheWay(
    'N_less',
    'rods saved on the way down a pierce',
    'count',
    rodsSaved,
    'what the rods on the way burn / what one can burn with its end at the far end - those rods',
  ),
  calculated(
    'N_x',
    'rods for one pierce, not rounded',
    'count',
    'l_x / (L_burn - x) - N_less',
    'length that one pierce takes / what a rod can burn with its end at the far end - rods saved on the way, which end less deep',
  ),
];
const STRINGS_ON_THE_WAY: readonly Step[] = [
  ...ONE_PIERCE,
  onTheWay('N_deep', 'strings used up on the way down a pierce', 'count', ({ rods }) => rods, 'strings on the way'),
  onTheWay('l_deep', 'length that they burn', 'length', ({ burned }) => burned, 'length of them that burns'),
];
const STRINGS_THAT_END = calculated(
  'n_end',
  'strings that end pierces',
  'count',
  'ceil(n * (l_x - l_deep) / (L_burn - x) - 1e-9)',
  'pierces x the rest of the length / what a string can burn with its end at the far end, whole, up',
);

function onTheWay(
  symbol: string,
  name: string,
  quantity: 'count' | 'length',
  of: (deep: Deep, end: number) => number,
  words: string,
): Step {
  return solved(
    symbol,
    name,
    quantity,
    ['L_burn', 'x', 'u_rod', 'scatter', 'v', 'c', 's', 'sharp'],
    (burns, depth, burnOff, scatter, advance, limit, halving, sharpness) =>
      of(rodsOnTheWay({ burnOff: burnOff * scatter, advance, limit, halving, sharpness }, depth, burns), burns - depth),
    `${words}, each burned until it is its stub and the depth long; none where the first one ends the pierce`,
    'arithmetic',
    'calculated',
    'l_over',
  );
}

/** Length burned that is shared among rods: all of it, each giving its length less the stub and a share of the depth. */
const lossSteps = (): readonly Step[] => [
  assumed('loss', 'reach loss'),
  calculated(
    'usable',
    'usable length of a rod',
    'length',
    'L_burn - loss * reach / 2',
    'length that a rod can burn - reach loss x mean depth',
  ),
];

/**
 * Whole rods. A rod keeps its stub and the depth at every moment: pierces are counted rod by rod, and what is burned besides
 * takes what the rods of the pierces have left, and more.
 *
 *     N = max(pierces x N_x, length consumed / usable length), whole, up
 *
 * Coupled rods are one long rod, that loses a stub once a string. Before: `u_rod`, `l`, the steps of the work and of burning.
 */
export function countSteps(coupled: boolean, pierced: boolean, a: Assumptions): readonly Step[] {
  const whole = calculated('N', 'rods', 'count', 'max(1, ceil(N_used - 1e-9))', 'rods, not rounded, whole, up');
  if (!coupled) {
    return [
      calculated('L_burn', 'length that a rod can burn', 'length', 'L_rod - stub', 'length of a rod - stub'),
      ...(pierced ? PIERCE_RODS : []),
      ...lossSteps(),
      pierced
        ? used('max(n * N_x, l / usable)', 'pierces x rods for one, or length consumed / usable length, the more')
        : used('l / usable', 'length consumed / usable length'),
      whole,
    ];
  }
  const string = (step: Step): Step => decidedBy(step, 'string rods');
  if (a.value('string rods') === 0) {
    const rest = '(l + stub + loss * reach / 2) / L_rod';
    return [
      assumed('loss', 'reach loss'),
      string(
        pierced
          ? used(
              `max((u_rod * t_pierce * scatter + stub + x) / L_rod, ${rest})`,
              'length that the pierces take + one stub + depth, or length consumed + one stub + reach loss x mean depth, the more, / length of a rod',
            )
          : used(rest, '(length consumed + one stub + reach loss x mean depth) / length of a rod'),
      ),
      whole,
    ];
  }
  return [
    assumed('most', 'string rods'),
    calculated(
      'L_burn',
      'length that a string can burn',
      'length',
      'most * L_rod - stub',
      'rods of a string x length - stub',
    ),
    ...(pierced ? [...STRINGS_ON_THE_WAY, STRINGS_THAT_END] : []),
    ...lossSteps(),
    calculated(
      'n_string',
      'strings',
      'count',
      'max(1, ceil(l / usable - 1e-9))',
      'length consumed / usable length, whole, up',
    ),
    string(
      pierced
        ? used(
            'max(n * N_deep * most + (n * (l_x - l_deep) + n_end * (stub + x)) / L_rod, (l + n_string * (stub + loss * reach / 2)) / L_rod)',
            'full strings on the way down the pierces, the rest of their length with a stub and the depth for each string that ends some; or (length consumed + strings x (stub + reach loss x mean depth)) / length of a rod, the more',
          )
        : used(
            '(l + n_string * (stub + loss * reach / 2)) / L_rod',
            '(length consumed + strings x (stub + reach loss x mean depth)) / length of a rod',
          ),
    ),
    whole,
  ];
}

const used = (expression: string, words: string): Step =>
  calculated('N_used', 'rods, not rounded', 'count', expression, words);
