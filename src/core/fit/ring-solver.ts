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
  /** `ringMetal` at these temperatures, where several rings of one mesh and metal are brought to them. */
  readonly metal?: RingMetal;
}

/** What the metal of each cell is like at its temperature. */
export interface RingMetal {
  /** Modulus of elasticity [Pa]. */
  readonly modulus: Float64Array;
  /** Yield strength [Pa]. */
  readonly strength: Float64Array;
  /** Thermal elongation from the reference temperature [1]. */
  readonly thermal: Float64Array;
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
const ROOT_3_2 = Math.sqrt(1.5);
/** A joint's stiffness over modulus / radius: its own give is a millionth of a ring's. */
const JOINT_STIFFNESS = 1e6;
const MOST_NEWTON = 30;
const MOST_HALVINGS = 8;
/** Corrections must fall below this share of the largest displacement, or of this strain of the radius. */
const ENOUGH = 1e-9;
/** A last correction below this share of the largest displacement leaves the stresses as they are. */
const NOTHING = 1e-12;

/** The metal of each cell of a mesh at the cells' temperatures, metals by layer [K]. */
export function ringMetal(
  mesh: RadialMesh,
  materials: readonly RingMaterial[],
  reference: number,
  temperatures: ArrayLike<number>,
): RingMetal {
  const modulus = new Float64Array(mesh.count);
  const strength = new Float64Array(mesh.count);
  const thermal = new Float64Array(mesh.count);
  let cell = 0;
  mesh.layers.forEach(({ cells }, layer) => {
    const material = materials[layer]!;
    const atReference = material.elongation(reference);
    for (const end = cell + cells; cell < end; cell++) {
      const t = temperatures[cell]!;
      modulus[cell] = material.modulus(t);
      strength[cell] = material.yield(t);
      thermal[cell] = material.elongation(t) - atReference;
    }
  });
  return { modulus, strength, thermal };
}

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

  const firstNode = new Int32Array(layers);
  const lastNode = new Int32Array(layers);
  /** Where each layer's cells begin, and the end of the last. */
  const firstCell = new Int32Array(layers + 1);
  mesh.layers.forEach(({ cells: count }, layer) => {
    const cell = firstCell[layer]!;
    firstNode[layer] = cell + layer;
    lastNode[layer] = cell + count + layer;
    firstCell[layer + 1] = cell + count;
  });

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

  // State and work space; three numbers a point stand for the radial, hoop and axial direction.
  const u = new Float64Array(nodes);
  const axialStrain = new Float64Array(layers);
  const plastic = new Float64Array(points * 3);
  const plasticNew = new Float64Array(points * 3);
  const stress = new Float64Array(points * 3);
  /** Direction of plastic flow, of length 1; 0 where a point does not yield. */
  const flow = new Float64Array(points * 3);
  /** Share of the elastic deviator that yielding leaves, 1 where a point does not yield. */
  const kept = new Float64Array(points);
  let { modulus, strength, thermal } = ringMetal(mesh, materials, reference, new Float64Array(cells).fill(reference));
  const before = new Float64Array(cells).fill(reference);
  const now = new Float64Array(cells);
  const main = new Float64Array(nodes);
  const side = new Float64Array(nodes);
  const sweep = new Float64Array(nodes);
  const force = new Float64Array(nodes);
  /** Derivative of the nodal forces by each layer's axial strain, and the displacements that answer it. */
  const border = mesh.layers.map(() => new Float64Array(nodes));
  const answer = mesh.layers.map(() => new Float64Array(nodes));
  const corner = new Float64Array(layers);
  const axialForce = new Float64Array(layers);
  const axialChange = new Float64Array(layers);
  const utilisation = new Float64Array(layers);
  const largestPlastic = new Float64Array(layers);
  /** Interference in force; the first load brings all of it. */
  let fitted = 0;
  let boreBefore = 0;
  let outsideBefore = 0;

  const jointStiffness = mesh.layers
    .slice(1)
    .map((_, joint) => (JOINT_STIFFNESS * materials[joint]!.modulus(reference)) / mesh.faces[firstCell[joint + 1]!]!);
  /** Clearance at a joint; negative where the rings overlap. */
  const gapAt = (joint: number): number => u[firstNode[joint + 1]!]! - u[lastNode[joint]!]! - fitted;

  const setMetal = (metal: RingMetal): void => {
    ({ modulus, strength, thermal } = metal);
  };

  /** Stresses of a layer's cells at the present displacements and what they put on nodes and axis; returns how many points yield. */
  const respond = (layer: number): number => {
    const nu = materials[layer]!.poisson;
    const ez = axialStrain[layer]!;
    const end = firstCell[layer + 1]!;
    let node = firstNode[layer]!;
    let u1 = u[node]!;
    let onNode = 0;
    let onAxis = 0;
    let yielding = 0;
    for (let c = firstCell[layer]!; c < end; c++) {
      const u2 = u[node + 1]!;
      const th = thermal[c]!;
      const shear = modulus[c]! / (1 + nu);
      const bulk = modulus[c]! / (1 - 2 * nu);
      const limit = strength[c]! / (shear * ROOT_3_2);
      let onNext = 0;
      for (let q = c * POINTS; q < (c + 1) * POINTS; q++) {
        const p = q * 3;
        const pr = plastic[p]!;
        const pt = plastic[p + 1]!;
        const pz = plastic[p + 2]!;
        const a1 = rIn[q]!;
        const b1 = tIn[q]!;
        const a2 = rOut[q]!;
        const b2 = tOut[q]!;
        const er = a1 * u1 + a2 * u2 - th - pr;
        const et = b1 * u1 + b2 * u2 - th - pt;
        const e = ez - th - pz;
        const mean = (er + et + e) / 3;
        const dr = er - mean;
        const dt = et - mean;
        const dz = e - mean;
        const size = Math.sqrt(dr * dr + dt * dt + dz * dz);
        let keep = 1;
        let unit = 0;
        if (size > limit) {
          keep = limit / size;
          unit = 1 / size;
          yielding++;
        }
        kept[q] = keep;
        flow[p] = dr * unit;
        flow[p + 1] = dt * unit;
        flow[p + 2] = dz * unit;
        plasticNew[p] = pr + (1 - keep) * dr;
        plasticNew[p + 1] = pt + (1 - keep) * dt;
        plasticNew[p + 2] = pz + (1 - keep) * dz;
        const press = bulk * mean;
        const stiff = shear * keep;
        const sr = press + stiff * dr;
        const st = press + stiff * dt;
        const sz = press + stiff * dz;
        stress[p] = sr;
        stress[p + 1] = st;
        stress[p + 2] = sz;
        const w = weight[q]!;
        onNode += w * (a1 * sr + b1 * st);
        onNext += w * (a2 * sr + b2 * st);
        onAxis += w * sz;
      }
      force[node++] = onNode;
      onNode = onNext;
      u1 = u2;
    }
    force[node] = onNode;
    axialForce[layer] = onAxis;
    return yielding;
  };

  /** Tangent of a layer's cells: K 1 1 + shear (I_dev - n n), n the flow where a point yields. */
  const stiffen = (layer: number): void => {
    const nu = materials[layer]!.poisson;
    const column = border[layer]!;
    const end = firstCell[layer + 1]!;
    let node = firstNode[layer]!;
    let onNode = 0;
    let toAxis = 0;
    let alongAxis = 0;
    for (let c = firstCell[layer]!; c < end; c++) {
      const bulk = modulus[c]! / (3 * (1 - 2 * nu));
      const elastic = modulus[c]! / (1 + nu);
      let between = 0;
      let onNext = 0;
      let nextToAxis = 0;
      for (let q = c * POINTS; q < (c + 1) * POINTS; q++) {
        const p = q * 3;
        const w = weight[q]!;
        const shear = w * elastic * kept[q]!;
        const off = w * bulk - shear / 3;
        const a1 = rIn[q]!;
        const b1 = tIn[q]!;
        const a2 = rOut[q]!;
        const b2 = tOut[q]!;
        const nz = flow[p + 2]!;
        const n1 = flow[p]! * a1 + flow[p + 1]! * b1;
        const n2 = flow[p]! * a2 + flow[p + 1]! * b2;
        const off1 = off * (a1 + b1);
        const off2 = off * (a2 + b2);
        onNode += off1 * (a1 + b1) + shear * (a1 * a1 + b1 * b1 - n1 * n1);
        between += off1 * (a2 + b2) + shear * (a1 * a2 + b1 * b2 - n1 * n2);
        onNext += off2 * (a2 + b2) + shear * (a2 * a2 + b2 * b2 - n2 * n2);
        toAxis += off1 - shear * n1 * nz;
        nextToAxis += off2 - shear * n2 * nz;
        alongAxis += off + shear * (1 - nz * nz);
      }
      main[node] = onNode;
      side[node] = between;
      column[node] = toAxis;
      node++;
      onNode = onNext;
      toAxis = nextToAxis;
    }
    main[node] = onNode;
    side[node] = 0;
    column[node] = toAxis;
    corner[layer] = alongAxis;
  };

  /** Factors the symmetric tridiagonal tangent in place. */
  const factor = (): void => {
    let carried = 0;
    let link = 0;
    for (let i = 0; i < nodes; i++) {
      const pivot = main[i]! - link * carried;
      link = side[i]!;
      carried = link / pivot;
      main[i] = pivot;
      sweep[i] = carried;
    }
  };
  const solve = (right: Float64Array): void => {
    let x = 0;
    let link = 0;
    for (let i = 0; i < nodes; i++) {
      x = (right[i]! - link * x) / main[i]!;
      right[i] = x;
      link = side[i]!;
    }
    for (let i = nodes - 2; i >= 0; i--) {
      x = right[i]! - sweep[i]! * x;
      right[i] = x;
    }
  };

  /** Which joints touch, a bit each. */
  const touchingJoints = (): number => {
    let bits = 0;
    for (let joint = 0; joint + 1 < layers; joint++) if (gapAt(joint) < 0) bits |= 1 << joint;
    return bits;
  };

  /** Stresses and unbalanced forces at the present displacements; returns how many points yield. */
  const balance = (bore: number, outside: number, pressed: number): number => {
    let yielding = 0;
    for (let layer = 0; layer < layers; layer++) yielding += respond(layer);
    force[0] = force[0]! - 2 * Math.PI * mesh.faces[0]! * bore;
    force[nodes - 1] = force[nodes - 1]! + 2 * Math.PI * mesh.faces[cells]! * outside;
    for (let joint = 0; joint + 1 < layers; joint++) {
      const push = (pressed >> joint) & 1 ? contactStiffness(joint) * gapAt(joint) : 0;
      const inner = lastNode[joint]!;
      force[inner] = force[inner]! - push;
      force[inner + 1] = force[inner + 1]! + push;
    }
    // The axis does not move.
    if (mesh.faces[0] === 0) force[0] = 0;
    return yielding;
  };
  const contactStiffness = (joint: number): number =>
    2 * Math.PI * mesh.faces[firstCell[joint + 1]!]! * jointStiffness[joint]!;

  /** Factored tangent at the present displacements, and the answers to axial strain. */
  const tangent = (pressed: number): void => {
    for (let layer = 0; layer < layers; layer++) stiffen(layer);
    for (let joint = 0; joint + 1 < layers; joint++) {
      const stiffness = (pressed >> joint) & 1 ? contactStiffness(joint) : 0;
      const inner = lastNode[joint]!;
      main[inner] = main[inner]! + stiffness;
      main[inner + 1] = main[inner + 1]! + stiffness;
      side[inner] = -stiffness;
    }
    if (mesh.faces[0] === 0) {
      main[0] = 1;
      side[0] = 0;
      border[0]![0] = 0;
    }
    factor();
    if (ends === 'held') return;
    for (let layer = 0; layer < layers; layer++) {
      answer[layer]!.set(border[layer]!);
      solve(answer[layer]!);
    }
  };

  /** Corrections of the displacements, left in `force`, and of the axial strains. */
  const correct = (): void => {
    solve(force);
    if (ends === 'held') return;
    solveAxial();
    for (let layer = 0; layer < layers; layer++) {
      const change = axialChange[layer]!;
      const column = answer[layer]!;
      axialStrain[layer] = axialStrain[layer]! - change;
      for (let i = 0; i < nodes; i++) force[i] = force[i]! - column[i]! * change;
    }
  };

  /** Changes of axial strain that leave no axial force on one layer or two. */
  const solveAxial = (): void => {
    const entry = (i: number, j: number): number => (i === j ? corner[i]! : 0) - dot(border[i]!, answer[j]!);
    const x = axialForce[0]! - dot(border[0]!, force);
    const a = entry(0, 0);
    if (layers === 1) {
      axialChange[0] = x / a;
      return;
    }
    const y = axialForce[1]! - dot(border[1]!, force);
    const b = entry(0, 1);
    const c = entry(1, 0);
    const d = entry(1, 1);
    const determinant = a * d - b * c;
    axialChange[0] = (x * d - b * y) / determinant;
    axialChange[1] = (a * y - c * x) / determinant;
  };

  /** Finds equilibrium at the set metal; false where Newton's method does not settle. */
  const equilibrium = (bore: number, outside: number, touching: boolean): boolean => {
    /** Joints that pressed in the tangent at hand; -1 where a new one is needed. */
    let known = -1;
    for (let iteration = 0; iteration < MOST_NEWTON; iteration++) {
      const pressed = touching ? touchingJoints() : 0;
      const yielding = balance(bore, outside, pressed);
      // While nothing yields and the same joints press, the tangent does not change.
      if (yielding > 0 || pressed !== known) tangent(pressed);
      known = yielding > 0 ? -1 : pressed;
      correct();
      let largest = 0;
      let size = 0;
      for (let i = 0; i < nodes; i++) {
        const change = force[i]!;
        const moved = u[i]! - change;
        u[i] = moved;
        largest = Math.max(largest, Math.abs(change));
        size = Math.max(size, Math.abs(moved));
      }
      if (!(largest < mesh.faces[cells]!)) return false;
      if (largest <= ENOUGH * Math.max(size, 1e-3 * mesh.faces[cells]!)) {
        if (largest > NOTHING * size) for (let layer = 0; layer < layers; layer++) respond(layer);
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
    for (let layer = 0; layer < layers; layer++) {
      let used = utilisation[layer]!;
      let most = largestPlastic[layer]! ** 2 * 1.5;
      for (let c = firstCell[layer]!; c < firstCell[layer + 1]!; c++) {
        for (let p = c * POINTS * 3; p < (c + 1) * POINTS * 3; p += 3) {
          const sr = stress[p]!;
          const st = stress[p + 1]!;
          const sz = stress[p + 2]!;
          const equivalent = Math.sqrt(((sr - st) * (sr - st) + (st - sz) * (st - sz) + (sz - sr) * (sz - sr)) / 2);
          used = Math.max(used, equivalent / strength[c]!);
          const a = plasticNew[p]!;
          const b = plasticNew[p + 1]!;
          const d = plasticNew[p + 2]!;
          most = Math.max(most, a * a + b * b + d * d);
        }
      }
      utilisation[layer] = used;
      largestPlastic[layer] = Math.sqrt((2 / 3) * most);
    }
    plastic.set(plasticNew);
  };

  const state = (): RingState => {
    const pressures: number[] = [];
    const gaps: number[] = [];
    const faces: { inner: number; outer: number }[] = [];
    for (let joint = 0; joint + 1 < layers; joint++) {
      const gap = gapAt(joint);
      pressures.push(Math.max(0, -gap) * jointStiffness[joint]!);
      gaps.push(Math.max(0, gap));
    }
    for (let layer = 0; layer < layers; layer++)
      faces.push({ inner: u[firstNode[layer]!]!, outer: u[lastNode[layer]!]! });
    return { pressures, gaps, faces, utilisation: Array.from(utilisation), plastic: Array.from(largestPlastic) };
  };

  return {
    advance: ({ temperatures, bore = 0, outside = 0, metal }) => {
      // Whole step first; where it does not settle, in ever smaller parts.
      const fittedBefore = fitted;
      let done = 0;
      let part = 1;
      for (let halvings = 0; done < 1;) {
        const share = Math.min(1, done + part);
        if (share === 1) setMetal(metal ?? ringMetal(mesh, materials, reference, temperatures));
        else {
          for (let c = 0; c < cells; c++) now[c] = before[c]! + share * (temperatures[c]! - before[c]!);
          setMetal(ringMetal(mesh, materials, reference, now));
        }
        remember();
        fitted = fittedBefore + share * (interference - fittedBefore);
        if (
          equilibrium(boreBefore + share * (bore - boreBefore), outsideBefore + share * (outside - outsideBefore), true)
        ) {
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
    freeGaps: ({ temperatures, bore = 0, outside = 0, metal }) => {
      remember();
      setMetal(metal ?? ringMetal(mesh, materials, reference, temperatures));
      const found = equilibrium(bore, outside, false);
      const gaps = Array.from({ length: layers - 1 }, (_, joint) => gapAt(joint));
      recall();
      if (!found) throw ringsCannotCarry();
      return gaps;
    },
    stresses: () => ({
      radii: radii.slice(),
      radial: stress.filter((_, i) => i % 3 === 0),
      hoop: stress.filter((_, i) => i % 3 === 1),
      axial: stress.filter((_, i) => i % 3 === 2),
    }),
  };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
