import { counted } from '../../core/units/counted.ts';
import { placeName, placesOf } from '../../check/places.ts';
import { printable, printableJson } from '../printable.ts';
import type { CheckedFile } from './check-file.ts';

/** Lines of one kind shown without --all. */
const MOST_SHOWN = 40;

/** What was found as lines for a person; what the workbook brings along cannot act on the terminal. */
export function checkLines(
  name: string,
  { workbook, check, kept, macros }: CheckedFile,
  all = false,
): readonly string[] {
  const { formulas, findings, cautions } = check;
  const most = all ? Infinity : MOST_SHOWN;
  if (formulas.length === 0) return [printable(`${name}: there is no formula with a BURN function in it`)];
  const cells = formulas.reduce((n, f) => n + f.cells.length, 0);
  const places = (of: readonly (typeof formulas)[number]['cells'][number][]): string => placesOf(workbook, of);
  return [
    `${name}: ${counted(cells, 'cell')} with BURN functions, ${counted(formulas.length, 'formula')}`,
    ...(macros ? ['It carries macros, which were not run.'] : []),
    ...(kept > 0
      ? [`${counted(kept, 'cell')} kept the saved value, since they are not calculated here as in the host`]
      : []),
    ...shortened(
      formulas.map(
        (f) =>
          `  ${places(f.cells)}  ${f.formula}${f.errors > 0 ? `  ${counted(f.errors, 'cell')} with an error` : ''}`,
      ),
      most,
    ),
    `found  ${findings.length}`,
    ...shortened(
      findings.map((f) => {
        const [lead] = f.cells;
        const others = f.cells.length > 1 ? ` (in all ${places(f.cells)})` : '';
        return `  ${lead ? placeName(workbook, lead) : ''}  ${f.kind}: ${f.text}${others}`;
      }),
      most,
    ),
    `cautions of the whole job  ${cautions.length}`,
    ...shortened(
      cautions.map(({ caution, cells: of }) => `  ${caution.severity}  ${caution.title}  (${places(of)})`),
      most,
    ),
    'What is not found may be wrong all the same. The cautions say what is known here, not all there is.',
  ].map(printable);
}

/** The same as one object for programs. */
export function checkJson(name: string, { workbook, check, kept, macros }: CheckedFile): string {
  const cells = (of: readonly Parameters<typeof placeName>[1][]): readonly string[] =>
    of.map((each) => placeName(workbook, each));
  return printableJson({
    file: name,
    formulas: check.formulas.map((f) => ({ ...f, cells: cells(f.cells) })),
    findings: check.findings.map((f) => ({ ...f, cells: cells(f.cells) })),
    cautions: check.cautions.map(({ caution: { key, severity, title, action, because }, cells: of }) => ({
      key,
      severity,
      title,
      action,
      because,
      cells: cells(of),
    })),
    kept,
    macros,
  });
}

function shortened(lines: readonly string[], most: number): readonly string[] {
  const more = lines.length - most;
  return more > 0 ? [...lines.slice(0, most), `  and ${more} more (--all shows them)`] : lines;
}
