import { otherUnit, shown } from '../messages.ts';
import { INCH } from '../units/quantities.ts';
import { fromSi } from '../units/parse-quantity.ts';
import type { UnitSystem } from '../units/quantities.ts';
import type { OperationId } from './all.ts';
import type { Sizes } from './operation.ts';

/**
 * What sizes of this work usually are [in], lowest and highest. Common practice, no source; wide, since only what lies outside is
 * asked about. Pins: from what a rod gets into at all to the largest of draglines and presses.
 */
export const USUAL_SIZES: Readonly<
  Record<OperationId, Readonly<Record<string, readonly [low: number, high: number]>>>
> = {
  PIN: { diameter: [16 / 25.4, 16], length: [1, 80], hole: [0.25, 12] },
  HOLE: { hole: [0.25, 4], depth: [0.5, 60] },
  GOUGE: { width: [0.125, 2], depth: [1 / 16, 4], length: [1, 400] },
  CUT: { thickness: [3 / 16, 10], length: [1, 400] },
  STUD: { diameter: [0.25, 6] },
  BREACH: { thickness: [2, 80], hole: [0.5, 12] },
};

const NONE: ReadonlySet<string> = new Set();

/** A size that was likelier meant in the other unit. */
export interface UnitSlip {
  /** The size that is out of the usual. */
  readonly size: string;
  /** As a plain number of the sheet. */
  readonly number: number;
  readonly unit: 'in' | 'mm';
  readonly likelier: 'in' | 'mm';
}

/**
 * Whether sizes [m] were likelier meant in the other unit: one of them is outside what is usual, and all of them are usual where
 * their plain numbers are read in the other unit, mm for in and in for mm. Undefined where nothing is to be asked.
 *
 * A pin of 60 x 200 in a sheet of inches is asked about, since 60 x 200 mm is an everyday pin. A size `written` with its unit is
 * meant as it stands: it is not asked about, and is itself in either reading.
 */
export function unitSlip(
  operation: OperationId,
  sizes: Sizes,
  system: UnitSystem,
  written: ReadonlySet<string> = NONE,
): UnitSlip | undefined {
  const [unit, likelier] = system === 'SI' ? (['mm', 'in'] as const) : (['in', 'mm'] as const);
  const inches = likelier === 'in' ? 1 : 1 / 25.4;
  const usual = (value: number, [low, high]: readonly [number, number]): boolean =>
    value >= low * (1 - 1e-9) && value <= high * (1 + 1e-9);
  const all = USUAL_SIZES[operation];
  const bare = (size: string): boolean => sizes[size] !== undefined && !written.has(size);
  // Seldom any: the other unit is not tried before.
  let odd: string | undefined;
  for (const size in all) if (bare(size) && !usual(sizes[size]! / INCH, all[size]!)) odd ??= size;
  if (odd === undefined) return undefined;
  const number = (size: string): number => fromSi(sizes[size]!, 'length', system);
  for (const size in all) {
    if (sizes[size] === undefined) continue;
    const inInches = bare(size) ? number(size) * inches : sizes[size] / INCH;
    if (!usual(inInches, all[size]!)) return undefined;
  }
  return { size: odd, number: number(odd), unit, likelier };
}

/** The question in words; empty where nothing is to be asked. */
export function slipQuestion(
  operation: OperationId,
  sizes: Sizes,
  system: UnitSystem,
  written?: ReadonlySet<string>,
): string {
  const slip = unitSlip(operation, sizes, system, written);
  if (!slip) return '';
  const { size, number, unit, likelier } = slip;
  return `${size} ${shown(number)} ${unit} is out of the usual: ${otherUnit(likelier, shown(number))}`;
}
