import { findFunction } from '../../catalogue/catalogue.ts';
import { call } from '../../sheet/call.ts';
import type { CellContent, SheetDescription } from '../../sheet/described-workbook.ts';
import { loadAndPriceSheet } from './load-and-price.ts';
import { HEADING, INPUT, ITEM, typed } from './looks.ts';

type Size = number | string;

/** An invented list: where the pin sits, diameter, length, and a bore where the planned one will not do. */
const PINS: readonly (readonly [where: string, diameter: Size, length: Size, hole?: Size])[] = [
  ['Boom foot, left', 6, 24],
  ['Boom foot, right', 6, 24],
  ['A-frame back leg, left', 5, 18],
  ['A-frame back leg, right', 5, 18],
  ['A-frame front leg, left', '4-1/2', 16],
  ['A-frame front leg, right', '4-1/2', 16],
  ['Mast head sheave', 4, 14],
  ['Boom point sheave, outer', '4-1/2', 15],
  ['Boom point sheave, inner', '4-1/2', 15],
  ['Deflection sheave', '100 mm', '320 mm'],
  ['Suspension link, upper', 3.5, 12],
  ['Suspension link, lower', 3.5, 12],
  ['Fairlead swivel, top', 4, 10, 2.5],
  ['Fairlead swivel, bottom', 4, 10, 2.5],
  ['Fairlead roller', 2.5, 9],
  ['Bucket hitch, left', 3, 9],
  ['Bucket hitch, right', 3, 9],
  ['Bucket trunnion, left', 4, 8],
  ['Bucket trunnion, right', 4, 8],
  ['Dump block', 2.75, 7],
  ['Drag clevis', 3.25, '8-1/2'],
  ['Walking shoe link, left', 5.5, 20],
  ['Walking shoe link, right', 5.5, 20],
  ['Ladder hinge', '3/4', 3],
];

const FIRST = 6;
const LAST = FIRST + PINS.length - 1;

/** The listing of assumptions as plain cells, to be edited; the formulas of the other sheets point to it. */
function assumptions(): { readonly sheet: SheetDescription; readonly range: string } {
  const listing = findFunction('BURN.ASSUMED');
  const rows = listing ? (call(listing, []) as readonly (readonly CellContent[])[]) : [];
  const last = rows.length + 2;
  return {
    range: `Assumptions!$A$3:$F$${last}`,
    sheet: {
      name: 'Assumptions',
      rows: [
        ['Assumptions of this job. Edit a value, with its low and high: the sheets of the overhaul recalculate.'],
        ['Common practice means no published source; your own log beats it.'],
        ...rows,
      ],
      size: [last + 40, 10],
      looks: { A1: { bold: true }, A2: { italic: true }, 'A3:H3': HEADING, [`B4:D${last}`]: INPUT },
      widths: { A: 190, B: 110, 'C:D': 70, E: 110, F: 120, G: 240, H: 460 },
      frozenRows: 3,
    },
  };
}

function pinSheet(assume: string): SheetDescription {
  const formulas = (r: number): readonly CellContent[] =>
    ['RODS', 'PRESSURE', 'OXYGEN', 'BURN', 'TIME'].map((f) => `=BURN.PIN.${f}(C${r},D${r},E${r},,,${assume})`);
  const total = (column: string): CellContent => `=SUM(${column}${FIRST}:${column}${LAST})`;
  return {
    name: 'Pins',
    rows: [
      ['Dragline overhaul: seized pins'],
      [
        'An invented job. Yellow cells are yours to change. Plain numbers are inches; 100 mm, 3/8 typed as text, 4-1/2 work too.',
      ],
      ['="Calculation "&BURN.VERSION()'],
      [],
      [
        'No.',
        'Pin',
        'Diameter',
        'Length',
        'Bore, if not as planned',
        'Rods',
        'Tip pressure, psi',
        'Oxygen, scf',
        'Burning, min',
        'Crew, min',
      ],
      ...PINS.map(([where, diameter, length, hole], i): readonly CellContent[] => [
        i + 1,
        where,
        typed(diameter),
        typed(length),
        hole === undefined ? null : typed(hole),
        ...formulas(FIRST + i),
      ]),
      [],
      [null, 'In all', null, null, null, total('F'), null, total('H'), total('I'), total('J')],
      [
        null,
        'Cylinders, shared down the list',
        null,
        null,
        null,
        `=MAX(INDEX(Plan!A4:Z${PINS.length + 4},0,MATCH("cylinders so far",Plan!A3:Z3,0)))`,
      ],
      [null, 'Crew hours', null, null, null, `=J${LAST + 2}/60`],
    ],
    size: [LAST + 80, 40],
    looks: {
      A1: { bold: true, size: 16 },
      'A2:A3': { italic: true },
      'A5:J5': HEADING,
      'C5:J5': { align: 'right' },
      [`A${FIRST}:A${LAST}`]: ITEM,
      [`C${FIRST}:E${LAST}`]: { ...INPUT, align: 'right' },
      [`F${FIRST}:F${LAST + 3}`]: { format: '0' },
      [`G${FIRST}:G${LAST}`]: { format: '0' },
      [`H${FIRST}:J${LAST + 2}`]: { format: '0' },
      [`F${LAST + 4}`]: { format: '0.0' },
      [`A${LAST + 2}:J${LAST + 2}`]: { bold: true },
    },
    widths: { A: 40, B: 190, 'C:D': 76, E: 92, F: 70, G: 96, 'H:J': 84, 'K:L': 100 },
    heights: { 1: 30, 5: 40 },
    frozenRows: 5,
    frozenColumns: 2,
  };
}

function planSheet(list: string, assume: string): SheetDescription {
  // A row for each pin, and the total.
  const last = PINS.length + 4;
  return {
    name: 'Plan',
    rows: [
      ['Plan of all pins: one formula that spills. One job in ten stays under the low, nine in ten under the high.'],
      [],
      [`=BURN.JOB.PLAN(${list},${assume})`],
    ],
    size: [PINS.length + 40, 32],
    looks: {
      A1: { bold: true },
      'A3:AA3': HEADING,
      [`A4:A${last}`]: ITEM,
      [`A${last}:AA${last}`]: { bold: true },
      [`E4:G${last}`]: { format: '0' },
      [`H4:L${last}`]: { format: '0.0' },
      [`N4:V${last}`]: { format: '0.0' },
    },
    heights: { 3: 56 },
    widths: { A: 44, B: 180, C: 74, D: 124, 'E:V': 74, W: 84, X: 110, Y: 160, 'Z:AA': 460 },
    frozenRows: 3,
    frozenColumns: 2,
  };
}

function workingSheet(assume: string): SheetDescription {
  const pick = (letter: string): string => `INDEX(Pins!${letter}${FIRST}:${letter}${LAST},B2)`;
  return {
    name: 'Working',
    rows: [
      ['Working of one pin, with its planned bore'],
      ['Pin no.', 13, `=INDEX(Pins!B${FIRST}:B${LAST},B2)`],
      [],
      [`=BURN.PIN.STEPS(${pick('C')},${pick('D')},,,,${assume})`],
    ],
    size: [400, 10],
    looks: { A1: { bold: true }, 'A4:G4': HEADING, B2: INPUT, 'C5:C300': { format: '0.0###' } },
    widths: { A: 260, 'B:D': 90, E: 520, F: 120, G: 160 },
    frozenRows: 4,
  };
}

/** A realistic job of an invented dragline overhaul: its pins, their plan, what to load and charge, the working of one, and the assumptions of all. */
export function draglineSheets(): readonly SheetDescription[] {
  const { sheet, range } = assumptions();
  const list = `Pins!$A$${FIRST - 1}:$E$${LAST}`;
  const load = loadAndPriceSheet(list, range, PINS.length);
  return [pinSheet(range), planSheet(list, range), load, workingSheet(range), sheet];
}
