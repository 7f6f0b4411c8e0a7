import type { HostFunction } from '../sheet/host-function.ts';

/** A function as the engine is given it where it plays the host: the host shows an empty text where a function of ours gives a blank, and formulas that read it see that text. */
export function asInTheHost(f: HostFunction): HostFunction {
  return {
    ...f,
    call: (args) =>
      f.call(args).map((row) => (row.some((cell) => cell === null) ? row.map((cell) => cell ?? '') : row)),
  };
}
