/**
 * Where the worked value stands among its own draws: it is worked out with every assumption at its median, so it should be about
 * the middle, between the 40th and the 60th percentile. Each factor alone leaves it exactly in the middle, and ranges that lean to
 * neither side (even-ranges.test.ts) leave it there where several come together.
 */
import { describe, expect, it } from 'vitest';
import type { Override } from '../../../src/core/assumptions/assumptions.ts';
import type { NumberName } from '../../../src/core/assumptions/registry.ts';
import type { Basis } from '../../../src/core/basis.ts';
import { findMaterial } from '../../../src/core/burn/materials.ts';
import { findRod } from '../../../src/core/burn/rods.ts';
import { operationOf, type OperationId } from '../../../src/core/operations/all.ts';
import { cooledBy, drawItem, drawnFactors } from '../../../src/core/operations/draw-item.ts';
import { DRAWS } from '../../../src/core/operations/spread-item.ts';
import { basisOf, inSi, set, sized, word } from './sized.ts';
import { FINE_SWEEP, SWEEP } from './sweep-items.ts';

const QUANTITIES = ['oxygen', 'burning', 'time at the work', 'crew time', 'rods'] as const;
type Quantity = (typeof QUANTITIES)[number];

/** Shares of the draws that lie below the worked value, and at it or below. */
type Place = readonly [below: number, upTo: number];

function places(
  id: OperationId,
  sizes: readonly number[],
  basis: Basis,
  material?: string,
): Readonly<Record<Quantity, Place>> {
  const operation = operationOf(id);
  const item = sized(operation, inSi(operation, sizes), { basis, ...(material !== undefined && { material }) });
  const draws = drawItem(item, DRAWS, basis);
  const place = (column: Float64Array, value: number): Place => {
    const slack = 1e-9 * value;
    return [
      column.filter((x) => x < value - slack).length / DRAWS,
      column.filter((x) => x <= value + slack).length / DRAWS,
    ];
  };
  return {
    oxygen: place(draws.oxygen, item.oxygen),
    burning: place(draws.burnTime, item.burnTime),
    'time at the work': place(draws.timeAtWork, item.timeAtWork),
    'crew time': place(draws.crewTime, item.crewTime),
    rods: place(draws.rods, item.rods),
  };
}

/** Whether some of the middle lies at the value: a whole count is that of many draws. */
const near = ([below, upTo]: Place, least = 0.4, most = 0.6): boolean => below <= most && upTo >= least;

const ITEMS = (Object.entries(SWEEP) as [OperationId, readonly (readonly number[])[]][]).flatMap(([id, all]) =>
  all.map((sizes) => ({ id, sizes, at: places(id, sizes, basisOf()) })),
);

describe('the worked value', () => {
  it('stands between the 40th and the 60th percentile for every operation and quantity', () => {
    const all = ITEMS.flatMap(({ id, sizes, at }) =>
      QUANTITIES.map((quantity) => ({ of: `${quantity} of ${id} ${sizes.join(' x ')}`, at: at[quantity] })),
    );
    expect(all.length).toBe(225);
    expect(all.filter(({ at }) => !near(at))).toEqual([]);
  });

  it('stands there in forty-nine cases of fifty of other sizes and other metals, in concrete and cooled with water', () => {
    const ways = [[basisOf()], [basisOf(word('cooling method', 'water'))]] as const;
    const made = ['cast iron', 'stainless steel', 'concrete'].map((material) => [basisOf(), material] as const);
    const all = (Object.entries(FINE_SWEEP) as [OperationId, readonly (readonly number[])[]][]).flatMap(([id, items]) =>
      items.flatMap((sizes) =>
        [...ways, ...made].flatMap(([basis, material]) => {
          const at = places(id, sizes, basis, material);
          return QUANTITIES.map((quantity) => near(at[quantity]));
        }),
      ),
    );
    expect(all.length).toBe(1700);
    expect(all.filter((x) => x).length / all.length).toBeGreaterThan(0.98);
  });

  it('stands in the middle where one factor alone is not certain', () => {
    const operation = operationOf('PIN');
    const names = drawnFactors(operation, findRod('3/8').rod, findMaterial('carbon steel'), basisOf().a);
    const all: readonly NumberName[] = ['item scatter', ...names, ...cooledBy(operation, basisOf().a)];
    for (const name of ['oxygen burnt share', 'slag temperature', 'burning duty', 'set-up time'] as const) {
      const others = all.filter((each) => each !== name);
      const at = places('PIN', [4, 10], basisOf(...certain(...others)));
      for (const quantity of ['oxygen', 'crew time'] as const) expect(near(at[quantity], 0.49, 0.51), name).toBe(true);
    }
  });
});

/** Assumptions as they are, but without a range. */
const certain = (...names: readonly NumberName[]): readonly Override[] =>
  names.map((name) => set(name, basisOf().a.value(name)));
