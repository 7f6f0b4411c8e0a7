import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['test/**/*.test.ts'],
    exclude: ['test/browser/**'],
    testTimeout: 20_000,
    // On two cores the default is a single worker.
    maxWorkers: Math.max(2, availableParallelism() - 1),
  },
});
