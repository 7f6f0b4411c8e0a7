import { drawnTo } from './cylinder-content.ts';
import { drawCylinder, type CylinderWall } from './draw-cylinder.ts';
import { isotherm } from './oxygen-state.ts';

export interface CylinderYield {
  /** Oxygen that can be drawn at this flow before the regulator starves [kg]. */
  readonly drawn: number;
  /** Oxygen that could be drawn slowly, the gas staying warm [kg]. */
  readonly atRest: number;
  /** Time to starvation [s]. */
  readonly time: number;
  /** Gas temperature then [K]. */
  readonly temperature: number;
  /** Absolute pressure [Pa] that the cylinder shows once it has warmed up again. */
  readonly warmed: number;
}

/**
 * What one of a number of cylinders on a manifold yields when they are drawn together at a flow [kg/s].
 *
 * The cold gas left at the leftover pressure is denser than at rest, so less comes out. Arguments as `drawCylinder`;
 * pressure and leftover absolute [Pa]. Example: 43 L at 2200 psig and 70 F, drawn at
 * 10 scfm to 150 psig: 224 of the 227 scf that come out slowly, the gas then at 0 F, and 176 psig once warmed up.
 */
export function cylinderYield(
  volume: number,
  wall: CylinderWall,
  pressure: number,
  temperature: number,
  leftover: number,
  flow: number,
  manifold = 1,
): CylinderYield {
  const atRest = drawnTo(volume, pressure, temperature, leftover);
  const each = flow / manifold;
  const end = drawCylinder({ volume, wall, pressure, temperature, leftover, flow: () => each });
  const settled = isotherm(temperature).pressure(end.mass / volume);
  return { drawn: end.drawn, atRest, time: end.time, temperature: end.temperature, warmed: settled };
}
