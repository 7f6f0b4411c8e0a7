import { ASSUME_FUNCTIONS } from './assume-functions.ts';
import type { Declaration } from './declaration.ts';
import { FIT_FUNCTIONS } from './fit-functions.ts';
import { HEAT_FUNCTIONS } from './heat-functions.ts';
import { JOB_FUNCTIONS } from './job-functions.ts';
import { LOG_FUNCTIONS } from './log-functions.ts';
import { REGISTER_FUNCTIONS } from './register-functions.ts';
import { ROD_CHOICE_FUNCTIONS } from './rod-choice-functions.ts';
import { SAFETY_FUNCTIONS } from './safety-functions.ts';
import { SUPPLY_FUNCTIONS } from './supply-functions.ts';

/** Functions that the add-in fetches at their first use: sources and conditions, supply, heat, grip and push-out, choice of rods, whole jobs, logs, safety, what assumptions do. */
export const FURTHER_FUNCTIONS: readonly Declaration[] = [
  ...REGISTER_FUNCTIONS,
  ...SUPPLY_FUNCTIONS,
  ...HEAT_FUNCTIONS,
  ...FIT_FUNCTIONS,
  ...ROD_CHOICE_FUNCTIONS,
  ...JOB_FUNCTIONS,
  ...LOG_FUNCTIONS,
  ...SAFETY_FUNCTIONS,
  ...ASSUME_FUNCTIONS,
];
