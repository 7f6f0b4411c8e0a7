/** Speeds of single calculations, each the best of a few rounds of one run. */
import { ironEnthalpy } from '../../src/core/burn/iron-heat.ts';
import { normalColumn } from '../../src/core/spread/draws.ts';
import { johnson, johnsonColumn } from '../../src/core/spread/johnson.ts';
import { flowingOxygen } from '../../src/core/oxygen/flowing-gas.ts';
import { oxygenDensity } from '../../src/core/oxygen/oxygen-state.ts';
import { passageFlow, roundPassage } from '../../src/core/oxygen/pipe-flow.ts';

/** Microseconds for each of `n` calls, the best round of four. */
function best(n: number, run: (i: number) => number): number {
  let least = Infinity;
  let sum = 0;
  for (let round = 0; round < 4; round++) {
    const start = performance.now();
    for (let i = 0; i < n; i++) sum += run(i);
    least = Math.min(least, ((performance.now() - start) * 1000) / n);
  }
  if (!Number.isFinite(sum)) throw new Error('a result is not a number');
  return least;
}

const gas = flowingOxygen(294.26, 8e5);
const hose = roundPassage(0.00635, 15);
const factors = Array.from({ length: 32 }, (_, k) => johnson({ low: 1, value: 2 + k / 32, high: 4, min: 0, max: 100 }));

const density = best(60_000, (i) => oxygenDensity(250 + i / 600, 1e5 + (((i * 7919) % 60_000) / 60_000) * 29e6));
console.log(
  `oxygen density                 ${density.toFixed(2)} us, ${(1e6 / density).toFixed(0)} a second (asked: at least 200,000)`,
);
console.log(
  `flow through a passage         ${best(20_000, (i) => passageFlow(hose, 1e6 * (0.95 + i / 4e5), 8e5, gas).flow).toFixed(2)} us`,
);
console.log(`heat content of iron           ${best(200_000, (i) => ironEnthalpy(300 + (i % 2700))).toFixed(3)} us`);
console.log(
  `32 factors drawn 1024 times    ${(
    best(3, (i) =>
      factors.reduce((sum, factor, k) => sum + (johnsonColumn(factor, normalColumn(k, 1024, i))[0] ?? NaN), 0),
    ) / 1000
  ).toFixed(1)} ms`,
);
