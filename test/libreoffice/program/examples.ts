import { execFileSync } from 'node:child_process';
import { CATALOGUE } from '../../../src/catalogue/catalogue.ts';
import { columnName } from '../../../src/files/xlsx/address.ts';
import { forProgram } from '../../../src/libreoffice/process/formula-text.ts';
import type { Cell } from '../../../src/sheet/host-function.ts';

const ROOT = new URL('../../..', import.meta.url).pathname;

/** A declared example with what the command line gives for it, and where it stands in a sheet of its own column. */
export interface Example {
  readonly formula: string;
  readonly values: readonly (readonly Cell[])[];
  readonly sheet: string;
  readonly address: string;
  /** As Calc takes it. */
  readonly typed: string;
}

/** Every documented example, each on a sheet of its own, calculated by `npm run calc`. */
export function examples(): readonly Example[] {
  const formulas = CATALOGUE.flatMap((d) => d.examples);
  const out = execFileSync(process.execPath, ['src/cli/run.mjs', 'calc', '--json', ...formulas], {
    cwd: ROOT,
    encoding: 'utf8',
    maxBuffer: 1e9,
  });
  return out
    .trim()
    .split('\n')
    .map((line, i) => {
      const { formula, values } = JSON.parse(line) as Pick<Example, 'formula' | 'values'>;
      const [rows, columns] = [values.length, values[0]?.length ?? 0];
      return {
        formula,
        values,
        sheet: `Example ${i + 1}`,
        address: rows === 1 && columns === 1 ? 'A1' : `A1:${columnName(columns - 1)}${rows}`,
        typed: forProgram(formula),
      };
    });
}
