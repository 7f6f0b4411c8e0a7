import type { Assumption } from './assumption.ts';

/** Crew time and oxygen lost round the burning. */
export const CREW_ASSUMPTIONS = [
  {
    name: 'set-up time', summary: 'Hoses, regulator, battery, screens and permit for one item',
    quantity: 'time', unit: 'min', value: 12, low: 6, high: 25, min: 0, max: 1440, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'plate time', summary: 'Fitting and welding the guide and shield plates of one pin',
    quantity: 'time', unit: 'min', value: 8, low: 4, high: 15, min: 0, max: 1440, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'burning duty', summary: 'Share of the time at the work in which a rod burns; the rest is clearing slag and looking',
    quantity: 'ratio', unit: '', value: 0.7, low: 0.5, high: 0.85, min: 0.02, max: 1, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'rod change time', summary: 'Throwing the stub, fitting and lighting the next rod',
    quantity: 'time', unit: 'min', value: 0.75, low: 0.4, high: 1.5, min: 0, max: 60, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'lighting time', summary: 'Oxygen flowing before a rod burns steadily, each rod',
    quantity: 'time', unit: 's', value: 5, low: 3, high: 10, min: 0, max: 600, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'idle oxygen share', summary: 'Oxygen lost to purging, leaks and an open valve, over the oxygen burnt with',
    quantity: 'ratio', unit: '', value: 0.08, low: 0.03, high: 0.2, min: 0, max: 5, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'push-out time', summary: 'Setting the ram, pressing, resetting with spacers, one pin',
    quantity: 'time', unit: 'min', value: 10, low: 5, high: 25, min: 0, max: 1440, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'clean-up time', summary: 'Slag, plates and screens of one item',
    quantity: 'time', unit: 'min', value: 5, low: 3, high: 12, min: 0, max: 1440, kind: 'common practice', source: 'common practice',
  },
] as const satisfies readonly Assumption[];
