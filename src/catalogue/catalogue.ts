import { ASSUME_FUNCTIONS } from './assume-functions.ts';
import type { Declaration } from './declaration.ts';
import { FIT_FUNCTIONS } from './fit-functions.ts';
import { HEAT_FUNCTIONS } from './heat-functions.ts';
import { JOB_FUNCTIONS } from './job-functions.ts';
import { PAPER_FUNCTIONS } from './paper-functions.ts';
import { LISTING_FUNCTIONS } from './listing-functions.ts';
import { LOG_FUNCTIONS } from './log-functions.ts';
import { OPERATION_FUNCTIONS } from './operation-functions.ts';
import { PIN_FUNCTIONS } from './pin-functions.ts';
import { REGISTER_FUNCTIONS } from './register-functions.ts';
import { ROD_CHOICE_FUNCTIONS } from './rod-choice-functions.ts';
import { ROD_FUNCTIONS } from './rod-functions.ts';
import { SAFETY_FUNCTIONS } from './safety-functions.ts';
import { SURE_FUNCTIONS } from './sure-functions.ts';
import { SUPPLY_FUNCTIONS } from './supply-functions.ts';

/** Every function, family by family, in the order of the index. */
export const CATALOGUE: readonly Declaration[] = [
  ...PIN_FUNCTIONS,
  ...OPERATION_FUNCTIONS,
  ...ROD_FUNCTIONS,
  ...LISTING_FUNCTIONS,
  ...REGISTER_FUNCTIONS,
  ...SUPPLY_FUNCTIONS,
  ...HEAT_FUNCTIONS,
  ...FIT_FUNCTIONS,
  ...ROD_CHOICE_FUNCTIONS,
  ...JOB_FUNCTIONS,
  ...SURE_FUNCTIONS,
  ...PAPER_FUNCTIONS,
  ...LOG_FUNCTIONS,
  ...SAFETY_FUNCTIONS,
  ...ASSUME_FUNCTIONS,
];

const byName = new Map(CATALOGUE.map((d) => [d.name, d]));

export const findFunction = (name: string): Declaration | undefined => byName.get(name.toUpperCase());
