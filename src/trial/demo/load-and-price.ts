import type { CellContent, SheetDescription } from '../../sheet/described-workbook.ts';
import { HEADING, INPUT, typed } from './looks.ts';

/** Prices of nobody's list: invented, to be replaced by one's own. */
const PRICES: readonly (readonly [name: string, price: number | string, per?: string])[] = [
  ['currency', 'USD'],
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
const PRICE_FIRST = 9;
const PRICE_LAST = PRICE_FIRST + PRICES.length;
const COST = PRICE_LAST + 4;
const SCHEDULE = COST + 28;

/** What to load for a list of pins, what it costs and in which shifts it is done. */
export function loadAndPriceSheet(list: string, assume: string, items: number): SheetDescription {
  return {
    name: 'Load and price',
    rows: [
      ['Load, price and shifts of the overhaul'],
      ['What to take along so that nothing runs short; your prices in yellow; one formula each. Prices are invented.'],
      [],
      ['Confidence', '90%'],
      ['Crews', 2],
      ['Shift, h', 10],
      ['Start', { text: '06:30' }],
      ['Your prices', null, null, null, 'What to load'],
      ['line', 'price', 'per'],
      ...PRICES.map(([name, price, per]): readonly CellContent[] => [typed(name), typed(price), per ?? null]),
    ],
    cells: {
      [`E${PRICE_FIRST}`]: `=BURN.JOB.STOCK(${list},$B$4,${assume})`,
      [`A${COST - 1}`]: 'What it costs',
      [`A${COST}`]: `=BURN.JOB.COST(${list},$A$${PRICE_FIRST}:$C$${PRICE_LAST},$B$4,$B$5,${assume})`,
      [`A${SCHEDULE - 1}`]:
        'In which order and shifts; no rule of noise or fire watch is passed, and none of them makes the work harmless',
      [`A${SCHEDULE}`]: `=BURN.JOB.SCHEDULE(${list},$B$5,$B$6,$B$7,${assume})`,
    },
    size: [SCHEDULE + items + 40, 18],
    looks: {
      A1: { bold: true, size: 16 },
      A2: { italic: true },
      [`A8:E8`]: { bold: true },
      'B4:B7': { ...INPUT, align: 'right' },
      [`A${PRICE_FIRST}:C${PRICE_FIRST}`]: HEADING,
      [`A${PRICE_FIRST + 1}:C${PRICE_LAST}`]: INPUT,
      [`E${PRICE_FIRST}:K${PRICE_FIRST}`]: HEADING,
      [`F${PRICE_FIRST + 1}:F${PRICE_FIRST + 12}`]: { format: '0' },
      [`H${PRICE_FIRST + 1}:J${PRICE_FIRST + 12}`]: { format: '0.0' },
      ...Object.fromEntries([COST - 1, SCHEDULE - 1].map((r) => [`A${r}`, { bold: true }])),
      [`A${COST}:H${COST}`]: HEADING,
      [`B${COST + 1}:B${COST + 24}`]: { format: '0.0' },
      [`D${COST + 1}:G${COST + 24}`]: { format: '0.00' },
      [`A${SCHEDULE}:O${SCHEDULE}`]: HEADING,
      [`N${SCHEDULE + 1}:N${SCHEDULE + items + 20}`]: { format: '0.0' },
    },
    widths: { A: 190, 'B:D': 84, E: 150, 'F:N': 92, O: 420 },
    heights: { 1: 30, [PRICE_FIRST]: 40, [COST]: 40, [SCHEDULE]: 40 },
    frozenRows: 2,
  };
}
