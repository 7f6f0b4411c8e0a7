import type { Declaration } from './declaration.ts';
import { FURTHER_FUNCTIONS } from './further-functions.ts';
import { MAIN_FUNCTIONS } from './main-functions.ts';

/** Every function, in the order of the index. A new family goes into one of the two lists. */
export const CATALOGUE: readonly Declaration[] = [...MAIN_FUNCTIONS, ...FURTHER_FUNCTIONS];

const byName = new Map(CATALOGUE.map((d) => [d.name, d]));

export const findFunction = (name: string): Declaration | undefined => byName.get(name.toUpperCase());
