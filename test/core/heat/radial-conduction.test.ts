import { describe, expect, it } from 'vitest';
import { constantFilm, INSULATED, tabulated, type FluxLaw } from '../../../src/core/heat/flux-law.ts';
import { metalTable, plainMetal } from '../../../src/core/heat/metal.ts';
import { radialConduction, type Stage } from '../../../src/core/heat/radial-conduction.ts';
import { radialMesh } from '../../../src/core/heat/radial-mesh.ts';
import { steelConductivity } from '../../../src/core/heat/steel-conductivity.ts';
import { steelEnthalpy } from '../../../src/core/heat/steel-enthalpy.ts';
import { steelSpecificHeat } from '../../../src/core/heat/steel-specific-heat.ts';

const UNIT = plainMetal(1, 1, 1);
const LAWS = { enthalpy: steelEnthalpy, specificHeat: steelSpecificHeat, conductivity: steelConductivity };
const STEEL = { ...metalTable(LAWS, 273, 1873, 160), density: 7850 };
const NOTHING: Stage = { duration: 1, bore: INSULATED, outside: INSULATED };

/** Steps of a halving sequence: how many times smaller each error is than the one before. */
const ratios = (errors: readonly number[]): number[] => errors.slice(1).map((e, i) => errors[i]! / e);

describe('radial conduction', () => {
  // Series of the infinite cylinder, Bi 1, Fo 0.3: theta at the surface 0.484332.
  const surface = (cells: number, options: { tolerance: number; step?: number }): number => {
    const mesh = radialMesh([{ inner: 0, outer: 1, cells }]);
    return radialConduction(mesh, UNIT, 1, [{ ...NOTHING, duration: 0.3, outside: constantFilm(1, 0) }], {
      contact: 1,
      ...options,
    }).temperatures[cells + 1]!;
  };

  it('has a grid error that falls with the square of the cell size', () => {
    const finest = surface(256, { tolerance: 1e-8 });
    for (const ratio of ratios([8, 16, 32].map((cells) => Math.abs(surface(cells, { tolerance: 1e-8 }) - finest)))) {
      expect(ratio).toBeGreaterThan(3.6);
      expect(ratio).toBeLessThan(4.6);
    }
  });

  it('has a time error that falls with the third power of the step', () => {
    // A smooth beginning: the film is let in gently, so that the order is not hidden by the jump at the start.
    const mesh = radialMesh([{ inner: 0.4, outer: 1, cells: 20 }]);
    const start = Float64Array.from(mesh.middles, (r) => 1 + 0.2 * Math.cos((Math.PI * (r - 0.4)) / 0.6));
    const run = (step: number): number =>
      radialConduction(mesh, UNIT, start, [{ ...NOTHING, duration: 0.064 }], { contact: 1, tolerance: 1, step })
        .temperatures[1]!;
    const finest = run(0.064 / 1024);
    for (const ratio of ratios([8, 16, 32].map((n) => Math.abs(run(0.064 / n) - finest)))) {
      expect(ratio).toBeGreaterThan(7);
      expect(ratio).toBeLessThan(9);
    }
  });

  it('keeps the error of the controlled steps in proportion to the tolerance', () => {
    const exact = surface(40, { tolerance: 1e-8 });
    const coarse = Math.abs(surface(40, { tolerance: 1e-3 }) - exact);
    const fine = Math.abs(surface(40, { tolerance: 1e-5 }) - exact);
    expect(coarse).toBeLessThan(3e-3);
    expect(fine).toBeLessThan(3e-5);
  });

  it('balances its heat within 0.01 % through the latent peak, with flux in, films out and ends', () => {
    const mesh = radialMesh([
      { inner: 0.03, outer: 0.05, cells: 12 },
      { inner: 0.05, outer: 0.1, cells: 16 },
    ]);
    const heated: FluxLaw = { flux: () => -9e5, slope: () => 0 };
    const film = constantFilm(40, 293);
    const ends = { law: film, length: 0.25 };
    const result = radialConduction(
      mesh,
      STEEL,
      293,
      [
        { duration: 120, bore: heated, outside: film, ends },
        { duration: 600, bore: film, outside: film, ends },
      ],
      { contact: 2000, tolerance: 2 },
    );
    expect(result.throughBore).toBeGreaterThan(1e7);
    expect(
      Math.abs(result.stored - result.throughBore + result.throughOutside + result.throughEnds) / result.throughBore,
    ).toBeLessThan(1e-4);
  });

  it('passes a steady flow through two rings and their joint as resistances in series', () => {
    const k = 1;
    const mesh = radialMesh([
      { inner: 1, outer: 2, cells: 6 },
      { inner: 2, outer: 3, cells: 6 },
    ]);
    const { temperatures: t } = radialConduction(
      mesh,
      UNIT,
      0,
      [{ duration: 500, bore: constantFilm(1e9, 1), outside: constantFilm(1e9, 0) }],
      { contact: 5, tolerance: 1e-6 },
    );
    const flow = 1 / (Math.log(3) / (2 * Math.PI * k) + 1 / (2 * Math.PI * 2 * 5));
    mesh.middles.forEach((r, i) => {
      const before = Math.log(r) / (2 * Math.PI) + (r > 2 ? 1 / (2 * Math.PI * 2 * 5) : 0);
      expect(t[i + 1]!).toBeCloseTo(1 - flow * before, 6);
    });
  });

  it('meets the surface law at the surface to ten digits at every step, also where its table bends', () => {
    const mesh = radialMesh([{ inner: 0.03, outer: 0.1, cells: 12 }]);
    const film = tabulated((t) => 8 * (t - 293) ** 1.25, 293, 1000, 15);
    let worst = 0;
    radialConduction(
      mesh,
      { ...STEEL, conductivities: STEEL.conductivities.map(() => 40) },
      900,
      [{ duration: 40_000, bore: INSULATED, outside: film }],
      { contact: 1, tolerance: 1 },
      {
        step: ({ temperatures: t }) => {
          const [cell, wall] = [t[12]!, t[13]!];
          const conducted = (40 / (0.1 * Math.log(0.1 / mesh.middles[11]!))) * (cell - wall);
          worst = Math.max(worst, Math.abs(conducted / film.flux(wall) - 1));
        },
      },
    );
    expect(worst).toBeLessThan(1e-10);
  });

  it('leaves an insulated body of one temperature alone', () => {
    const mesh = radialMesh([{ inner: 0, outer: 1, cells: 5 }]);
    for (const t of radialConduction(mesh, STEEL, 500, [{ ...NOTHING, duration: 1e5 }], { contact: 1, tolerance: 1 })
      .temperatures)
      expect(t).toBeCloseTo(500, 9);
  });

  it('stops at the moment that is watched for, not at the end of the step it falls in', () => {
    // A well-stirred bar: Bi so small that it cools as exp(-2 Bi t).
    const mesh = radialMesh([{ inner: 0, outer: 1, cells: 4 }]);
    const result = radialConduction(
      mesh,
      plainMetal(1, 1, 1e3),
      1000,
      [{ ...NOTHING, duration: 100, outside: constantFilm(0.5, 0) }],
      { contact: 1, tolerance: 0.01 },
      { until: (t) => t[1]! - 500 },
    );
    expect(result.stopped).toBe(true);
    expect(result.time).toBeCloseTo(Math.log(2), 3);
    expect(result.temperatures[1]!).toBeCloseTo(500, 2);
  });

  it('gets with hasty steps, in two thirds of them, within the tolerance of where careful ones end, and stops at a field that meets what is watched for', () => {
    const mesh = radialMesh([
      { inner: 0.03, outer: 0.05, cells: 5 },
      { inner: 0.05, outer: 0.12, cells: 4 },
    ]);
    const film = constantFilm(20, 293);
    const heated: FluxLaw = { flux: () => -1e5, slope: () => 0 };
    const uneven = (t: Float64Array): number => t[1]! - t[9]! - 15;
    const run = (hasty: boolean) =>
      radialConduction(
        mesh,
        STEEL,
        293,
        [
          { duration: 200, bore: heated, outside: film, watched: false },
          { duration: 36_000, bore: film, outside: film },
        ],
        { contact: 2000, tolerance: 6, hasty },
        { until: uneven },
      );
    const [careful, hasty] = [run(false), run(true)];
    expect(hasty.steps).toBeLessThanOrEqual((2 / 3) * careful.steps);
    expect(Math.abs(uneven(hasty.temperatures))).toBeLessThan(0.12);
    careful.temperatures.forEach((t, i) => expect(Math.abs(hasty.temperatures[i]! - t)).toBeLessThan(6));
  });

  it('does not run at all where the watched moment has passed at the start', () => {
    const mesh = radialMesh([{ inner: 0, outer: 1, cells: 4 }]);
    const result = radialConduction(
      mesh,
      UNIT,
      300,
      [NOTHING],
      { contact: 1, tolerance: 1 },
      { until: (t) => t[1]! - 400 },
    );
    expect(result).toMatchObject({ stopped: true, time: 0, steps: 0 });
  });
});
