import { furtherNotLoaded } from '../core/messages.ts';
import type { HostFunction } from '../sheet/host-function.ts';

/** Where functions-further.js leaves its functions. */
export type FurtherGlobal = typeof globalThis & { rodsheetFurther?: readonly HostFunction[] };

export interface FurtherFunctions {
  /** The function, where its script has been loaded. */
  now(name: string): HostFunction | undefined;
  /** The function once its script is loaded; rejects with a CalcError where it cannot be. */
  soon(name: string): Promise<HostFunction>;
}

/** Longest wait for the script [ms]; a host without pages never answers. */
const PATIENCE = 15_000;

/**
 * The functions of functions-further.js, fetched from beside functions.js at the first use of one, unless the page
 * has loaded it already. Called while functions.js runs, since only then its own address is known.
 */
export function furtherFunctions(): FurtherFunctions {
  const address = besideThisScript('functions-further.js');
  let loading: Promise<void> | undefined;
  const now = (name: string): HostFunction | undefined =>
    (globalThis as FurtherGlobal).rodsheetFurther?.find((f) => f.name === name);
  return {
    now,
    async soon(name) {
      loading ??= load(address).catch((reason: unknown) => {
        loading = undefined; // the next call tries again
        throw reason;
      });
      await loading;
      const found = now(name);
      if (!found) throw furtherNotLoaded(name);
      return found;
    },
  };
}

function besideThisScript(file: string): string | undefined {
  if (typeof document === 'undefined') return undefined;
  const { currentScript } = document;
  return currentScript instanceof HTMLScriptElement && currentScript.src
    ? new URL(file, currentScript.src).href
    : undefined;
}

function load(address: string | undefined): Promise<void> {
  return new Promise((resolve, reject) => {
    const failed = (): void => reject(furtherNotLoaded('functions-further.js'));
    if (address === undefined) {
      failed();
      return;
    }
    const script = document.createElement('script');
    script.src = address;
    script.addEventListener('load', () => resolve());
    script.addEventListener('error', failed);
    setTimeout(failed, PATIENCE);
    document.head.append(script);
  });
}
