/** Brings the README's table of functions up to date with the catalogue. Run as `npm run readme`; a test checks that it was. */
import { readFileSync, writeFileSync } from 'node:fs';
import { withFunctionTable } from './function-table.ts';

const README = new URL('../../README.md', import.meta.url);
writeFileSync(README, withFunctionTable(readFileSync(README, 'utf8')));
