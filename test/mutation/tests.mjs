import { readdirSync } from 'node:fs';
import path from 'node:path';

/** The folder of src/core that faults are put into. */
export const folder = process.env.MUTATE ?? 'burn';

/** Published checks that belong to a folder are named after it; burn's are elsewhere. */
const PUBLISHED = { burn: 'operations-materials' };

/** Tests of the catalogue that work a folder's calculations through their functions, where core has none of its own. */
const THROUGH_FUNCTIONS = {
  operations: ['operation-family', 'operation-functions', 'rod-choice-functions', 'supply-functions'],
  oxygen: ['supply-functions'],
};

/** The tests that a fault is put before: those of the folder, its published ones and those through its functions. The whole suite would take days. */
export function testsOf(root) {
  const inside = (place) =>
    readdirSync(path.join(root, place), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.test.ts'))
      .sort();
  const published = PUBLISHED[folder] ?? `${folder}-`;
  return [
    ...inside(`test/core/${folder}`).map((name) => `test/core/${folder}/${name}`),
    ...inside('test/published')
      .filter((name) => name.startsWith(published))
      .map((name) => `test/published/${name}`),
    ...(THROUGH_FUNCTIONS[folder] ?? []).map((name) => `test/catalogue/${name}.test.ts`),
  ];
}
