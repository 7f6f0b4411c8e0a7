import { MATERIAL_NAMES } from './material-names.ts';
import type { Assumption } from './assumption.ts';

/** How numbers are written in the sheet. */
export const SHEET_ASSUMPTIONS = [
  {
    name: 'units',
    summary:
      'Units of plain numbers, in and out: US (in, ft, psi, scf, lb, short ton, F) or SI (mm, m, bar, m3, kg, kN, C)',
    choices: ['US', 'SI'],
    value: 'US',
    kind: 'convention',
    source: 'convention',
  },
  {
    name: 'decimal mark',
    summary: 'Decimal mark of sizes that are texts: point (4.5 mm) or comma (4,5 mm)',
    choices: ['point', 'comma'],
    value: 'point',
    kind: 'convention',
    source: 'convention',
  },
  {
    name: 'material',
    summary: 'Metal of the work where a function names none',
    choices: MATERIAL_NAMES,
    value: 'carbon steel',
    kind: 'convention',
    source: 'convention',
  },
  {
    name: 'show working',
    summary:
      'card: a single result carries its working on a card, in spreadsheet programs and builds of the add-in that have cards; elsewhere it is the plain number',
    choices: ['no', 'card'],
    value: 'no',
    kind: 'convention',
    source: 'convention',
  },
] as const satisfies readonly Assumption[];
