import { ESTIMATE_SOURCES } from './estimate.ts';
import { EXPOSURE_SOURCES } from './exposure.ts';
import { FIT_SOURCES } from './fit.ts';
import { GENERAL_SOURCES } from './general.ts';
import { HEAT_SOURCES } from './heat.ts';
import { OPERATION_SOURCES } from './operations.ts';
import { OXYGEN_SOURCES } from './oxygen.ts';
import type { Source } from './source.ts';

/** Every source the project rests on, by key. */
export const SOURCES: readonly Source[] = [
  ...GENERAL_SOURCES,
  ...OPERATION_SOURCES,
  ...ESTIMATE_SOURCES,
  ...EXPOSURE_SOURCES,
  ...OXYGEN_SOURCES,
  ...HEAT_SOURCES,
  ...FIT_SOURCES,
];

const byKey = new Map(SOURCES.map((s) => [s.key, s]));

export const findSource = (key: string): Source | undefined => byKey.get(key);
