import { statSync } from 'node:fs';
import path from 'node:path';
import type { Change } from '../../core/assumptions/history.ts';
import { withHostNames } from '../../files/xlsx/host-names.ts';
import { UnreadableFile } from '../../files/xlsx/unreadable.ts';
import { hostFunctions } from '../../sheet/host-functions.ts';
import { LIMITS_TOLD, SECONDS } from '../bounded.ts';
import { EXIT_CODES, faultOfOurs, type Ended, type ExitCode } from '../ended.ts';
import { readOptions, readSeconds } from '../options.ts';
import { printable } from '../printable.ts';
import { readWhole } from '../read-whole.ts';
import { isSameFile, writeWhole } from '../write-file.ts';
import { withHistory } from './history.ts';
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
  --all-formulas  with --write: writes the sheet's own formulas that came out differently too
  --host-names    with --write: functions that another program (LibreOffice) saved under the names you type get the
               names that the spreadsheet host stores, arrays of ours spill; what was renamed is listed
  --history       with --write: adds a row to the sheet Recheck history, which is made where it is not there: date,
               version, fingerprint of the assumptions that BURN.VERSION shows, counts, the first cells that moved
  --seconds N  gives up after N seconds (${SECONDS})

A moved cell says why, as far as the workbook can tell:
  assumption   with the defaults of the version saved in the workbook (BURN.VERSION) the saved value comes out
  version      the calculation itself changed since that version
  input        something the cell reads, or its formula, changed after it was last calculated
  unknown      the workbook does not say its version, so it may be either

A formula that is not calculated here as in the host (a function missing here, hidden rows in SUBTOTAL, days counted
from 1904) keeps its saved value, with the reason; one of ours is counted as kept. An error of the calculation here
never takes the place of a saved value.

Numbers are the same within one part in a thousand million. Cells of BURN.VERSION alone are not counted.
Macros are never run, links never followed, and the source is never changed without --force.
${LIMITS_TOLD}
${EXIT_CODES}
The figures are estimates; they do not say that a job is safe.`;

export interface Asked {
  readonly file: string;
  readonly json: boolean;
  readonly all: boolean;
  readonly allFormulas: boolean;
  readonly asOf: string | undefined;
  readonly write: string | undefined;
  readonly force: boolean;
  readonly hostNames: boolean;
  readonly keepHistory: boolean;
  readonly seconds: number;
}

const OURS: ReadonlySet<string> = new Set(hostFunctions.map(({ name }) => name));

const OPTIONS = {
  help: { type: 'boolean', short: 'h', default: false },
  json: { type: 'boolean', default: false },
  all: { type: 'boolean', default: false },
  'as-of': { type: 'string' },
  write: { type: 'string' },
  force: { type: 'boolean', default: false },
  'all-formulas': { type: 'boolean', default: false },
  'host-names': { type: 'boolean', default: false },
  history: { type: 'boolean', default: false },
  seconds: { type: 'string', default: String(SECONDS) },
} as const;

/** Reads the arguments; the end of the command where they ask for no recheck. */
export function readArguments(args: readonly string[]): Asked | Ended {
  const read = readOptions(args, OPTIONS);
  if ('wrong' in read) return wrongUse(read.wrong);
  const { values, positionals } = read;
  if (values.help) return { code: 0, out: RECHECK_USAGE, err: '' };
  const seconds = readSeconds(values.seconds);
  if (seconds === undefined) return wrongUse('--seconds needs a number of seconds, up to 86,400.');
  const [file] = positionals;
  if (file === undefined) return wrongUse('No workbook given.');
  if (values['host-names'] && values.write === undefined) return wrongUse('--host-names needs --write.');
  if (values.history && values.write === undefined) return wrongUse('--history needs --write.');
  if (positionals.length > 1) return wrongUse(`One workbook at a time; ${positionals.length} were given.`);
  return {
    file,
    json: values.json,
    all: values.all,
    allFormulas: values['all-formulas'],
    asOf: values['as-of'],
    write: values.write,
    force: values.force,
    hostNames: values['host-names'],
    keepHistory: values.history,
    seconds,
  };
}

function wrongUse(why: string): Ended {
  return { code: 2, out: '', err: `${why}\n\n${RECHECK_USAGE}` };
}

/** Reads, recalculates, reports and writes, as asked. `history` is the registry's own unless a test gives another. */
export async function recheckFile(asked: Asked, history?: readonly Change[], now = new Date()): Promise<Ended> {
  const { file, write, force, json, all, allFormulas, asOf, hostNames, keepHistory } = asked;
  try {
    const refused = write === undefined ? undefined : whyNotWritten(file, write, force);
    if (refused !== undefined) return failed(refused);
    const read = readWhole(file);
    const { file: workbook, renamed } = hostNames
      ? withHostNames(read, (name) => OURS.has(name))
      : { file: read, renamed: undefined };
    const result = await recheck(workbook, { asOf, ...(history ? { history } : {}) });
    const report = json
      ? reportJson(path.basename(file), result, renamed)
      : reportLines(path.basename(file), result, { all, allFormulas, renamed }).join('\n');
    if (write === undefined) return { code: codeOf(result), out: report, err: '' };
    const written = refreshed(result, allFormulas);
    writeWhole(write, keepHistory ? withHistory(written, result, now) : written, force);
    return { code: codeOf(result), out: json ? report : `${report}\n${printable(`written: ${write}`)}`, err: '' };
  } catch (thrown) {
    if (thrown instanceof UnreadableFile) return failed(`${file}: ${thrown.message}`);
    if (isOfFileSystem(thrown)) return failed(`${thrown.path ?? write ?? file}: ${thrown.message}`);
    return faultOfOurs(thrown, `${file}: `);
  }
}

const failed = (why: string): Ended => ({ code: 2, out: '', err: printable(why) });

function codeOf(result: Recheck): ExitCode {
  if (countOf(result, 'broken') > 0) return 3;
  return countOf(result, 'moved') > 0 || countOf(result, 'kept') > 0 ? 1 : 0;
}

function whyNotWritten(file: string, write: string, force: boolean): string | undefined {
  const extension = path.extname(file).toLowerCase();
  if (extension === '.ods') return `${write}: an .ods is only read; LibreOffice itself calculates and saves it`;
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
