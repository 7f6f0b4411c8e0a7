/**
 * Every message a user can meet in a cell, in one place.
 *
 * `#VALUE!` is for an argument of the wrong kind or outside its physical range, `#N/A` for a name the
 * registers do not know and for a case with no solution. Each message names the argument, says what came
 * with its unit, and what is accepted.
 */
import { CalcError } from './errors.ts';

const value = (message: string): CalcError => new CalcError('#VALUE!', message);
const missing = (message: string): CalcError => new CalcError('#N/A', message);

/** A number in a message: six significant digits at most, no trailing zeros. */
export function shown(x: number): string {
  return String(Number(x.toPrecision(6)));
}

// Arguments
export const isMissing = (argument: string): CalcError => value(`${argument} is missing`);
export const isBlank = (argument: string): CalcError => value(`${argument} is blank`);
export const blankOrZero = (argument: string): CalcError => value(`${argument} is blank or zero; must be more than 0`);
export const notANumber = (argument: string, came: string, unit: string): CalcError =>
  value(`${argument} is "${came}"; must be a number${unit ? ` in ${unit}` : ''}, or a text with a unit such as 100 mm or 4-1/2"`);
export const tooLow = (argument: string, came: string, limit: string): CalcError =>
  value(`${argument} is ${came}; must be at least ${limit}`);
export const tooHigh = (argument: string, came: string, limit: string): CalcError =>
  value(`${argument} is ${came}; must be at most ${limit}`);
export const notAbove = (argument: string, came: string, limit: string): CalcError =>
  value(`${argument} is ${came}; must be more than ${limit}`);
export const mustBeLess = (argument: string, came: string, limit: string): CalcError =>
  value(`${argument} is ${came}; must be less than ${limit}`);
export const isDate = (argument: string, came: string): CalcError =>
  value(`${argument} is ${came}, which looks like a date: the sheet turned a fraction into one. Type '3/8 with a leading apostrophe, or =3/8`);
export const isErrorValue = (argument: string, came: string): CalcError => value(`${argument} holds the error ${came}; mend that cell first`);
export const unknownChoice = (argument: string, came: string, accepted: readonly string[]): CalcError =>
  value(`${argument} is "${came}"; must be one of ${accepted.join(', ')}`);
export const unknownName = (argument: string, came: string, nearest: readonly string[]): CalcError =>
  missing(`${argument} "${came}" is not in the register; nearest: ${nearest.join(', ')}`);

// Cases without a solution
export const noSolution = (reason: string): CalcError => missing(reason);
