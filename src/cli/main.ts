/** What run.mjs starts for `calc`. */
import { readFileSync } from 'node:fs';
import { asInTheHost } from '../engine/as-in-the-host.ts';
import { hostFunctions } from '../sheet/host-functions.ts';
import { calc } from './calc.ts';

export function main(args: readonly string[]): Promise<number> {
  return calc(args, hostFunctions.map(asInTheHost), {
    readFile: (path) => readFileSync(path, 'utf8'),
    out: (text) => process.stdout.write(`${text}\n`),
    err: (text) => process.stderr.write(`${text}\n`),
  });
}
