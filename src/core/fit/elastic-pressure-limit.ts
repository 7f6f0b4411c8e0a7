import { ringShapes, type PressFit } from './press-fit.ts';

/**
 * Contact pressure at which pin or boss starts to yield.
 *
 * Boss at the joint: p = f / sqrt(k^2 + k + 1), k = (Do^2 + d^2) / (Do^2 - d^2); bored pin at its bore:
 * p = f (d^2 - di^2) / (2 d^2); solid pin: p = f. The least of them.
 * diameters [m], yield strengths [Pa]; result [Pa]. Source: Lame's stresses without axial stress, von Mises yield.
 */
export function elasticPressureLimit(fit: PressFit, pinYield: number, bossYield: number): number {
  const { boss: k, pin: shape } = ringShapes(fit);
  const boss = bossYield / Math.sqrt(k * k + k + 1);
  const pin = fit.hole > 0 ? pinYield / (shape + 1) : pinYield;
  return Math.min(boss, pin);
}
