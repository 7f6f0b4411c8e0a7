import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['test/**/*.test.ts'],
    exclude: ['test/browser/**', 'test/libreoffice/program/**', 'test/release/served/**'],
    // Files share what they import: read and compiled once a worker, not once a file. What is kept between calls must not change a result anyway.
    isolate: false,
    // Against tests that never end; how long one takes is for the benchmarks, and a busy machine takes several times as long.
    testTimeout: 300_000,
    hookTimeout: 300_000,
    // On two cores the default is a single worker.
    maxWorkers: Math.max(2, availableParallelism() - 1),
  },
});
