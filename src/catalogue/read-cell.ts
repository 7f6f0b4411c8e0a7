import type { Kind, QuantityKind } from './declaration.ts';
import { isBlankCell, isBlankOrZero, isCellError, type Cell } from './cell.ts';
import { findMaterial, type Material } from '../core/burn/materials.ts';
import { findRod, type RodChoice } from '../core/burn/rods.ts';
import { cylinderSizeNamed, type CylinderChoice } from '../core/oxygen/cylinder-sizes.ts';
import * as messages from '../core/messages.ts';
import { fractionsOfDate } from '../core/units/date-fraction.ts';
import { fromSi, plainUnit, readQuantityText, toSi } from '../core/units/parse-quantity.ts';
import type { UnitSystem } from '../core/units/quantities.ts';

const WATER_VOLUME: QuantityKind = { kind: 'quantity', quantity: 'capacity', above: 0, max: 5 };

/** What a cell can hold for one parameter; undefined where it is blank. */
export type Read = number | string | RodChoice | Material | CylinderChoice | undefined;

/** Reads one cell as the parameter's kind asks, in SI; throws a CalcError that names the argument. */
export function readCell(cell: Cell, argument: string, kind: Kind, system: UnitSystem): Read {
  if (isBlankCell(cell)) return undefined;
  if (isCellError(cell)) throw messages.isErrorValue(argument, cell.error, cell.message);
  switch (kind.kind) {
    case 'quantity':
      return readQuantity(cell as number | string | boolean, argument, kind, system);
    case 'choice': {
      const word = String(cell).trim();
      const found = kind.choices.find((c) => c.toLowerCase() === word.toLowerCase());
      if (found === undefined) throw messages.unknownChoice(argument, word, kind.choices);
      return found;
    }
    case 'rod':
      if (typeof cell === 'number') refuseDate(cell, argument);
      return findRod(String(cell));
    case 'material':
      return findMaterial(String(cell));
    case 'cylinder':
      return readCylinder(cell as number | string | boolean, argument, system);
    default:
      return String(cell);
  }
}

/** Whether a cell names the unit of its length. */
export const unitWritten = (cell: Cell): boolean => {
  if (typeof cell !== 'string' || Number.isFinite(Number(cell))) return false;
  const read = readQuantityText(cell, 'length');
  return 'si' in read && read.unit;
};

/** Whether a plain 0 is outside the limits in either system of units; 0 F is a temperature like any other. */
export function zeroIsBlank(kind: Kind): boolean {
  if (kind.kind !== 'quantity') return kind.kind !== 'cells';
  const { quantity, above = -Infinity, min = -Infinity } = kind;
  return (['US', 'SI'] as const).every((system) => {
    const zero = toSi(0, quantity, system);
    return zero <= above || zero < min;
  });
}

/** Reads a cell of a range that is handed over as it stands: a 0 that cannot be meant is blank there, as in older hosts. */
export function readRangeCell(cell: Cell, argument: string, kind: Kind, system: UnitSystem): Read {
  return zeroIsBlank(kind) && isBlankOrZero(cell) ? undefined : readCell(cell, argument, kind, system);
}

/** A size of the register by its name, or a water volume of whatever size. */
function readCylinder(cell: number | string | boolean, argument: string, system: UnitSystem): CylinderChoice {
  const size = typeof cell === 'string' ? cylinderSizeNamed(cell) : undefined;
  if (size) return { volume: size.volume * size.cylinders, size };
  return { volume: readQuantity(cell, argument, WATER_VOLUME, system), size: undefined };
}

/** A number that can only be a day was a fraction before the sheet made a day of it. */
function refuseDate(x: number, argument: string): void {
  const typed = fractionsOfDate(x);
  if (typed.length > 0) throw messages.isDate(argument, String(x), typed);
}

/** Arguments across which nothing has a diameter. */
const NO_DIAMETER = /length|depth|thick|height|distance|count/;

function readQuantity(
  cell: number | string | boolean,
  argument: string,
  kind: QuantityKind,
  system: UnitSystem,
): number {
  const { quantity } = kind;
  const unit = plainUnit(quantity, system);
  if (typeof cell === 'boolean') throw messages.notANumber(argument, String(cell).toUpperCase(), unit);
  if (typeof cell === 'number') {
    if (!Number.isFinite(cell)) throw messages.notANumber(argument, String(cell), unit);
    const value = toSi(cell, quantity, system);
    // Only where the number cannot be meant: beyond the largest accepted value.
    if (kind.max !== undefined && value > kind.max) refuseDate(cell, argument);
    return withinLimits(value, cell, unit, argument, kind, system);
  }
  const read = readQuantityText(cell, quantity, system);
  if (!('si' in read)) throw messages.misreadPart(argument, cell.trim(), read, unit);
  if (read.diameter && NO_DIAMETER.test(argument)) throw messages.diameterInPlace(argument, cell.trim());
  return withinLimits(read.si, cell, unit, argument, kind, system);
}

/** Of the largest accepted value: what is smaller is left over from a subtraction in the sheet, and 0 was meant. */
export const REMAINDER = 1e-15;

/** Limit of a number that has none of its own. */
const HELD = 'a number the sheet can hold';

/** What came is written only where a message shows it: lists have many cells. */
function withinLimits(
  value: number,
  cell: number | string,
  unit: string,
  argument: string,
  kind: QuantityKind,
  system: UnitSystem,
): number {
  const inUnit = (x: number): string => `${messages.shown(x)}${unit === '' ? '' : ` ${unit}`}`;
  const limit = (x: number): string => inUnit(fromSi(x, kind.quantity, system));
  const plain = (): number => Number(cell);
  // A text of a bare number is told with its unit.
  const came = (): string => (Number.isFinite(plain()) ? inUnit(plain()) : String(cell).trim());
  if (value === Infinity) throw messages.tooHigh(argument, came(), kind.max === undefined ? HELD : limit(kind.max));
  if (value === -Infinity) {
    if (kind.above !== undefined) throw messages.notAbove(argument, came(), limit(kind.above));
    throw messages.tooLow(argument, came(), kind.min === undefined ? HELD : limit(kind.min));
  }
  if (kind.max !== undefined && Math.abs(value) <= REMAINDER * kind.max) {
    if (kind.above === 0) throw messages.blankOrZero(argument);
    if (kind.min === 0) return 0;
  }
  if (kind.above !== undefined && !(value > kind.above)) {
    if (value === 0 && kind.above === 0) throw messages.blankOrZero(argument);
    throw messages.notAbove(argument, came(), limit(kind.above));
  }
  // An entered limit such as 60 in may differ from the stored one in the last bit.
  const slack = 1e-12 * Math.abs(value);
  if (kind.min !== undefined && value < kind.min - slack) throw messages.tooLow(argument, came(), limit(kind.min));
  if (kind.max !== undefined && value > kind.max + slack) {
    const tooHigh = messages.tooHigh(argument, came(), limit(kind.max));
    throw unit === 'in' && plain() / 1000 <= kind.max
      ? messages.alsoAsked(tooHigh, messages.otherUnit('mm', messages.shown(plain())))
      : tooHigh;
  }
  if (kind.whole && !Number.isInteger(fromSi(value, kind.quantity, system))) throw messages.notWhole(argument, came());
  return value;
}

/** Message for a cell that must hold something and does not. */
export function blankError(argument: string, kind: Kind): Error {
  return kind.kind === 'quantity' && zeroIsBlank(kind) ? messages.blankOrZero(argument) : messages.isBlank(argument);
}
