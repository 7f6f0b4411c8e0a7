/** A ring of one piece, cut into `cells` of equal thickness, or with radii in equal ratios. */
export interface Layer {
  /** Inner radius [m]; 0 is a solid bar. */
  readonly inner: number;
  /** Outer radius [m]. */
  readonly outer: number;
  readonly cells: number;
  /** Radii in equal ratios, for a thick ring where what happens lies at its bore; not for a solid bar. */
  readonly graded?: true;
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

/** Cuts touching layers into cells. */
export function radialMesh(layers: readonly Layer[]): RadialMesh {
  const count = layers.reduce((sum, layer) => sum + layer.cells, 0);
  const faces = new Float64Array(count + 1);
  const joints: number[] = [];
  let cell = 0;
  faces[0] = layers[0]!.inner;
  for (const { inner, outer, cells, graded } of layers) {
    if (cell > 0) joints.push(cell - 1);
    for (let i = 1; i <= cells; i++) faces[++cell] = i === cells ? outer : graded ? inner * (outer / inner) ** (i / cells) : inner + ((outer - inner) * i) / cells;
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
