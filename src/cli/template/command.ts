import path from 'node:path';
import { findFunction } from '../../catalogue/catalogue.ts';
import { call } from '../../sheet/call.ts';
import { hostFunctions } from '../../sheet/host-functions.ts';
import { calculateWorkbook } from '../../engine/headless.ts';
import type { CellContent } from '../../sheet/described-workbook.ts';
import { asInTheHost } from '../../engine/as-in-the-host.ts';
import { newWorkbook } from '../../files/xlsx/new-workbook.ts';
import { EXIT_CODES, faultOfOurs, type Ended } from '../ended.ts';
import { readOptions } from '../options.ts';
import { writeWhole } from '../write-file.ts';
import { jobWorkbook } from '../../files/template/job-workbook.ts';

export const TEMPLATE_USAGE = `Writes a job workbook: pin list, plan, stock list, quote, cautions, working, assumptions and audit.

  npm run --silent template -- [--force] OUT.xlsx

  --force   lets it take the place of a file that is there

Formulas stand in it as the spreadsheet host stores them, with their values, so that any spreadsheet program shows it;
it recalculates in the host with the add-in. Figures and prices in it are invented, to be replaced.
${EXIT_CODES}
The figures are estimates; they do not say that a job is safe.`;

const OPTIONS = {
  help: { type: 'boolean', short: 'h', default: false },
  force: { type: 'boolean', default: false },
} as const;

/** The workbook as bytes. */
export async function templateFile(): Promise<Uint8Array> {
  const assumed = findFunction('BURN.ASSUMED');
  const listing = assumed ? (call(assumed, []) as readonly (readonly CellContent[])[]) : [];
  const workbook = jobWorkbook(hostFunctions, listing);
  return newWorkbook(workbook, await calculateWorkbook(workbook, hostFunctions.map(asInTheHost)));
}

/** The command: `template [--force] OUT.xlsx` */
export async function template(args: readonly string[]): Promise<Ended> {
  const wrongUse = (why: string): Ended => ({ code: 2, out: '', err: `${why}\n\n${TEMPLATE_USAGE}` });
  const read = readOptions(args, OPTIONS);
  if ('wrong' in read) return wrongUse(read.wrong);
  if (read.values.help) return { code: 0, out: TEMPLATE_USAGE, err: '' };
  const [out, ...more] = read.positionals;
  if (out === undefined) return wrongUse('No file given.');
  if (more.length > 0) return wrongUse('One file at a time.');
  if (path.extname(out).toLowerCase() !== '.xlsx') return wrongUse(`${out} must end in .xlsx.`);
  try {
    writeWhole(out, await templateFile(), read.values.force);
    return { code: 0, out: `written: ${out}`, err: '' };
  } catch (thrown) {
    const { code, syscall, message } = thrown as NodeJS.ErrnoException;
    if (code === 'EEXIST') return { code: 2, out: '', err: `${out}: is there already; --force lets it be replaced` };
    return syscall === undefined ? faultOfOurs(thrown) : { code: 2, out: '', err: `${out}: ${message}` };
  }
}
