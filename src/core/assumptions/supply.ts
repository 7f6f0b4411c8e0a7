import type { Assumption } from './assumption.ts';

/** The cylinder on the truck. */
export const SUPPLY_ASSUMPTIONS = [
  {
    name: 'cylinder volume', summary: 'Water volume of one oxygen cylinder',
    quantity: 'capacity', unit: 'L', value: 43, low: 42, high: 50, min: 0.5, max: 1000, kind: 'published', source: 'army welding manual',
  },
  {
    name: 'cylinder pressure', summary: 'Fill pressure of one oxygen cylinder at 70 F',
    quantity: 'pressure', unit: 'psi', value: 2200, low: 2000, high: 2300, min: 50, max: 4400, kind: 'published', source: 'army welding manual',
  },
  {
    name: 'leftover pressure', summary: 'Pressure left in the cylinder when it is changed, so that the regulator keeps feeding',
    quantity: 'pressure', unit: 'psi', value: 250, low: 150, high: 400, min: 0, max: 2000, kind: 'common practice', source: 'common practice',
  },
] as const satisfies readonly Assumption[];
