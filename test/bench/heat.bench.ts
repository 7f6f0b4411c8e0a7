/**
 * Speed of heat, grip and log functions, each in processes of its own: the first call, and the median of later ones, in CPU
 * time (compiling and clearing up of other threads included) as a ratio to what one cell may take. Then core cooling times, one and a list.
 */
import { spawnSync } from 'node:child_process';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { coolingTime, type CoolingTime } from '../../src/core/heat/cooling-time.ts';
import { call } from '../../src/sheet/call.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { assumed, INCH, passesOf, PHYSICS } from '../core/heat/physics.ts';

/** What the design lets one cell take [ms]. */
const ALLOWED = 50;
/** Processes for the first call, of which the median counts, and later calls in each. */
const PROCESSES = 5;
const LATER = 31;

const CASES: Readonly<Record<string, readonly [name: string, ...args: Argument[]]>> = {
  'time, air': ['BURN.COOL.TIME', 4, 2.5, 10],
  'time, water': ['BURN.COOL.TIME', 4, 2.5, 10, 'water'],
  'curve, air': ['BURN.COOL.CURVE', 4, 2.5, 10, 10],
  'curve, water': ['BURN.COOL.CURVE', 4, 2.5, 10, 10, 'water'],
  'shrink, air': ['BURN.COOL.SHRINK', 4, 2.5],
  'shrink, water': ['BURN.COOL.SHRINK', 4, 2.5, 'water'],
  'after, air': ['BURN.GRIP.AFTER', 4, 10, 10, 2.5, 60],
  'after, water': ['BURN.GRIP.AFTER', 4, 10, 10, 2.5, 60, [['cooling method', 'water']]],
  'pin with cooling': ['BURN.PIN.TIME', 4, 10],
  'pin without': ['BURN.PIN.RODS', 4, 10],
};

const median = (list: readonly number[]): number => [...list].sort((a, b) => a - b)[list.length >> 1] ?? NaN;

/** CPU milliseconds of each call. */
function timed<T>(items: readonly T[], run: (item: T) => void): readonly number[] {
  return items.map((item) => {
    const start = process.cpuUsage();
    run(item);
    const { user, system } = process.cpuUsage(start);
    return (user + system) / 1000;
  });
}

function measure(name: string, args: readonly Argument[]): { readonly first: number; readonly later: number } {
  const declaration = findFunction(name)!;
  const [first = NaN, ...later] = timed(Array.from({ length: LATER + 1 }), () => void call(declaration, args));
  return { first, later: median(later) };
}

function tell(): void {
  console.log(`CPU time over ${ALLOWED} ms`);
  for (const [what, [name]] of Object.entries(CASES)) {
    const runs = Array.from(
      { length: PROCESSES },
      () =>
        JSON.parse(spawnSync(process.execPath, [process.argv[1]!, what], { encoding: 'utf8' }).stdout) as {
          first: number;
          later: number;
        },
    );
    const ratio = (key: 'first' | 'later'): string =>
      (median(runs.map((r) => r[key])) / ALLOWED).toFixed(2).padStart(6);
    console.log(`${name.padEnd(18)} ${what.padEnd(18)} first ${ratio('first')}, later ${ratio('later')}`);
  }
}

function list(): void {
  const pins = Array.from({ length: 1000 }, (_, i): CoolingTime => {
    const diameter = (1 + (i % 23) * 0.35) * INCH;
    const hole = diameter * (0.4 + 0.02 * (i % 17));
    const pin = { diameter, hole, boss: assumed('boss over pin') * diameter, length: diameter * (1.5 + (i % 7) * 0.6) };
    const method = i % 2 ? 'water' : 'air';
    const target = assumed(method === 'air' ? 'cooling target in air' : 'cooling target with water');
    return { ...pin, method, target, passes: passesOf(pin, 60 + (200 * hole) / INCH) };
  });
  timed(pins.slice(0, 50), (row) => coolingTime(row, PHYSICS));
  for (const method of ['air', 'water']) {
    const each = timed(
      pins.filter((pin) => pin.method === method),
      (row) => coolingTime(row, PHYSICS),
    );
    console.log(
      `cooling time ${method.padEnd(6)} median ${median(each).toFixed(2)} ms of CPU, ${(median(each) / 5).toFixed(2)} of the 5 asked; ${each.length} of them ${(each.reduce((sum, ms) => sum + ms, 0) / 1000).toFixed(2)} s`,
    );
  }
}

const chosen = CASES[process.argv[2] ?? ''];
if (chosen) {
  const [name, ...args] = chosen;
  console.log(JSON.stringify(measure(name, args)));
} else {
  tell();
  list();
}
