import { defineConfig } from 'vitest/config';
import { testsOf } from './tests.mjs';

const root = new URL('../..', import.meta.url).pathname;

export default defineConfig({ test: { root, include: testsOf(root), testTimeout: 60_000 } });
