/** How often ranges hold that a log vouches for, where the model is wrong on purpose; what a job's chances and worths take. */
import { Assumptions } from '../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../src/core/basis.ts';
import { logScore } from '../../src/core/job/log-score.ts';
import type { LogJob } from '../../src/core/job/log-job.ts';
import { conformalRange } from '../../src/core/spread/conformal.ts';
import { seeded, type Seeded } from '../../src/core/spread/seeded.ts';
import { randomPins, simulateLog } from '../core/job/simulated-log.ts';

const basis = new Basis(Assumptions.defaults());
const LOGS = 40;

/** Jobs of a shop whose gas is poor, whose watch is slow, and a quarter of whose pins take twice as much: none of it in the model. */
function wrong(count: number, random: Seeded): readonly LogJob[] {
  return simulateLog(randomPins(count, random), {}, random, undefined, basis).map((job) => {
    const by = 1.4 * (random.uniform() < 0.25 ? 2 : 1);
    return { ...job, noted: { ...job.noted, oxygen: by * (job.noted.oxygen ?? NaN) } };
  });
}

console.log('low to high of the model, and as the log vouches for: share of next jobs inside (80 % asked)');
for (const count of [9, 20, 50]) {
  let [claimed, vouched, tried] = [0, 0, 0];
  for (let i = 0; i < LOGS; i++) {
    const jobs = wrong(count + 10, seeded(10_000 * count + i));
    // Noted over the middle of each, the score of one job at a time.
    const scores = jobs.map((job) => logScore([job], basis).find(({ channel }) => channel === 'oxygen')!);
    const [low, high] = conformalRange(
      scores.slice(0, count).map(({ bias }) => bias),
      0.8,
    )!;
    for (const { bias, inside } of scores.slice(count)) {
      tried++;
      claimed += inside;
      if (bias >= low && bias <= high) vouched++;
    }
  }
  console.log(
    `after ${String(count).padStart(2)} jobs   claimed ${((100 * claimed) / tried).toFixed(1)} %   vouched for ${((100 * vouched) / tried).toFixed(1)} %`,
  );
}
