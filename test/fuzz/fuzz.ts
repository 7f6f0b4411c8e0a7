/** Runs a number of calls of one function and keeps the account of them. */
import fc from 'fast-check';
import type { Cell } from '../../src/catalogue/cell.ts';
import { isRowsFunction, isTableFunction, type Declaration } from '../../src/catalogue/declaration.ts';
import { hostFunction } from '../../src/sheet/as-host-function.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { callOf, itemsOf } from './calls.ts';
import { faults } from './properties.ts';

/** Any; fixed so that a run can be repeated, and FUZZ_SEED tries another. */
export const SEED = Number(process.env['FUZZ_SEED'] ?? 20261126);

/** CPU time that one cell may take on a machine with nothing else to do [ms]. */
export const ONE_CELL = 50;
/** Times as much that is let pass: the other tests run beside this one, and the same call has taken from 20 to 56 ms. FUZZ_BUSY=1 tries the 50 ms themselves, on an idle machine. */
const BUSY = Number(process.env['FUZZ_BUSY'] ?? 3);
/** Functions that take longer for one cell, or take a list in one cell, with the reason and a bound of their own [ms]. */
export const LONGER: Readonly<Record<string, { readonly bound: number; readonly why: string }>> = {
  'BURN.ASSUME.EFFECT': {
    bound: 1500,
    why: 'sizes an item, cooling and all, twice for each of some forty assumptions, and draws it anew for each of its shares',
  },
  'BURN.SUPPLY.CHECK': {
    bound: 600,
    why: 'some milliseconds, but up to 64 cylinders drawn through a hose as fine as a pinhole last for weeks, followed in steps of minutes',
  },
  'BURN.SPREAD': { bound: 150, why: 'a list of items, each drawn a thousand times' },
  'BURN.JOB.PLAN': { bound: 200, why: 'a list of items, each drawn a thousand times' },
  'BURN.JOB.STOCK': { bound: 200, why: 'a list of items, each drawn a thousand times' },
  'BURN.JOB.COST': {
    bound: 400,
    why: 'a list of items, each drawn a thousand times, and laid out in shifts at several paces',
  },
  'BURN.JOB.COMPARE': {
    bound: 1500,
    why: 'a list of items evaluated for two ways, and for each assumption that differs',
  },
  'BURN.JOB.BASIS': {
    bound: 1500,
    why: 'up to three rows, each sized, cooling and all, twice for each of some forty assumptions',
  },
  'BURN.JOB.JOINT': {
    bound: 600,
    why: 'a list of items, each drawn a thousand times, and laid out in shifts at 17 paces',
  },
  'BURN.ASSUME.WORTH': { bound: 600, why: 'as BURN.JOB.COST, and a regression for each of some forty assumptions' },
  'BURN.JOB.SCHEDULE': { bound: 200, why: 'a list of items' },
  'BURN.JOB.SHEET': { bound: 400, why: 'a list of items, each drawn a thousand times' },
  'BURN.LOG.FIT': { bound: 400, why: 'a list of jobs, fitted in rounds for each case of their cooling, and once more' },
  'BURN.LOG.RANGE': { bound: 200, why: 'a list of jobs, each drawn a thousand times' },
  'BURN.LOG.SCORE': { bound: 200, why: 'a list of jobs, each drawn a thousand times' },
};

export interface Account {
  calls: number;
  /** Calls that gave at least one number, or one text where the function gives texts only. */
  results: number;
  /** CPU time of the calls alone [ms]. */
  cpu: number;
  /** Longest call of one cell [ms]. */
  longest: number;
}

const cpu = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e3;
};

/** A call as one would paste it into a test. */
export function pasted(d: Declaration, args: readonly Argument[]): string {
  return `call(findFunction('${d.name}')!, ${literal(args)})`;
}

function literal(x: unknown): string {
  if (Array.isArray(x)) return `[${x.map(literal).join(', ')}]`;
  if (typeof x === 'number') return Object.is(x, -0) ? '-0' : String(x);
  if (typeof x === 'string' && x.length > 400 && x === x.charAt(0).repeat(x.length))
    return `'${x.charAt(0)}'.repeat(${x.length})`;
  return x === undefined ? 'undefined' : JSON.stringify(x);
}

/** Whether a result holds more than headings, blanks and errors. */
function hasResult(d: Declaration, result: readonly (readonly Cell[])[]): boolean {
  const rows = isRowsFunction(d) || isTableFunction(d);
  const texts = rows ? d.result.columns.every((c) => c.quantity === undefined) : d.result.quantity === 'text';
  return result.some((row, r) =>
    row.some((cell) => typeof cell === 'number' || (texts && typeof cell === 'string' && (!rows || r > 0))),
  );
}

/** Calls a function with made-up arguments; throws with the shortest call found that breaks a rule. */
export function fuzz(d: Declaration, calls: number): Account {
  const host = hostFunction(d);
  const account: Account = { calls: 0, results: 0, cpu: 0, longest: 0 };
  const bound = LONGER[d.name]?.bound ?? BUSY * ONE_CELL;
  const timed = (args: readonly Argument[]): number => {
    const from = cpu();
    host.call(args);
    return cpu() - from;
  };
  // Told at the end: to look for a shorter case of a slow call takes as long as the call, many times over.
  const slow: string[] = [];
  const property = fc.property(callOf(d), (args) => {
    account.calls++;
    const began = performance.now();
    const from = cpu();
    const result = host.call(args);
    const wall = performance.now() - began;
    account.cpu += cpu() - from;
    if (hasResult(d, result)) account.results++;
    const wrong = faults(d, result);
    if (wrong.length > 0) throw new Error(wrong.slice(0, 5).join('\n'));
    if (account.calls % 10 === 0) same(host.call(args), result, 'called again it gives another result');
    if (account.calls % 5 === 0) alone(d, args, result);
    if (account.calls % 20 === 0 && typeof result[0]?.[0] === 'number') host.working?.(args)?.(0, 0);
    const cells = itemsOf(d, args);
    if (cells === 1) account.longest = Math.max(account.longest, wall);
    // Tried again, so that neither a collection of garbage nor another process is blamed.
    if (wall > bound * cells) {
      let least = timed(args);
      for (let i = 0; i < 9 && least > bound * cells; i++) least = Math.min(least, timed(args));
      if (least > bound * cells)
        slow.push(
          `${pasted(d, args)}\n${cells} ${cells === 1 ? 'cell takes' : 'cells take'} ${least.toFixed(0)} ms, more than ${bound} ms each`,
        );
    }
  });
  const run = fc.check(property, { numRuns: calls, seed: SEED, endOnFailure: false });
  if (run.failed) {
    const [args] = run.counterexample ?? [[]];
    throw new Error(
      `${pasted(d, args)}\n${run.errorInstance instanceof Error ? run.errorInstance.message : String(run.errorInstance)}\n(seed ${run.seed}, path ${run.counterexamplePath ?? ''}; FUZZ_SEED=${run.seed} repeats it)`,
    );
  }
  if (slow.length > 0) throw new Error(`${slow.length} calls are too slow, the first:\n${slow.slice(0, 3).join('\n')}`);
  return account;
}

function same(a: unknown, b: unknown, what: string): void {
  const [one, other] = [literal(a), literal(b)];
  if (one !== other) throw new Error(`${what}:\n${one.slice(0, 1000)}\n${other.slice(0, 1000)}`);
}

/** Each value of a list is what its own row gives alone. */
function alone(d: Declaration, args: readonly Argument[], result: readonly (readonly Cell[])[]): void {
  if (isRowsFunction(d) || isTableFunction(d)) return;
  const parameters = Object.values(d.parameters);
  const ranges = parameters.map(({ kind }, i) =>
    kind.kind !== 'cells' && Array.isArray(args[i]) ? (args[i] as readonly (readonly Cell[])[]) : undefined,
  );
  // Ragged and empty ranges have no rows to speak of.
  if (ranges.some((g) => g && (g.length === 0 || g.some((row) => row.length === 0 || row.length !== g[0]?.length))))
    return;
  const rows = Math.max(1, ...ranges.map((g) => g?.length ?? 1));
  const columns = Math.max(1, ...ranges.map((g) => g?.[0]?.length ?? 1));
  if (rows * columns === 1 || result.length !== rows || result[0]?.length !== columns) return;
  const host = hostFunction(d);
  result.forEach((row, r) =>
    row.forEach((cell, c) => {
      const one = args.map((a, i) => {
        const g = ranges[i];
        return g ? (g[g.length === 1 ? 0 : r]?.[g[0]?.length === 1 ? 0 : c] ?? null) : a;
      });
      const [[single = null] = []] = host.call(one);
      // In a list a row is blank where all that changes from row to row is blank; alone, where all is.
      if (cell === null) return;
      same(single, cell, `row ${r + 1}, column ${c + 1} alone gives another result`);
    }),
  );
}
