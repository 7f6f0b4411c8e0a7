/** Runs the benchmarks, `npm run bench [-- name]`: each test/bench/*.bench.ts is bundled and run by itself, so that none warms another. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import path from 'node:path';
import esbuild from 'esbuild';

const HERE = import.meta.dirname;
const wanted = process.argv[2] ?? '';
const out = mkdtempSync(path.join(HERE, '../../node_modules/.cache-bench-'));
let failed = 0;
try {
  for (const file of readdirSync(HERE)
    .filter((name) => name.endsWith('.bench.ts') && name.includes(wanted))
    .sort()) {
    const outfile = path.join(out, file.replace(/\.ts$/, '.cjs'));
    await esbuild.build({
      entryPoints: [path.join(HERE, file)],
      bundle: true,
      platform: 'node',
      format: 'cjs',
      target: 'node20',
      outfile,
      // It finds its own parts beside it.
      external: ['playwright-core'],
      logLevel: 'error',
      jsx: 'automatic',
      jsxImportSource: 'preact',
    });
    console.log(`\n${file}`);
    failed += spawnSync(process.execPath, ['--expose-gc', outfile], { stdio: 'inherit' }).status === 0 ? 0 : 1;
  }
} finally {
  rmSync(out, { recursive: true, force: true });
}
process.exitCode = failed;
