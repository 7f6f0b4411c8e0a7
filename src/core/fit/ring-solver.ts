import { ringsCannotCarry } from '../messages.ts';
import { products } from '../heat/products.ts';
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
  /** Modulus and yield strength of some cells of many at once, where that is quicker. */
  cells?(temperatures: ArrayLike<number>, from: number, to: number, metal: RingMetal): void;
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
  /** Points of a cell at which its metal is looked at, 2 where left out; 1 is its middle. */
  readonly points?: 1 | 2;
}

/** Stresses at the points of each cell, inner first, cells from the inside out [Pa]. */
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

const GAUSS = 1 / Math.sqrt(3);
const ROOT_3_2 = Math.sqrt(1.5);
/** A joint's stiffness over modulus / radius: its own give is a millionth of a ring's. */
const JOINT_STIFFNESS = 1e6;
const MOST_NEWTON = 30;
const MOST_HALVINGS = 8;
/** Corrections must fall below this share of the largest displacement, or of a thousandth of the radius; below that where nothing is shown, as the next is far smaller. */
const ENOUGH = 1e-9;
const ROUGHLY = 0.03;
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
    const end = cell + cells;
    material.cells?.(temperatures, cell, end, { modulus, strength, thermal });
    for (; cell < end; cell++) {
      const t = temperatures[cell]!;
      if (!material.cells) {
        modulus[cell] = material.modulus(t);
        strength[cell] = material.yield(t);
      }
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
export class Rings {
  private readonly mesh: RadialMesh;
  private readonly materials: readonly RingMaterial[];
  private readonly interference: number;
  private readonly reference: number;
  private readonly ends: RingOptions['ends'];
  private readonly points: number;
  private readonly cells: number;
  private readonly layers: number;
  private readonly nodes: number;
  private readonly firstNode: Int32Array;
  private readonly lastNode: Int32Array;
  /** Where each layer's cells begin, and the end of the last. */
  private readonly firstCell: Int32Array;
  private readonly jointStiffness: readonly number[];

  // Geometry of the points: strains of unit displacement of a cell's inner and outer node, and 2 pi r dr.
  private readonly radii: Float64Array;
  private readonly weight: Float64Array;
  private readonly rIn: Float64Array;
  private readonly tIn: Float64Array;
  private readonly rOut: Float64Array;
  private readonly tOut: Float64Array;

  // State and work space; three numbers a point stand for the radial, hoop and axial direction.
  private readonly u: Float64Array;
  private readonly axialStrain: Float64Array;
  private readonly plastic: Float64Array;
  private readonly plasticNew: Float64Array;
  private readonly stress: Float64Array;
  /** Direction of plastic flow, of length 1; 0 where a point does not yield. */
  private readonly flow: Float64Array;
  /** Share of the elastic deviator that yielding leaves, 1 where a point does not yield. */
  private readonly kept: Float64Array;
  private metal: RingMetal;
  private readonly before: Float64Array;
  private readonly now: Float64Array;
  private readonly main: Float64Array;
  private readonly side: Float64Array;
  private readonly sweep: Float64Array;
  private readonly force: Float64Array;
  /** Derivative of the nodal forces by each layer's axial strain, and the displacements that answer it. */
  private readonly border: readonly Float64Array[];
  private readonly answer: readonly Float64Array[];
  private readonly corner: Float64Array;
  private readonly axialForce: Float64Array;
  private readonly axialChange: Float64Array;
  private readonly found = new Float64Array(3);
  private readonly utilisation: Float64Array;
  private readonly largestPlastic: Float64Array;
  /** How many points yield in the last equilibrium. */
  private yielding = 0;
  /** Interference in force; the first load brings all of it. */
  private fitted = 0;
  private boreBefore = 0;
  private outsideBefore = 0;
  private readonly startU: Float64Array;
  private readonly startAxial: Float64Array;

  constructor(mesh: RadialMesh, { materials, interference, reference, ends, points: perCell = 2 }: RingOptions) {
    this.mesh = mesh;
    this.materials = materials;
    this.interference = interference;
    this.reference = reference;
    this.ends = ends;
    this.points = perCell;
    const cells = mesh.count;
    const layers = mesh.layers.length;
    const nodes = cells + layers;
    const points = cells * perCell;
    this.cells = cells;
    this.layers = layers;
    this.nodes = nodes;
    this.firstNode = new Int32Array(layers);
    this.lastNode = new Int32Array(layers);
    this.firstCell = new Int32Array(layers + 1);
    this.radii = new Float64Array(points);
    this.weight = new Float64Array(points);
    this.rIn = new Float64Array(points);
    this.tIn = new Float64Array(points);
    this.rOut = new Float64Array(points);
    this.tOut = new Float64Array(points);
    this.u = new Float64Array(nodes);
    this.axialStrain = new Float64Array(layers);
    this.plastic = new Float64Array(points * 3);
    this.plasticNew = new Float64Array(points * 3);
    this.stress = new Float64Array(points * 3);
    this.flow = new Float64Array(points * 3);
    this.kept = new Float64Array(points);
    this.before = new Float64Array(cells).fill(reference);
    this.now = new Float64Array(cells);
    this.main = new Float64Array(nodes);
    this.side = new Float64Array(nodes);
    this.sweep = new Float64Array(nodes);
    this.force = new Float64Array(nodes);
    this.border = mesh.layers.map(() => new Float64Array(nodes));
    this.answer = mesh.layers.map(() => new Float64Array(nodes));
    this.corner = new Float64Array(layers);
    this.axialForce = new Float64Array(layers);
    this.axialChange = new Float64Array(layers);
    this.utilisation = new Float64Array(layers);
    this.largestPlastic = new Float64Array(layers);
    this.startU = new Float64Array(nodes);
    this.startAxial = new Float64Array(layers);
    this.metal = ringMetal(mesh, materials, reference, this.before);
    this.layOut();
    this.jointStiffness = mesh.layers
      .slice(1)
      .map(
        (_, joint) =>
          (JOINT_STIFFNESS * materials[joint]!.modulus(reference)) / mesh.faces[this.firstCell[joint + 1]!]!,
      );
  }

  /** Brings the rings to a load, keeping the plastic strain that it causes. */
  advance(load: RingLoad): RingState {
    this.bring(load, true);
    return this.state();
  }

  /** `advance` where nobody asks how the rings then are, nor how near they came to yielding unless it is `watched`. */
  bring({ temperatures, bore = 0, outside = 0, metal }: RingLoad, watched = false): void {
    const { mesh, materials, reference, interference, before, now, cells, boreBefore, outsideBefore } = this;
    // Whole step first; where it does not settle, in ever smaller parts.
    const fittedBefore = this.fitted;
    let done = 0;
    let part = 1;
    for (let halvings = 0; done < 1;) {
      const share = Math.min(1, done + part);
      if (share === 1) this.metal = metal ?? ringMetal(mesh, materials, reference, temperatures);
      else {
        for (let c = 0; c < cells; c++) now[c] = before[c]! + share * (temperatures[c]! - before[c]!);
        this.metal = ringMetal(mesh, materials, reference, now);
      }
      this.remember();
      this.fitted = fittedBefore + share * (interference - fittedBefore);
      if (
        this.equilibrium(
          boreBefore + share * (bore - boreBefore),
          outsideBefore + share * (outside - outsideBefore),
          true,
          watched,
        )
      ) {
        if (watched || this.yielding > 0) this.keepPlastic();
        done = share;
      } else {
        this.recall();
        part /= 2;
        if (++halvings > MOST_HALVINGS) throw ringsCannotCarry();
      }
    }
    for (let c = 0; c < cells; c++) before[c] = temperatures[c]!;
    this.boreBefore = bore;
    this.outsideBefore = outside;
  }

  /** Largest plastic strain, equivalent, in all rings so far. */
  get mostPlastic(): number {
    return Math.max(...this.largestPlastic);
  }

  /** Clearance on the radius at each joint if the rings did not touch [m]; negative is interference. Changes nothing. */
  freeGaps({ temperatures, bore = 0, outside = 0, metal }: RingLoad): readonly number[] {
    const { mesh, materials, reference, layers } = this;
    this.remember();
    this.metal = metal ?? ringMetal(mesh, materials, reference, temperatures);
    const found = this.equilibrium(bore, outside, false, true);
    const gaps = Array.from({ length: layers - 1 }, (_, joint) => this.gapAt(joint));
    this.recall();
    if (!found) throw ringsCannotCarry();
    return gaps;
  }

  stresses(): RingStresses {
    const { radii, stress } = this;
    return {
      radii: radii.slice(),
      radial: stress.filter((_, i) => i % 3 === 0),
      hoop: stress.filter((_, i) => i % 3 === 1),
      axial: stress.filter((_, i) => i % 3 === 2),
    };
  }

  /** Numbers the nodes, and lays the points in the cells. */
  private layOut(): void {
    const { mesh, points, cells, firstNode, lastNode, firstCell, radii, weight, rIn, tIn, rOut, tOut } = this;
    mesh.layers.forEach(({ cells: count }, layer) => {
      const cell = firstCell[layer]!;
      firstNode[layer] = cell + layer;
      lastNode[layer] = cell + count + layer;
      firstCell[layer + 1] = cell + count;
    });
    for (let c = 0; c < cells; c++) {
      const a = mesh.faces[c]!;
      const b = mesh.faces[c + 1]!;
      const d = b * b - a * a;
      for (let g = 0; g < points; g++) {
        const q = c * points + g;
        const r = (a + b) / 2 + ((2 * g - points + 1) * GAUSS * (b - a)) / 2;
        radii[q] = r;
        weight[q] = (2 * Math.PI * r * (b - a)) / points;
        rIn[q] = (-a - (a * b * b) / (r * r)) / d;
        tIn[q] = (-a + (a * b * b) / (r * r)) / d;
        rOut[q] = (b + (a * a * b) / (r * r)) / d;
        tOut[q] = (b - (a * a * b) / (r * r)) / d;
      }
    }
  }

  private remember(): void {
    this.startU.set(this.u);
    this.startAxial.set(this.axialStrain);
  }

  private recall(): void {
    this.u.set(this.startU);
    this.axialStrain.set(this.startAxial);
  }

  /** Clearance at a joint; negative where the rings overlap. */
  private gapAt(joint: number): number {
    const { firstNode, lastNode, u } = this;
    return u[firstNode[joint + 1]!]! - u[lastNode[joint]!]! - this.fitted;
  }

  /** Stresses of a layer's cells at the present displacements and what they put on nodes and axis; returns how many points yield. */
  private respond(layer: number): number {
    const {
      points,
      materials,
      firstNode,
      firstCell,
      weight,
      rIn,
      tIn,
      rOut,
      tOut,
      u,
      axialStrain,
      plastic,
      plasticNew,
      stress,
      flow,
      kept,
      force,
      axialForce,
    } = this;
    const { modulus, strength, thermal } = this.metal;
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
      for (let q = c * points; q < (c + 1) * points; q++) {
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
  }

  /** Tangent of a layer's cells: K 1 1 + shear (I_dev - n n), n the flow where a point yields. */
  private stiffen(layer: number): void {
    const {
      points,
      materials,
      firstNode,
      firstCell,
      weight,
      rIn,
      tIn,
      rOut,
      tOut,
      flow,
      kept,
      main,
      side,
      border,
      corner,
    } = this;
    const { modulus } = this.metal;
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
      for (let q = c * points; q < (c + 1) * points; q++) {
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
  }

  /** Factors the symmetric tridiagonal tangent in place. */
  private factor(): void {
    const { nodes, main, side, sweep } = this;
    let carried = 0;
    let link = 0;
    for (let i = 0; i < nodes; i++) {
      const pivot = main[i]! - link * carried;
      link = side[i]!;
      carried = link / pivot;
      main[i] = pivot;
      sweep[i] = carried;
    }
  }

  private solve(right: Float64Array): void {
    const { nodes, main, side, sweep } = this;
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
  }

  /** Which joints touch, a bit each. */
  private touchingJoints(): number {
    const { layers } = this;
    let bits = 0;
    for (let joint = 0; joint + 1 < layers; joint++) if (this.gapAt(joint) < 0) bits |= 1 << joint;
    return bits;
  }

  /** Stresses and unbalanced forces at the present displacements; returns how many points yield. */
  private balance(bore: number, outside: number, pressed: number): number {
    const { mesh, cells, layers, nodes, lastNode, force } = this;
    let yielding = 0;
    for (let layer = 0; layer < layers; layer++) yielding += this.respond(layer);
    force[0] = force[0]! - 2 * Math.PI * mesh.faces[0]! * bore;
    force[nodes - 1] = force[nodes - 1]! + 2 * Math.PI * mesh.faces[cells]! * outside;
    for (let joint = 0; joint + 1 < layers; joint++) {
      const push = (pressed >> joint) & 1 ? this.contactStiffness(joint) * this.gapAt(joint) : 0;
      const inner = lastNode[joint]!;
      force[inner] = force[inner]! - push;
      force[inner + 1] = force[inner + 1]! + push;
    }
    // The axis does not move.
    if (mesh.faces[0] === 0) force[0] = 0;
    return yielding;
  }

  private contactStiffness(joint: number): number {
    const { mesh, firstCell, jointStiffness } = this;
    return 2 * Math.PI * mesh.faces[firstCell[joint + 1]!]! * jointStiffness[joint]!;
  }

  /** Factored tangent at the present displacements, and the answers to axial strain. */
  private tangent(pressed: number): void {
    const { mesh, ends, layers, lastNode, main, side, border, answer } = this;
    for (let layer = 0; layer < layers; layer++) this.stiffen(layer);
    for (let joint = 0; joint + 1 < layers; joint++) {
      const stiffness = (pressed >> joint) & 1 ? this.contactStiffness(joint) : 0;
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
    this.factor();
    if (ends === 'held') return;
    for (let layer = 0; layer < layers; layer++) {
      answer[layer]!.set(border[layer]!);
      this.solve(answer[layer]!);
    }
  }

  /** Corrections of the displacements, left in `force`, and of the axial strains. */
  private correct(): void {
    const { ends, layers, axialStrain, force, answer, axialChange } = this;
    this.solve(force);
    if (ends === 'held') return;
    this.solveAxial();
    for (let layer = 0; layer < layers; layer++) {
      const change = axialChange[layer]!;
      axialStrain[layer] = axialStrain[layer]! - change;
      subtract(force, answer[layer]!, change);
    }
  }

  /** Changes of axial strain that leave no axial force on one layer or two. */
  private solveAxial(): void {
    const { layers, force, border, answer, corner, axialForce, axialChange, found } = this;
    const one = answer[0]!;
    const two = answer[layers - 1]!;
    products(border[0]!, force, one, two, found);
    const x = axialForce[0]! - found[0]!;
    const a = corner[0]! - found[1]!;
    if (layers === 1) {
      axialChange[0] = x / a;
      return;
    }
    const b = -found[2]!;
    products(border[1]!, force, one, two, found);
    const y = axialForce[1]! - found[0]!;
    const c = -found[1]!;
    const d = corner[1]! - found[2]!;
    const determinant = a * d - b * c;
    axialChange[0] = (x * d - b * y) / determinant;
    axialChange[1] = (a * y - c * x) / determinant;
  }

  /** Moves the nodes by the corrections in `force`: the largest of these and the largest displacement, in `found`. */
  private move(): void {
    const { nodes, u, force, found } = this;
    let largest = 0;
    let size = 0;
    for (let i = 0; i < nodes; i++) {
      const change = force[i]!;
      const moved = u[i]! - change;
      u[i] = moved;
      largest = Math.max(largest, Math.abs(change));
      size = Math.max(size, Math.abs(moved));
    }
    found[0] = largest;
    found[1] = size;
  }

  /** Finds equilibrium at the set metal, to the last bits where it is `shown`; false where Newton's method does not settle. */
  private equilibrium(bore: number, outside: number, touching: boolean, shown: boolean): boolean {
    const { mesh, cells, layers, found } = this;
    /** Joints that pressed in the tangent at hand; -1 where a new one is needed. */
    let known = -1;
    for (let iteration = 0; iteration < MOST_NEWTON; iteration++) {
      const pressed = touching ? this.touchingJoints() : 0;
      const yielding = this.balance(bore, outside, pressed);
      this.yielding = yielding;
      // Where nothing yields, nor did before, and the same joints press, all is linear: what is left to correct is rounding, which joints
      // as stiff as these let a pressure show in its ninth digit.
      const linear = yielding === 0 && pressed === known;
      if (linear && !shown) return true;
      if (!linear) this.tangent(pressed);
      known = yielding > 0 ? -1 : pressed;
      this.correct();
      this.move();
      const largest = found[0]!;
      const size = found[1]!;
      if (!(largest < mesh.faces[cells]!)) return false;
      if (largest <= (shown ? ENOUGH : ROUGHLY) * Math.max(size, 1e-3 * mesh.faces[cells]!)) {
        if (!linear && largest > NOTHING * size) {
          this.yielding = 0;
          for (let layer = 0; layer < layers; layer++) this.yielding += this.respond(layer);
        }
        return true;
      }
    }
    return false;
  }

  private keepPlastic(): void {
    const { points, layers, firstCell, plastic, plasticNew, stress, utilisation, largestPlastic } = this;
    const { strength } = this.metal;
    for (let layer = 0; layer < layers; layer++) {
      let used = utilisation[layer]!;
      let most = largestPlastic[layer]! ** 2 * 1.5;
      for (let c = firstCell[layer]!; c < firstCell[layer + 1]!; c++) {
        for (let p = c * points * 3; p < (c + 1) * points * 3; p += 3) {
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
  }

  private state(): RingState {
    const { layers, firstNode, lastNode, u, utilisation, largestPlastic, jointStiffness } = this;
    const pressures: number[] = [];
    const gaps: number[] = [];
    const faces: { inner: number; outer: number }[] = [];
    for (let joint = 0; joint + 1 < layers; joint++) {
      const gap = this.gapAt(joint);
      pressures.push(Math.max(0, -gap) * jointStiffness[joint]!);
      gaps.push(Math.max(0, gap));
    }
    for (let layer = 0; layer < layers; layer++)
      faces.push({ inner: u[firstNode[layer]!]!, outer: u[lastNode[layer]!]! });
    return { pressures, gaps, faces, utilisation: Array.from(utilisation), plastic: Array.from(largestPlastic) };
  }
}

/** Takes so many times a column from another. */
function subtract(from: Float64Array, column: Float64Array, times: number): void {
  for (let i = 0; i < from.length; i++) from[i] = from[i]! - column[i]! * times;
}
