/**
 * `npm run mutate [-- folder...]`: puts small faults into the formulas of folders of src/core, one at a time, and runs the tests of
 * the folder against each; `oxygen/pipe-flow` is one file. A fault that no test notices survives, and is printed with its place; what it says of a formula is to
 * be looked at. Without a folder all that hold formulas are done, which takes long. The reports are in .cache/mutation.
 *
 *   --constants   puts faults into constants too, which takes all tests of the folder for each
 *   --vitest      runs the tests through the test tool itself, slowly; for a check of the quick runner
 */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';

const ROOT = path.resolve(import.meta.dirname, '../..');
const FORMULAS = ['burn', 'units', 'oxygen', 'safety', 'operations', 'fit', 'heat', 'spread', 'job'];
const { values, positionals } = parseArgs({
  options: { vitest: { type: 'boolean' }, constants: { type: 'boolean' } },
  allowPositionals: true,
});
const totals = [];

for (const wanted of positionals.length > 0 ? positionals : FORMULAS) {
  const [folder, file] = wanted.split('/');
  const env = {
    ...process.env,
    MUTATE: folder,
    ...(file ? { MUTATE_FILE: file } : {}),
    ...(values.constants ? { MUTATE_STATIC: '1' } : {}),
    ...(values.vitest ? { MUTATE_RUNNER: 'vitest' } : {}),
  };
  const { status } = spawnSync(
    process.execPath,
    [path.join(ROOT, 'node_modules/@stryker-mutator/core/bin/stryker.js'), 'run', '.stryker.config.mjs'],
    { cwd: ROOT, stdio: 'inherit', env },
  );
  if (status !== 0) process.exitCode = 1;
  else report(folder, wanted);
}
console.log('\nfolder                    faults  killed  timed out  survived  not reached  score');
for (const { folder, all, killed, timeout, survived, unreached } of totals) {
  console.log(
    `${folder.padEnd(25)}${cell(all, 7)}${cell(killed, 8)}${cell(timeout, 11)}${cell(survived, 10)}${cell(unreached, 13)}${cell(`${((100 * (killed + timeout)) / all).toFixed(0)}%`, 7)}`,
  );
}

function cell(value, width) {
  return String(value).padStart(width);
}

/** Survivors with their place, what stood there and what was put in its stead. */
function report(folder, wanted) {
  const { files } = JSON.parse(readFileSync(path.join(ROOT, `.cache/mutation/${folder}.json`), 'utf8'));
  const mutants = Object.entries(files).flatMap(([file, { mutants: of, source }]) =>
    of.map((mutant) => ({ ...mutant, file, lines: source.split('\n') })),
  );
  const counted = (status) => mutants.filter((mutant) => mutant.status === status);
  for (const { file, location, replacement, lines, status } of mutants.filter((mutant) =>
    ['Survived', 'NoCoverage'].includes(mutant.status),
  )) {
    console.log(
      `${file}:${location.start.line}: ${status === 'Survived' ? '' : 'not reached: '}${was(lines, location)}  ->  ${short(replacement)}`,
    );
  }
  const [killed, timeout, survived, unreached] = ['Killed', 'Timeout', 'Survived', 'NoCoverage'].map(
    (status) => counted(status).length,
  );
  totals.push({ folder: wanted, all: killed + timeout + survived + unreached, killed, timeout, survived, unreached });
}

function was(lines, { start, end }) {
  return short(
    start.line === end.line
      ? lines[start.line - 1].slice(start.column - 1, end.column - 1)
      : `${lines[start.line - 1].slice(start.column - 1)} ...`,
  );
}

function short(text) {
  const line = text.replace(/\s+/g, ' ');
  return line.length > 90 ? `${line.slice(0, 87)}...` : line;
}
