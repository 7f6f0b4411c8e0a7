/** Writes the kept results anew: `npm run golden`; with `words` only what is said around them. */
import { existsSync, writeFileSync } from 'node:fs';
import { CALLS } from './calls.ts';
import { calculate, differences, FILE, readGolden, write, type Golden } from './golden.ts';

const onlyWords = process.argv.includes('words');
const before: Golden = existsSync(FILE) ? readGolden() : { results: {}, words: {} };
const today = await calculate(CALLS);
const after: Golden = onlyWords ? { ...today, results: before.results } : today;
for (const group of ['results', 'words'] as const) {
  const changed = Object.entries(after[group]).filter(
    ([formula, rows]) => differences(formula, before[group][formula] ?? [], rows).length > 0,
  );
  console.log(`${group}: ${changed.length} of ${Object.keys(after[group]).length} calls changed`);
  for (const [formula] of changed.slice(0, 20)) console.log(`  ${formula}`);
}
writeFileSync(FILE, write(after));
