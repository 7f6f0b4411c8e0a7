import { toCol } from '@borgar/fx';
import { findFunction } from '../catalogue/catalogue.ts';
import type { Declaration } from '../catalogue/declaration.ts';
import { call, type Results } from '../sheet/call.ts';

/** A sheet's name as formulas write it: in quotes unless it is one plain word that is no address. */
export function sheetInFormula(name: string): string {
  return /^[A-Za-z_][A-Za-z_.]*$/.test(name) ? name : `'${name.replaceAll("'", "''")}'`;
}

/** The listing as BURN.ASSUMED gives it, so that the sheet's region works as `assume`. */
export function listedAssumptions(): Results {
  const d = findFunction('BURN.ASSUMED');
  return d ? call(d, []) : [];
}

/** The region of a sheet that a listing of so many rows and columns fills from A1. */
export function listingRegion(sheet: string, rows: number, columns: number): string {
  return `${sheetInFormula(sheet)}!$A$1:$${toCol(columns - 1)}$${rows}`;
}

/** An example of a function's formula with `region` as its last argument, `assume`. */
export function formulaWithAssume(d: Declaration, region: string): string {
  const parameters = Object.values(d.parameters);
  const given = parameters.map((p) => (p.optional ? '' : p.example));
  return `=${d.name}(${[...given, region].join(',')})`;
}
