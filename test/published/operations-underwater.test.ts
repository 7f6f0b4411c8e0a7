/**
 * Under water. US Navy, Underwater Cutting and Welding Manual, S0300-BB-MAN-010 (a reprint was read): tip pressure 90
 * psi over bottom pressure, 110 psi at the tip over 3 in of metal; a 3 in stub. US Navy Diving Manual: 0.445 psi for
 * each foot of sea water, so 60 ft needs 116.7 psig plus the hose's loss.
 */
import { describe, expect, it } from 'vitest';
import { OPERATION_IDS, operationOf } from '../../src/core/operations/all.ts';
import { numberOf, rowsOf, textOf } from './plan-of.ts';

const UNDER = [['position', 'underwater']];

describe('work under water', () => {
  it.each([
    ['HOLE', [1, 2], 90],
    ['HOLE', [1, 3], 90],
    ['HOLE', [1, 3.001], 110],
    ['HOLE', [1, 8], 110],
    ['CUT', [1, 24], 90],
    ['CUT', [4, 24], 110],
    ['STUD', [2, 4], 90],
    ['STUD', [3.5, 4], 110],
    ['PIN', [4, 2.5], 90],
    ['PIN', [4, 10], 110],
    ['GOUGE', [0.75, 0.5, 24], 90],
  ] as const)('%s of %j takes %i psi', (id, sizes, psi) => {
    const rest = Array.from({ length: operationOf(id).order.length - sizes.length }, () => undefined);
    expect(numberOf(`BURN.${id}.PRESSURE`, ...sizes, ...rest, undefined, undefined, UNDER)).toBeCloseTo(psi, 9);
  });

  it('takes insulated rods for metal', () => {
    for (const id of OPERATION_IDS.filter((o) => o !== 'BREACH')) {
      const sizes = operationOf(id).order.map((name) => Number(operationOf(id).sizes[name]?.example));
      expect(textOf(rowsOf(`BURN.${id}.PLAN`, ...sizes, undefined, undefined, UNDER)[0]?.['rod']), id).toContain(
        'insulated',
      );
    }
  });

  it("needs 116.7 psi at the regulator at 60 ft of sea water, and the hose's loss", () => {
    const plan = rowsOf('BURN.HOLE.PLAN', 1, 2, undefined, undefined, [...UNDER, ['water depth', 60]])[0] ?? {};
    expect(plan['regulator setting']).toBeGreaterThan(116.7);
    expect(plan['regulator setting']).toBeLessThan(116.7 + 10);
    const shallow = rowsOf('BURN.HOLE.PLAN', 1, 2, plan['rod'], undefined, UNDER)[0] ?? {};
    expect((plan['tip pressure'] as number) - (shallow['tip pressure'] as number)).toBeCloseTo(0, 9);
  });

  it('leaves a 3 in stub', () => {
    expect(rowsOf('BURN.ASSUMED', 'stub').find((r) => r['name'] === 'stub')?.['value']).toBe(3);
  });
});
