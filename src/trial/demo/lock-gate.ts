import type { CellContent, SheetDescription } from '../../sheet/described-workbook.ts';
import { HEADING, INPUT, ITEM, typed } from './looks.ts';

type Size = number | string;

/** An invented repair: studs of the seal plates, above water and below. */
const STUDS: readonly (readonly [where: string, diameter: Size, count: number, material: string])[] = [
  ['Quoin plate, upstream leaf', '1-1/4', 24, 'stainless steel'],
  ['Mitre seal strip', '3/4', 36, 'carbon steel'],
  ['Walkway bracket anchors', 1, 8, 'carbon steel'],
  ['Fender bolts', 1.5, 10, 'carbon steel'],
];
const WET_STUDS: typeof STUDS = [
  ['Sill seal plate, under water', 1, 18, 'stainless steel'],
  ['Pintle cover, under water', '30 mm', 6, 'manganese steel'],
];

/** Cracked welds to gouge out before they are made anew. */
const GROOVES: readonly (readonly [where: string, width: Size, depth: Size, length: Size])[] = [
  ['Skin plate seam, girder 3', '3/4', '3/8', 40],
  ['Diagonal tie, lower end', 0.625, 0.5, '1 ft 6 in'],
  ['Gudgeon bracket fillet', 0.875, '1/2', 22],
];

const DRY = '$K$6:$L$9';
const WET = '$K$12:$L$16';
const FIRST_STUD = 6;
const FIRST_WET = FIRST_STUD + STUDS.length + 2;
const FIRST_GROOVE = FIRST_WET + WET_STUDS.length + 3;
const TOTAL = FIRST_GROOVE + GROOVES.length + 1;

const stud =
  (assume: string, first: number) =>
  ([where, diameter, count, material]: (typeof STUDS)[number], i: number): readonly CellContent[] => {
    const r = first + i;
    const of = (f: string): string => `=BURN.STUD.${f}(B${r},C${r},,D${r},${assume})`;
    return [where, typed(diameter), count, material, of('RODS'), of('PRESSURE'), of('OXYGEN'), of('BURN'), of('TIME')];
  };

/** An invented lock-gate repair: studs severed above and under water, cracked welds gouged out. */
export function lockGateSheet(): SheetDescription {
  const sum = (column: string): CellContent => `=SUM(${column}${FIRST_STUD}:${column}${TOTAL - 1})`;
  return {
    name: 'Lock gate',
    rows: [
      ['Lock-gate repair: studs and welds'],
      [
        'An invented job. Yellow cells are yours to change. The leaf hangs in its recess with the chamber drawn down; two lists lie under water.',
      ],
      ['="Calculation "&BURN.VERSION()'],
      [],
      [
        'Studs',
        'Diameter',
        'Count',
        'Material',
        'Rods',
        'Tip pressure, psi',
        'Oxygen, scf',
        'Burning, min',
        'Crew, min',
      ],
      ...STUDS.map(stud(DRY, FIRST_STUD)),
      [],
      [
        'Studs under water',
        'Diameter',
        'Count',
        'Material',
        'Rods',
        "Pressure over the water's, psi",
        'Oxygen, scf',
        'Burning, min',
        'Crew, min',
      ],
      ...WET_STUDS.map(stud(WET, FIRST_WET)),
      [],
      [],
      [
        'Welds to gouge out',
        'Width',
        'Depth',
        'Length',
        'Rods',
        'Tip pressure, psi',
        'Oxygen, scf',
        'Burning, min',
        'Crew, min',
      ],
      ...GROOVES.map(([where, width, depth, length], i): readonly CellContent[] => {
        const r = FIRST_GROOVE + i;
        const of = (f: string): string => `=BURN.GOUGE.${f}(B${r},C${r},D${r},,,${DRY})`;
        return [
          where,
          typed(width),
          typed(depth),
          typed(length),
          of('RODS'),
          of('PRESSURE'),
          of('OXYGEN'),
          of('BURN'),
          of('TIME'),
        ];
      }),
      [],
      ['In all', null, null, null, sum('E'), null, sum('G'), sum('H'), sum('I')],
      ['Crew hours', null, null, null, null, null, null, null, `=I${TOTAL}/60`],
      [],
      ['Plan of the grooves'],
      [
        `=BURN.GOUGE.PLAN(B${FIRST_GROOVE}:B${FIRST_GROOVE + GROOVES.length - 1},C${FIRST_GROOVE}:C${FIRST_GROOVE + GROOVES.length - 1},D${FIRST_GROOVE}:D${FIRST_GROOVE + GROOVES.length - 1},,,${DRY})`,
      ],
    ],
    cells: {
      K5: 'Assumptions, dry',
      K6: 'set-up time',
      L6: 4,
      K7: 'access',
      L7: 'tight',
      K8: 'position',
      L8: 'overhead',
      K9: 'stud time',
      L9: 1,
      K11: 'Assumptions, wet',
      K12: 'set-up time',
      L12: 15,
      K13: 'position',
      L13: 'underwater',
      K14: 'water depth',
      L14: 18,
      K15: 'supply flow',
      L15: 30,
      K16: 'work grounded',
      L16: 'yes',
    },
    size: [TOTAL + 40, 26],
    looks: {
      A1: { bold: true, size: 16 },
      'A2:A3': { italic: true },
      'A5:I5': HEADING,
      [`A${FIRST_WET - 1}:I${FIRST_WET - 1}`]: HEADING,
      [`A${FIRST_GROOVE - 1}:I${FIRST_GROOVE - 1}`]: HEADING,
      'K5:L5': HEADING,
      'K11:L11': HEADING,
      'L6:L9': INPUT,
      'L12:L16': INPUT,
      [`B${FIRST_STUD}:D${FIRST_STUD + STUDS.length - 1}`]: { ...INPUT, align: 'right' },
      [`B${FIRST_WET}:D${FIRST_WET + WET_STUDS.length - 1}`]: { ...INPUT, align: 'right' },
      [`B${FIRST_GROOVE}:D${FIRST_GROOVE + GROOVES.length - 1}`]: { ...INPUT, align: 'right' },
      [`E${FIRST_STUD}:I${TOTAL}`]: { format: '0' },
      [`I${TOTAL + 1}`]: { format: '0.0' },
      [`A${TOTAL}:I${TOTAL}`]: { bold: true },
      [`A${TOTAL + 3}`]: { bold: true },
      [`A${TOTAL + 4}:U${TOTAL + 4}`]: HEADING,
      [`A${TOTAL + 5}:A${TOTAL + 4 + GROOVES.length}`]: ITEM,
      [`C${TOTAL + 5}:S${TOTAL + 4 + GROOVES.length}`]: { format: '0.0' },
      [`C${TOTAL + 5}:E${TOTAL + 4 + GROOVES.length}`]: { format: '0' },
    },
    heights: { 1: 30, 5: 56, [FIRST_WET - 1]: 56, [FIRST_GROOVE - 1]: 56, [TOTAL + 4]: 56 },
    widths: { A: 210, 'B:C': 90, D: 124, 'E:J': 84, K: 130, L: 90 },
    frozenRows: 3,
  };
}
