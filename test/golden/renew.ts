/**
 * Writes the kept results and the digests of the version anew: `npm run golden`; with `words` only what is said around the
 * results. Refused where results or registers changed and the version did not. A result within rounding stays as it is.
 */
import { writeFileSync } from 'node:fs';
import { CALCULATION_VERSION } from '../../src/core/version.ts';
import { CALLS } from './calls.ts';
import { calculate, differences, FILE, readGolden, write, type Golden, type Table } from './golden.ts';
import {
  changed,
  keptVersion,
  mayRenew,
  readKeptVersion,
  registers,
  VERSION_FILE,
  versionFault,
} from './version-guard.ts';

const onlyWords = process.argv.includes('words');
const before = readGolden();
const found = await calculate(CALLS);
const kept = readKeptVersion();

/** The tables of today, each as it was kept where it differs by rounding only. */
function renewed(group: keyof Golden): Readonly<Record<string, Table>> {
  const changes: string[] = [];
  const tables = Object.entries(found[group]).map(([formula, rows]) => {
    const was = before[group][formula] ?? [];
    if (differences(formula, was, rows).length === 0 && was.length === rows.length) return [formula, was] as const;
    changes.push(formula);
    return [formula, rows] as const;
  });
  console.log(`${group}: ${changes.length} of ${tables.length} calls changed`);
  for (const formula of changes.slice(0, 20)) console.log(`  ${formula}`);
  return Object.fromEntries(tables);
}

const day = new Date().toISOString().slice(0, 10).replaceAll('-', '.');
const changes = changed(kept, registers, before, found);
if (onlyWords || mayRenew(CALCULATION_VERSION, kept, changes, day)) {
  const after: Golden = { results: onlyWords ? before.results : renewed('results'), words: renewed('words') };
  writeFileSync(FILE, write(after));
  if (!onlyWords)
    writeFileSync(VERSION_FILE, `${JSON.stringify(keptVersion(CALCULATION_VERSION, registers, after), null, 2)}\n`);
} else {
  console.error(`${versionFault(CALCULATION_VERSION, kept, changes) ?? ''}\n\nNothing was written.`);
  process.exitCode = 1;
}
