import type { Assumption } from './assumption.ts';

/** Burning: how the rod's iron, the oxygen and the heat divide. Kept apart by kind of rod where it feeds iron differently. */
export const BURN_ASSUMPTIONS = [
  {
    name: 'rod feed ratio', summary: 'Iron a short rod feeds for each unit of oxygen, by mass',
    quantity: 'ratio', unit: '', value: 0.5, low: 0.35, high: 0.7, min: 0.05, max: 3, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'oxygen burnt share', summary: 'Share of the oxygen through a short rod that burns iron',
    quantity: 'ratio', unit: '', value: 0.25, low: 0.15, high: 0.4, min: 0.02, max: 1, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'bar feed ratio', summary: 'Iron a long burning bar feeds for each unit of oxygen, by mass',
    quantity: 'ratio', unit: '', value: 1.6, low: 1.2, high: 2, min: 0.05, max: 6, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'bar oxygen burnt share', summary: 'Share of the oxygen through a long burning bar that burns iron',
    quantity: 'ratio', unit: '', value: 0.55, low: 0.4, high: 0.7, min: 0.02, max: 1, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'product FeO share', summary: 'Share of the burnt iron that ends as FeO; the rest as Fe3O4',
    quantity: 'ratio', unit: '', value: 0.5, low: 0.3, high: 0.8, min: 0, max: 1, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'heat lost share', summary: 'Share of the heat lost to radiation, spatter and the part',
    quantity: 'ratio', unit: '', value: 0.3, low: 0.2, high: 0.4, min: 0, max: 0.95, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'slag temperature', summary: 'Temperature at which rod and work metal leave',
    quantity: 'absoluteTemperature', unit: 'K', value: 2100, low: 1900, high: 2400, min: 1809, max: 3000, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'advance limit', summary: 'Fastest advance of a pierce at its mouth, set by slag getting out',
    quantity: 'speed', unit: 'in/min', value: 24, low: 10, high: 30, min: 0.5, max: 200, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'advance depth', summary: 'Depth, in pierce widths, at which the slag limit has halved the advance',
    quantity: 'ratio', unit: '', value: 10, low: 6, high: 16, min: 1, max: 100, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'item scatter', summary: 'How one item of a list departs from the others in oxygen, rods and minutes; 1 is none',
    quantity: 'ratio', unit: '', value: 1, low: 0.85, high: 1.25, min: 0.2, max: 5, kind: 'common practice', source: 'common practice',
  },
] as const satisfies readonly Assumption[];
