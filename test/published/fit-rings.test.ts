import { describe, expect, it } from 'vitest';
import { Rings, type RingMaterial } from '../../src/core/fit/ring-solver.ts';
import { radialMesh } from '../../src/core/heat/radial-mesh.ts';

// Timoshenko & Goodier, Theory of Elasticity, 2nd ed. 1951, art. 135: hollow cylinder with free ends, steady radial flow of heat,
// inner face hotter by T_i. The numbers: bores of 0.5 and 0.7 m, E 200 GPa, alpha 1e-5, nu 0.3, outside hotter by 100 K, for which
// an independent program (willietheboy/nashTubeStress) prints -126.9543 MPa of hoop and axial stress at the outside.
describe('a ring with a radial temperature difference', () => {
  const a = 0.5;
  const b = 0.7;
  const E = 200e9;
  const alpha = 1e-5;
  const nu = 0.3;
  const Ti = -100;
  const log = Math.log(b / a);
  const scale = (alpha * E * Ti) / (2 * (1 - nu) * log);
  const square = (a * a) / (b * b - a * a);
  const exact = (r: number) => ({
    radial: scale * (-Math.log(b / r) - square * (1 - (b * b) / (r * r)) * log),
    hoop: scale * (1 - Math.log(b / r) - square * (1 + (b * b) / (r * r)) * log),
    axial: scale * (1 - 2 * Math.log(b / r) - 2 * square * log),
  });
  const steel: RingMaterial = { modulus: () => E, yield: () => Infinity, elongation: (t) => alpha * t, poisson: nu };
  const solve = (cells: number) => {
    const mesh = radialMesh([{ inner: a, outer: b, cells }]);
    const solver = new Rings(mesh, { materials: [steel], interference: 0, reference: 0, ends: 'free' });
    solver.advance({ temperatures: Array.from(mesh.middles, (r) => (Ti * Math.log(b / r)) / log) });
    return solver.stresses();
  };
  /** Largest error of the means of each cell's two points, over the largest stress. */
  const error = (cells: number): number => {
    const { radii, radial, hoop, axial } = solve(cells);
    let most = 0;
    for (let i = 0; i < radii.length; i += 2) {
      const want = exact((radii[i]! + radii[i + 1]!) / 2);
      for (const [values, right] of [
        [radial, want.radial],
        [hoop, want.hoop],
        [axial, want.axial],
      ] as const) {
        most = Math.max(most, Math.abs((values[i]! + values[i + 1]!) / 2 - right));
      }
    }
    return most / 126.9543e6;
  };

  it("has the closed formula's -126.9543 MPa at the outside", () => {
    expect(exact(b).hoop / 1e6).toBeCloseTo(-126.9543, 4);
    expect(exact(b).axial / 1e6).toBeCloseTo(-126.9543, 4);
  });

  it('agrees with it throughout within 1 part in 1000 on 40 cells', () => {
    expect(error(40)).toBeLessThan(1e-3);
  });

  it('comes nearer with the square of the cell size', () => {
    for (const [coarse, fine] of [
      [10, 20],
      [20, 40],
    ] as const) {
      expect(error(coarse) / error(fine)).toBeGreaterThan(3.5);
      expect(error(coarse) / error(fine)).toBeLessThan(4.5);
    }
  });

  it("carries the outside's hoop and axial stress of -126.9543 MPa, read off at the surface", () => {
    const { radii, hoop, axial } = solve(80);
    const mid = (values: Float64Array, cell: number): number => (values[2 * cell]! + values[2 * cell + 1]!) / 2;
    const outside = (values: Float64Array): number => {
      const near = mid(radii, 79);
      const far = mid(radii, 78);
      return mid(values, 79) + ((b - near) * (mid(values, 79) - mid(values, 78))) / (near - far);
    };
    expect(outside(hoop) / -126.9543e6).toBeCloseTo(1, 3);
    expect(outside(axial) / -126.9543e6).toBeCloseTo(1, 3);
  });
});

// Hill, The Mathematical Theory of Plasticity (1950); the numbers of de Souza Neto, Peric & Owen, Computational Methods for
// Plasticity (2008), 7.5.1: a 100 mm, b 200 mm, E 210 GPa, nu 0.3, yield 240 MPa, plane strain. With Y = 2 f / sqrt(3):
// first yield p0 = Y/2 (1 - a^2/b^2), collapse Y ln(b/a), and for plastic radius c: p / Y = ln(c/a) + (1 - c^2/b^2) / 2, outside
// moving by Y c^2 (1 - nu^2) / (E b).
describe('a thick cylinder that yields under inner pressure', () => {
  const a = 0.1;
  const b = 0.2;
  const E = 210e9;
  const nu = 0.3;
  const f = 240e6;
  const Y = (2 * f) / Math.sqrt(3);
  const steel: RingMaterial = { modulus: () => E, yield: () => f, elongation: () => 0, poisson: nu };
  const solver = (cells: number) =>
    new Rings(radialMesh([{ inner: a, outer: b, cells }]), {
      materials: [steel],
      interference: 0,
      reference: 0,
      ends: 'held',
    });
  const cold = new Float64Array(40);
  const plasticRadius = (p: number): number => {
    let low = a;
    let high = b;
    for (let i = 0; i < 60; i++) {
      const c = (low + high) / 2;
      if (Math.log(c / a) + (1 - (c / b) ** 2) / 2 < p / Y) low = c;
      else high = c;
    }
    return low;
  };

  it("moves outside as Lame's plane strain before it yields", () => {
    const p = 0.9 * (Y / 2) * (1 - (a / b) ** 2);
    const { faces } = solver(40).advance({ temperatures: cold, bore: p });
    expect(faces[0]!.outer / ((2 * p * b * (1 - nu * nu)) / (E * ((b / a) ** 2 - 1)))).toBeCloseTo(1, 5);
  });

  it.each([120, 140, 160, 180])("at %d MPa moves outside as Hill's partly plastic cylinder, within 1 %%", (mega) => {
    const p = mega * 1e6;
    const c = plasticRadius(p);
    const ring = solver(40);
    for (const share of [0.4, 0.6, 0.8, 0.9, 1]) ring.advance({ temperatures: cold, bore: share * p });
    const { faces } = ring.advance({ temperatures: cold, bore: p });
    expect(Math.abs(faces[0]!.outer / ((Y * c * c * (1 - nu * nu)) / (E * b)) - 1)).toBeLessThan(0.01);
  });

  it('holds just below the collapse pressure of 192.09 MPa and not above it', () => {
    expect((Y * Math.log(b / a)) / 1e6).toBeCloseTo(192.09, 2);
    const ring = solver(40);
    for (const mega of [120, 160, 180, 190, 191.5, 192]) ring.advance({ temperatures: cold, bore: mega * 1e6 });
    expect(() => ring.advance({ temperatures: cold, bore: 193e6 })).toThrow('no equilibrium');
  });
});
