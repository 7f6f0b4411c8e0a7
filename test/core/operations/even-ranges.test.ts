/**
 * A range without a source leans to neither side in what it does: with a factor alone drawn, oxygen and time come out as many times
 * more, where they are more, as less. Nobody measured that a job goes wrong further than it goes well, so no range may say so; and
 * worked values then stand about the middle of their draws, since what several factors do adds up.
 *
 * A range even in its own logarithm is not that: what a crew adds in minutes, or a loss takes of the heat, is even in itself, and what
 * the oxygen is divided by is even in its inverse.
 */
import { describe, expect, it } from 'vitest';
import type { Override } from '../../../src/core/assumptions/assumptions.ts';
import { numberAssumption, type NumberName } from '../../../src/core/assumptions/registry.ts';
import { OPERATION_IDS, operationOf, type OperationId } from '../../../src/core/operations/all.ts';
import { drawItem, drawnFactors } from '../../../src/core/operations/draw-item.ts';
import { drawPercentiles } from '../../../src/core/spread/draw-percentile.ts';
import { basisOf, inSi, set, sized, word } from './sized.ts';
import { SWEEP } from './sweep-items.ts';

/** Enough for the tenth and the ninetieth percentile of one factor. */
const COUNT = 64;
/** Most that one side may be wider than the other, over both: ends are round figures, and sizes differ. */
const MOST = 0.15;

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
  ...['stainless steel', 'cast iron', 'copper alloy'].map((material) => ({ ids: METAL, material })),
];

/** By how much, in the logarithm, a result is more, and less, than worked out; one factor drawn. */
interface Sides {
  readonly up: number;
  readonly down: number;
}

type Found = Map<NumberName, { readonly burnt: Sides[]; readonly crew: Sides[] }>;

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
      const names: readonly NumberName[] = ['item scatter', ...drawnFactors(operation, rod.rod, made, asIs.a)];
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
        const at = found.get(name) ?? { burnt: [], crew: [] };
        found.set(name, at);
        at.burnt.push(sides(draws.oxygen, item.oxygen), sides(draws.burnTime, item.burnTime));
        at.crew.push(sides(draws.workTime, item.crewTime - item.cooling));
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
  const unsourced = [...found].filter(([name]) => numberAssumption(name).source === 'common practice');

  it('is one of those that are drawn', () => {
    expect(unsourced.length).toBeGreaterThan(40);
    for (const name of Object.keys(LEANING)) expect(found.has(name as NumberName), name).toBe(true);
  });

  it.each(unsourced)(
    'of %s leans to neither side in oxygen and burning, or in the time of a crew',
    (name, { burnt, crew }) => {
      const moves = width(burnt) > 1e-9 * burnt.length ? burnt : crew;
      if (name in LEANING) return;
      expect(Math.abs(lean(moves))).toBeLessThan(MOST);
    },
  );
});
