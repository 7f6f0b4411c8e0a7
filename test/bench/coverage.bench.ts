/** Coverage of 80 % ranges of new pins after a fit to 12 jobs, with the correlations of the fit and without, and before any fit. */
import { Assumptions } from '../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../src/core/basis.ts';
import { FIGURES, basisAfter, coverage } from '../core/job/coverage.ts';

const [LOGS, JOBS, FRESH] = [Number(process.env.LOGS ?? 300), Number(process.env.JOBS ?? 12), 4];
const SEED = 20_000;

const found = coverage({ logs: LOGS, jobs: JOBS, fresh: FRESH, seed: SEED }, new Basis(Assumptions.defaults()), {
  'before the fit': (_, basis) => basis,
  'without correlations': (fit) => basisAfter(fit, false),
  'with correlations': (fit) => basisAfter(fit),
});
console.log(
  `${LOGS} logs of ${JOBS} pins, ${FRESH} new pins each: share inside low to high, 80 % asked; mean ln(high/low)`,
);
for (const [name, each] of found) {
  const words = FIGURES.map((figure) => {
    const { share, error, width } = each[figure];
    return `${figure} ${(100 * share).toFixed(1)} ± ${(100 * error).toFixed(1)} % (${width.toFixed(2)})`;
  });
  console.log(`${name.padEnd(21)} ${words.join('   ')}`);
}
