import type { Argument, Calculated, HostFunction } from '../sheet/host-function.ts';
import type { Aside } from './aside.ts';
import { PAGE_TURNS } from './turns.ts';

/** Calculates a call of a function, by its name, without holding the page up. */
export type Calculator = (name: string, args: readonly Argument[]) => Promise<Calculated>;

/** The pane's way to the functions: what it shows of a cell takes as long as the cell. */
export function calculator(functions: readonly HostFunction[], aside: Aside | undefined): Calculator {
  const byName = new Map(functions.map((f) => [f.name, f]));
  return async (name, args) => {
    const f = byName.get(name);
    if (!f) return { cells: [] };
    const elsewhere = f.inOnePiece && (await aside?.calculate({ name, args, explained: true }));
    if (elsewhere) return elsewhere;
    return { cells: (f.paused && (await PAGE_TURNS.run(f.paused(args)))) ?? f.call(args) };
  };
}
