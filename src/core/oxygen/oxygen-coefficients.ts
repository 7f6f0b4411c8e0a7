/**
 * Coefficients of the reference equation of state and of the viscosity equation for oxygen.
 *
 * Sources:
 * - R. Schmidt and W. Wagner, Fluid Phase Equilibria 19 (1985) 175-200 (residual Helmholtz energy).
 * - R. B. Stewart, R. T. Jacobsen and W. Wagner, J. Phys. Chem. Ref. Data 20 (1991) 917-1021 (the same equation with
 *   tables, ideal-gas part and limits). The ideal-gas part stands here as tabulated in the open CoolProp fluid file.
 * - E. W. Lemmon and R. T Jacobsen, Int. J. Thermophysics 25 (2004) 21-69 (viscosity).
 */

/** Constants of the equation itself, not the newest CODATA values: J/mol K, kg/mol, K, mol/m3. */
export const EQUATION = {
  gasConstant: 8.31434,
  molarMass: 0.0319988,
  criticalTemperature: 154.581,
  criticalDensity: 13630,
} as const;

/** Ideal-gas part: ln(delta) + logTau ln(tau) + sum n ln(1 - exp(-t tau)). */
export const IDEAL = {
  logTau: 2.51808732,
  n: [1.02323928, 0.784357918, 0.00337183363, -0.0170864084, 0.0463751562],
  t: [14.5316979447668, 72.8419165356674, 7.7710849975094, 0.446425786480874, 34.4677188658373],
} as const;

/** Residual part: sum n delta^d tau^t exp(-delta^l), the exponential absent where l is 0. Rows are [n, d, t, l]. */
export const RESIDUAL: readonly (readonly [n: number, d: number, t: number, l: 0 | 2 | 4])[] = [
  [0.3983768749, 1, 0, 0],
  [-1.846157454, 1, 1.5, 0],
  [0.4183473197, 1, 2.5, 0],
  [0.02370620711, 2, -0.5, 0],
  [0.09771730573, 2, 1.5, 0],
  [0.03017891294, 2, 2, 0],
  [0.02273353212, 3, 0, 0],
  [0.01357254086, 3, 1, 0],
  [-0.04052698943, 3, 2.5, 0],
  [0.0005454628515, 6, 0, 0],
  [0.0005113182277, 7, 2, 0],
  [2.953466883e-7, 7, 5, 0],
  [-8.687645072e-5, 8, 2, 0],
  [-0.2127082589, 1, 5, 2],
  [0.08735941958, 1, 6, 2],
  [0.127550919, 2, 3.5, 2],
  [-0.09067701064, 2, 5.5, 2],
  [-0.03540084206, 3, 3, 2],
  [-0.03623278059, 3, 7, 2],
  [0.0132769929, 5, 6, 2],
  [-0.0003254111865, 6, 8.5, 2],
  [-0.008313582932, 7, 4, 2],
  [0.002124570559, 8, 6.5, 2],
  [-0.0008325206232, 10, 5.5, 2],
  [-2.626173276e-5, 2, 22, 4],
  [0.002599581482, 3, 11, 4],
  [0.009984649663, 3, 18, 4],
  [0.002199923153, 4, 11, 4],
  [-0.02591350486, 4, 23, 4],
  [-0.1259630848, 5, 17, 4],
  [0.1478355637, 5, 18, 4],
  [-0.01011251078, 5, 23, 4],
];

/**
 * Viscosity, Pa s: dilute part C sqrt(M T) / (sigma^2 Omega) with ln(Omega) a polynomial in ln(T k / epsilon),
 * and residual sum N delta^d tau^t exp(-delta^l). Rows of `residual` are [N, d, t, l].
 */
export const VISCOSITY = {
  /** C with M in g/mol and sigma in nm. */
  dilute: 2.66958e-8,
  sigma: 0.3428,
  epsilonOverK: 118.5,
  collision: [0.431, -0.4623, 0.08406, 0.005341, -0.00331],
  residual: [
    [17.67e-6, 1, 0.05, 0],
    [0.4042e-6, 5, 0, 0],
    [1.077e-10, 12, 2.1, 0],
    [0.351e-6, 8, 0, 1],
    [-13.67e-6, 1, 0.5, 2],
  ],
} as const;
