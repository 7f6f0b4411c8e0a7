import path from 'node:path';
import { findFunction } from '../../catalogue/catalogue.ts';
import { call } from '../../sheet/call.ts';
import { hostFunctions } from '../../sheet/host-functions.ts';
import { calculateWorkbook } from '../../engine/headless.ts';
import type { CellContent } from '../../sheet/described-workbook.ts';
import { asInTheHost } from '../../engine/as-in-the-host.ts';
import { newWorkbook } from '../../files/xlsx/new-workbook.ts';
import { writeWhole } from '../write-file.ts';
import { jobWorkbook } from '../../files/template/job-workbook.ts';

export const TEMPLATE_USAGE = `Writes a job workbook: pin list, plan, stock list, quote, cautions, working, assumptions and audit.

  npm run --silent template -- [--force] OUT.xlsx

  --force   lets it take the place of a file that is there

Formulas stand in it as the spreadsheet host stores them, with their values, so that any spreadsheet program shows it;
it recalculates in the host with the add-in. Figures and prices in it are invented, to be replaced.
Exit code: 0 written, 2 wrong use or a file that cannot be written, 4 a fault of ours.
The figures are estimates; they do not say that a job is safe.`;

export interface TemplateEnded {
  readonly code: 0 | 2 | 4;
  readonly out: string;
  readonly err: string;
}

/** The workbook as bytes. */
export async function templateFile(): Promise<Uint8Array> {
  const assumed = findFunction('BURN.ASSUMED');
  const listing = assumed ? (call(assumed, []) as readonly (readonly CellContent[])[]) : [];
  const workbook = jobWorkbook(hostFunctions, listing);
  return newWorkbook(workbook, await calculateWorkbook(workbook, hostFunctions.map(asInTheHost)));
}

/** The command: `template [--force] OUT.xlsx` */
export async function template(args: readonly string[]): Promise<TemplateEnded> {
  const wrongUse = (why: string): TemplateEnded => ({ code: 2, out: '', err: `${why}\n\n${TEMPLATE_USAGE}` });
  if (args.includes('--help') || args.includes('-h')) return { code: 0, out: TEMPLATE_USAGE, err: '' };
  const option = args.find((a) => a.startsWith('--') && a !== '--force');
  if (option !== undefined) return wrongUse(`There is no option ${option}.`);
  const [out, ...more] = args.filter((a) => a !== '--force');
  if (out === undefined) return wrongUse('No file given.');
  if (more.length > 0) return wrongUse('One file at a time.');
  if (path.extname(out).toLowerCase() !== '.xlsx') return wrongUse(`${out} must end in .xlsx.`);
  try {
    writeWhole(out, await templateFile(), args.includes('--force'));
    return { code: 0, out: `written: ${out}`, err: '' };
  } catch (thrown) {
    const { code, syscall, message } = thrown as NodeJS.ErrnoException;
    if (code === 'EEXIST') return { code: 2, out: '', err: `${out}: is there already; --force lets it be replaced` };
    if (syscall !== undefined) return { code: 2, out: '', err: `${out}: ${message}` };
    return {
      code: 4,
      out: '',
      err: `a fault of ours; please report it\n${thrown instanceof Error ? (thrown.stack ?? message) : String(thrown)}`,
    };
  }
}
