import { counted } from '../../core/units/counted.ts';
import { readFileSync, statSync } from 'node:fs';
import path from 'node:path';
import { asInTheHost } from '../../engine/as-in-the-host.ts';
import { calculateWorkbook, functionNames } from '../../engine/headless.ts';
import { describeWorkbook } from '../../files/xlsx/describe-workbook.ts';
import { readWorkbook } from '../../files/xlsx/read-workbook.ts';
import { LIMITS } from '../../files/xlsx/limits.ts';
import { newWorkbook } from '../../files/xlsx/new-workbook.ts';
import { UnreadableFile } from '../../files/xlsx/unreadable.ts';
import { plainWorkbook } from '../../plain/plain-workbook.ts';
import { hostFunctions } from '../../sheet/host-functions.ts';
import { LIMITS_TOLD, SECONDS } from '../bounded.ts';
import { EXIT_CODES, faultOfOurs, type Ended } from '../ended.ts';
import { readOptions, readSeconds } from '../options.ts';
import { printable } from '../printable.ts';
import { writeWhole } from '../write-file.ts';

export const PLAIN_USAGE = `Writes a copy of a workbook that needs no function of Rodsheet, for whoever checks or recalculates it without.

  npm run --silent plain -- [--force] [--seconds N] JOB.xlsx COPY.xlsx

  --force      lets the copy take the place of a file that is there
  --seconds N  gives up after so long; ${SECONDS} by default

Each cell with a function of Rodsheet reads its value from a sheet Working, where every step of it is an ordinary
formula of the steps before it and of the cells it was given. What was found by iteration, drawn, or read from a text
stands there as a number in italics: it does not move with the rest.
${LIMITS_TOLD}
${EXIT_CODES}
The figures are estimates; they do not say that a job is safe.`;

const OPTIONS = {
  help: { type: 'boolean', short: 'h', default: false },
  force: { type: 'boolean', default: false },
  seconds: { type: 'string', default: String(SECONDS) },
} as const;

/** A copy that is asked for. */
export interface AskedOfPlain {
  readonly file: string;
  readonly copy: string;
  readonly force: boolean;
  readonly seconds: number;
}

/** Reads the arguments; the end of the command where they ask for no copy. */
export function readPlain(args: readonly string[]): AskedOfPlain | Ended {
  const wrongUse = (why: string): Ended => ({ code: 2, out: '', err: `${why}\n\n${PLAIN_USAGE}` });
  const read = readOptions(args, OPTIONS);
  if ('wrong' in read) return wrongUse(read.wrong);
  const { values, positionals } = read;
  if (values.help) return { code: 0, out: PLAIN_USAGE, err: '' };
  const seconds = readSeconds(values.seconds);
  if (seconds === undefined) return wrongUse('--seconds needs a number of seconds, up to 86,400.');
  const [file, copy, ...more] = positionals;
  if (file === undefined || copy === undefined || more.length > 0)
    return wrongUse('A workbook and its copy are to be given.');
  if (path.extname(copy).toLowerCase() !== '.xlsx') return wrongUse(`${copy} must end in .xlsx.`);
  return { file, copy, force: values.force, seconds };
}

/** Reads, calculates and writes. */
export async function plainFile({ file, copy, force }: AskedOfPlain): Promise<Ended> {
  const failed = (why: string): Ended => ({ code: 2, out: '', err: printable(why) });
  try {
    if (!force && statSync(copy, { throwIfNoEntry: false }))
      return failed(`${copy}: is there already; --force lets it be replaced`);
    const { size } = statSync(file);
    if (size > LIMITS.file)
      return failed(`${file}: it has ${Math.ceil(size / 1e6)} MB; at most ${LIMITS.file / 1e6} MB are taken`);
    const title = path.basename(file, path.extname(file));
    const { workbook, notKept } = describeWorkbook(
      readWorkbook(readFileSync(file)),
      title,
      hostFunctions,
      new Set(functionNames),
    );
    const functions = hostFunctions.map(asInTheHost);
    const plain = await plainWorkbook(workbook, (book) => calculateWorkbook(book, functions));
    writeWhole(copy, newWorkbook(plain.workbook, plain.results), force);
    const lines = [
      `${counted(plain.followed, 'formula')} with functions of Rodsheet written as plain cells`,
      ...plain.notFollowed.map((each) => `its value stands as it is: ${each}`),
      ...notKept.map((each) => `not in the copy: ${each}`),
      `written: ${copy}`,
    ];
    return { code: 0, out: lines.map(printable).join('\n'), err: '' };
  } catch (thrown) {
    if (thrown instanceof UnreadableFile) return failed(`${file}: ${thrown.message}`);
    const { syscall, message, path: at } = thrown as NodeJS.ErrnoException;
    return syscall === undefined ? faultOfOurs(thrown) : failed(`${at ?? copy}: ${message}`);
  }
}
