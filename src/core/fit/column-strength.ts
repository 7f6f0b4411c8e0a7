export interface Column {
  /** Outside and inside diameter [m]; inside 0 is a solid bar. */
  readonly diameter: number;
  readonly hole: number;
  /** Length between ends [m] and the factor that makes it effective. */
  readonly length: number;
  readonly endFactor: number;
  /** [Pa] */
  readonly modulus: number;
  readonly yield: number;
}

export interface ColumnStrength {
  /** Critical stress [Pa]. */
  readonly stress: number;
  readonly slenderness: number;
  readonly rule: 'Johnson' | 'Euler';
}

/**
 * Critical stress of a round column in compression.
 *
 * With k = sqrt(D^2 + d^2) / 4, S = K L / k and S_c = sqrt(2 pi^2 E / f): f [1 - f S^2 / (4 pi^2 E)] up to S_c (Johnson),
 * pi^2 E / S^2 beyond (Euler). They meet at f / 2 with one slope.
 * lengths [m], stresses [Pa]. Straight, pushed at its middle.
 * Source: J. B. Johnson's parabola and Euler, as in handbooks of machine design.
 */
export function columnStrength({ diameter, hole, length, endFactor, modulus, yield: f }: Column): ColumnStrength {
  const gyration = Math.sqrt(diameter * diameter + hole * hole) / 4;
  const slenderness = (endFactor * length) / gyration;
  if (slenderness * slenderness <= (2 * Math.PI * Math.PI * modulus) / f) {
    return {
      stress: f * (1 - (f * slenderness * slenderness) / (4 * Math.PI * Math.PI * modulus)),
      slenderness,
      rule: 'Johnson',
    };
  }
  return { stress: (Math.PI * Math.PI * modulus) / (slenderness * slenderness), slenderness, rule: 'Euler' };
}
