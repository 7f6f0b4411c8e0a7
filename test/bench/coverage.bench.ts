/**
 * Coverage of 80 % ranges of new pins: before and after a fit to 12 jobs, with the correlations of the fit and without, and with the
 * ranges that the log vouches for. Then the same where every job takes 1.4 times what it should, and one of four twice that.
 */
import { Assumptions } from '../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../src/core/basis.ts';
import type { Seeded } from '../../src/core/spread/seeded.ts';
import { FIGURES, basisAfter, basisVouched, coverage } from '../core/job/coverage.ts';

const [LOGS, JOBS, FRESH] = [Number(process.env.LOGS ?? 300), Number(process.env.JOBS ?? 12), 4];
const SEED = 20_000;
const basis = new Basis(Assumptions.defaults());

function print(what: string, found: ReturnType<typeof coverage>): void {
  console.log(
    `${LOGS} logs of ${JOBS} pins, ${FRESH} new pins each, ${what}: share inside low to high, 80 % asked; mean ln(high/low)`,
  );
  for (const [name, each] of found) {
    const words = FIGURES.map((figure) => {
      const { share, error, width } = each[figure];
      return `${figure} ${(100 * share).toFixed(1)} ± ${(100 * error).toFixed(1)} % (${width.toFixed(2)})`;
    });
    console.log(`${name.padEnd(28)} ${words.join('   ')}`);
  }
}

const logs = { logs: LOGS, jobs: JOBS, fresh: FRESH, seed: SEED };
const vouched: Parameters<typeof coverage>[2] = {
  'ranges of the log': (_, given, jobs) => basisVouched(jobs, given),
  'fit, ranges of the same log': (fit, _, jobs) => basisVouched(jobs, basisAfter(fit())),
};
print(
  'as the model has it',
  coverage(logs, basis, {
    'before the fit': (_, given) => given,
    'without correlations': (fit) => basisAfter(fit(), false),
    'with correlations': (fit) => basisAfter(fit()),
    ...vouched,
  }),
);
print(
  'a wrong model',
  coverage(
    logs,
    basis,
    { 'before the fit': (_, given) => given, 'after the fit': (fit) => basisAfter(fit()), ...vouched },
    ({ uniform }: Seeded) => 1.4 * (uniform() < 0.25 ? 2 : 1),
  ),
);
