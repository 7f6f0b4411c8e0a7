/**
 * Rules of thumb for lances from a Polish trade handbook, read as a web copy (secondary; hedge): lance consumed 5 to 6
 * times the depth pierced; oxygen for a metre of hole of 20 to 40 mm: cast iron 6 to 8 m3, concrete 3 to 6, rock 10 to 15.
 *
 * Where the model falls for 1 m of 30 to 40 mm with bars of 1/4 and 3/8 pipe: lance 4 to 7 times the depth; concrete 2.8
 * to 3.3 m3, low to high 2.4 to 5.0; cast iron 3.3 m3, low to high 2.8 to 5.0; rock as concrete. So concrete agrees, cast
 * iron is half of the published and rock a quarter. Why: so deep and narrow a hole is limited by slag getting out, not
 * by heat (heat alone would take 0.6 to 2.4 m3), and the model gives every melt the same limit. At the flow of these bars the
 * published figures mean 4 in/min on average in cast iron and 2 in rock, where slag is stiff with silica, against 9 here.
 * The limit is one assumption (`advance limit`, 10 to 30 in/min at the mouth); at its low end cast iron agrees, and rock
 * needs less than that. It is not fitted: the plan's note says what the handbook has.
 */
import { describe, expect, it } from 'vitest';
import { CUBIC_METRE_15C } from '../../src/core/units/quantities.ts';
import { rodMassPerLength, findRod } from '../../src/core/burn/rods.ts';
import { rowsOf, textOf } from './plan-of.ts';

const plan = (
  width: number,
  rod: string,
  material: string,
  ...rows: readonly (readonly [string, string | number])[]
): Readonly<Record<string, unknown>> =>
  rowsOf('BURN.HOLE.PLAN', width, 1000, rod, material, [['units', 'SI'], ['supply flow', 100], ...rows])[0] ?? {};
const CASES = [
  [30, '1/4 pipe'],
  [40, '1/4 pipe'],
  [40, '3/8 pipe'],
] as const;

describe('a metre of a narrow hole with a burning bar', () => {
  it.each(CASES)(
    "of %i mm with %s takes the handbook's oxygen in concrete between its low and its high",
    (width, rod) => {
      const p = plan(width, rod, 'concrete');
      expect(p['oxygen low']).toBeLessThan(6);
      expect(p['oxygen high']).toBeGreaterThan(3);
      expect(p['oxygen'] as number).toBeGreaterThan(2.5);
      expect(p['oxygen'] as number).toBeLessThan(6);
    },
  );

  it.each(CASES)(
    "of %i mm with %s takes half the handbook's oxygen in cast iron, and agrees at the low end of the slag's limit",
    (width, rod) => {
      const p = plan(width, rod, 'cast iron');
      expect((p['oxygen'] as number) / 7).toBeGreaterThan(0.4);
      expect((p['oxygen'] as number) / 7).toBeLessThan(0.6);
      const slow = plan(width, rod, 'cast iron', ['advance limit', '10 in/min'])['oxygen'] as number;
      expect(slow).toBeGreaterThan(5.5);
      expect(slow).toBeLessThan(8.5);
      expect(textOf(p['note'])).toContain('a trade handbook has twice as much');
    },
  );

  it.each(CASES)(
    "of %i mm with %s takes a quarter to a third of the handbook's oxygen in rock, and says so",
    (width, rod) => {
      const p = plan(width, rod, 'rock');
      expect((p['oxygen'] as number) / 12.5).toBeGreaterThan(0.2);
      expect((p['oxygen'] as number) / 12.5).toBeLessThan(0.35);
      expect(textOf(p['note'])).toContain('a trade handbook has three to four times as much for rock');
    },
  );

  it.each(CASES)('of %i mm with %s consumes 4 to 7 times its depth of bar; the handbook has 5 to 6', (width, rod) => {
    for (const material of ['cast iron', 'concrete']) {
      // Bar iron for the oxygen burnt with: 1.6 kg/kg.
      const burning =
        ((plan(width, rod, material)['burning'] as number) / 60) *
        (plan(width, rod, material)['flow'] as number) *
        CUBIC_METRE_15C;
      const times = (1.6 * burning) / rodMassPerLength(findRod(rod).rod);
      expect(times, material).toBeGreaterThan(3.5);
      expect(times, material).toBeLessThan(7.2);
    }
  });
});
