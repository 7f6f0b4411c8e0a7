/** Solves the cooling times and the cylinder that are kept, and writes them: the first half of `npm run golden`. */
import { readFileSync, writeFileSync } from 'node:fs';
import { solvedKept } from '../core/heat/solved-kept.ts';
import { keptYield } from '../core/oxygen/solved-yield.ts';

function write(file: string, kept: Readonly<Record<string, string>>): void {
  let source = readFileSync(file, 'utf8');
  for (const [name, text] of Object.entries(kept))
    source = source.replace(new RegExp(`(${name} =\\s+)'.*'`), `$1'${text}'`);
  writeFileSync(file, source);
}
write('src/core/heat/kept-times.ts', solvedKept());
write('src/core/oxygen/kept-yield.ts', keptYield());
