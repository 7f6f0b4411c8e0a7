/**
 * A range without a source leans to neither side in what it does: with a factor alone drawn, oxygen and time come out as many times
 * more, where they are more, as less; of what only the cooling of a pin rests on, the cooling and the crew time with it. Nobody measured that a job goes wrong further than it goes well, so no range may say so; and
 * worked values then stand about the middle of their draws, since what several factors do adds up.
 *
 * A range even in its own logarithm is not that: what a crew adds in minutes, or a loss takes of the heat, is even in itself, and what
 * the oxygen is divided by is even in its inverse.
 */
import { describe, expect, it } from 'vitest';
import type { Override } from '../../../src/core/assumptions/assumptions.ts';
import { numberAssumption, type NumberName } from '../../../src/core/assumptions/registry.ts';
import { OPERATION_IDS, operationOf, type OperationId } from '../../../src/core/operations/all.ts';
import { cooledBy, drawItem, drawnFactors } from '../../../src/core/operations/draw-item.ts';
import { drawPercentiles } from '../../../src/core/spread/draw-percentile.ts';
import { basisOf, inSi, set, sized, word } from './sized.ts';
import { SWEEP } from './sweep-items.ts';

/** Enough for the tenth and the ninetieth percentile of one factor. */
const COUNT = 64;
/** Most that one side may be wider than the other, over both: ends are round figures, and sizes differ. */
const MOST = 0.15;

/** What moves a time by less than that from low to high is left as it is. */
const LEAST = 0.005;

/** Ranges that lean, or turn at the value, each with its reason. */
const LEANING: Readonly<Partial<Record<NumberName, string>>> = {
  'groove width': 'passes side by side are one at least',
  'pass depth': 'passes one below the other are one at least, and their lightings whole',
  'steel in section': 'it turns near the value: with less steel and with more, somewhat more oxygen is taken',
  'product FeO share': 'at the value a bar burns about all it feeds, so that more oxygen for its iron finds less iron',
};
/** Drawn together: one is not moved without the other. */
const TOGETHER: readonly NumberName[] = ['bar feed ratio', 'bar oxygen burnt share'];

interface Place {
  readonly ids: readonly OperationId[];
  readonly rows?: readonly Override[];
  readonly material?: string;
}

const METAL: readonly OperationId[] = ['PIN', 'HOLE', 'CUT'];
/** Where further factors come in. */
const ELSEWHERE: readonly Place[] = [
  ...['overhead', 'vertical down', 'underwater'].map((at) => ({ ids: METAL, rows: [word('position', at)] })),
  { ids: METAL, rows: [word('access', 'tight')] },
  { ids: ['PIN'], rows: [word('pin ends', 'one')] },
  { ids: ['PIN'], rows: [word('cooling method', 'water')] },
  ...['stainless steel', 'cast iron', 'copper alloy'].map((material) => ({ ids: METAL, material })),
];

/** By how much, in the logarithm, a result is more, and less, than worked out; one factor drawn. */
interface Sides {
  readonly up: number;
  readonly down: number;
}

/** In oxygen and burning, in the time of a crew, and in the cooling where it rests on that. */
interface Sided {
  readonly burnt: Sides[];
  readonly crew: Sides[];
  readonly cooling: Sides[];
}

type Found = Map<NumberName, Sided>;

function measure(
  { ids, rows = [], material }: Place,
  every: number,
  found: Found,
  known: ReadonlySet<NumberName>,
): void {
  for (const id of ids) {
    const operation = operationOf(id);
    for (const sizes of SWEEP[id].filter((_, k) => k % every === 0)) {
      const given = inSi(operation, sizes);
      const how = material === undefined ? {} : { material };
      const asIs = basisOf(...rows);
      const { rod, material: made } = sized(operation, given, { ...how, basis: asIs });
      const cooled = cooledBy(operation, asIs.a);
      const names = [
        ...new Set(['item scatter', ...drawnFactors(operation, rod.rod, made, asIs.a), ...cooled] as const),
      ];
      for (const name of names) {
        if (known.has(name)) continue;
        const moved = TOGETHER.includes(name) ? TOGETHER : [name];
        const others = names.filter((each) => !moved.includes(each)).map((each) => set(each, asIs.a.value(each)));
        const basis = basisOf(...rows, ...others);
        const item = sized(operation, given, { ...how, basis });
        const draws = drawItem(item, COUNT, basis);
        const sides = (column: Float64Array, value: number): Sides => {
          const [low = NaN, high = NaN] = drawPercentiles(column, [0.1, 0.9]);
          return { up: Math.log(high / value), down: Math.log(value / low) };
        };
        const at = found.get(name) ?? { burnt: [], crew: [], cooling: [] };
        found.set(name, at);
        at.burnt.push(sides(draws.oxygen, item.oxygen), sides(draws.burnTime, item.burnTime));
        const work = draws.workTime;
        if (cooled.includes(name)) {
          at.crew.push(sides(draws.crewTime, item.crewTime));
          at.cooling.push(
            sides(
              draws.crewTime.map((time, i) => time - work[i]!),
              item.cooling,
            ),
          );
        } else at.crew.push(sides(work, item.crewTime - item.cooling));
      }
    }
  }
}

const width = (all: readonly Sides[]): number =>
  all.reduce((sum, { up, down }) => sum + Math.abs(up) + Math.abs(down), 0);
const lean = (all: readonly Sides[]): number => all.reduce((sum, { up, down }) => sum + up - down, 0) / width(all);

describe('a range without a source', () => {
  const found: Found = new Map();
  measure({ ids: OPERATION_IDS }, 1, found, new Set());
  const everywhere = new Set(found.keys());
  for (const place of ELSEWHERE) measure(place, 3, found, everywhere);
  // A source that was found for less than the range, as for joints without rust, makes it none with a source.
  const unsourced = [...found].filter(([name]) => numberAssumption(name).kind === 'common practice');
  const burns = ({ burnt }: Sided): boolean => width(burnt) > 1e-9 * burnt.length;
  const counts = (at: Sided): boolean => burns(at) || width(at.crew) > LEAST * at.crew.length;

  it('is one of those that are drawn', () => {
    expect(unsourced.length).toBeGreaterThan(40);
    for (const name of Object.keys(LEANING)) expect(found.has(name as NumberName), name).toBe(true);
  });

  it('that is left as it is moves the little time that a cooling with water takes', () => {
    const left = unsourced.filter(([, at]) => !counts(at)).map(([name]) => name);
    expect(new Set(left)).toEqual(
      new Set(['cooling target with water', 'wet boss share', 'boiling flux factor', 'film boiling limit']),
    );
  });

  it.each(unsourced.filter(([name, at]) => counts(at) && !(name in LEANING)))(
    'of %s leans to neither side in oxygen and burning, or in the time of a crew and in cooling',
    (_, at) => {
      expect(Math.abs(lean(burns(at) ? at.burnt : [...at.crew, ...at.cooling]))).toBeLessThan(MOST);
    },
  );
});
