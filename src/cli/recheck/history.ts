import { sheetPrefix } from '../../files/xlsx/address.ts';
import { withRow, type GrowingSheet } from '../../files/xlsx/append-row.ts';
import type { Cell } from '../../sheet/host-function.ts';
import type { Recheck } from './recheck.ts';
import { isVersionOnly } from './reasons.ts';
import { countOf } from './report.ts';
import { showChange } from './show-value.ts';

/** Cells that a row names. */
const MOST_NAMED = 5;

const SHEET: GrowingSheet = {
  name: 'Recheck history',
  headings: ['date', 'version', 'assumptions', 'cells', 'same', 'moved', 'broken', 'kept', 'first that moved or broke'],
  widths: [20, 14, 14, 8, 8, 8, 8, 8, 90],
};

/** The workbook with a row for this recheck on its history sheet. */
export const withHistory = (file: Uint8Array, result: Recheck, now: Date): Uint8Array =>
  withRow(file, SHEET, historyRow(result, now));

/** When, with which version and assumptions, and what came of it. */
function historyRow(result: Recheck, now: Date): readonly Cell[] {
  const { cells, version } = result;
  const changed = cells.filter((c) => c.status === 'moved' || c.status === 'broken');
  const first = changed
    .slice(0, MOST_NAMED)
    .map((c) => `${sheetPrefix(c.sheet)}${c.cell} ${showChange(c.before, c.after)}`);
  const more = changed.length - MOST_NAMED;
  return [
    `${now.toISOString().slice(0, 16).replace('T', ' ')} UTC`,
    version,
    fingerprints(result).join(', '),
    cells.length,
    ...(['same', 'moved', 'broken', 'kept'] as const).map((status) => countOf(result, status)),
    `${first.join('; ')}${more > 0 ? `; and ${more} more` : ''}`,
  ];
}

/** The fingerprints of assumptions that the workbook's cells of BURN.VERSION show now. */
function fingerprints({ compared }: Recheck): readonly string[] {
  const shown = compared.flatMap(({ formula, after }) =>
    isVersionOnly(formula) && typeof after === 'string' ? (/\b[0-9a-f]{8}\b/.exec(after) ?? []) : [],
  );
  return [...new Set(shown)];
}
