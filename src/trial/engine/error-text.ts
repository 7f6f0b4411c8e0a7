import { ErrorType, ErrorValueObject } from '@univerjs/engine-formula';
import type { ICellData, Nullable } from '@univerjs/core';

/**
 * An error of the engine that carries its text.
 *
 * The engine hands the custom data of a value on to the cell it ends in, and most functions return an
 * error they meet as it came, so the text stays with the error through the formulas around it. A code the
 * engine does not know becomes `#VALUE!`.
 */
export function errorValue(code: string, text: string): ErrorValueObject {
  const type = Object.values(ErrorType).find((known: string) => known === code) ?? ErrorType.VALUE;
  return new ErrorValueObject(type, text).withCustomData({ errorText: text });
}

/** The text that came with an error value, '' where it has none. */
export function textOfValue(error: ErrorValueObject): string {
  return error.getErrorContent();
}

/** The text kept with a failed cell, '' where it has none. */
export function textOfCell(cell: Nullable<ICellData>): string {
  const text: unknown = cell?.custom?.['errorText'];
  return typeof text === 'string' ? text : '';
}
