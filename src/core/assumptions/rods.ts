import type { Assumption } from './assumption.ts';

/** Rods, holder, access and the pressures at the holder. */
export const ROD_ASSUMPTIONS = [
  {
    name: 'holder orifice', summary: 'Equivalent diameter of the holder\'s valve and passages, as an orifice in series with the rod',
    quantity: 'length', unit: 'in', value: 0.11, low: 0.08, high: 0.16, min: 0.02, max: 0.5, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'gas temperature', summary: 'Temperature of the oxygen in hose and rod, and of the work before burning',
    quantity: 'temperature', unit: 'F', value: 70, low: 40, high: 100, min: -9, max: 170, kind: 'convention', source: 'convention',
  },
  {
    name: 'air pressure', summary: 'Absolute pressure of the air around the work; lower at height',
    quantity: 'stress', unit: 'psi', value: 14.696, low: 12, high: 14.9, min: 5, max: 20, kind: 'convention', source: 'convention',
  },
  {
    name: 'stub', summary: 'Length of rod left in the holder and thrown away',
    quantity: 'length', unit: 'in', value: 3, low: 2, high: 4, min: 0, max: 60, kind: 'published', source: 'navy underwater cutting',
  },
  {
    name: 'reach loss', summary: 'Share of the mean working depth that a rod cannot burn, since it must still reach from the holder to the face',
    quantity: 'ratio', unit: '', value: 0.5, low: 0, high: 1, min: 0, max: 2, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'coupled rods', summary: 'Whether rods are coupled end to end, losing one stub a string',
    choices: ['no', 'yes'], value: 'no', kind: 'convention', source: 'common practice',
  },
  {
    name: 'ends worked', summary: 'Ends of the pin that can be worked from: 1 or 2',
    quantity: 'count', unit: '', value: 1, low: 1, high: 1, min: 1, max: 2, kind: 'convention', source: 'common practice',
  },
  {
    name: 'access length', summary: 'Clear length in front of the work; a longer rod is not picked',
    quantity: 'length', unit: 'in', value: 40, low: 24, high: 72, min: 6, max: 600, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'supply flow', summary: 'Largest flow that the regulator is made for; a thirstier rod is not picked. What a hose loses is worked out',
    quantity: 'flow', unit: 'scfm', value: 25, low: 15, high: 40, min: 0.5, max: 1000, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'pierce width', summary: 'Width of a pierce over the outside diameter of its rod',
    quantity: 'ratio', unit: '', value: 2, low: 1.6, high: 2.6, min: 1, max: 6, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'bore ratio', summary: 'Planned bore over the pin\'s diameter',
    quantity: 'ratio', unit: '', value: 0.6, low: 0.5, high: 0.75, min: 0.05, max: 0.95, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'tip pressure', summary: 'Tip pressure to use everywhere; 0 leaves it to the rule of the operation',
    quantity: 'pressure', unit: 'psi', value: 0, low: 0, high: 0, min: 0, max: 300, kind: 'convention', source: 'common practice',
  },
  {
    name: 'pierce pressure', summary: 'Tip pressure for a shallow pierce',
    quantity: 'pressure', unit: 'psi', value: 70, low: 60, high: 80, min: 20, max: 300, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'pierce pressure rise', summary: 'Rise of the tip pressure with the depth of the pierce',
    quantity: 'pressurePerLength', unit: 'psi/in', value: 3.5, low: 2, high: 5, min: 0, max: 50, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'pierce pressure top', summary: 'Highest tip pressure for a pierce',
    quantity: 'pressure', unit: 'psi', value: 150, low: 130, high: 160, min: 20, max: 300, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'rod flow measured', summary: 'Flow you measured through a fresh 36 in rod, or a fresh bar, of the kind in use; 0 trusts the construction. Goes with the row `pressure`',
    quantity: 'flow', unit: 'scfm', value: 0, low: 0, high: 0, min: 0, max: 200, kind: 'convention', source: 'common practice',
  },
  {
    name: 'pressure', summary: 'Tip pressure at which `rod flow measured` was measured',
    quantity: 'pressure', unit: 'psi', value: 80, low: 80, high: 80, min: 5, max: 300, kind: 'convention', source: 'common practice',
  },
] as const satisfies readonly Assumption[];
