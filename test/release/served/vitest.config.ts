import { defineConfig } from 'vitest/config';

/** Releases made, served by a plain web server, and installed; the browser is Chromium (CHROMIUM), the other program LibreOffice. */
export default defineConfig({
  test: {
    root: new URL('../../..', import.meta.url).pathname,
    include: ['test/release/served/**/*.test.ts'],
    globalSetup: ['test/release/served/made.ts'],
    testTimeout: 300_000,
    hookTimeout: 600_000,
    expect: { poll: { timeout: 60_000 } },
    fileParallelism: false,
  },
});
