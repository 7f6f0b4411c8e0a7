import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../src/catalogue/catalogue.ts';
import { OPERATION_IDS, operationOf } from '../../src/core/operations/all.ts';
import { cellsOf, numberOf, rowsOf, textOf } from '../published/plan-of.ts';

describe.each(OPERATION_IDS)('the functions of %s', (id) => {
  const sizes = operationOf(id).order.map((name) => Number(operationOf(id).sizes[name]?.example));

  it('are seven, and agree with the plan', () => {
    const names = ['RODS', 'OXYGEN', 'BURN', 'TIME', 'PRESSURE', 'PLAN', 'STEPS'].map((n) => `BURN.${id}.${n}`);
    expect(CATALOGUE.map((d) => d.name)).toEqual(expect.arrayContaining(names));
    const plan = rowsOf(`BURN.${id}.PLAN`, ...sizes)[0];
    expect(names.slice(0, 5).map((n) => numberOf(n, ...sizes))).toEqual(
      ['rods', 'oxygen', 'burning', 'crew', 'tip pressure'].map((h) => plan?.[h]),
    );
  });

  it('take a list, each row as if it stood alone', () => {
    const column = (x: number): number[][] => [[x], [x * 1.25], [x * 1.5]];
    const list = cellsOf(
      `BURN.${id}.OXYGEN`,
      ...sizes.map((x, i) =>
        operationOf(id).sizes[operationOf(id).order[i] ?? '']?.quantity === 'count' ? x : column(x),
      ),
    );
    expect(list.map((r) => r[0])).toEqual(
      [1, 1.25, 1.5].map((k) =>
        numberOf(
          `BURN.${id}.OXYGEN`,
          ...sizes.map((x, i) =>
            operationOf(id).sizes[operationOf(id).order[i] ?? '']?.quantity === 'count' ? x : x * k,
          ),
        ),
      ),
    );
  });
});

describe('the notes of a plan', () => {
  const note = (...args: Parameters<typeof rowsOf>): string => textOf(rowsOf(...args)[0]?.['note']);

  it('say when a row of holes beats a kerf, and when it does not', () => {
    expect(note('BURN.CUT.PLAN', 12, 24)).toMatch(
      /row of holes: the work costs [\d.]+ in [\d.]+ min, against [\d.]+ in [\d.]+ min with a kerf/,
    );
    expect(note('BURN.CUT.PLAN', 1, 24)).toMatch(
      /kerf: the work costs [\d.]+ in [\d.]+ min, against [\d.]+ in [\d.]+ min with a row of holes/,
    );
    expect(note('BURN.CUT.PLAN', 12, 24, undefined, undefined, [['cut method', 'kerf']])).not.toContain(
      'with a row of holes',
    );
  });

  it('say how much dearer a material is that does not burn', () => {
    expect(note('BURN.STUD.PLAN', 2, 1, undefined, 'copper')).toMatch(
      /copper alloy is only melted, by the rod's heat alone: by the heat balance [\d.]+ times the oxygen of the same volume of carbon steel/,
    );
    expect(note('BURN.STUD.PLAN', 2, 1, undefined, 'stainless')).toMatch(
      /stainless steel burns only in part: by the heat balance [\d.]+ times/,
    );
    expect(note('BURN.STUD.PLAN', 2)).not.toContain('oxygen of the same volume');
    expect(note('BURN.BREACH.PLAN', 24, 2.5)).toMatch(
      /reinforced concrete is only melted, but for the steel in it, which may burn: by the heat balance [\d.]+ times the oxygen/,
    );
    expect(note('BURN.BREACH.PLAN', 24, 2.5, undefined, undefined, 'concrete')).toMatch(
      /; concrete is only melted, by the rod's heat alone: by the heat balance/,
    );
    // Severing is not limited by slag, so the note's factor is that of the oxygen burnt with.
    const burn = (material: string): number => numberOf('BURN.STUD.BURN', 2, 1, '3/8 x 36', material);
    for (const material of ['copper', 'aluminium', 'cast iron']) {
      const factor = Number(/balance ([\d.]+) times/.exec(note('BURN.STUD.PLAN', 2, 1, '3/8 x 36', material))?.[1]);
      expect(factor).toBeGreaterThan(1);
      expect(burn(material) / burn('carbon steel')).toBeCloseTo(factor, 1);
    }
  });

  it('say that the pressure is over that of the water', () => {
    expect(note('BURN.HOLE.PLAN', 1.5, 6, undefined, undefined, [['position', 'underwater']])).toContain(
      'tip pressure is counted from the pressure of the water',
    );
  });
});
