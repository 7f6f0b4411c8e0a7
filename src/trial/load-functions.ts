import type { HostFunction } from '../sheet/host-function.ts';
import { customFunctionsShim } from '../engine/custom-functions-shim.ts';
import type { FunctionsJson } from '../engine/custom-functions-shim.ts';

/** Loads the bundles that the spreadsheet host loads, functions.js and functions-further.js with functions.json, from the folder `from`. */
export async function loadFunctions(from: string): Promise<readonly HostFunction[]> {
  const shim = customFunctionsShim();
  Object.assign(globalThis, { CustomFunctions: shim.runtime });
  const [json] = await Promise.all([
    readJson(`${from}/functions.json`),
    runScript(`${from}/functions.js`),
    runScript(`${from}/functions-further.js`),
  ]);
  return shim.functions(json, 'BURN');
}

async function readJson(address: string): Promise<FunctionsJson> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address} cannot be read: ${response.status} ${response.statusText}`);
  return (await response.json()) as FunctionsJson;
}

function runScript(address: string): Promise<void> {
  return new Promise((resolve, reject) => {
    const script = document.createElement('script');
    script.src = address;
    script.addEventListener('load', () => resolve());
    script.addEventListener('error', () => reject(new Error(`${address} cannot be loaded`)));
    document.head.append(script);
  });
}
