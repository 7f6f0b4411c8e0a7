/** Speed of cooling times, one and a list of a thousand, and of a grip after burning. */
import { coolingTime, type CoolingTime } from '../../src/core/heat/cooling-time.ts';
import { assumed, INCH, passesOf, PHYSICS } from '../core/heat/physics.ts';
import { gripOf } from '../core/fit/physics.ts';

const LIST = Array.from({ length: 1000 }, (_, i): CoolingTime => {
  const diameter = (1 + (i % 23) * 0.35) * INCH;
  const hole = diameter * (0.4 + 0.02 * (i % 17));
  const pin = { diameter, hole, boss: assumed('boss over pin') * diameter, length: diameter * (1.5 + (i % 7) * 0.6) };
  const method = i % 2 ? 'water' : 'air';
  const target = assumed(method === 'air' ? 'cooling target in air' : 'cooling target with water');
  return { ...pin, method, target, passes: passesOf(pin, 60 + (200 * hole) / INCH) };
});

/** Milliseconds of each call, rising. */
function timed<T>(items: readonly T[], run: (item: T) => void): readonly number[] {
  return items.map((item) => {
    const start = performance.now();
    run(item);
    return performance.now() - start;
  }).sort((a, b) => a - b);
}

timed(LIST.slice(0, 50), (row) => coolingTime(row, PHYSICS));
const each = timed(LIST, (row) => coolingTime(row, PHYSICS));
const median = (list: readonly number[]): string => (list[list.length >> 1] ?? NaN).toFixed(2);
console.log(`cooling time                   median ${median(each)} ms (asked: below 5)`);
console.log(`list of 1000 cooling times     ${(each.reduce((sum, ms) => sum + ms, 0) / 1000).toFixed(2)} s (asked: below 5)`);
console.log(`grip after burning             median ${median(timed(Array.from({ length: 40 }), () => gripOf({ tons: 60 })))} ms (asked: below 50)`);
