import type { CellContent, SheetDescription } from '../../sheet/described-workbook.ts';
import { HEADING, INPUT, ITEM, typed } from './looks.ts';

type Size = number | string;

/** An invented yard order: plates to be cut to shape, which need a hole to start each inner cut from. */
const STARTS: readonly (readonly [plate: string, thickness: Size, hole: Size])[] = [
  ['Crusher side plate, manhole', 3, '3/4'],
  ['Crusher side plate, drain', 3, '3/4'],
  ['Press bed, keyway', 6, '3/4'],
  ['Press bed, lifting eye', 6, '3/4'],
  ['Hopper flange, four slots', '2-1/2', '3/4'],
  ['Gear blank, hub', 8, '3/4'],
  ['Anvil block, dowel', '250 mm', '3/4'],
  ['Anvil block, wedge', 12, '3/4'],
];

const ASSUME = '$I$6:$J$9';
const FIRST = 6;
const LAST = FIRST + STARTS.length - 1;

/** Invented starter holes for shape cutting: rods hole by hole, and the least rods where they are shared. */
export function starterHolesSheet(): SheetDescription {
  const sum = (letter: string): CellContent => `=SUM(${letter}${FIRST}:${letter}${LAST})`;
  return {
    name: 'Starter holes',
    rows: [
      ['Starter holes for shape cutting'],
      [
        'An invented order. Yellow cells are yours to change. All holes lie in one yard, so each takes little setting up.',
      ],
      ['="Calculation "&BURN.VERSION()'],
      [],
      ['Plate', 'Thickness', 'Hole', 'Rods, each by itself', 'Tip pressure, psi', 'Oxygen, scf', 'Crew, min'],
      ...STARTS.map(([plate, thickness, hole], i): readonly CellContent[] => {
        const r = FIRST + i;
        const of = (f: string): string => `=BURN.HOLE.${f}(C${r},B${r},$J$10,,${ASSUME})`;
        return [plate, typed(thickness), typed(hole), of('RODS'), of('PRESSURE'), of('OXYGEN'), of('TIME')];
      }),
      ['In all', null, null, sum('D'), null, sum('F'), sum('G')],
      [],
      ['Least rods where they are shared, deepest hole first'],
      [`=BURN.ROD.CUTLIST(B${FIRST}:B${LAST},$J$10,${ASSUME})`],
    ],
    cells: {
      I5: 'Assumptions',
      J5: 'Value',
      I6: 'set-up time',
      J6: 1.5,
      I7: 'clean-up time',
      J7: 1,
      I8: 'position',
      J8: 'vertical down',
      I9: 'stub',
      J9: 3,
      I10: 'Rods in stock',
      J10: { text: '3/8 x 36' },
    },
    size: [LAST + 60, 16],
    looks: {
      A1: { bold: true, size: 16 },
      'A2:A3': { italic: true },
      'A5:G5': HEADING,
      'I5:J5': HEADING,
      'J6:J10': INPUT,
      [`B${FIRST}:C${LAST}`]: { ...INPUT, align: 'right' },
      [`D${FIRST}:D${LAST + 1}`]: { format: '0' },
      [`E${FIRST}:G${LAST + 1}`]: { format: '0.0' },
      [`A${LAST + 1}:G${LAST + 1}`]: { bold: true },
      [`A${LAST + 3}`]: { bold: true },
      [`A${LAST + 4}:F${LAST + 4}`]: HEADING,
      [`A${LAST + 5}:A${LAST + 40}`]: ITEM,
      [`D${LAST + 5}:E${LAST + 40}`]: { format: '0.0' },
    },
    heights: { 1: 30, 5: 56, [LAST + 4]: 40 },
    widths: { A: 210, B: 84, C: 260, 'D:G': 84, I: 120, J: 90 },
    frozenRows: 3,
  };
}
