import { describe, expect, it } from 'vitest';
import { coolPin } from '../../../src/core/heat/cool-pin.ts';
import { ESTIMATE_GRIDS } from '../../../src/core/heat/heat-physics.ts';
import { passesOf, PHYSICS, PIN } from './physics.ts';

const run = (position: number, method: 'air' | 'water' = 'air', duration = 600, passes = passesOf()) =>
  coolPin({ pin: PIN, passes, method, position, duration }, PHYSICS, ESTIMATE_GRIDS[method]);

describe('heating and cooling a section of a pin', () => {
  it.each(['air', 'water'] as const)('balances its heat within 0.1 % with %s', (method) => {
    expect(Math.abs(run(1, method, 3600).imbalance)).toBeLessThan(1e-3);
  });

  it('takes in all the heat that burning offers while the wall stays below its melting point', () => {
    const { heatTaken, heatOffered } = run(1);
    expect(heatTaken / heatOffered).toBeCloseTo(1, 2);
  });

  it('never heats the wall past its melting point, and takes in less where it would', () => {
    let hottest = 0;
    const passes = [{ heat: 6e7, duration: 120, pause: 0 }];
    const { heatTaken, heatOffered } = coolPin(
      { pin: PIN, passes, method: 'air', position: 1, duration: 1 },
      PHYSICS,
      ESTIMATE_GRIDS.air,
      (_, t) => {
        hottest = Math.max(hottest, t[0]!);
      },
    );
    expect(hottest).toBeGreaterThan(PHYSICS.meltingPoint - 100);
    expect(hottest).toBeLessThanOrEqual(PHYSICS.meltingPoint);
    expect(heatTaken).toBeLessThan(heatOffered);
  });

  it('leaves the section burnt first cooler than the one burnt last', () => {
    const hottest = [0, 0.5, 1].map((position) => Math.max(...run(position, 'air', 1).temperatures));
    expect(hottest[0]!).toBeLessThan(hottest[1]!);
    expect(hottest[1]!).toBeLessThan(hottest[2]!);
  });

  it('heats every section by the same passes, only at other times', () => {
    const first = run(0, 'air', 1).heatTaken;
    const last = run(1, 'air', 1).heatTaken;
    // The first section also loses heat through its bore while the rest burns.
    expect(first).toBeLessThan(last);
    expect(first / last).toBeGreaterThan(0.9);
  });

  it('waits between passes where they say so', () => {
    const { heat, duration } = passesOf()[1]!;
    const twice = [
      { heat, duration, pause: 1800 },
      { heat, duration, pause: 0 },
    ];
    const atOnce = twice.map((pass) => ({ ...pass, pause: 0 }));
    const hottest = (passes: typeof twice): number => Math.max(...run(1, 'air', 1, passes).temperatures);
    expect(hottest(twice)).toBeLessThan(hottest(atOnce));
  });

  it('takes in as much heat with hasty steps, which spread that of the first pass, and is as hot when burning ends', () => {
    const grid = { pinCells: 5, bossCells: 4, tolerance: 6 };
    const [careful, hasty] = [false, true].map((each) => {
      let atEnd = NaN;
      const { heatTaken, steps } = coolPin(
        { pin: PIN, passes: passesOf(), method: 'air', position: 1, duration: 600 },
        PHYSICS,
        { ...grid, hasty: each },
        (time, t) => {
          if (time <= 0) atEnd = t[1]!;
        },
      );
      return { heatTaken, steps, atEnd };
    });
    expect(hasty!.steps).toBeLessThan(0.6 * careful!.steps);
    expect(Math.abs(hasty!.heatTaken / careful!.heatTaken - 1)).toBeLessThan(0.005);
    expect(Math.abs(hasty!.atEnd - careful!.atEnd)).toBeLessThan(grid.tolerance);
  });
});
