import type { RadialMesh } from './radial-mesh.ts';

/** Temperatures of a bored pin in its boss at one moment [K]. */
export interface PinTemperatures {
  /** Wall of the bore. */
  readonly bore: number;
  /** Outer surface of the pin, at the joint. */
  readonly surface: number;
  /** Bore of the boss, at the joint. */
  readonly bossInside: number;
  /** Outer surface of the boss. */
  readonly bossOutside: number;
  /** Mean over the pin's section. */
  readonly pinMean: number;
  /** Mean over the boss's section. */
  readonly bossMean: number;
}

/**
 * Mean temperature over a layer's section [K]; `temperatures` begin with the bore surface.
 *
 * @example layerMean(radialMesh([{ inner: 0.02, outer: 0.05, cells: 2 }]), Float64Array.of(400, 380, 320, 300), 0) // 343.57
 */
export function layerMean(mesh: RadialMesh, temperatures: Float64Array, layer: number): number {
  const { layers, areas } = mesh;
  let from = 0;
  for (let i = 0; i < layer; i++) from += layers[i]!.cells;
  const to = from + layers[layer]!.cells;
  let sum = 0;
  let area = 0;
  for (let i = from; i < to; i++) {
    sum += areas[i]! * temperatures[i + 1]!;
    area += areas[i]!;
  }
  return sum / area;
}

/** Reads the temperatures of a two-layer mesh: pin inside, boss outside. */
export function pinTemperatures(
  mesh: RadialMesh,
  temperatures: Float64Array,
  contact: number,
  conductivity: (temperature: number) => number,
): PinTemperatures {
  const last = mesh.joints[0]!;
  const inner = temperatures[last + 1]!;
  const outer = temperatures[last + 2]!;
  const face = mesh.faces[last + 1]!;
  const rIn = Math.log(face / mesh.middles[last]!) / conductivity(inner);
  const rOut = Math.log(mesh.middles[last + 1]! / face) / conductivity(outer);
  const flow = (inner - outer) / (rIn + 1 / (face * contact) + rOut);
  return {
    bore: temperatures[0]!,
    surface: inner - flow * rIn,
    bossInside: outer + flow * rOut,
    bossOutside: temperatures[mesh.count + 1]!,
    pinMean: layerMean(mesh, temperatures, 0),
    bossMean: layerMean(mesh, temperatures, 1),
  };
}
