import { ringsCannotCarry } from '../messages.ts';
import type { RadialMesh } from '../heat/radial-mesh.ts';

/** What a ring's metal does under load, over its temperature [K]. */
export interface RingMaterial {
  /** Modulus of elasticity [Pa], more than 0. */
  modulus(temperature: number): number;
  /** Yield strength [Pa], more than 0. */
  yield(temperature: number): number;
  /** Thermal elongation from any fixed reference [1]. */
  elongation(temperature: number): number;
  readonly poisson: number;
}

export interface RingLoad {
  /** Temperature of each cell [K]. */
  readonly temperatures: ArrayLike<number>;
  /** Pressure in the bore and outside [Pa]. */
  readonly bore?: number;
  readonly outside?: number;
}

export interface RingOptions {
  /** Metal of each layer. */
  readonly materials: readonly RingMaterial[];
  /** How much larger in radius each joint's inner ring is made than its seat [m]. */
  readonly interference: number;
  /** Temperature at which the rings fit with that interference and carry no heat stress [K]. */
  readonly reference: number;
  /** `free`: no axial force on a layer, plane sections stay plane. `held`: no axial strain. */
  readonly ends: 'free' | 'held';
}

/** Stresses at the two points of each cell, inner first, cells from the inside out [Pa]. */
export interface RingStresses {
  readonly radii: Float64Array;
  readonly radial: Float64Array;
  readonly hoop: Float64Array;
  readonly axial: Float64Array;
}

export interface RingState {
  /** Pressure at each joint [Pa]. */
  readonly pressures: readonly number[];
  /** Clearance at each joint [m], on the radius; 0 where it touches. */
  readonly gaps: readonly number[];
  /** Radial displacement at each layer's inner and outer face [m]. */
  readonly faces: readonly { readonly inner: number; readonly outer: number }[];
  /** Largest equivalent stress over yield strength in each layer so far. */
  readonly utilisation: readonly number[];
  /** Largest plastic strain, equivalent, in each layer so far. */
  readonly plastic: readonly number[];
}

export interface Rings {
  /** Brings the rings to a load, keeping the plastic strain that it causes. */
  advance(load: RingLoad): RingState;
  /** Clearance on the radius at each joint if the rings did not touch [m]; negative is interference. Changes nothing. */
  freeGaps(load: RingLoad): readonly number[];
  stresses(): RingStresses;
}

const POINTS = 2;
const GAUSS = 1 / Math.sqrt(3);
/** A joint's stiffness over modulus / radius: its own give is a millionth of a ring's. */
const JOINT_STIFFNESS = 1e6;
const MOST_NEWTON = 30;
const MOST_HALVINGS = 8;
/** Corrections must fall below this share of the largest displacement, or of this strain of the radius. */
const ENOUGH = 1e-9;

/**
 * Concentric rings that expand, press on one another, yield and part.
 *
 * Each cell is a thick ring with u = A r + B / r, so elastic rings of one temperature obey Lame exactly up to the
 * quadrature; strains e_r = A - B / r^2, e_t = A + B / r^2 and one e_z for each layer. Stress from total strain less
 * thermal and plastic strain with the modulus at the temperature, von Mises yield at the temperature's strength
 * without hardening, radial return. Equilibrium by Newton's method with the consistent tangent; joints press but do
 * not pull, and slide freely along the axis.
 *
 * Generalized plane strain (`free`) is meant for a pin longer than it is thick: its sections stay plane, no axial
 * force acts, and with one temperature it coincides with Lame's plane stress. `held` is plane strain.
 * mesh [m], temperatures [K], pressures [Pa]. Small strains; rate-independent, so no creep.
 * Source: Simo & Hughes, Computational Inelasticity (1998), box 3.2 without hardening; Lame's solution as in Timoshenko
 * & Goodier, Theory of Elasticity, 2nd ed. 1951, art. 26.
 */
export function rings(mesh: RadialMesh, options: RingOptions): Rings {
  const { materials, interference, reference, ends } = options;
  const cells = mesh.count;
  const layers = mesh.layers.length;
  const nodes = cells + layers;
  const points = cells * POINTS;

  const layerOf = new Int32Array(cells);
  const firstNode = new Int32Array(layers);
  const lastNode = new Int32Array(layers);
  const firstCell = new Int32Array(layers);
  {
    let cell = 0;
    mesh.layers.forEach(({ cells: count }, layer) => {
      firstCell[layer] = cell;
      firstNode[layer] = cell + layer;
      for (let i = 0; i < count; i++) layerOf[cell++] = layer;
      lastNode[layer] = cell + layer;
    });
  }

  // Geometry of the points: strains of unit displacement of a cell's inner and outer node, and 2 pi r dr.
  const radii = new Float64Array(points);
  const weight = new Float64Array(points);
  const rIn = new Float64Array(points);
  const tIn = new Float64Array(points);
  const rOut = new Float64Array(points);
  const tOut = new Float64Array(points);
  for (let c = 0; c < cells; c++) {
    const a = mesh.faces[c]!;
    const b = mesh.faces[c + 1]!;
    const d = b * b - a * a;
    for (let g = 0; g < POINTS; g++) {
      const q = c * POINTS + g;
      const r = (a + b) / 2 + ((g === 0 ? -GAUSS : GAUSS) * (b - a)) / 2;
      radii[q] = r;
      weight[q] = (2 * Math.PI * r * (b - a)) / 2;
      rIn[q] = (-a - (a * b * b) / (r * r)) / d;
      tIn[q] = (-a + (a * b * b) / (r * r)) / d;
      rOut[q] = (b + (a * a * b) / (r * r)) / d;
      tOut[q] = (b - (a * a * b) / (r * r)) / d;
    }
  }

  // State and work space.
  const u = new Float64Array(nodes);
  const axialStrain = new Float64Array(layers);
  const plastic = new Float64Array(points * 3);
  const plasticNew = new Float64Array(points * 3);
  const stress = new Float64Array(points * 3);
  const modulus = new Float64Array(cells);
  const strength = new Float64Array(cells);
  const thermal = new Float64Array(cells);
  const before = new Float64Array(cells).fill(reference);
  const now = new Float64Array(cells);
  const main = new Float64Array(nodes);
  const side = new Float64Array(nodes);
  const force = new Float64Array(nodes);
  const border = Array.from({ length: layers }, () => new Float64Array(nodes));
  const corner = new Float64Array(layers);
  const axialForce = new Float64Array(layers);
  const sweep = new Float64Array(nodes);
  const utilisation = new Float64Array(layers);
  const largestPlastic = new Float64Array(layers);
  /** Interference in force; the first load brings all of it. */
  let fitted = 0;
  let boreBefore = 0;
  let outsideBefore = 0;

  const jointStiffness = (joint: number): number => {
    const r = mesh.faces[firstCell[joint + 1]!]!;
    return (JOINT_STIFFNESS * materials[joint]!.modulus(reference)) / r;
  };
  /** Clearance at a joint; negative where the rings overlap. */
  const gapAt = (joint: number): number => u[firstNode[joint + 1]!]! - u[lastNode[joint]!]! - fitted;

  const setTemperatures = (temperatures: ArrayLike<number>): void => {
    for (let c = 0; c < cells; c++) {
      const t = temperatures[c]!;
      const material = materials[layerOf[c]!]!;
      modulus[c] = material.modulus(t);
      strength[c] = material.yield(t);
      thermal[c] = material.elongation(t) - material.elongation(reference);
    }
  };

  /** Stresses, nodal forces and tangent at the present displacements. */
  const assemble = (bore: number, outside: number, touching: boolean): void => {
    main.fill(0);
    side.fill(0);
    force.fill(0);
    corner.fill(0);
    axialForce.fill(0);
    for (const each of border) each.fill(0);
    for (let c = 0; c < cells; c++) {
      const layer = layerOf[c]!;
      const node = c + layer;
      const nu = materials[layer]!.poisson;
      const E = modulus[c]!;
      const G = E / (2 * (1 + nu));
      const K = E / (3 * (1 - 2 * nu));
      const u1 = u[node]!;
      const u2 = u[node + 1]!;
      const ez = axialStrain[layer]! - thermal[c]!;
      const column = border[layer]!;
      for (let q = c * POINTS; q < (c + 1) * POINTS; q++) {
        const p = q * 3;
        const er = rIn[q]! * u1 + rOut[q]! * u2 - thermal[c]! - plastic[p]!;
        const et = tIn[q]! * u1 + tOut[q]! * u2 - thermal[c]! - plastic[p + 1]!;
        const eZ = ez - plastic[p + 2]!;
        const mean = (er + et + eZ) / 3;
        const dr = er - mean;
        const dt = et - mean;
        const dz = eZ - mean;
        const size = Math.sqrt(dr * dr + dt * dt + dz * dz);
        const equivalent = 2 * G * Math.sqrt(1.5) * size;
        const keep = equivalent > strength[c]! ? strength[c]! / equivalent : 1;
        plasticNew[p] = plastic[p]! + (1 - keep) * dr;
        plasticNew[p + 1] = plastic[p + 1]! + (1 - keep) * dt;
        plasticNew[p + 2] = plastic[p + 2]! + (1 - keep) * dz;
        const press = 3 * K * mean;
        const shear = 2 * G * keep;
        const sr = press + shear * dr;
        const st = press + shear * dt;
        const sz = press + shear * dz;
        stress[p] = sr;
        stress[p + 1] = st;
        stress[p + 2] = sz;
        // Tangent K 1 1 + shear (I_dev - n n), n only where it yields.
        const flow = keep < 1 ? 1 / size : 0;
        const nr = dr * flow;
        const nt = dt * flow;
        const nz = dz * flow;
        const off = K - shear / 3;
        const crr = off + shear * (1 - nr * nr);
        const ctt = off + shear * (1 - nt * nt);
        const czz = off + shear * (1 - nz * nz);
        const crt = off - shear * nr * nt;
        const crz = off - shear * nr * nz;
        const ctz = off - shear * nt * nz;
        const w = weight[q]!;
        const a1 = rIn[q]!;
        const b1 = tIn[q]!;
        const a2 = rOut[q]!;
        const b2 = tOut[q]!;
        force[node] = force[node]! + w * (a1 * sr + b1 * st);
        force[node + 1] = force[node + 1]! + w * (a2 * sr + b2 * st);
        main[node] = main[node]! + w * (a1 * (crr * a1 + crt * b1) + b1 * (crt * a1 + ctt * b1));
        main[node + 1] = main[node + 1]! + w * (a2 * (crr * a2 + crt * b2) + b2 * (crt * a2 + ctt * b2));
        side[node] = side[node]! + w * (a1 * (crr * a2 + crt * b2) + b1 * (crt * a2 + ctt * b2));
        column[node] = column[node]! + w * (a1 * crz + b1 * ctz);
        column[node + 1] = column[node + 1]! + w * (a2 * crz + b2 * ctz);
        corner[layer] = corner[layer]! + w * czz;
        axialForce[layer] = axialForce[layer]! + w * sz;
      }
    }
    force[0] = force[0]! - 2 * Math.PI * mesh.faces[0]! * bore;
    force[nodes - 1] = force[nodes - 1]! + 2 * Math.PI * mesh.faces[cells]! * outside;
    if (touching) {
      for (let joint = 0; joint + 1 < layers; joint++) {
        const gap = gapAt(joint);
        if (gap >= 0) continue;
        const stiffness = 2 * Math.PI * mesh.faces[firstCell[joint + 1]!]! * jointStiffness(joint);
        const inner = lastNode[joint]!;
        force[inner] = force[inner]! - stiffness * gap;
        force[inner + 1] = force[inner + 1]! + stiffness * gap;
        main[inner] = main[inner]! + stiffness;
        main[inner + 1] = main[inner + 1]! + stiffness;
        side[inner] = side[inner]! - stiffness;
      }
    }
    if (mesh.faces[0] === 0) {
      // The axis does not move.
      main[0] = 1;
      side[0] = 0;
      force[0] = 0;
      border[0]![0] = 0;
    }
  };

  /** Factors the symmetric tridiagonal tangent in place. */
  const factor = (): void => {
    for (let i = 0; i < nodes; i++) {
      const pivot = main[i]! - (i === 0 ? 0 : side[i - 1]! * sweep[i - 1]!);
      main[i] = pivot;
      sweep[i] = side[i]! / pivot;
    }
  };
  const solve = (right: Float64Array): Float64Array => {
    for (let i = 0; i < nodes; i++) right[i] = (right[i]! - (i === 0 ? 0 : side[i - 1]! * right[i - 1]!)) / main[i]!;
    for (let i = nodes - 2; i >= 0; i--) right[i] = right[i]! - sweep[i]! * right[i + 1]!;
    return right;
  };

  /** Finds equilibrium at the set temperatures; false where Newton's method does not settle. */
  const equilibrium = (bore: number, outside: number, touching: boolean): boolean => {
    for (let iteration = 0; iteration < MOST_NEWTON; iteration++) {
      assemble(bore, outside, touching);
      factor();
      const plain = solve(force);
      let change: readonly number[] = [];
      if (ends === 'free') {
        const columns = border.map((column) => ({ raw: column.slice(), solved: solve(column) }));
        const right = columns.map(({ raw }, i) => axialForce[i]! - dot(raw, plain));
        const matrix = columns.map(({ raw }, i) => columns.map(({ solved }, j) => (i === j ? corner[i]! : 0) - dot(raw, solved)));
        change = solveSmall(matrix, right);
        change.forEach((value, j) => {
          axialStrain[j] = axialStrain[j]! - value;
          const { solved } = columns[j]!;
          for (let i = 0; i < nodes; i++) plain[i] = plain[i]! - solved[i]! * value;
        });
      }
      let largest = 0;
      let size = 0;
      for (let i = 0; i < nodes; i++) {
        u[i] = u[i]! - plain[i]!;
        largest = Math.max(largest, Math.abs(plain[i]!));
        size = Math.max(size, Math.abs(u[i]!));
      }
      if (!(largest < mesh.faces[cells]!)) return false;
      if (largest <= ENOUGH * Math.max(size, 1e-3 * mesh.faces[cells]!)) {
        assemble(bore, outside, touching);
        return true;
      }
    }
    return false;
  };

  const saveStart = { u: new Float64Array(nodes), axial: new Float64Array(layers) };
  const remember = (): void => {
    saveStart.u.set(u);
    saveStart.axial.set(axialStrain);
  };
  const recall = (): void => {
    u.set(saveStart.u);
    axialStrain.set(saveStart.axial);
  };

  const keepPlastic = (): void => {
    for (let c = 0; c < cells; c++) {
      const layer = layerOf[c]!;
      for (let q = c * POINTS; q < (c + 1) * POINTS; q++) {
        const p = q * 3;
        const [sr, st, sz] = [stress[p]!, stress[p + 1]!, stress[p + 2]!];
        const equivalent = Math.sqrt(((sr - st) ** 2 + (st - sz) ** 2 + (sz - sr) ** 2) / 2);
        utilisation[layer] = Math.max(utilisation[layer]!, equivalent / strength[c]!);
        const [a, b, d] = [plasticNew[p]!, plasticNew[p + 1]!, plasticNew[p + 2]!];
        largestPlastic[layer] = Math.max(largestPlastic[layer]!, Math.sqrt((2 / 3) * (a * a + b * b + d * d)));
      }
    }
    plastic.set(plasticNew);
  };

  const state = (): RingState => {
    const joints = Array.from({ length: layers - 1 }, (_, joint) => joint);
    return {
      pressures: joints.map((joint) => Math.max(0, -gapAt(joint)) * jointStiffness(joint)),
      gaps: joints.map((joint) => Math.max(0, gapAt(joint))),
      faces: mesh.layers.map((_, layer) => ({ inner: u[firstNode[layer]!]!, outer: u[lastNode[layer]!]! })),
      utilisation: Array.from(utilisation), plastic: Array.from(largestPlastic),
    };
  };

  return {
    advance: ({ temperatures, bore = 0, outside = 0 }) => {
      // Whole step first; where it does not settle, in ever smaller parts.
      const fittedBefore = fitted;
      let done = 0;
      let part = 1;
      for (let halvings = 0; done < 1; ) {
        const share = Math.min(1, done + part);
        for (let c = 0; c < cells; c++) now[c] = before[c]! + share * (temperatures[c]! - before[c]!);
        setTemperatures(now);
        remember();
        fitted = fittedBefore + share * (interference - fittedBefore);
        if (equilibrium(boreBefore + share * (bore - boreBefore), outsideBefore + share * (outside - outsideBefore), true)) {
          keepPlastic();
          done = share;
        } else {
          recall();
          part /= 2;
          if (++halvings > MOST_HALVINGS) throw ringsCannotCarry();
        }
      }
      for (let c = 0; c < cells; c++) before[c] = temperatures[c]!;
      boreBefore = bore;
      outsideBefore = outside;
      return state();
    },
    freeGaps: ({ temperatures, bore = 0, outside = 0 }) => {
      remember();
      setTemperatures(temperatures);
      const found = equilibrium(bore, outside, false);
      const gaps = Array.from({ length: layers - 1 }, (_, joint) => gapAt(joint));
      recall();
      if (!found) throw ringsCannotCarry();
      return gaps;
    },
    stresses: () => ({
      radii: radii.slice(), radial: stress.filter((_, i) => i % 3 === 0), hoop: stress.filter((_, i) => i % 3 === 1), axial: stress.filter((_, i) => i % 3 === 2),
    }),
  };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

/** Solves a system of one or two unknowns, as many as there are layers. */
function solveSmall(matrix: readonly (readonly number[])[], right: readonly number[]): readonly number[] {
  const [[a = 0, b = 0] = [], [c = 0, d = 0] = []] = matrix;
  const [x = 0, y = 0] = right;
  if (right.length === 1) return [x / a];
  const determinant = a * d - b * c;
  return [(x * d - b * y) / determinant, (a * y - c * x) / determinant];
}
