import type { CellContent, SheetDescription } from '../../sheet/described-workbook.ts';
import { HEADING, INPUT, typed } from './looks.ts';

/** Prices of nobody's list: invented, to be replaced by one's own. */
const PRICES: readonly (readonly [name: string, price: number, per?: string])[] = [
  ['3/8 x 36', 11],
  ['rod', 8],
  ['oxygen', 38, '100 scf'],
  ['cylinder rental', 9],
  ['crew', 165],
  ['plate', 14],
  ['ram hire', 240],
  ['mobilisation', 850],
  ['other: permit and fire watch', 400],
  ['contingency', 10],
  ['margin', 18],
];

/** Where the parts stand: stock beside the prices, then cost and schedule below each other in room of their own. */
const PRICE_FIRST = 8;
const PRICE_LAST = PRICE_FIRST + PRICES.length;
const COST = PRICE_LAST + 4;
const SCHEDULE = COST + 26;

/** What to load for a list of pins, what it costs and in which shifts it is done. Ranges are those of the pins and of their plan. */
export function loadAndPriceSheet(pins: string, plan: string, assume: string, items: number): SheetDescription {
  return {
    name: 'Load and price',
    rows: [
      ['Load, price and shifts of the overhaul'],
      ['What to take along so that nothing runs short; your prices in yellow; one formula each. Prices are invented.'],
      [],
      ['Confidence', '90%'],
      ['Crews', 2],
      ['Shift, h', 10],
      ['Your prices', null, null, null, 'What to load'],
      ['line', 'price', 'per'],
      ...PRICES.map(([name, price, per]): readonly CellContent[] => [typed(name), price, per ?? null]),
    ],
    cells: {
      [`E${PRICE_FIRST}`]: `=BURN.JOB.STOCK("PIN",${pins},$B$4,${assume})`,
      [`A${COST - 1}`]: 'What it costs',
      [`A${COST}`]: `=BURN.JOB.COST(${plan},$A$${PRICE_FIRST}:$C$${PRICE_LAST},${assume})`,
      [`A${SCHEDULE - 1}`]:
        'In which order and shifts; no rule of noise or fire watch is passed, and none of them makes the work harmless',
      [`A${SCHEDULE}`]: `=BURN.JOB.SCHEDULE(${plan},$B$5,$B$6,${assume})`,
    },
    size: [SCHEDULE + items + 30, 16],
    looks: {
      A1: { bold: true, size: 16 },
      A2: { italic: true },
      [`A7:E7`]: { bold: true },
      'B4:B6': { ...INPUT, align: 'right' },
      [`A${PRICE_FIRST}:C${PRICE_FIRST}`]: HEADING,
      [`A${PRICE_FIRST + 1}:C${PRICE_LAST}`]: INPUT,
      [`E${PRICE_FIRST}:K${PRICE_FIRST}`]: HEADING,
      [`F${PRICE_FIRST + 1}:F${PRICE_FIRST + 12}`]: { format: '0' },
      [`H${PRICE_FIRST + 1}:J${PRICE_FIRST + 12}`]: { format: '0.0' },
      ...Object.fromEntries([COST - 1, SCHEDULE - 1].map((r) => [`A${r}`, { bold: true }])),
      [`A${COST}:H${COST}`]: HEADING,
      [`B${COST + 1}:B${COST + 24}`]: { format: '0.0' },
      [`D${COST + 1}:G${COST + 24}`]: { format: '0.00' },
      [`A${SCHEDULE}:L${SCHEDULE}`]: HEADING,
      [`E${SCHEDULE + 1}:K${SCHEDULE + items + 12}`]: { format: '0.0' },
    },
    widths: { A: 190, 'B:D': 84, E: 150, 'F:K': 92, L: 420 },
    heights: { 1: 30, [PRICE_FIRST]: 40, [COST]: 40, [SCHEDULE]: 40 },
    frozenRows: 2,
  };
}
