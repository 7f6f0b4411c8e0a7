/** What run.mjs starts for `calc`; the work is done in a thread that loads this same file. */
import { readFileSync } from 'node:fs';
import { isMainThread, parentPort, workerData } from 'node:worker_threads';
import { asInTheHost } from '../engine/as-in-the-host.ts';
import { hostFunctions } from '../sheet/host-functions.ts';
import { bounded } from './bounded.ts';
import { calc, readCalc, type AskedOfCalc } from './calc.ts';
import { print } from './print.ts';

export interface Bundle {
  /** Path of this file as bundled. */
  readonly self: string;
}

export async function main(args: readonly string[], { self }: Bundle): Promise<number> {
  const asked = readCalc(args);
  return print('code' in asked ? asked : await bounded(self, { ...asked, width: widthOf() }, asked.seconds));
}

/** Width of a line where nothing says it: that of a page. */
const USUAL_WIDTH = 100;
const LEAST_WIDTH = 20;

function widthOf(): number {
  // Undefined where the output is no terminal, whatever its type says.
  const told = (process.stdout.columns as number | undefined) ?? Number(process.env['COLUMNS']);
  return told >= LEAST_WIDTH ? told : USUAL_WIDTH;
}

if (!isMainThread && parentPort) {
  const port = parentPort;
  void calc(workerData as AskedOfCalc, hostFunctions.map(asInTheHost), (path) => readFileSync(path)).then((ended) =>
    port.postMessage(ended),
  );
}
