/**
 * Rules of thumb for lances from a Polish trade handbook, read as a web copy (secondary; hedge): lance consumed 5 to 6
 * times the depth pierced; oxygen for a metre of hole of 20 to 40 mm: cast iron 6 to 8 m3, concrete 3 to 6, rock 10 to 15.
 *
 * Where the model falls for 1 m of 30 to 40 mm with bars of 1/4 and 3/8 pipe: lance 5 to 6 times the depth in concrete, 7 in cast
 * iron and 11 where the bar is led round in it; concrete 2.0 to 3.3 m3, low to high 1.4 to 4.7; cast iron 2.8 to 4.6 m3, low to
 * high 2.2 to 6.0; rock as concrete. So concrete agrees, but for a bar of 1/4 pipe led round in 40 mm, whose high is just under 3;
 * cast iron is two fifths to two thirds of the published and rock a sixth to a third. Before heat and slag were blended the bar of 3/8
 * pipe took 3.6 m3 in concrete and 4.3 in cast iron, now 3.3 and 4.6.
 * Why: so deep and narrow a hole is limited by slag getting out, not by heat (heat alone would take 0.6 to 2.4 m3), and the
 * model gives every melt the same limit. The limit is one assumption (`advance limit`, 10 to 30 in/min at the mouth), set at
 * about the middle of its range, 18: at 16 while a pierce kept to it wherever the heat was faster, somewhat higher since heat and
 * slag are blended and a pierce only comes near it. That all the published figures are slower than 24, its value once, was known
 * both times. At its low end cast iron agrees with the bars that take the flow, and rock needs less than that; the plan's note says what
 * the handbook has. The handbook names no bar and no flow, and the oxygen goes with the flow.
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
      expect(p['oxygen'] as number).toBeLessThan(6);
      // The thin bar led round in a hole of three times its width: just under.
      expect(p['oxygen high']).toBeGreaterThan(rod === '1/4 pipe' && width === 40 ? 2.7 : 3);
      expect(p['oxygen'] as number).toBeGreaterThan(2);
    },
  );

  it.each(CASES)(
    "of %i mm with %s takes a third to two thirds of the handbook's oxygen in cast iron, more where slag is slowest",
    (width, rod) => {
      const p = plan(width, rod, 'cast iron');
      expect((p['oxygen'] as number) / 7).toBeGreaterThan(0.33);
      expect((p['oxygen'] as number) / 7).toBeLessThan(2 / 3);
      const slow = plan(width, rod, 'cast iron', ['advance limit', '10 in/min'])['oxygen'] as number;
      expect(slow).toBeGreaterThan(rod === '3/8 pipe' ? 5.5 : 3.5);
      expect(slow).toBeLessThan(8.5);
      expect(textOf(p['note'])).toContain('a trade handbook has twice as much');
    },
  );

  it.each(CASES)(
    "of %i mm with %s takes a sixth to a third of the handbook's oxygen in rock, and says so",
    (width, rod) => {
      const p = plan(width, rod, 'rock');
      expect((p['oxygen'] as number) / 12.5).toBeGreaterThan(0.16);
      expect((p['oxygen'] as number) / 12.5).toBeLessThan(0.35);
      expect(textOf(p['note'])).toContain('a trade handbook has three to four times as much for rock');
    },
  );

  it.each(CASES)(
    'of %i mm with %s consumes 4-1/2 to 7 times its depth of bar, in cast iron 7 to 7-1/2 and led round to 11; the handbook has 5 to 6',
    (width, rod) => {
      for (const material of ['cast iron', 'concrete']) {
        // Bar iron for the oxygen burnt with: 2 kg/kg.
        const burning =
          ((plan(width, rod, material)['burning'] as number) / 60) *
          (plan(width, rod, material)['flow'] as number) *
          CUBIC_METRE_15C;
        const times = (2 * burning) / rodMassPerLength(findRod(rod).rod);
        expect(times, material).toBeGreaterThan(4.5);
        expect(times, material).toBeLessThan(
          material === 'concrete' ? 7 : rod === '1/4 pipe' && width === 40 ? 11 : 7.5,
        );
      }
    },
  );
});
