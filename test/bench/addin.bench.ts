/**
 * The add-in's calls as the host makes them: how long the page answers nothing while 100,000 pins are planned beside
 * 50 short calls, and what a whole column as `assume` costs beside a bounded range.
 */
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { hostCall } from '../../src/addin/associate.ts';
import { hostFunction } from '../../src/sheet/as-host-function.ts';

class HostError extends Error {
  constructor(
    readonly code: string,
    message: string,
  ) {
    super(message);
  }
}
Object.assign(globalThis, {
  CustomFunctions: { Error: HostError, ErrorCode: { notAvailable: '#N/A', invalidValue: '#VALUE!' } },
});
const callable = (name: string): ((...values: unknown[]) => unknown) => hostCall(hostFunction(findFunction(name)!));
const line = (what: string, figure: string): void => console.log(`${what.padEnd(60)} ${figure}`);
const median = (xs: readonly number[]): number => [...xs].sort((a, b) => a - b)[xs.length >> 1] ?? NaN;

/** Milliseconds between two turns of the page, the longest, while work goes on. */
async function longestSilence(work: () => Promise<unknown>): Promise<number> {
  let longest = 0;
  let last = performance.now();
  let on = true;
  const turn = (): void => {
    const now = performance.now();
    longest = Math.max(longest, now - last);
    last = now;
    if (on) setTimeout(turn, 0);
  };
  setTimeout(turn, 0);
  await work();
  on = false;
  return longest;
}

async function plan(rows: number): Promise<void> {
  const pins = Array.from({ length: rows }, (_, i) => [2 + i * 0.00004]);
  const start = performance.now();
  let short = 0;
  const longest = await longestSilence(async () => {
    // Its result is larger than the host takes, so the call ends in an error that says so.
    const long = Promise.resolve()
      .then(() => callable('BURN.PIN.PLAN')(pins, [[10]], null, null, null, null))
      .catch((e: unknown) => (e as Error).message);
    await Promise.all(Array.from({ length: 50 }, (_, i) => callable('BURN.PIN.RODS')([[3 + i / 50]], [[10]])));
    short = performance.now() - start;
    const said = await long;
    if (rows > 10_000 && typeof said !== 'string') throw new Error('the plan was not refused');
  });
  line(`a plan of ${rows} pins: whole`, `${((performance.now() - start) / 1000).toFixed(1)} s`);
  line('  50 short calls beside it', `${short.toFixed(0)} ms`);
  line('  longest time in which the page answered nothing', `${longest.toFixed(0)} ms`);
}

async function wholeColumn(): Promise<void> {
  const assume = [
    ['name', 'value', 'low', 'high', 'unit'],
    ['stub', 4, null, null, 'in'],
  ];
  const whole = [...assume, ...Array.from({ length: 1_048_574 }, () => [null, null, null, null, null])];
  const oxygen = callable('BURN.PIN.OXYGEN');
  const timed = async (range: unknown): Promise<number> => {
    const times: number[] = [];
    for (let i = 0; i < 21; i++) {
      // In a turn of its own, as each request of the host is.
      await new Promise((resolve) => setTimeout(resolve, 0));
      const start = performance.now();
      await oxygen([[4]], [[10]], null, null, null, range);
      times.push(performance.now() - start);
    }
    return median(times);
  };
  await timed(assume);
  const [bounded, open] = [await timed(assume), await timed(whole)];
  line('a cell with assumptions in a bounded range', `${bounded.toFixed(2)} ms`);
  line('a cell with whole columns, A:E', `${open.toFixed(2)} ms, ${(open - bounded).toFixed(2)} ms more`);
}

async function run(): Promise<void> {
  await wholeColumn();
  await plan(8000);
  await plan(100_000);
}

void run();
