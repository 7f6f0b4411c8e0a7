import { defineConfig } from 'vitest/config';

/** The checks that open LibreOffice; the program's own Python drives it (Debian: python3-uno). */
export default defineConfig({
  test: {
    root: new URL('../../..', import.meta.url).pathname,
    include: ['test/libreoffice/program/**/*.test.ts'],
    globalSetup: ['test/libreoffice/program/installed.ts'],
    testTimeout: 300_000,
    hookTimeout: 600_000,
    fileParallelism: false,
  },
});
