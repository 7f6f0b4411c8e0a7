import { describe, expect, it } from 'vitest';
import { constantFilm, INSULATED } from '../../src/core/heat/flux-law.ts';
import { plainMetal } from '../../src/core/heat/metal.ts';
import { radialConduction } from '../../src/core/heat/radial-conduction.ts';
import { radialMesh } from '../../src/core/heat/radial-mesh.ts';

/** Unit properties: time is the Fourier number, the film coefficient the Biot number, temperature theta. */
const UNIT = plainMetal(1, 1, 1);

function cylinder(
  biot: number,
  fourier: number,
  cells: number,
  tolerance: number,
): { centre: number; surface: number; mean: number } {
  const mesh = radialMesh([{ inner: 0, outer: 1, cells }]);
  const { temperatures: t } = radialConduction(
    mesh,
    UNIT,
    1,
    [{ duration: fourier, bore: INSULATED, outside: constantFilm(biot, 0) }],
    { contact: 1, tolerance },
  );
  let heat = 0;
  for (let i = 0; i < cells; i++) heat += mesh.areas[i]! * t[i + 1]!;
  // The centre lies half a cell inside the first middle; its slope there is zero.
  return { centre: (9 * t[1]! - t[2]!) / 8, surface: t[cells + 1]!, mean: heat / Math.PI };
}

// Seven-term series of the infinite cylinder (Incropera et al., Fundamentals of Heat and Mass Transfer, eq. 5.47):
// Bi, Fo, theta at the centre, at the surface, mean. Computed independently of this project.
const THETA = [
  [0.01, 0.05, 0.999988, 0.997196, 0.999002],
  [0.01, 0.2, 0.998325, 0.993602, 0.996016],
  [0.01, 0.5, 0.992543, 0.987602, 0.990072],
  [0.01, 2, 0.963284, 0.958485, 0.960883],
  [0.01, 10, 0.821184, 0.817093, 0.819138],
  [0.05, 0.1, 0.998665, 0.979405, 0.990132],
  [0.05, 0.3, 0.982641, 0.958803, 0.970757],
  [0.05, 1, 0.917189, 0.894683, 0.905913],
  [0.05, 5, 0.617867, 0.602705, 0.61027],
  [0.1, 0.05, 0.999881, 0.972484, 0.990179],
  [0.1, 0.2, 0.983674, 0.938584, 0.961549],
  [0.1, 0.5, 0.92934, 0.884592, 0.906881],
  [0.1, 2, 0.693584, 0.660167, 0.676807],
  [0.1, 10, 0.14565, 0.138633, 0.142127],
  [0.2, 0.1, 0.994782, 0.921286, 0.962044],
  [0.2, 0.3, 0.93446, 0.84856, 0.891384],
  [0.2, 1, 0.716423, 0.64985, 0.682871],
  [0.2, 5, 0.156279, 0.141756, 0.148959],
  [0.5, 0.05, 0.999426, 0.873215, 0.954217],
  [0.5, 0.2, 0.926659, 0.740824, 0.834131],
  [0.5, 0.5, 0.715749, 0.566002, 0.639489],
  [0.5, 2, 0.189776, 0.150052, 0.169541],
  [0.5, 10, 0.00016, 0.000126, 0.000143],
  [1, 0.1, 0.976817, 0.684565, 0.843266],
  [1, 0.3, 0.750132, 0.484332, 0.613365],
  [1, 1, 0.24938, 0.160338, 0.203347],
  [1, 5, 0.000454, 0.000292, 0.00037],
  [2, 0.05, 0.997961, 0.612855, 0.85497],
  [2, 0.2, 0.789986, 0.370144, 0.572699],
  [2, 0.5, 0.372397, 0.169748, 0.26539],
  [2, 2, 0.008026, 0.003658, 0.005719],
  [2, 10, 0.0, 0.0, 0.0],
  [5, 0.1, 0.926486, 0.255748, 0.597397],
  [5, 0.3, 0.45719, 0.105552, 0.266027],
  [5, 1, 0.028668, 0.006587, 0.016636],
  [5, 5, 0.0, 0.0, 0.0],
  [10, 0.05, 0.993672, 0.20093, 0.671102],
  [10, 0.2, 0.600232, 0.074844, 0.311676],
  [10, 0.5, 0.1458, 0.017758, 0.074765],
  [10, 2, 0.000117, 0.000014, 0.00006],
  [10, 10, 0.0, 0.0, 0.0],
] as const;

// First root of zeta J1(zeta) / J0(zeta) = Bi and its coefficient C1, as in Incropera Table 5.1: Bi, zeta1, C1.
const ZETA = [
  [0.01, 0.141245, 1.002496],
  [0.02, 0.199501, 1.004983],
  [0.03, 0.244033, 1.007462],
  [0.04, 0.281434, 1.009933],
  [0.05, 0.314262, 1.012395],
  [0.06, 0.343828, 1.014849],
  [0.07, 0.370916, 1.017294],
  [0.08, 0.396033, 1.019731],
  [0.09, 0.419536, 1.02216],
  [0.1, 0.441682, 1.024579],
  [0.15, 0.537614, 1.03655],
  [0.2, 0.616975, 1.048304],
  [0.25, 0.685588, 1.059842],
  [0.3, 0.746461, 1.071162],
  [0.4, 0.851578, 1.093145],
  [0.5, 0.940771, 1.114255],
  [0.6, 1.018442, 1.134498],
  [0.7, 1.087254, 1.153885],
  [0.8, 1.148972, 1.172434],
  [0.9, 1.20484, 1.190162],
  [1, 1.255784, 1.207092],
  [2, 1.599449, 1.338377],
  [3, 1.788657, 1.419095],
  [4, 1.908079, 1.469796],
  [5, 1.989815, 1.502869],
  [6, 2.049011, 1.525313],
  [7, 2.093731, 1.541106],
  [8, 2.128639, 1.552578],
  [9, 2.156607, 1.561143],
  [10, 2.179497, 1.567692],
  [20, 2.288048, 1.591944],
  [30, 2.326143, 1.597288],
  [40, 2.345518, 1.599274],
  [50, 2.357242, 1.600221],
  [100, 2.380902, 1.601524],
] as const;

describe('conduction against the exact series of the infinite cylinder', () => {
  it.each(THETA)(
    'Bi %d, Fo %d: centre, surface and mean within 1e-4 of theta',
    (biot, fourier, centre, surface, mean) => {
      const ours = cylinder(biot, fourier, 160, 1e-5);
      expect(Math.abs(ours.centre - centre)).toBeLessThan(1e-4);
      expect(Math.abs(ours.surface - surface)).toBeLessThan(1e-4);
      expect(Math.abs(ours.mean - mean)).toBeLessThan(1e-4);
    },
  );

  it.each(ZETA)('Bi %d: late cooling decays with zeta1 and starts from C1', (biot, zeta, coefficient) => {
    const early = cylinder(biot, 0.6, 160, 1e-6).centre;
    const late = cylinder(biot, 0.9, 160, 1e-6).centre;
    const decay = Math.log(early / late) / 0.3;
    expect(Math.sqrt(decay) / zeta).toBeCloseTo(1, 3);
    expect((early * Math.exp(zeta * zeta * 0.6)) / coefficient).toBeCloseTo(1, 3);
  });
});

// Cengel & Ghajar, Heat and Mass Transfer, chapter 4, long stainless shaft of 0.35 m: k 14.9 W/m K, rho 7900 kg/m3,
// cp 477 J/kg K, h 60 W/m2 K, from 400 C in air at 150 C, 20 min. The book prints 390 C from one term of the series;
// the whole series gives 385.7 C.
describe('the steel shaft of a worked example', () => {
  it('has a centre of 385.7 C after 20 minutes', () => {
    const steel = plainMetal(7900, 477, 14.9);
    const mesh = radialMesh([{ inner: 0, outer: 0.175, cells: 60 }]);
    const { temperatures: t } = radialConduction(
      mesh,
      steel,
      400,
      [{ duration: 1200, bore: INSULATED, outside: constantFilm(60, 150) }],
      { contact: 1, tolerance: 0.005 },
    );
    expect((9 * t[1]! - t[2]!) / 8).toBeCloseTo(385.7, 1);
  });
});

describe('a hot pin in a boss so thick that it has no end', () => {
  // On the axis of a medium that was T0 within r = a and 0 outside: T = T0 (1 - exp(-a^2 / (4 alpha t))); Carslaw & Jaeger,
  // Conduction of Heat in Solids, 2nd ed. 1959, 10.3, from memory.
  const axis = (fourier: number, graded?: 'outward'): number => {
    const cells = 16;
    const mesh = radialMesh([
      { inner: 0, outer: 1, cells: 12 },
      { inner: 1, outer: 40, cells, ...(graded && { graded }) },
    ]);
    const start = Float64Array.from(mesh.middles, (r) => (r < 1 ? 1 : 0));
    const { temperatures: t } = radialConduction(
      mesh,
      UNIT,
      start,
      [{ duration: fourier, bore: INSULATED, outside: INSULATED }],
      { contact: 1e9, tolerance: 1e-5 },
    );
    return (9 * t[1]! - t[2]!) / 8;
  };

  it.each([0.1, 0.3, 1, 3])(
    'cools on the axis as it must at Fo %d, in cells that grow outward; in equal ones it does not',
    (fourier) => {
      const exact = 1 - Math.exp(-1 / (4 * fourier));
      expect(Math.abs(axis(fourier, 'outward') / exact - 1)).toBeLessThan(0.01);
      expect(Math.abs(axis(fourier) / exact - 1)).toBeGreaterThan(0.05);
    },
  );
});
