import type { Assumption } from './assumption.ts';

/** Noise, air, fume, falling drops and power. */
export const EXPOSURE_ASSUMPTIONS = [
  {
    name: 'short rod noise', summary: 'Average level at the operator over short-rod work, pauses included; while a rod burns it is louder',
    quantity: 'level', unit: 'dBA', value: 92, low: 86, high: 102, min: 30, max: 140, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'fresh air oxygen', summary: 'Oxygen in the fresh air brought into a room; dry air has 20.95%, damp warm air less',
    quantity: 'percent', unit: '%', value: 20.9, low: 20.4, high: 20.95, min: 15, max: 23.4, kind: 'published', source: 'us standard atmosphere',
  },
  {
    name: 'air mixing factor', summary: 'How far fresh air falls short of mixing at once: 1 mixes at once, 3 is a fair room, 10 a cluttered one with a poor inlet',
    quantity: 'ratio', unit: '', value: 1, low: 1, high: 10, min: 1, max: 100, kind: 'convention', source: 'acgih ventilation',
  },
  {
    name: 'leak flow', summary: 'Oxygen let into the room by leaks and a valve left open, on top of what the rod leaves unburnt',
    quantity: 'flow', unit: 'scfm', value: 0.1, low: 0, high: 1, min: 0, max: 500, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'room temperature', summary: 'Air temperature where the oxygen is let out',
    quantity: 'temperature', unit: 'F', value: 70, low: 20, high: 110, min: -60, max: 150, kind: 'convention', source: 'convention',
  },
  {
    name: 'fume factor', summary: 'Fume for each unit of rod iron fed and work metal removed. No published factor for exothermic rods was found; arc electrodes give 0.5 to 8%',
    quantity: 'percent', unit: '%', value: 3, low: 0.5, high: 15, min: 0, max: 100, kind: 'convention', source: 'ap-42 12.19',
  },
  {
    name: 'rod manganese', summary: 'Manganese in the steel of rod tube and wires',
    quantity: 'percent', unit: '%', value: 0.5, low: 0.3, high: 1.2, min: 0, max: 100, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'work manganese', summary: 'Manganese in the work metal: 0.3 to 1.6% in carbon and low-alloy steel, 11 to 14% in manganese steel',
    quantity: 'percent', unit: '%', value: 0.8, low: 0.3, high: 1.6, min: 0, max: 100, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'manganese steel content', summary: 'Manganese in the work metal where it is manganese steel',
    quantity: 'percent', unit: '%', value: 12.5, low: 11, high: 14, min: 0, max: 100, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'fume tip pressure', summary: 'Tip pressure at which a rod gives off fume, where `tip pressure` sets none; a higher one burns more metal a minute',
    quantity: 'pressure', unit: 'psi', value: 100, low: 70, high: 150, min: 5, max: 300, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'manganese enrichment', summary: 'How much more readily manganese goes into fume than iron does',
    quantity: 'ratio', unit: '', value: 4, low: 1, high: 8, min: 0, max: 50, kind: 'convention', source: 'convention',
  },
  {
    name: 'drop diameter', summary: 'Hot drops of slag that fall and still set fire to things',
    quantity: 'length', unit: 'mm', value: 3, low: 1, high: 6, min: 0.3, max: 20, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'drop density', summary: 'Density of a drop: iron near 7000, its oxides near 5000',
    quantity: 'density', unit: 'kg/m3', value: 6000, low: 5000, high: 7000, min: 1000, max: 12000, kind: 'convention', source: 'convention',
  },
  {
    name: 'throw speed', summary: 'Speed at which the oxygen jet throws drops out of the work',
    quantity: 'speed', unit: 'm/s', value: 8, low: 3, high: 15, min: 0, max: 100, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'bounce', summary: 'Speed of a drop after it strikes the ground or a ledge, over the speed before',
    quantity: 'ratio', unit: '', value: 0.3, low: 0.1, high: 0.5, min: 0, max: 0.9, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'wind', summary: 'Wind at the work, in the direction drops fly',
    quantity: 'speed', unit: 'm/s', value: 0, low: 0, high: 10, min: 0, max: 40, kind: 'convention', source: 'convention',
  },
  {
    name: 'air density', summary: 'Density of the air drops fall through; 20 C at sea level',
    quantity: 'density', unit: 'kg/m3', value: 1.204, low: 0.95, high: 1.4, min: 0.3, max: 2, kind: 'published', source: 'us standard atmosphere',
  },
  {
    name: 'air viscosity', summary: 'Kinematic viscosity of the air drops fall through; 20 C at sea level',
    quantity: 'diffusivity', unit: 'mm2/s', value: 15.1, low: 12, high: 20, min: 5, max: 60, kind: 'published', source: 'us standard atmosphere',
  },
  {
    name: 'strike current', summary: 'Current drawn while a rod is lit from a battery',
    quantity: 'current', unit: 'A', value: 100, low: 50, high: 200, min: 1, max: 2000, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'strike time', summary: 'Time the current flows to light one rod',
    quantity: 'time', unit: 's', value: 2, low: 1, high: 5, min: 0.1, max: 120, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'battery usable share', summary: 'Share of a battery\'s charge to use before recharging it; less keeps it able to start a vehicle',
    quantity: 'percent', unit: '%', value: 50, low: 30, high: 80, min: 0, max: 100, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'peukert exponent', summary: 'How a lead-acid battery gives less at a high current; 1 gives all of it at any current',
    quantity: 'ratio', unit: '', value: 1.25, low: 1.1, high: 1.5, min: 1, max: 2, kind: 'common practice', source: 'peukert 1897',
  },
  {
    name: 'lead temperature', summary: 'Temperature of the copper of the leads',
    quantity: 'temperature', unit: 'F', value: 100, low: 20, high: 170, min: -60, max: 390, kind: 'convention', source: 'convention',
  },
  {
    name: 'lead lay', summary: 'Length of a strand over the length of the cable; 1 for solid wire',
    quantity: 'ratio', unit: '', value: 1.02, low: 1, high: 1.06, min: 1, max: 1.5, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'short rod current', summary: 'Highest setting of a welding machine for short rods',
    quantity: 'current', unit: 'A', value: 150, low: 100, high: 150, min: 1, max: 600, kind: 'common practice', source: 'common practice',
  },
] as const satisfies readonly Assumption[];
