import { entered, type Step } from '../model/step.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { CUBIC_FOOT, FOOT, SCF, type QuantityName, type UnitSystem } from '../units/quantities.ts';

/** A figure that a standard sets. Value in SI. */
export interface Limit {
  readonly name: string;
  readonly value: number;
  readonly quantity: QuantityName;
  /** `above`: a figure above it is out of the limit; `below`: one below it. */
  readonly out: 'above' | 'below';
  /** Over what the figure is taken. */
  readonly over: string;
  /** `legal` binds in the United States; `recommended` is the advice of an agency. */
  readonly force: 'legal' | 'recommended';
  readonly source: string;
  readonly clause: string;
}

const MILLIGRAM = 1e-6;
const MINUTE = 60;
const always = { over: 'at any time', force: 'legal' } as const;

/** Share of iron in Fe2O3, by mass: 2 x 55.845 / (2 x 55.845 + 3 x 15.999) (IUPAC 2021). */
export const IRON_IN_OXIDE = (2 * 55.845) / (2 * 55.845 + 3 * 15.999);

/** Figures set by the standards the functions compare with. */
export const LIMITS = {
  oxygenHigh: {
    ...always,
    name: 'oxygen-enriched air',
    value: 0.235,
    quantity: 'percent',
    out: 'above',
    source: 'osha 1910.146',
    clause: '1910.146(b)',
  },
  oxygenLow: {
    ...always,
    name: 'oxygen-deficient air',
    value: 0.195,
    quantity: 'percent',
    out: 'below',
    source: 'osha 1910.146',
    clause: '1910.146(b)',
  },
  ironOxide: {
    name: 'iron oxide fume, permissible exposure limit',
    value: 10 * MILLIGRAM,
    quantity: 'concentration',
    out: 'above',
    over: '8 hours',
    force: 'legal',
    source: 'osha 1910.1000',
    clause: 'Table Z-1',
  },
  ironAdvised: {
    name: 'iron oxide as iron, recommended limit',
    value: 5 * MILLIGRAM,
    quantity: 'concentration',
    out: 'above',
    over: '8 hours',
    force: 'recommended',
    source: 'niosh pocket guide',
    clause: 'Iron oxide dust and fume (as Fe)',
  },
  manganeseCeiling: {
    ...always,
    name: 'manganese fume, ceiling',
    value: 5 * MILLIGRAM,
    quantity: 'concentration',
    out: 'above',
    source: 'osha 1910.1000',
    clause: 'Table Z-1',
  },
  manganeseAdvised: {
    name: 'manganese, recommended limit',
    value: 1 * MILLIGRAM,
    quantity: 'concentration',
    out: 'above',
    over: '8 hours',
    force: 'recommended',
    source: 'niosh pocket guide',
    clause: 'Manganese compounds and fume (as Mn)',
  },
  manganeseShort: {
    name: 'manganese, recommended short-term limit',
    value: 3 * MILLIGRAM,
    quantity: 'concentration',
    out: 'above',
    over: '15 minutes',
    force: 'recommended',
    source: 'niosh pocket guide',
    clause: 'Manganese compounds and fume (as Mn)',
  },
  hotWorkRadius: {
    ...always,
    name: 'radius to clear of combustibles',
    value: 35 * FOOT,
    quantity: 'distance',
    out: 'below',
    source: 'osha 1910.252',
    clause: '1910.252(a)(2)(iii)(A) and (a)(2)(vii)',
  },
  cylinderDistance: {
    ...always,
    name: 'oxygen cylinders from fuel gas or combustibles',
    value: 20 * FOOT,
    quantity: 'distance',
    out: 'below',
    source: 'osha 1910.253',
    clause: '1910.253(b)(4)(iii)',
  },
  barrierHeight: {
    ...always,
    name: 'height of a barrier in place of the distance',
    value: 5 * FOOT,
    quantity: 'distance',
    out: 'below',
    source: 'osha 1910.253',
    clause: '1910.253(b)(4)(iii)',
  },
  barrierRating: {
    ...always,
    name: 'fire resistance of a barrier in place of the distance',
    value: 30 * MINUTE,
    quantity: 'time',
    out: 'below',
    source: 'osha 1910.253',
    clause: '1910.253(b)(4)(iii)',
  },
  manifoldOxygen: {
    ...always,
    name: 'oxygen connected to one manifold',
    value: 6000 * SCF,
    quantity: 'oxygen',
    out: 'above',
    source: 'osha 1910.253',
    clause: '1910.253(c)(2)',
  },
  manifoldDistance: {
    ...always,
    name: 'one manifold from the next in a room',
    value: 50 * FOOT,
    quantity: 'distance',
    out: 'below',
    source: 'osha 1910.253',
    clause: '1910.253(c)(2)',
  },
  bulkConnected: {
    ...always,
    name: 'oxygen in service before the rules for bulk oxygen apply',
    value: 13000 * SCF,
    quantity: 'oxygen',
    out: 'above',
    source: 'osha 1910.104',
    clause: '1910.104(b)(1)',
  },
  bulkWithReserve: {
    ...always,
    name: 'oxygen with reserves on site before the rules for bulk oxygen apply',
    value: 25000 * SCF,
    quantity: 'oxygen',
    out: 'above',
    source: 'osha 1910.104',
    clause: '1910.104(b)(1)',
  },
  roomForEach: {
    ...always,
    name: 'room for each person at the work without mechanical ventilation',
    value: 10000 * CUBIC_FOOT,
    quantity: 'volume',
    out: 'below',
    source: 'osha 1910.252',
    clause: '1910.252(c)(2)(i)(A)',
  },
  ceiling: {
    ...always,
    name: 'ceiling height without mechanical ventilation',
    value: 16 * FOOT,
    quantity: 'distance',
    out: 'below',
    source: 'osha 1910.252',
    clause: '1910.252(c)(2)(i)(B)',
  },
  freshAirForEach: {
    ...always,
    name: 'fresh air for each person at the work',
    value: (2000 * CUBIC_FOOT) / MINUTE,
    quantity: 'airflow',
    out: 'below',
    source: 'osha 1910.252',
    clause: '1910.252(c)(2)(ii)',
  },
} as const satisfies Record<string, Limit>;

export type LimitName = keyof typeof LIMITS;

/** A figure of a standard as a step. */
export const limitStep = (symbol: string, { name, quantity, value, clause, source }: Limit, called = name): Step =>
  entered(symbol, called, quantity, value, clause, 'published', source);

/** The share of oxygen that is taken as the limit: step `x_limit`. */
export function oxygenLimitStep(limit: number): Step {
  const { value, name, clause, source } = LIMITS.oxygenHigh;
  return limit === value
    ? entered('x_limit', 'limit', 'percent', limit, `${name}, ${clause}`, 'published', source)
    : entered('x_limit', 'limit', 'percent', limit, 'given', 'input', '');
}

/** A figure typed as the limit itself may arrive a rounding of its unit away from it. */
const ROUNDING = 1e-9;
export const isAbove = (value: number, bound: number): boolean => value > bound * (1 + ROUNDING);
export const isBelow = (value: number, bound: number): boolean => value < bound * (1 - ROUNDING);

/** Whether a figure in SI is out of a limit. A figure at the limit is within it. */
export function isOut(value: number, limit: Limit): boolean {
  return limit.out === 'above' ? isAbove(value, limit.value) : isBelow(value, limit.value);
}

/** Says how a figure stands to a limit, and whose limit it is. It never says more than that. */
export function compareWithLimit(
  value: number,
  limit: Limit,
  system: UnitSystem = 'US',
): { readonly out: boolean; readonly words: string } {
  const out = isOut(value, limit);
  const figure = `${showQuantity(value, limit.quantity, system)} ${over(limit)}`;
  const side =
    limit.out === 'above' ? (out ? 'exceeds' : 'does not exceed') : out ? 'is less than' : 'is not less than';
  const rest = out ? '' : '; local codes and the permit may ask for more';
  return {
    out,
    words: `${figure}${side} the ${limit.force} limit of ${showQuantity(limit.value, limit.quantity, system)} for ${limit.name} (${limit.clause})${rest}`,
  };
}

const over = (limit: Limit): string => (limit.over === 'at any time' ? '' : `over ${limit.over} `);
