import type { CellContent, SheetDescription } from '../../sheet/described-workbook.ts';
import { HEADING, INPUT, ITEM, typed } from './looks.ts';

type Size = number | string;

/** An invented exercise: holes through the walls of a collapsed pump house, first to look and speak, then stitched into openings. */
const HOLES: readonly (readonly [where: string, thickness: Size, hole: Size, count: number])[] = [
  ['Look and listen, north wall', 12, '2-1/2', 2],
  ['Air and water line, north wall', 12, 3, 1],
  ['Floor slab, camera', '200 mm', '60 mm', 3],
  ['Opening in the east wall, stitched', 12, 2.5, 34],
  ['Old machine base, to split it', 24, 2.5, 4],
];

const ASSUME = '$I$6:$J$10';
const FIRST = 6;
const LAST = FIRST + HOLES.length - 1;

/** An invented rescue breach through reinforced concrete. */
export function rescueBreachSheet(): SheetDescription {
  const column = (letter: string): string => `${letter}${FIRST}:${letter}${LAST}`;
  const sum = (letter: string): CellContent => `=SUM(${column(letter)})`;
  return {
    name: 'Rescue breach',
    rows: [
      ['Rescue breach: holes through reinforced concrete'],
      [
        'An invented exercise. Yellow cells are yours to change. Steel in tension, live cables and people behind the wall come first: see the cautions below.',
      ],
      ['="Calculation "&BURN.VERSION()'],
      [],
      ['Where', 'Thickness', 'Hole', 'Count', 'Bars', 'Oxygen, scf', 'Crew, min'],
      ...HOLES.map(([where, thickness, hole, count], i): readonly CellContent[] => {
        const r = FIRST + i;
        const of = (f: string): string => `=BURN.BREACH.${f}(B${r},C${r},D${r},,,${ASSUME})`;
        return [where, typed(thickness), typed(hole), count, of('RODS'), of('OXYGEN'), of('TIME')];
      }),
      ['In all', null, null, sum('D'), sum('E'), sum('F'), sum('G')],
      [],
      ['Which bar for the machine base, and what else would do', null, null, null, null, null, null],
      [`=BURN.ROD.PICK("BREACH",B${LAST}:D${LAST},,,,${ASSUME})`],
      [],
      [],
      [],
      [],
      ['Lighting'],
      ['Battery, Ah', 70, 'Ignitions', null, '=BURN.BATTERY.STRIKES(B20)'],
      ['Lead of 2 gauge, ft out and back', 60, 'Volts lost at 100 A', null, '=BURN.LEAD.DROP(100,B21,"2")'],
      [],
      ['Plan'],
      [`=BURN.BREACH.PLAN(${column('B')},${column('C')},${column('D')},,,${ASSUME})`],
      ...HOLES.map(() => []),
      [],
      ['Cautions'],
      [`=BURN.CAUTIONS("BREACH",{"confined";"rebar";"people below"},B${FIRST}:D${LAST},${ASSUME})`],
    ],
    cells: {
      I5: 'Assumptions',
      J5: 'Value',
      I6: 'steel in section',
      J6: 1.5,
      I7: 'set-up time',
      J7: 8,
      I8: 'access',
      J8: 'tight',
      I9: 'bar access length',
      J9: 72,
      I10: 'supply flow',
      J10: 25,
    },
    size: [LAST + 80, 26],
    looks: {
      A1: { bold: true, size: 16 },
      'A2:A3': { italic: true },
      'A5:G5': HEADING,
      'I5:J5': HEADING,
      'J6:J10': INPUT,
      [`B${FIRST}:D${LAST}`]: { ...INPUT, align: 'right' },
      [`E${FIRST}:G${LAST + 1}`]: { format: '0' },
      [`A${LAST + 1}:G${LAST + 1}`]: { bold: true },
      A13: { bold: true },
      'A14:I14': HEADING,
      'C15:H17': { format: '0.0' },
      'C15:C17': { format: '0' },
      A19: { bold: true },
      'B20:B21': INPUT,
      E20: { format: '0' },
      E21: { format: '0.0' },
      A23: { bold: true },
      'A24:R24': HEADING,
      [`A25:A${24 + HOLES.length}`]: ITEM,
      [`C25:P${24 + HOLES.length}`]: { format: '0' },
      [`A${26 + HOLES.length}`]: { bold: true },
    },
    heights: { 1: 30, 5: 40, 14: 56, 24: 56 },
    widths: { A: 230, B: 160, C: 84, 'D:H': 84, I: 130, J: 80 },
    frozenRows: 3,
  };
}
