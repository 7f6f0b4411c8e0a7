/** Assumptions that are not drawn each by itself. */
import type { Assumptions, Correlation } from '../assumptions/assumptions.ts';
import type { NumberName } from '../assumptions/registry.ts';
import { contradictoryCorrelations } from '../messages.ts';
import { cholesky } from './cholesky.ts';

/**
 * Factors that go up and down together, on one coordinate: who is slow at one task is slow at all, and burns less of the time.
 * Common practice, no source. It errs on the wide side, since what is slow at once adds up.
 *
 * The factors of burning are drawn each by itself. That a short rod which burns more of its oxygen also melts faster is likely, but
 * how far nobody has published, and drawn together the two would make up for each other and narrow the oxygen; a log tells it.
 */
const CREW: readonly [NumberName, ...NumberName[]] = [
  'set-up time',
  'plate time',
  'push-out time',
  'clean-up time',
  'rod change time',
  'stud time',
  'hole set time',
  'row hole time',
  'pass time',
  'burning duty',
  'overhead handling',
  'downward handling',
  'underwater handling',
  'tight handling',
];
const FALLING: NumberName = 'burning duty';

/**
 * A burning bar feeds its own fire: it melts back as it burns, so that what it feeds and what burns go together. Drawn each by
 * itself, every second draw would have more oxygen burn than the bar feeds iron for, and the other half iron that finds none.
 * Common practice, no source.
 */
const BAR_FEED: NumberName = 'bar feed ratio';
const BAR_BURNT: NumberName = 'bar oxygen burnt share';

/** What a coordinate is called by, in a correlation with the burning duty as well. */
export const coordinateOf = (name: NumberName): NumberName =>
  name !== FALLING && CREW.includes(name) ? CREW[0] : name;

/**
 * The factor whose coordinate another shares, and whether it falls where that one rises. The burning duty has its own once its
 * correlation with the crew's times is told, and so has a bar's feed once it is correlated with anything.
 */
export function drawnWith(
  name: NumberName,
  { correlations }: Pick<Assumptions, 'correlations'>,
): { readonly name: NumberName; readonly falling: boolean } {
  if (name === BAR_FEED && !correlations.some(({ names }) => names.includes(BAR_FEED)))
    return { name: BAR_BURNT, falling: false };
  const apart = ({ names }: Correlation): boolean =>
    names.includes(FALLING) && names.some((each) => coordinateOf(each) === CREW[0]);
  const falling = name === FALLING && !correlations.some(apart);
  return { name: falling ? CREW[0] : coordinateOf(name), falling };
}

/** Correlations of less than their all are taken where rounding has made them impossible together. */
const LEAST_OF_THEM = 0.97;

/** Lower triangle of the correlations among some coordinates, which are called by the factors that they are of. */
function triangleOf(names: readonly NumberName[], a: Assumptions): Float64Array {
  const n = names.length;
  const matrix = new Float64Array(n * n);
  for (const { names: pair, value } of a.correlations) {
    const [x, y] = pair.map((name) => drawnWith(name, a)) as [
      ReturnType<typeof drawnWith>,
      ReturnType<typeof drawnWith>,
    ];
    const [i, j] = [names.indexOf(x.name), names.indexOf(y.name)];
    if (i < 0 || j < 0) continue;
    matrix[i * n + j] = matrix[j * n + i] = x.falling === y.falling ? value : -value;
  }
  for (let share = 1; share > LEAST_OF_THEM; share -= 1e-3) {
    const lower = cholesky(
      matrix.map((r, k) => (k % (n + 1) === 0 ? 1 : share * r)),
      n,
    );
    if (lower) return lower;
  }
  throw contradictoryCorrelations();
}

/**
 * Normal scores of some coordinates, each drawn by itself, made to go along with each other as the correlations in force say: a
 * Gaussian copula. Those without one stay as they are, and so does the first of the others.
 *
 * @param names what the coordinates are of, as `drawnWith` calls them
 * @param scores a column for each
 * Throws where the correlations contradict each other; what rounding does to them is no contradiction.
 * Source: Nelsen, An Introduction to Copulas (2006), 2.3; the factor: `cholesky`.
 */
export function correlatedScores(
  names: readonly NumberName[],
  scores: readonly Float64Array[],
  a: Assumptions,
): readonly Float64Array[] {
  const told = new Set(a.correlations.flatMap((each) => each.names.map((name) => drawnWith(name, a).name)));
  const places = names.flatMap((name, i) => (told.has(name) ? [i] : []));
  if (places.length === 0) return scores;
  const lower = triangleOf(
    places.map((i) => names[i]!),
    a,
  );
  const all = [...scores];
  places.forEach((at, k) => {
    all[at] = scores[at]!.map((_, draw) => {
      let sum = 0;
      for (let j = 0; j <= k; j++) sum += lower[k * places.length + j]! * scores[places[j]!]![draw]!;
      return sum;
    });
  });
  return all;
}
