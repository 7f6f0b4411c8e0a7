import type { PricedLine, Prices, ShareLine } from '../core/job/job-cost.ts';
import { CalcError } from '../core/errors.ts';
import * as messages from '../core/messages.ts';
import { RODS } from '../core/burn/rods.ts';
import { nearestNames } from '../core/units/nearest-names.ts';
import { parseQuantity, plainUnit, toSi } from '../core/units/parse-quantity.ts';
import type { QuantityName, UnitSystem } from '../core/units/quantities.ts';
import { isBlankOrZero, type Cell } from './cell.ts';
import { readCell } from './read-cell.ts';
import type { Cells } from './read-table.ts';
import { shareOf } from './share.ts';

/** Names a price can be given under. */
const LINES: Readonly<Record<PricedLine, readonly string[]>> = {
  oxygen: ['oxygen'],
  cylinders: ['cylinder', 'cylinders'],
  'cylinder rental': ['cylinder rental', 'cylinder rent', 'cylinder hire'],
  batteries: ['battery', 'batteries'],
  crew: ['crew', 'crew hour', 'crew rate', 'crew work', 'labour', 'labor'],
  'crew day': ['crew day', 'crew days', 'crew shift', 'day rate'],
  standby: ['standby', 'stand-by', 'stand by', 'waiting', 'waiting time'],
  plates: ['plate', 'plates'],
  'ram hire': ['ram hire', 'ram', 'ram rental'],
  mobilisation: ['mobilisation', 'mobilization'],
};
const SHARES: Readonly<Record<ShareLine, readonly string[]>> = {
  contingency: ['contingency'],
  margin: ['margin'],
  'mark-up': ['mark-up', 'markup', 'mark up'],
  tax: ['tax', 'sales tax', 'vat', 'gst'],
};
/** What one unit of a price is, where it is more than a piece, a day or a sum. */
const PER: Partial<Record<PricedLine, QuantityName>> = { oxygen: 'oxygen', crew: 'hours', standby: 'hours' };

const CURRENCY = ['currency', 'money'];
const LONGEST_CURRENCY = 12;
const ANY_ROD = ['rod', 'rods'];
const MOST_SHARE = 0.9;
/** Above any price; sums of such figures can still be told. */
const MOST_PRICE = 1e12;
/** Below any amount that something is priced by, in SI. */
const LEAST_AMOUNT = 1e-9;

/** Names that stand in the help and are offered where a name is unknown. */
export const PRICE_NAMES: readonly string[] = [
  ...RODS.map((r) => `rod ${r.name}`),
  'rod',
  'oxygen',
  'cylinder',
  'cylinder rental',
  'battery',
  'crew',
  'crew day',
  'standby',
  'plate',
  'ram hire',
  'mobilisation',
  'contingency',
  'margin',
  'mark-up',
  'tax',
  'currency',
];

interface Reading {
  readonly lines: Map<PricedLine, number>;
  readonly rods: Map<string, number>;
  readonly others: { readonly name: string; readonly amount: number }[];
  readonly shares: Map<ShareLine, number>;
  currency: string;
}

/**
 * Rows name, price and, where wanted, per: what the price is for, such as `100 scf` or `m3` for oxygen.
 *
 * Blank prices and rows without a name are passed over; a row `currency` names the money; a first row whose price is a text is its heading. An unknown
 * name is `#N/A` with the nearest ones; `other ...` adds a sum of the user's own.
 */
export function readPrices(cells: Cells, system: UnitSystem): Prices {
  const reading: Reading = { lines: new Map(), rods: new Map(), others: [], shares: new Map(), currency: '' };
  const seen = new Map<string, number>();
  let first = true;
  cells.forEach((row, i) => {
    const [nameCell = null, priceCell = null, perCell = null] = row;
    if (isBlankOrZero(nameCell)) return;
    const money = typeof nameCell === 'string' && CURRENCY.includes(nameCell.trim().toLowerCase());
    if (money) {
      reading.currency = typeof priceCell === 'string' ? priceCell.trim().slice(0, LONGEST_CURRENCY) : '';
      return;
    }
    const heading = first && typeof priceCell === 'string' && !Number.isFinite(Number(priceCell.replace('%', '')));
    first = false;
    if (heading || isBlankOrZero(priceCell)) return;
    try {
      // A rod's name that the sheet turned into a date is told as such.
      const name = typeof nameCell === 'string' ? nameCell : '';
      if (name === '') readCell(nameCell, 'name', { kind: 'rod' }, system);
      const key = readPrice(reading, name, priceCell, perCell, i + 1, system);
      const before = seen.get(key);
      if (before !== undefined && !key.startsWith('other')) throw messages.priceTwice(i + 1, key, before);
      seen.set(key, i + 1);
    } catch (e) {
      if (e instanceof CalcError && !e.message.startsWith('prices row')) throw messages.inRow('prices', i + 1, e);
      throw e;
    }
  });
  if (reading.shares.has('margin') && reading.shares.has('mark-up')) throw messages.marginAndMarkUp();
  return reading;
}

const find = <K extends string>(names: Readonly<Record<K, readonly string[]>>, name: string): K | undefined =>
  (Object.keys(names) as K[]).find((key) => names[key].includes(name));

/** Reads one row into its place and gives the name it stands for. */
function readPrice(
  into: Reading,
  nameText: string,
  priceCell: Cell,
  perCell: Cell,
  row: number,
  system: UnitSystem,
): string {
  const name = nameText.trim().toLowerCase().replace(/\s+/g, ' ');
  const share = find(SHARES, name);
  if (share !== undefined) {
    const value = readCell(
      priceCell,
      name,
      { kind: 'quantity', quantity: 'percent', min: 0, max: MOST_SHARE },
      system,
    ) as number;
    into.shares.set(share, shareOf(value));
    return share;
  }
  const price = readCell(
    priceCell,
    name,
    { kind: 'quantity', quantity: 'count', min: 0, max: MOST_PRICE },
    system,
  ) as number;
  const line = find(LINES, name);
  if (line !== undefined) {
    into.lines.set(line, price / unitOf(line, perCell, system));
    return line;
  }
  if (/^other\b/.test(name)) {
    into.others.push({ name: nameText.trim(), amount: price });
    return nameText.trim();
  }
  if (ANY_ROD.includes(name)) {
    into.rods.set('', price);
    return 'rod';
  }
  const rod = name.replace(/^rods? /, '').replace(/\s*[x×]\s*/, ' x ');
  const [size = ''] = rod.split(' x ');
  if (!RODS.some((r) => r.name === size))
    throw messages.unknownPrice(row, nameText.trim(), nearestNames(name, PRICE_NAMES));
  into.rods.set(rod, price);
  return `rod ${rod}`;
}

/** SI amount that a price is for. */
function unitOf(line: PricedLine, perCell: Cell, system: UnitSystem): number {
  const quantity = PER[line];
  if (quantity === undefined) return 1;
  const standard = toSi(1, quantity, system);
  if (typeof perCell !== 'string' || perCell.trim() === '') return standard;
  const text = perCell.trim().replace(/^(per|a)\s+/i, '');
  const amount = parseQuantity(/^[\d.]/.test(text) ? text : `1 ${text}`, quantity, system);
  if (amount === undefined || !(amount >= LEAST_AMOUNT))
    throw messages.unknownChoice('per', perCell, [plainUnit(quantity, system), `100 ${plainUnit(quantity, system)}`]);
  return amount;
}
