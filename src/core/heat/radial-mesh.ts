/** A ring of one piece, cut into `cells` of equal thickness, or graded where what happens in a thick ring lies at its bore. */
export interface Layer {
  /** Inner radius [m]; 0 is a solid bar. */
  readonly inner: number;
  /** Outer radius [m]. */
  readonly outer: number;
  readonly cells: number;
  /**
   * `ratios`: radii in equal ratios. `outward`: in a ring thicker than 1.6 inner radii the cell at the bore is as thick as in
   * a ring of just that thickness, and each is thicker than the one before by one ratio. Not for a solid bar.
   */
  readonly graded?: 'ratios' | 'outward';
}

/** Concentric layers that touch; lengths in m, areas in m2. */
export interface RadialMesh {
  readonly layers: readonly Layer[];
  /** Number of cells. */
  readonly count: number;
  /** Radii of the faces, one more than cells. */
  readonly faces: Float64Array;
  /** Radii of the cells' middles. */
  readonly middles: Float64Array;
  /** Cross sections of the cells. */
  readonly areas: Float64Array;
  /** Cells that a joint follows, in order. */
  readonly joints: readonly number[];
}

/** Thickness over the inner radius up to which cells that grow outward are equal. */
const EQUAL_UP_TO = 1.6;

/**
 * Cuts touching layers into cells.
 *
 * @example radialMesh([{ inner: 0.02, outer: 0.05, cells: 12 }]).faces[12] // 0.05
 */
export function radialMesh(layers: readonly Layer[]): RadialMesh {
  const count = layers.reduce((sum, layer) => sum + layer.cells, 0);
  const faces = new Float64Array(count + 1);
  const joints: number[] = [];
  let cell = 0;
  faces[0] = layers[0]!.inner;
  for (const layer of layers) {
    const { outer, cells } = layer;
    if (cell > 0) joints.push(cell - 1);
    const face = faceOf(layer);
    for (let i = 1; i <= cells; i++) faces[++cell] = i === cells ? outer : face(i);
  }
  const middles = new Float64Array(count);
  const areas = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const a = faces[i]!;
    const b = faces[i + 1]!;
    middles[i] = (a + b) / 2;
    areas[i] = Math.PI * (b * b - a * a);
  }
  return { layers, count, faces, middles, areas, joints };
}

/** Radius of a layer's i-th face, counted from its inner one [m]. */
function faceOf({ inner, outer, cells, graded }: Layer): (i: number) => number {
  const thickness = outer - inner;
  if (graded === 'ratios') return (i) => inner * (outer / inner) ** (i / cells);
  if (graded !== 'outward' || thickness <= EQUAL_UP_TO * inner) return (i) => inner + (thickness * i) / cells;
  const growth = growthOf((cells * thickness) / (EQUAL_UP_TO * inner), cells);
  return (i) => inner + (thickness * (growth ** i - 1)) / (growth ** cells - 1);
}

/** The ratio of which so many powers, from 1 on, have this sum; the sum is more than their number. */
function growthOf(sum: number, count: number): number {
  let low = 1;
  let high = sum;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if ((middle ** count - 1) / (middle - 1) < sum) low = middle;
    else high = middle;
  }
  return high;
}
