/** Solves the cooling times that are kept, and writes them: the first half of `npm run golden`. */
import { readFileSync, writeFileSync } from 'node:fs';
import { solvedKept } from '../core/heat/solved-kept.ts';

const FILE = 'src/core/heat/kept-times.ts';
let source = readFileSync(FILE, 'utf8');
for (const [name, text] of Object.entries(solvedKept()))
  source = source.replace(new RegExp(`(${name} =\\s+)'.*'`), `$1'${text}'`);
writeFileSync(FILE, source);
