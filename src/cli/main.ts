/** What run.mjs starts: loads the functions bundle that the host loads, then runs the command. */
import { readFileSync } from 'node:fs';
import { runInThisContext } from 'node:vm';
import { customFunctionsShim } from '../engine/custom-functions-shim.ts';
import type { FunctionsJson } from '../engine/custom-functions-shim.ts';
import { calc } from './calc.ts';

export interface Bundle {
  /** Paths of functions.js, of the functions that the host fetches later, and of their functions.json. */
  readonly code: string;
  readonly further: string;
  readonly json: string;
}

export async function main(args: readonly string[], bundle: Bundle): Promise<number> {
  const shim = customFunctionsShim();
  Object.assign(globalThis, { CustomFunctions: shim.runtime });
  for (const filename of [bundle.code, bundle.further]) runInThisContext(readFileSync(filename, 'utf8'), { filename });
  const functions = shim.functions(JSON.parse(readFileSync(bundle.json, 'utf8')) as FunctionsJson, 'BURN');
  return calc(args, functions, {
    readFile: (path) => readFileSync(path, 'utf8'),
    out: (text) => process.stdout.write(`${text}\n`),
    err: (text) => process.stderr.write(`${text}\n`),
  });
}
