import type { Assumption } from './assumption.ts';

/** Grip of a pin in its boss, pushing it out, and the plates that guide the rod. */
export const FIT_ASSUMPTIONS = [
  {
    name: 'interference over diameter', summary: 'Interference of a seized pin, press fit or rust jacking, over its diameter',
    quantity: 'ratio', unit: '', value: 0.0003, low: 0, high: 0.001, min: 0, max: 0.01, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'joint friction', summary: 'Friction of the joint when it starts to slip; galling and rust raise it above that of a clean press fit',
    quantity: 'ratio', unit: '', value: 0.15, low: 0.08, high: 0.4, min: 0, max: 2, kind: 'published', source: 'din 7190-1',
  },
  {
    name: 'rust bond', summary: 'Shear strength that rust adds to the joint',
    quantity: 'stress', unit: 'psi', value: 450, low: 50, high: 1800, min: 0, max: 20000, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'bond left after burning', summary: 'Share of the rust bond left after heating and cooling have worked the joint',
    quantity: 'ratio', unit: '', value: 0.4, low: 0.1, high: 0.8, min: 0, max: 1, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'pin modulus', summary: 'Modulus of elasticity of the pin',
    quantity: 'stress', unit: 'GPa', value: 205, low: 200, high: 210, min: 50, max: 450, kind: 'published', source: 'lame',
  },
  {
    name: 'boss modulus', summary: 'Modulus of elasticity of the boss',
    quantity: 'stress', unit: 'GPa', value: 205, low: 195, high: 210, min: 50, max: 450, kind: 'published', source: 'lame',
  },
  {
    name: 'poisson ratio', summary: 'Poisson\'s ratio of pin and boss',
    quantity: 'ratio', unit: '', value: 0.3, low: 0.27, high: 0.3, min: 0, max: 0.45, kind: 'published', source: 'lame',
  },
  {
    name: 'pin yield strength', summary: 'Yield strength of the pin, cold',
    quantity: 'stress', unit: 'ksi', value: 75, low: 45, high: 120, min: 15, max: 300, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'boss yield strength', summary: 'Yield strength of the boss, cold; cast or plate steel',
    quantity: 'stress', unit: 'ksi', value: 40, low: 30, high: 60, min: 15, max: 300, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'ram use', summary: 'Share of its rating at which a ram is worked',
    quantity: 'ratio', unit: '', value: 0.8, low: 0.7, high: 0.9, min: 0.05, max: 1, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'ram stroke', summary: 'Stroke of the ram, where a function is not told',
    quantity: 'length', unit: 'in', value: 6, low: 2, high: 13, min: 0.1, max: 120, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'ram oil pressure', summary: 'Oil pressure of a ram at its rating',
    quantity: 'pressure', unit: 'psi', value: 10000, low: 3000, high: 10000, min: 100, max: 60000, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'oil bulk modulus', summary: 'Bulk modulus of hydraulic oil, with hoses; soft hoses and air lower it and store more energy',
    quantity: 'stress', unit: 'GPa', value: 1.2, low: 0.7, high: 1.8, min: 0.01, max: 5, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'stroke use', summary: 'Share of the ram\'s stroke that is used before a spacer goes in',
    quantity: 'ratio', unit: '', value: 0.9, low: 0.75, high: 1, min: 0.05, max: 1, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'push clearance', summary: 'Travel beyond the boss until the pin is clear',
    quantity: 'length', unit: 'in', value: 1, low: 0, high: 4, min: 0, max: 120, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'spacer clearance', summary: 'How much thinner a spacer is than the pin it follows through the boss',
    quantity: 'length', unit: 'in', value: 0.125, low: 0.0625, high: 0.25, min: 0.001, max: 12, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'spacer yield strength', summary: 'Yield strength of the spacers',
    quantity: 'stress', unit: 'ksi', value: 36, low: 36, high: 100, min: 10, max: 300, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'column end factor', summary: 'Effective length of pin and stack as columns over their length; 1 is ends that can turn but not shift',
    quantity: 'ratio', unit: '', value: 1, low: 0.65, high: 2, min: 0.5, max: 4, kind: 'convention', source: 'column formulas',
  },
  {
    name: 'buckling safety factor', summary: 'Critical load of a column over the load allowed on it',
    quantity: 'ratio', unit: '', value: 2, low: 1.67, high: 3, min: 1, max: 20, kind: 'convention', source: 'column formulas',
  },
  {
    name: 'base plate margin', summary: 'Base plate beyond the pin on each side',
    quantity: 'length', unit: 'in', value: 1.5, low: 1, high: 3, min: 0, max: 24, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'base plate thickness', summary: 'Thickness of the base plate that guides the rod',
    quantity: 'length', unit: 'in', value: 0.375, low: 0.25, high: 0.5, min: 0.125, max: 4, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'shield plate over pin', summary: 'Side of the shield plate over the pin\'s diameter',
    quantity: 'ratio', unit: '', value: 4, low: 3, high: 6, min: 1, max: 40, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'shield plate least side', summary: 'Least side of the shield plate',
    quantity: 'length', unit: 'in', value: 16, low: 12, high: 24, min: 4, max: 120, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'shield plate thickness', summary: 'Thickness of the shield plate, at least 1/4 in',
    quantity: 'length', unit: 'in', value: 0.25, low: 0.25, high: 0.375, min: 0.25, max: 4, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'guide hole clearance', summary: 'Guide hole in the base plate over the rod\'s diameter',
    quantity: 'length', unit: 'in', value: 0.125, low: 0.0625, high: 0.25, min: 0.01, max: 4, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'rod thrust', summary: 'Push of the operator on the rod',
    quantity: 'force', unit: 'lbf', value: 40, low: 10, high: 100, min: 0, max: 2000, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'weld metal strength', summary: 'Tensile strength of the weld metal that holds the plates',
    quantity: 'stress', unit: 'ksi', value: 70, low: 60, high: 80, min: 30, max: 200, kind: 'published', source: 'aws d1.1',
  },
  {
    name: 'plate weld factor', summary: 'Further factor on the load of the plates\' welds, for heat and tack quality',
    quantity: 'ratio', unit: '', value: 2, low: 1.5, high: 4, min: 1, max: 20, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'pierce drift', summary: 'Distance off the axis over the depth of a guided pierce',
    quantity: 'ratio', unit: '', value: 0.01, low: 0.004, high: 0.03, min: 0, max: 0.5, kind: 'common practice', source: 'common practice',
  },
] as const satisfies readonly Assumption[];
