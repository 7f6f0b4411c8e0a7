import { readFileSync, statSync } from 'node:fs';
import path from 'node:path';
import type { Change } from '../../core/assumptions/history.ts';
import { LIMITS } from '../../files/xlsx/limits.ts';
import { UnreadableFile } from '../../files/xlsx/unreadable.ts';
import { isSameFile, writeWhole } from '../write-file.ts';
import { recheck, type Recheck } from './recheck.ts';
import { refreshed } from './refresh.ts';
import { countOf, reportJson, reportLines } from './report.ts';

export const RECHECK_USAGE = `Recalculates a saved workbook with this version and compares every cell of ours.

  npm run --silent recheck -- [--json] [--all] [--as-of DATE] [--write OUT [--force]] JOB.xlsx

  --json       one object with every cell, for programs
  --all        every line; otherwise the first 40 of each kind
  --as-of      the defaults in force at a date or in a version (2026-11-25 or 2026.11.25);
               formulas are always those of today, and what changed in them since is told
  --write OUT  writes the workbook with the new results as its saved values; all else keeps its bytes
  --force      lets --write take the place of a file that is there, even of JOB.xlsx
  --seconds N  gives up after N seconds (120)

A moved cell says why, as far as the workbook can tell:
  assumption   with the defaults of the version saved in the workbook (BURN.VERSION) the saved value comes out
  version      the calculation itself changed since that version
  input        something the cell reads, or its formula, changed after it was last calculated
  unknown      the workbook does not say its version, so it may be either

Numbers are the same within one part in a thousand million. Cells of BURN.VERSION alone are not counted.
Exit code: 0 all the same, 1 some moved, 2 wrong use or a file that cannot be read or written, 3 some broken,
4 a fault of ours. Macros are never run, links never followed, and the source is never changed without --force.
The figures are estimates; they do not say that a job is safe.`;

export type RecheckExit = 0 | 1 | 2 | 3 | 4;

/** What came of the command: the texts it prints and its exit code. */
export interface Ended {
  readonly code: RecheckExit;
  readonly out: string;
  readonly err: string;
}

export interface Asked {
  readonly file: string;
  readonly json: boolean;
  readonly all: boolean;
  readonly asOf: string | undefined;
  readonly write: string | undefined;
  readonly force: boolean;
  readonly seconds: number;
}

const SECONDS = 120;

/** Reads the arguments; the end of the command where they ask for no recheck. */
export function readArguments(args: readonly string[]): Asked | Ended {
  const files: string[] = [];
  let json = false;
  let all = false;
  let force = false;
  let asOf: string | undefined;
  let write: string | undefined;
  let seconds = SECONDS;
  const left = [...args];
  const valueOf = (arg: string, name: string): string | undefined =>
    (arg === name ? left.shift() : arg.slice(name.length + 1)) || undefined;
  const is = (arg: string, name: string): boolean => arg === name || arg.startsWith(`${name}=`);
  for (let arg = left.shift(); arg !== undefined; arg = left.shift()) {
    if (arg === '--help' || arg === '-h') return { code: 0, out: RECHECK_USAGE, err: '' };
    if (arg === '--') files.push(...left.splice(0));
    else if (arg === '--json') json = true;
    else if (arg === '--all') all = true;
    else if (arg === '--force') force = true;
    else if (is(arg, '--as-of')) {
      asOf = valueOf(arg, '--as-of');
      if (asOf === undefined) return wrongUse('--as-of needs a date or a version.');
    } else if (is(arg, '--write')) {
      write = valueOf(arg, '--write');
      if (write === undefined) return wrongUse('--write needs the name of a file.');
    } else if (is(arg, '--seconds')) {
      seconds = Number(valueOf(arg, '--seconds'));
      if (!(seconds > 0 && seconds <= 86_400)) return wrongUse('--seconds needs a number of seconds.');
    } else if (arg.startsWith('--')) return wrongUse(`There is no option ${arg}.`);
    else files.push(arg);
  }
  const [file] = files;
  if (file === undefined) return wrongUse('No workbook given.');
  if (files.length > 1) return wrongUse(`One workbook at a time; ${files.length} were given.`);
  return { file, json, all, asOf, write, force, seconds };
}

function wrongUse(why: string): Ended {
  return { code: 2, out: '', err: `${why}\n\n${RECHECK_USAGE}` };
}

/** Reads, recalculates, reports and writes, as asked. `history` is the registry's own unless a test gives another. */
export async function recheckFile(asked: Asked, history?: readonly Change[]): Promise<Ended> {
  const { file, write, force, json, all, asOf } = asked;
  try {
    const refused = write === undefined ? undefined : whyNotWritten(file, write, force);
    if (refused !== undefined) return failed(refused);
    const result = await recheck(readWhole(file), { asOf, ...(history ? { history } : {}) });
    const report = json
      ? reportJson(path.basename(file), result)
      : reportLines(path.basename(file), result, all).join('\n');
    if (write === undefined) return { code: codeOf(result), out: report, err: '' };
    writeWhole(write, refreshed(result), force);
    return { code: codeOf(result), out: json ? report : `${report}\nwritten: ${write}`, err: '' };
  } catch (thrown) {
    if (thrown instanceof UnreadableFile) return failed(`${file}: ${thrown.message}`);
    if (isOfFileSystem(thrown)) return failed(`${thrown.path ?? write ?? file}: ${thrown.message}`);
    return {
      code: 4,
      out: '',
      err: `${file}: a fault of ours; please report it\n${thrown instanceof Error ? (thrown.stack ?? thrown.message) : String(thrown)}`,
    };
  }
}

const failed = (why: string): Ended => ({ code: 2, out: '', err: why });

function codeOf(result: Recheck): RecheckExit {
  return countOf(result, 'broken') > 0 ? 3 : countOf(result, 'moved') > 0 ? 1 : 0;
}

function readWhole(file: string): Uint8Array {
  const { size } = statSync(file);
  if (size > LIMITS.file)
    throw new UnreadableFile(`it has ${Math.ceil(size / 1e6)} MB; at most ${LIMITS.file / 1e6} MB are taken`);
  return readFileSync(file);
}

function whyNotWritten(file: string, write: string, force: boolean): string | undefined {
  const extension = path.extname(file).toLowerCase();
  if (path.extname(write).toLowerCase() !== extension) return `${write}: must end in ${extension}, as ${file} does`;
  if (force) return undefined;
  if (isSameFile(file, write)) return `${write}: is the workbook itself; --force lets it be replaced`;
  return statSync(write, { throwIfNoEntry: false })
    ? `${write}: is there already; --force lets it be replaced`
    : undefined;
}

function isOfFileSystem(thrown: unknown): thrown is NodeJS.ErrnoException {
  return thrown instanceof Error && typeof (thrown as NodeJS.ErrnoException).syscall === 'string';
}
