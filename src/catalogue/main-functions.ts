import type { Declaration } from './declaration.ts';
import { LISTING_FUNCTIONS } from './listing-functions.ts';
import { OPERATION_FUNCTIONS } from './operation-functions.ts';
import { PIN_FUNCTIONS } from './pin-functions.ts';
import { ROD_FUNCTIONS } from './rod-functions.ts';

/** Functions that the add-in has at once: sizing, flow through rods, the assumptions and the version. The bundle of these is kept small. */
export const MAIN_FUNCTIONS: readonly Declaration[] = [
  ...PIN_FUNCTIONS,
  ...OPERATION_FUNCTIONS,
  ...ROD_FUNCTIONS,
  ...LISTING_FUNCTIONS,
];
