import { MATERIAL_NAMES } from '../burn/material-names.ts';
import type { Assumption } from './assumption.ts';

/** What the operations besides the pin rest on: geometry of what is removed, materials, long bars, position and access. */
export const OPERATION_ASSUMPTIONS = [
  // Geometry
  {
    name: 'hole taper', summary: 'How much wider a pierced hole is at its mouth than at its far end, over its depth; half of it lies on each side of its mean width',
    quantity: 'ratio', unit: '', value: 0.03, low: 0, high: 0.08, min: 0, max: 1, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'kerf width', summary: 'Width of a kerf where the rod is dragged, over the outside diameter of the rod',
    quantity: 'ratio', unit: '', value: 1.6, low: 1.3, high: 2.2, min: 1, max: 6, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'kerf taper', summary: 'How much wider a kerf is at its mouth than at its root, over the thickness',
    quantity: 'ratio', unit: '', value: 0.08, low: 0.04, high: 0.15, min: 0, max: 1, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'kerf technique', summary: 'How the rod is led through a kerf: dragged along, or sawed up and down; by thickness drags up to `drag thickness`',
    choices: ['by thickness', 'drag', 'saw'], value: 'by thickness', kind: 'convention', source: 'common practice',
  },
  {
    name: 'drag thickness', summary: 'Thickest section that is dragged through rather than sawed',
    quantity: 'length', unit: 'in', value: 1.5, low: 0.75, high: 2.5, min: 0, max: 40, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'saw width', summary: 'Width of a sawed kerf over that of a dragged one',
    quantity: 'ratio', unit: '', value: 1.3, low: 1.1, high: 1.6, min: 1, max: 4, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'cut method', summary: 'How a section is severed: with a kerf, or by piercing a row of holes; quickest takes the one with the least time',
    choices: ['quickest', 'kerf', 'row of holes'], value: 'quickest', kind: 'convention', source: 'common practice',
  },
  {
    name: 'cooling method', summary: 'How a burnt-out pin is cooled before it is pushed: in still air, or with water run through the bore and over part of the boss',
    choices: ['air', 'water'], value: 'air', kind: 'convention', source: 'common practice',
  },
  {
    name: 'hole pitch', summary: 'Distance between the holes of a row over their width at the far end; 1 lets them touch',
    quantity: 'ratio', unit: '', value: 1, low: 0.85, high: 1.15, min: 0.5, max: 2, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'groove width', summary: 'Width of the groove a rod makes at least, over its outside diameter',
    quantity: 'ratio', unit: '', value: 1.5, low: 1.2, high: 2.2, min: 1, max: 6, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'groove overcut', summary: 'Metal removed with a groove over that of the half-elliptical groove asked for',
    quantity: 'ratio', unit: '', value: 1.15, low: 1, high: 1.4, min: 1, max: 4, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'pass depth', summary: 'Deepest groove of one pass',
    quantity: 'length', unit: 'in', value: 0.25, low: 0.125, high: 0.5, min: 0.01, max: 4, kind: 'common practice', source: 'common practice',
  },
  // Tip pressures
  {
    name: 'sever pressure', summary: 'Tip pressure for severing thin sections',
    quantity: 'pressure', unit: 'psi', value: 70, low: 60, high: 80, min: 10, max: 300, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'sever pressure rise', summary: 'Rise of the tip pressure with the thickness severed',
    quantity: 'pressurePerLength', unit: 'psi/in', value: 5, low: 2, high: 8, min: 0, max: 100, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'sever pressure top', summary: 'Highest tip pressure for severing',
    quantity: 'pressure', unit: 'psi', value: 90, low: 85, high: 100, min: 10, max: 300, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'gouge pressure', summary: 'Tip pressure for a shallow narrow groove',
    quantity: 'pressure', unit: 'psi', value: 40, low: 35, high: 50, min: 10, max: 300, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'gouge pressure top', summary: 'Highest tip pressure for gouging',
    quantity: 'pressure', unit: 'psi', value: 90, low: 80, high: 100, min: 10, max: 300, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'gouge full section', summary: 'Section of a groove at which the highest gouging pressure is reached',
    quantity: 'area', unit: 'sq in', value: 1, low: 0.5, high: 2, min: 0.01, max: 100, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'breach pressure', summary: 'Tip pressure for a hole through concrete; 80 to 120 psi for a burning bar',
    quantity: 'pressure', unit: 'psi', value: 100, low: 80, high: 120, min: 10, max: 300, kind: 'published', source: 'navy underwater cutting',
  },
  {
    name: 'underwater pressure', summary: 'Tip pressure over the pressure of the water at the work',
    quantity: 'pressure', unit: 'psi', value: 90, low: 80, high: 100, min: 10, max: 300, kind: 'published', source: 'navy underwater cutting',
  },
  {
    name: 'underwater thick pressure', summary: 'The same for thick metal',
    quantity: 'pressure', unit: 'psi', value: 110, low: 100, high: 120, min: 10, max: 300, kind: 'published', source: 'navy underwater cutting',
  },
  {
    name: 'underwater thick metal', summary: 'Thickness over which metal counts as thick under water',
    quantity: 'length', unit: 'in', value: 3, low: 2, high: 4, min: 0, max: 100, kind: 'published', source: 'navy underwater cutting',
  },
  // Times
  {
    name: 'stud time', summary: 'Going to the next bar or stud, clearing round it, catching what falls',
    quantity: 'time', unit: 'min', value: 0.75, low: 0.3, high: 2, min: 0, max: 240, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'hole set time', summary: 'Going to the next hole through concrete, marking and shielding it',
    quantity: 'time', unit: 'min', value: 3, low: 1, high: 8, min: 0, max: 240, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'row hole time', summary: 'Going to the next hole of a row and starting it',
    quantity: 'time', unit: 'min', value: 0.4, low: 0.2, high: 1, min: 0, max: 240, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'pass time', summary: 'Going back, chipping slag and looking, each pass of a groove',
    quantity: 'time', unit: 'min', value: 0.75, low: 0.3, high: 2, min: 0, max: 240, kind: 'common practice', source: 'common practice',
  },
  // Position and access
  {
    name: 'position', summary: 'How the work lies: flat (or a wall), overhead, vertical down into the work, or underwater',
    choices: ['flat', 'overhead', 'vertical down', 'underwater'], value: 'flat', kind: 'convention', source: 'common practice',
  },
  {
    name: 'overhead removal', summary: 'Metal removed overhead over that removed flat, for the same oxygen and rod',
    quantity: 'ratio', unit: '', value: 0.9, low: 0.75, high: 1, min: 0.05, max: 2, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'overhead handling', summary: 'Time at the work overhead over that flat: burning with its pauses, rod changes, moving on',
    quantity: 'ratio', unit: '', value: 1.5, low: 1.2, high: 2.2, min: 0.5, max: 10, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'downward slag', summary: 'Advance that slag allows where it must come up out of the hole, over that where it runs out',
    quantity: 'ratio', unit: '', value: 0.6, low: 0.4, high: 0.9, min: 0.05, max: 2, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'downward handling', summary: 'Time at the work vertical down over that flat',
    quantity: 'ratio', unit: '', value: 1.15, low: 1, high: 1.5, min: 0.5, max: 10, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'underwater removal', summary: 'Metal removed under water over that removed in air, for the same oxygen and rod',
    quantity: 'ratio', unit: '', value: 0.75, low: 0.5, high: 0.95, min: 0.05, max: 2, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'underwater handling', summary: 'Time at the work under water over that in air',
    quantity: 'ratio', unit: '', value: 2, low: 1.5, high: 3.5, min: 0.5, max: 20, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'access', summary: 'Room to work in: open, or tight, which slows the crew; the clear length is `access length`',
    choices: ['open', 'tight'], value: 'open', kind: 'convention', source: 'common practice',
  },
  {
    name: 'tight handling', summary: 'Time at the work in tight access over that in the open',
    quantity: 'ratio', unit: '', value: 1.4, low: 1.15, high: 2, min: 0.5, max: 10, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'work grounded', summary: 'Whether the work is connected to the power source, so that a bare rod would arc on it; then insulated rods are picked',
    choices: ['no', 'yes'], value: 'no', kind: 'convention', source: 'common practice',
  },
  // Long bars and strings
  {
    name: 'bar access length', summary: 'Clear length in front of the work where long burning bars are used; a longer bar is not picked',
    quantity: 'length', unit: 'in', value: 140, low: 70, high: 260, min: 6, max: 600, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'bar stub', summary: 'Length of a burning bar that is left and thrown away',
    quantity: 'length', unit: 'in', value: 8, low: 4, high: 18, min: 0, max: 100, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'string rods', summary: 'Most rods coupled in one string, each string losing one stub; 0 couples as many as it takes',
    quantity: 'count', unit: '', value: 0, low: 0, high: 0, min: 0, max: 1000, kind: 'convention', source: 'common practice',
  },
  // Materials
  {
    name: 'breach material', summary: 'What BREACH goes through where the function names nothing',
    choices: MATERIAL_NAMES, value: 'reinforced concrete', kind: 'convention', source: 'convention',
  },
  {
    name: 'stainless burns', summary: 'Share of stainless steel in the way of the rod that burns; its chromium oxide stops the rest',
    quantity: 'ratio', unit: '', value: 0.05, low: 0, high: 0.15, min: 0, max: 1, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'cast iron burns', summary: 'Share of cast iron in the way of the rod that burns; its graphite and silica hold up the rest',
    quantity: 'ratio', unit: '', value: 0.3, low: 0.1, high: 0.6, min: 0, max: 1, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'melt temperature ratio', summary: 'Temperature at which a metal that only melts leaves, over its melting point, both absolute',
    quantity: 'ratio', unit: '', value: 1.2, low: 1.08, high: 1.4, min: 1, max: 2, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'conducted share', summary: 'Share of the heat, after other losses, that copper or aluminium conducts away; more in a thick block',
    quantity: 'ratio', unit: '', value: 0.3, low: 0.15, high: 0.5, min: 0, max: 0.95, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'concrete heat to melt', summary: 'Heat to warm, dry, decompose and melt concrete',
    quantity: 'heatPerMass', unit: 'MJ/kg', value: 2, low: 1.6, high: 2.6, min: 0.5, max: 6, kind: 'convention', source: 'concrete melting',
  },
  {
    name: 'rock heat to melt', summary: 'Heat to warm and melt rock',
    quantity: 'heatPerMass', unit: 'MJ/kg', value: 2, low: 1.5, high: 2.6, min: 0.5, max: 6, kind: 'convention', source: 'rock melting',
  },
  {
    name: 'steel in section', summary: 'Reinforcing steel in the way of the rod through concrete, by volume',
    quantity: 'percent', unit: '%', value: 1, low: 0.3, high: 4, min: 0, max: 60, kind: 'common practice', source: 'common practice',
  },
] as const satisfies readonly Assumption[];
