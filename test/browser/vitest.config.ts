import { defineConfig } from 'vitest/config';

/** The checks that need a browser; the path of Chromium can be given as CHROMIUM. */
export default defineConfig({
  test: {
    root: new URL('../..', import.meta.url).pathname,
    include: ['test/browser/**/*.test.ts'],
    globalSetup: ['test/browser/built.ts'],
    testTimeout: 300_000,
    hookTimeout: 600_000,
    // Sheets recalculate in the page, on machines that do other things too.
    expect: { poll: { timeout: 60_000 } },
    fileParallelism: false,
  },
});
