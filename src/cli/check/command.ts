import path from 'node:path';
import { UnreadableFile } from '../../files/xlsx/unreadable.ts';
import { LIMITS_TOLD, SECONDS } from '../bounded.ts';
import { EXIT_CODES, faultOfOurs, type Ended } from '../ended.ts';
import { readOptions, readSeconds } from '../options.ts';
import { printable } from '../printable.ts';
import { readWhole } from '../read-whole.ts';
import { checkFile } from './check-file.ts';
import { checkJson, checkLines } from './report.ts';

export const CHECK_USAGE = `Looks through a saved workbook for what is wrong round the cells of ours, and changes nothing.

  npm run --silent check -- [--json] [--all] JOB.xlsx

  --json       one object, for programs
  --all        every line; otherwise the first 40 of each kind
  --seconds N  gives up after N seconds (${SECONDS})

It tells every formula with BURN functions, a filled column as one; then what it found, each with its cell:
  error                       and the reason
  formula as text             typed with an apostrophe, or into a cell for texts
  typed over                  a value among formulas
  formula missing             a row of a filled column that has its sizes and no formula
  differs from its neighbours another formula, or another cell or constant in it
  range stops short, range starts late
                              of a list, a column of sizes, assumptions or a sum
  rows do not match           columns of one formula that begin in different rows
  wrong column                a size from under the heading of another
  range slides                a range that should stay where it is, without its $
  mixed assumptions           formulas of one list that go by different assumptions
  moved                       a saved value that comes out otherwise now, and why, as far as can be told
  older version               BURN.VERSION shows another version
  other assumptions           BURN.VERSION shows the fingerprint of other assumptions than are there now
and the cautions of all its work, each once, with the cells it is for; those alone are no finding.

Formulas that have nothing to do with ours are not looked at. Macros are never run, links never followed.
${LIMITS_TOLD}
${EXIT_CODES}
The figures are estimates; they do not say that a job is safe.`;

/** A check that is asked for. */
export interface AskedOfCheck {
  readonly file: string;
  readonly json: boolean;
  readonly all: boolean;
  readonly seconds: number;
}

const OPTIONS = {
  help: { type: 'boolean', short: 'h', default: false },
  json: { type: 'boolean', default: false },
  all: { type: 'boolean', default: false },
  seconds: { type: 'string', default: String(SECONDS) },
} as const;

/** Reads the arguments; the end of the command where they ask for no check. */
export function readCheck(args: readonly string[]): AskedOfCheck | Ended {
  const wrongUse = (why: string): Ended => ({ code: 2, out: '', err: `${why}\n\n${CHECK_USAGE}` });
  const read = readOptions(args, OPTIONS);
  if ('wrong' in read) return wrongUse(read.wrong);
  const { values, positionals } = read;
  if (values.help) return { code: 0, out: CHECK_USAGE, err: '' };
  const seconds = readSeconds(values.seconds);
  if (seconds === undefined) return wrongUse('--seconds needs a number of seconds, up to 86,400.');
  const [file] = positionals;
  if (file === undefined) return wrongUse('No workbook given.');
  if (positionals.length > 1) return wrongUse(`One workbook at a time; ${positionals.length} were given.`);
  return { file, json: values.json, all: values.all, seconds };
}

/** Reads, looks and reports. */
export async function runCheck({ file, json, all }: AskedOfCheck): Promise<Ended> {
  const failed = (why: string): Ended => ({ code: 2, out: '', err: printable(why) });
  try {
    const checked = await checkFile(readWhole(file));
    const name = path.basename(file);
    const out = json ? checkJson(name, checked) : checkLines(name, checked, all).join('\n');
    return { code: checked.check.findings.length > 0 ? 1 : 0, out, err: '' };
  } catch (thrown) {
    if (thrown instanceof UnreadableFile) return failed(`${file}: ${thrown.message}`);
    const { syscall, message, path: at } = thrown as NodeJS.ErrnoException;
    return syscall === undefined ? faultOfOurs(thrown, `${file}: `) : failed(`${at ?? file}: ${message}`);
  }
}
