import type { Assumption, NumberAssumption } from './assumption.ts';
import { BURN_ASSUMPTIONS } from './burn.ts';
import { CREW_ASSUMPTIONS } from './crew.ts';
import { EXPOSURE_ASSUMPTIONS } from './exposure.ts';
import { FIT_ASSUMPTIONS } from './fit.ts';
import { HEAT_ASSUMPTIONS } from './heat.ts';
import { JOB_ASSUMPTIONS } from './job.ts';
import { OPERATION_ASSUMPTIONS } from './operations.ts';
import { OXYGEN_ASSUMPTIONS } from './oxygen.ts';
import { PRICE_ASSUMPTIONS } from './prices.ts';
import { ROD_ASSUMPTIONS } from './rods.ts';
import { SHEET_ASSUMPTIONS } from './sheet.ts';

/** Every assumption, in the order of the listing. */
export const REGISTRY = [
  ...SHEET_ASSUMPTIONS,
  ...ROD_ASSUMPTIONS,
  ...BURN_ASSUMPTIONS,
  ...CREW_ASSUMPTIONS,
  ...PRICE_ASSUMPTIONS,
  ...OXYGEN_ASSUMPTIONS,
  ...OPERATION_ASSUMPTIONS,
  ...HEAT_ASSUMPTIONS,
  ...FIT_ASSUMPTIONS,
  ...JOB_ASSUMPTIONS,
  ...EXPOSURE_ASSUMPTIONS,
] as const;

type Entry = (typeof REGISTRY)[number];
export type AssumptionName = Entry['name'];
/** Names whose value is a word. */
export type ChoiceName = Extract<Entry, { readonly choices: readonly string[] }>['name'];
/** Names whose value is a number. */
export type NumberName = Exclude<AssumptionName, ChoiceName>;

const byName = new Map<string, Assumption>(REGISTRY.map((a) => [a.name, a]));

export function numberAssumption(name: NumberName): NumberAssumption {
  return byName.get(name) as NumberAssumption;
}

/** The entry a user means, whatever the case and the spaces. */
export function findAssumption(name: string): Assumption | undefined {
  return byName.get(name) ?? byLowerCase.get(name.trim().toLowerCase().replace(/\s+/g, ' '));
}

const byLowerCase = new Map<string, Assumption>(REGISTRY.map((a) => [a.name.toLowerCase(), a]));

/** The number of that name in force, SI, or one draw of it. */
export type ReadNumber = (name: NumberName) => number;
