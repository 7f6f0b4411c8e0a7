import { describe, expect, it } from 'vitest';
import { CalcError } from '../../../src/core/errors.ts';
import { bayesUpdate, type BayesLog } from '../../../src/core/job/bayes-update.ts';
import { seeded } from '../../../src/core/spread/seeded.ts';
import { studentQuantile } from '../../../src/core/spread/student.ts';

/** ln y = sum of x_k ln f_k, one channel a row. */
function linear(x: readonly (readonly number[])[]): BayesLog['predict'] {
  return (u, predicted) =>
    x.forEach((row, i) => (predicted[i] = row.reduce((sum, v, k) => sum + v * (u[k] ?? NaN), 0)));
}

const PRIOR = [
  { mean: Math.log(0.25), deviation: 0.2 },
  { mean: Math.log(2), deviation: 0.3 },
];

function log(part: Partial<BayesLog> & Pick<BayesLog, 'observed' | 'predict'>): BayesLog {
  const shared = new Float64Array(part.observed.length);
  return { prior: PRIOR, channels: 1, scatter: [0.15], shared, scatterWorth: Infinity, trust: 0.99, ...part };
}

/** Rows with x = (1, t), t from -1 to 1, at the true logarithms, with noise. */
function rows(n: number, truth: readonly number[], noise: number, seed: number): { x: number[][]; y: Float64Array } {
  const { uniform, normal } = seeded(seed);
  const x = Array.from({ length: n }, () => [1, 2 * uniform() - 1]);
  const y = Float64Array.from(x, (row) => row.reduce((sum, v, k) => sum + v * (truth[k] ?? NaN), 0) + noise * normal());
  return { x, y };
}

const TRUTH = [Math.log(0.3), Math.log(1.6)];

describe('update of factors from a log', () => {
  it('returns the prior where there is no job', () => {
    const fit = bayesUpdate(log({ observed: new Float64Array(0), predict: () => undefined }));
    expect([...fit.mean]).toEqual(PRIOR.map((p) => p.mean));
    expect(Math.sqrt(fit.covariance[0] ?? NaN)).toBeCloseTo(0.2, 14);
    expect(Math.sqrt(fit.covariance[3] ?? NaN)).toBeCloseTo(0.3, 14);
    expect(fit.covariance[1]).toBe(0);
    expect(fit.rows).toEqual([]);
    expect(fit.scatterScale).toBe(1);
    expect(fit.converged).toBe(true);
  });

  it('returns the prior where nothing was noted', () => {
    const fit = bayesUpdate(
      log({
        observed: new Float64Array(3).fill(NaN),
        predict: linear([
          [1, 0],
          [1, 1],
          [0, 1],
        ]),
        scatterWorth: 10,
      }),
    );
    expect([...fit.mean]).toEqual(PRIOR.map((p) => p.mean));
    expect(fit.rows).toEqual(new Array(3).fill({ weight: 1, distance: 0, observations: 0 }));
  });

  it('is the mean of prior and data by their precision for one factor (conjugate normal)', () => {
    // Posterior precision 1/t^2 + n/s^2, mean their weighted mean.
    const y = [0.4, 0.55, 0.3, 0.45];
    const fit = bayesUpdate(
      log({
        prior: [{ mean: 0, deviation: 0.3 }],
        observed: Float64Array.from(y),
        predict: linear(y.map(() => [1])),
        scatter: [0.2],
        trust: 1,
      }),
    );
    const precision = 1 / 0.09 + 4 / 0.04;
    expect(fit.mean[0]).toBeCloseTo((4 * 0.425) / 0.04 / precision, 9);
    expect(fit.covariance[0]).toBeCloseTo(1 / precision, 9);
  });

  it('tends to least squares with many rows', () => {
    const { x, y } = rows(4000, TRUTH, 0.15, 3);
    // Straight line in closed form.
    const t = x.map((r) => r[1] ?? NaN);
    const tm = t.reduce((a, b) => a + b, 0) / t.length;
    const ym = y.reduce((a, b) => a + b, 0) / y.length;
    const slope =
      t.reduce((s, v, i) => s + (v - tm) * ((y[i] ?? NaN) - ym), 0) / t.reduce((s, v) => s + (v - tm) ** 2, 0);
    const fit = bayesUpdate(log({ observed: y, predict: linear(x), trust: 1 }));
    expect(Math.abs((fit.mean[1] ?? NaN) - slope)).toBeLessThan(5e-4);
    expect(Math.abs((fit.mean[0] ?? NaN) - (ym - slope * tm))).toBeLessThan(5e-4);
    const robust = bayesUpdate(log({ observed: y, predict: linear(x) }));
    expect(Math.abs((robust.mean[1] ?? NaN) - slope)).toBeLessThan(2e-3);
  });

  it('does not depend on the order of rows', () => {
    const { x, y } = rows(40, TRUTH, 0.15, 8);
    y[7] = (y[7] ?? NaN) + 2;
    const a = bayesUpdate(log({ observed: y, predict: linear(x), scatterWorth: 5 }));
    const b = bayesUpdate(
      log({ observed: Float64Array.from(y).reverse(), predict: linear([...x].reverse()), scatterWorth: 5 }),
    );
    for (const k of [0, 1]) expect(b.mean[k]).toBeCloseTo(a.mean[k] ?? NaN, 9);
    expect(b.rows[32]?.weight).toBeCloseTo(a.rows[7]?.weight ?? NaN, 7);
  });

  it.each([Infinity, 10])(
    'moves little for one wild row, which gets the lowest weight (scatter worth %d)',
    (scatterWorth) => {
      const { x, y } = rows(30, TRUTH, 0.15, 21);
      const without = Float64Array.from(y);
      without[12] = NaN;
      const clean = bayesUpdate(log({ observed: without, predict: linear(x), scatterWorth }));
      for (const by of [Math.log(3), Math.log(10), -Math.log(100)]) {
        const wild = Float64Array.from(y);
        wild[12] = (wild[12] ?? NaN) + by;
        const fit = bayesUpdate(log({ observed: wild, predict: linear(x), scatterWorth }));
        const trusting = bayesUpdate(log({ observed: wild, predict: linear(x), scatterWorth, trust: 1 }));
        expect(fit.converged).toBe(true);
        const weights = fit.rows.map((r) => r.weight);
        expect(Math.min(...weights)).toBe(weights[12]);
        expect(weights[12]).toBeLessThan(Math.abs(by) > 2 ? 0.05 : 0.4);
        for (const k of [0, 1]) {
          const moved = Math.abs((fit.mean[k] ?? NaN) - (clean.mean[k] ?? NaN));
          expect(moved / Math.sqrt(clean.covariance[3 * k] ?? NaN)).toBeLessThan(0.5);
        }
        const shift = (f: { readonly mean: Float64Array }): number =>
          Math.abs((f.mean[0] ?? NaN) - (clean.mean[0] ?? NaN));
        expect(shift(fit)).toBeLessThan(shift(trusting) / 2);
      }
    },
  );

  it('takes sound rows at full weight', () => {
    const { x, y } = rows(200, TRUTH, 0.15, 5);
    const weights = bayesUpdate(log({ observed: y, predict: linear(x) })).rows.map((r) => r.weight);
    expect(weights.filter((w) => w < 1).length).toBeLessThanOrEqual(8); // 2 expected at a trust of 0.99
    expect(Math.min(...weights)).toBeGreaterThan(0.3);
  });

  it('finds the scatter', () => {
    const { x, y } = rows(2000, TRUTH, 0.3, 6);
    const fit = bayesUpdate(log({ observed: y, predict: linear(x), scatterWorth: 10 }));
    expect(fit.scatterScale).toBeGreaterThan(1.9);
    expect(fit.scatterScale).toBeLessThan(2.1);
    expect(fit.degrees).toBeGreaterThan(1950);
    expect(fit.degrees).toBeLessThan(2010);
  });

  it('ignores a value that was not noted', () => {
    const { x, y } = rows(12, TRUTH, 0.15, 4);
    const part = Float64Array.from(y);
    part[3] = NaN;
    part[9] = NaN;
    const keep = x.map((_, i) => i).filter((i) => i !== 3 && i !== 9);
    const a = bayesUpdate(log({ observed: part, predict: linear(x) }));
    const b = bayesUpdate(
      log({ observed: Float64Array.from(keep, (i) => y[i] ?? NaN), predict: linear(keep.map((i) => x[i] ?? [])) }),
    );
    for (const k of [0, 1]) expect(a.mean[k]).toBeCloseTo(b.mean[k] ?? NaN, 12);
    expect(a.rows[3]).toEqual({ weight: 1, distance: 0, observations: 0 });
  });

  it('ignores a value that the factors cannot predict', () => {
    const { x, y } = rows(12, TRUTH, 0.15, 4);
    const blind: BayesLog['predict'] = (u, predicted) => {
      linear(x)(u, predicted);
      predicted[5] = NaN;
    };
    const fit = bayesUpdate(log({ observed: y, predict: blind }));
    expect(fit.converged).toBe(true);
    expect(fit.rows[5]?.observations).toBe(0);
  });

  it('draws back from factors without a solution', () => {
    // Predictions vanish beyond the bound; the data pull towards it.
    const bounded: BayesLog['predict'] = (u, predicted) =>
      predicted.fill((u[0] ?? NaN) < 0.5 ? Math.log(0.5 - (u[0] ?? NaN)) : NaN);
    const fit = bayesUpdate(
      log({ prior: [{ mean: 0, deviation: 1 }], observed: new Float64Array(6).fill(-4), predict: bounded, trust: 1 }),
    );
    expect(fit.mean[0]).toBeGreaterThan(0.4);
    expect(fit.mean[0]).toBeLessThan(0.5);
    expect(fit.converged).toBe(true);
  });

  it('takes channels with a shared scatter as one job and not as many', () => {
    // Two channels of a job with nothing but the shared scatter tell hardly more than one.
    const n = 10;
    const both: BayesLog['predict'] = (u, predicted) => predicted.fill(u[0] ?? NaN);
    const one = bayesUpdate(
      log({
        prior: [{ mean: 0, deviation: 5 }],
        observed: new Float64Array(n),
        predict: both,
        scatter: [0.01],
        shared: new Float64Array(n).fill(0.2),
      }),
    );
    const two = bayesUpdate(
      log({
        prior: [{ mean: 0, deviation: 5 }],
        observed: new Float64Array(2 * n),
        predict: both,
        channels: 2,
        scatter: [0.01, 0.01],
        shared: new Float64Array(2 * n).fill(0.2),
      }),
    );
    expect(Math.sqrt(two.covariance[0] ?? NaN)).toBeCloseTo(0.2 / Math.sqrt(n), 3);
    expect((two.covariance[0] ?? NaN) / (one.covariance[0] ?? NaN)).toBeGreaterThan(0.99);
  });

  it('takes of a channel that the shared scatter does not move all that it tells', () => {
    const n = 10;
    const both: BayesLog['predict'] = (u, predicted) => predicted.fill(u[0] ?? NaN);
    const fit = bayesUpdate(
      log({
        prior: [{ mean: 0, deviation: 5 }],
        observed: new Float64Array(2 * n),
        predict: both,
        channels: 2,
        scatter: [0.01, 0.1],
        shared: Float64Array.from({ length: 2 * n }, (_, i) => (i % 2 === 0 ? 0.2 : 0)),
      }),
    );
    const precision = 1 / (0.2 ** 2 + 0.01 ** 2) + 1 / 0.1 ** 2;
    expect(fit.covariance[0]).toBeCloseTo(1 / (n * precision + 1 / 5 ** 2), 12);
  });

  it('agrees with integration over a grid where the model is curved', () => {
    // ln y = ln(f1 t + f2), posterior mean and deviation by the midpoint rule on a grid of both logarithms.
    const t = [0.2, 0.5, 1, 1.5, 2, 3, 4, 5, 7, 9];
    const { normal } = seeded(17);
    const y = Float64Array.from(t, (v) => Math.log(0.3 * v + 1.6) + 0.1 * normal());
    const predict: BayesLog['predict'] = (u, predicted) =>
      t.forEach((v, i) => (predicted[i] = Math.log(Math.exp(u[0] ?? NaN) * v + Math.exp(u[1] ?? NaN))));
    const fit = bayesUpdate(log({ observed: y, predict, scatter: [0.1], trust: 1 }));
    const n = 300;
    const sums = [0, 0, 0, 0, 0];
    const p = new Float64Array(t.length);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        const u = [0, 1].map(
          (k) => (PRIOR[k]?.mean ?? NaN) + (PRIOR[k]?.deviation ?? NaN) * 5 * ((2 * ((k ? j : i) + 0.5)) / n - 1),
        );
        predict(Float64Array.from(u), p);
        let cost = 0;
        u.forEach((v, k) => (cost += ((v - (PRIOR[k]?.mean ?? NaN)) / (PRIOR[k]?.deviation ?? NaN)) ** 2));
        y.forEach((v, k) => (cost += ((v - (p[k] ?? NaN)) / 0.1) ** 2));
        const w = Math.exp(-cost / 2);
        [1, u[0] ?? NaN, u[1] ?? NaN, (u[0] ?? NaN) ** 2, (u[1] ?? NaN) ** 2].forEach(
          (v, k) => (sums[k] = (sums[k] ?? NaN) + w * v),
        );
      }
    }
    const at = (k: number): number => (sums[k] ?? NaN) / (sums[0] ?? NaN);
    for (const k of [0, 1]) {
      const deviation = Math.sqrt(at(3 + k) - at(1 + k) ** 2);
      expect(Math.abs((fit.mean[k] ?? NaN) - at(1 + k)) / deviation).toBeLessThan(0.1);
      expect(Math.abs(Math.sqrt(fit.covariance[3 * k] ?? NaN) / deviation - 1)).toBeLessThan(0.05);
    }
  });

  it.each([
    ['known scatter', Infinity, 0.15],
    ['scatter found from 20 jobs', 2, 0.15],
    ['scatter found from 20 jobs, stated at half', 2, 0.3],
  ] as const)(
    'holds the truth in its 80 percent range in 80 percent of 2000 simulated logs: %s',
    (_, scatterWorth, noise) => {
      const logs = 2000;
      const { normal } = seeded(2718);
      let held = 0;
      for (let s = 0; s < logs; s++) {
        const truth = PRIOR.map((p) => p.mean + p.deviation * normal());
        const { x, y } = rows(20, truth, noise, 5000 + s);
        const fit = bayesUpdate(log({ observed: y, predict: linear(x), scatterWorth }));
        const t = studentQuantile(0.9, fit.degrees);
        for (const k of [0, 1])
          if (Math.abs((fit.mean[k] ?? NaN) - (truth[k] ?? NaN)) <= t * Math.sqrt(fit.covariance[3 * k] ?? NaN)) held++;
      }
      // Standard error of the share: 0.6 %.
      expect(Math.abs(held / (2 * logs) - 0.8)).toBeLessThan(0.02);
    },
  );

  it('settles on 1000 rows of three channels and eight factors', () => {
    const { uniform, normal } = seeded(9);
    const prior = Array.from({ length: 8 }, () => ({ mean: 0, deviation: 0.3 }));
    const x = Array.from({ length: 3000 }, () => prior.map(() => uniform()));
    const observed = Float64Array.from(x, (r) => r.reduce((sum, v, k) => sum + v * 0.1 * k, 0) + 0.2 * normal());
    const fit = bayesUpdate(
      log({
        prior,
        observed,
        channels: 3,
        predict: linear(x),
        scatter: [0.15, 0.15, 0.15],
        shared: new Float64Array(observed.length).fill(0.1),
        scatterWorth: 10,
      }),
    );
    expect(fit.converged).toBe(true);
  });

  it.each([
    [{ prior: [] }],
    [{ prior: [{ mean: 0, deviation: 0 }] }],
    [{ scatter: [0] }],
    [{ scatter: [] }],
    [{ scatterWorth: 0 }],
    [{ trust: 0 }],
    [{ trust: 1.1 }],
  ] as const)('refuses %j', (part) => {
    expect(() => bayesUpdate(log({ observed: new Float64Array(1), predict: linear([[1, 0]]), ...part }))).toThrow(
      CalcError,
    );
  });
});
