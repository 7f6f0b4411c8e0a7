/** Law of turbulent friction: Blasius for smooth passages, Colebrook for any roughness. */
export type FrictionLaw = 'Blasius' | 'Colebrook';

/** Laminar below, turbulent above; between them the two are blended smoothly. */
const LAMINAR_UP_TO = 2300;
const TURBULENT_FROM = 4000;

/** 1/sqrt(f) = -2 log10(rr / 3.7 + 2.51 / (Re sqrt(f))), by Newton's method from a value amid its range. */
function colebrook(reynolds: number, relativeRoughness: number): number {
  const a = relativeRoughness / 3.7;
  const b = 2.51 / reynolds;
  let x = -2 * Math.log10(a + 7 * b);
  for (let i = 0; i < 3; i++) {
    const inside = a + b * x;
    x -= (x + 2 * Math.log10(inside)) / (1 + (2 * Math.LOG10E * b) / inside);
  }
  return 1 / (x * x);
}

/** 0.3164 / Re^0.25, and the smooth Colebrook law where that is higher (Re above about 8e4). */
function smooth(reynolds: number): number {
  const blasius = 0.3164 / Math.sqrt(Math.sqrt(reynolds));
  return reynolds < 5e4 ? blasius : Math.max(blasius, colebrook(reynolds, 0));
}

/**
 * Darcy friction factor of a passage from the Reynolds number on its hydraulic diameter.
 *
 * Laminar 64 / Re to 2300; turbulent from 4000 by the law asked for; a cubic blend between, so that flow is a
 * smooth function of pressure.
 *
 * reynolds: more than 0. relativeRoughness: roughness over hydraulic diameter, 0 to 0.1 (used by Colebrook only).
 * Sources: Blasius 1913 (smooth, to Re 1e5); C. F. Colebrook, J. Inst. Civil Engineers 11 (1939) 133-156. Where the
 * blend begins and ends: common practice.
 *
 * @example frictionFactor(1e5, 1e-4) // 0.01851
 */
export function frictionFactor(reynolds: number, relativeRoughness = 0, law: FrictionLaw = 'Colebrook'): number {
  if (reynolds <= LAMINAR_UP_TO) return 64 / reynolds;
  const turbulent = law === 'Blasius' ? smooth(reynolds) : colebrook(reynolds, relativeRoughness);
  if (reynolds >= TURBULENT_FROM) return turbulent;
  const s = (reynolds - LAMINAR_UP_TO) / (TURBULENT_FROM - LAMINAR_UP_TO);
  const share = s * s * (3 - 2 * s);
  return (1 - share) * (64 / reynolds) + share * turbulent;
}
