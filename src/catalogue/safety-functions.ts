import { AIR_FUNCTIONS } from './air-functions.ts';
import { CAUTION_FUNCTIONS } from './caution-functions.ts';
import type { Declaration } from './declaration.ts';
import { EQUIPMENT_FUNCTIONS } from './equipment-functions.ts';
import { FIRE_FUNCTIONS } from './fire-functions.ts';
import { NOISE_FUNCTIONS } from './noise-functions.ts';

/**
 * Exposures and cautions. A function of one number gives the number alone; its working, and the tables, say which limit
 * applies and whether the figures pass it. None says that a job is safe.
 */
export const SAFETY_FUNCTIONS: readonly Declaration[] = [
  ...NOISE_FUNCTIONS,
  ...AIR_FUNCTIONS,
  ...FIRE_FUNCTIONS,
  ...EQUIPMENT_FUNCTIONS,
  ...CAUTION_FUNCTIONS,
];
