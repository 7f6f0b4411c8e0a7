import { steelElongation } from '../heat/steel-elongation.ts';
import { steelModulusReduction, steelReductions, steelYieldReduction } from '../heat/steel-strength-reduction.ts';
import type { RingMaterial } from './ring-solver.ts';

/** A steel at 20 C. */
export interface SteelStrength {
  /** Modulus of elasticity [Pa]. */
  readonly modulus: number;
  /** Yield strength [Pa]. */
  readonly yield: number;
  readonly poisson: number;
}

/** The table ends with nothing left at 1200 C; this share stays, since rings of no strength have no equilibrium. */
const LEAST = 0.01;

/**
 * A steel whose modulus, yield strength and length follow the temperature as carbon steel's do.
 *
 * E = k_E E_20, f = k_y f_20, at least 1 % of either; elongation of EN 1993-1-2. From 20 to 1200 C.
 * Source: EN 1993-1-2:2005, 3.4.1.1 and Table 3.1 (meant for structural steel; a quenched and tempered pin also loses
 * the temper's strength for good above its tempering temperature, which is left out).
 */
export function ringSteel({ modulus, yield: strength, poisson }: SteelStrength): RingMaterial {
  return {
    modulus: (t) => modulus * Math.max(LEAST, steelModulusReduction(t)),
    yield: (t) => strength * Math.max(LEAST, steelYieldReduction(t)),
    elongation: steelElongation,
    poisson,
    cells(temperatures, from, to, metal) {
      steelReductions(temperatures, from, to, metal.strength, metal.modulus);
      for (let c = from; c < to; c++) {
        metal.modulus[c] = modulus * Math.max(LEAST, metal.modulus[c]!);
        metal.strength[c] = strength * Math.max(LEAST, metal.strength[c]!);
      }
    },
  };
}
