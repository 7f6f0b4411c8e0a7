/** What the script does in a worker of the page (`aside.ts`): answers one call after the other. */
import { CALCULATION_VERSION } from '../core/version.ts';
import type { HostFunction } from '../sheet/host-function.ts';
import type { Question, Told } from './aside.ts';

interface Worker {
  onmessage: ((event: { readonly data: Question }) => void) | null;
  postMessage(told: Told): void;
}

/** The worker whose script this is; undefined in a page, and where the host runs the script by itself. */
export function ownWorker(): Worker | undefined {
  return typeof importScripts === 'function' && typeof CustomFunctions === 'undefined'
    ? (globalThis as unknown as Worker)
    : undefined;
}
/** Of a script in a worker. */
declare const importScripts: unknown;

export function answerPage(worker: Worker, functions: readonly HostFunction[]): void {
  const byName = new Map(functions.map((f) => [f.name, f]));
  worker.onmessage = ({ data: { name, args, explained } }) => {
    const f = byName.get(name);
    worker.postMessage((explained ? f?.explained?.(args) : undefined) ?? { cells: f?.call(args) ?? [] });
  };
  worker.postMessage({ version: CALCULATION_VERSION });
}
