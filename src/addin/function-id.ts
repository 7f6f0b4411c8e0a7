/** The first part of every function name; the manifest hands it to the host, functions.json does not repeat it. */
export const NAMESPACE = 'BURN';

/** Id and name of a function inside the namespace: `PIN.OXYGEN` for `BURN.PIN.OXYGEN`. */
export function functionId(name: string): string {
  if (!name.startsWith(`${NAMESPACE}.`)) throw new Error(`${name} is outside the namespace ${NAMESPACE}`);
  return name.slice(NAMESPACE.length + 1);
}
