/** `npm run hostile -- --seed 1 --times 500`: the large run; prints its table and, after it, every fault. */
import { parseArgs } from 'node:util';
import { hostileRun, tableLine } from './hostile-run.ts';

const { values } = parseArgs({
  options: { seed: { type: 'string', default: '1' }, times: { type: 'string', default: '500' } },
});
console.log('| what | tried | what happened | faults | longest, s |\n|---|---|---|---|---|');
const all = await hostileRun(Number(values.seed), Number(values.times), (tried) => console.log(tableLine(tried)));
const faults = all.flatMap((tried) => tried.faults);
for (const fault of faults) console.log(`\n${fault}`);
process.exitCode = faults.length > 0 ? 1 : 0;
