/** Spread, stock, cost, schedule and logs: the first call of the process, and the median of later ones. CPU time stands beside the clock, for a machine that is shared. */
import { findFunction } from '../../src/catalogue/catalogue.ts';
import type { Cell } from '../../src/catalogue/cell.ts';
import { seeded } from '../../src/core/spread/seeded.ts';
import { fromSi } from '../../src/core/units/parse-quantity.ts';
import { call } from '../../src/sheet/call.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { randomPins, simulateLog } from '../core/job/simulated-log.ts';

const random = seeded(5);
const pins = randomPins(1000, random);
const LOG: Cell[][] = [
  ['Diameter', 'Length', 'Rods used', 'Oxygen used', 'Burning minutes', 'Crew minutes'],
  ...simulateLog(pins, { 'oxygen burnt share': 0.3, 'rod feed ratio': 0.42, 'flow factor': 0.85 }, random).map(
    (job, i): Cell[] => [
      pins[i]!.diameter,
      pins[i]!.length,
      job.noted.rods!,
      fromSi(job.noted.oxygen!, 'oxygen', 'US'),
      fromSi(job.noted.burning!, 'time', 'US'),
      fromSi(job.noted.crew!, 'time', 'US'),
    ],
  ),
];
const list = (n: number): Cell[][] => Array.from({ length: n }, (_, i) => [2 + (i % 37) / 10, 5 + (i % 91) / 6]);
const columns = (n: number): readonly Argument[] => [list(n).map(([d]) => [d!]), list(n).map(([, l]) => [l!])];
const PRICES: Cell[][] = [
  ['rod', 9],
  ['oxygen', 40, '100 scf'],
  ['crew', 180],
  ['margin', 20],
];

const CASES: readonly (readonly [name: string, what: string, asked: number, args: readonly Argument[]])[] = [
  ['BURN.LOG.FIT', '1000 rows', 500, [LOG]],
  ['BURN.LOG.FIT', '30 rows', 50, [LOG.slice(0, 31)]],
  ['BURN.LOG.SCORE', '1000 rows', NaN, [LOG]],
  ['BURN.LOG.SCORE', '30 rows', NaN, [LOG.slice(0, 31)]],
  ['BURN.JOB.STOCK', '200 pins', 150, [list(200), 90]],
  ['BURN.JOB.STOCK', '1 pin', 50, [list(1), 90]],
  ['BURN.SPREAD', '1 pin', 50, ['PIN', list(1), 'oxygen', 90]],
  ['BURN.JOB.PLAN', '200 pins', 300, [list(200)]],
  ['BURN.JOB.COST', '200 pins', 500, [list(200), PRICES]],
  ['BURN.JOB.SCHEDULE', '200 pins', 300, [list(200), 2, 10]],
  ['BURN.PIN.PLAN', '10,000 pins', 1000, columns(10_000)],
  ['BURN.PIN.PLAN', '1 pin', 50, [4, 10]],
  ['BURN.HOLE.PLAN', '1 hole', 50, [0.75, 12]],
  ['BURN.GOUGE.PLAN', '1 gouge', 50, [0.5, 0.5, 24]],
  ['BURN.CUT.PLAN', '1 cut', 50, [1, 24]],
  ['BURN.STUD.PLAN', '1 stud', 50, [1, 8]],
  ['BURN.BREACH.PLAN', '1 breach', 50, [24, 24, 8]],
];

const median = (xs: readonly number[]): number => [...xs].sort((a, b) => a - b)[Math.floor(xs.length / 2)] ?? NaN;
for (const [name, what, asked, args] of CASES) {
  const run = (): readonly [number, number] => {
    const [clock, cpu] = [performance.now(), process.cpuUsage()];
    call(findFunction(name)!, args);
    const used = process.cpuUsage(cpu);
    return [performance.now() - clock, (used.user + used.system) / 1000];
  };
  const first = run();
  const later = Array.from({ length: 7 }, run);
  const [clock, cpu] = [0, 1].map((k) => median(later.map((r) => r[k] ?? NaN))) as [number, number];
  const wanted = Number.isNaN(asked) ? '' : ` (asked: ${asked} ms)`;
  console.log(
    `${name.padEnd(18)} ${what.padEnd(12)} first ${first[0].toFixed(0).padStart(5)} ms, later ${clock.toFixed(1).padStart(7)} ms, of CPU ${cpu.toFixed(1).padStart(7)} ms${wanted}`,
  );
}
