/** Entry of the process that writes the pages: their texts by file name, as JSON, into the file named. */
import { writeFileSync } from 'node:fs';
import { referencePages } from './site.ts';

const [file] = process.argv.slice(2);
if (file === undefined) throw new Error('the file to write is missing');
writeFileSync(file, JSON.stringify(await referencePages()));
