import { addressOf, areaName, sheetPrefix } from '../files/xlsx/address.ts';
import { byPlace, type CheckedWorkbook, type Place } from './workbook.ts';

/** A cell with its sheet, as `Pins!F7`. */
export const placeName = ({ sheets }: CheckedWorkbook, { sheet, row, column }: Place): string =>
  `${sheetPrefix(sheets[sheet]?.name ?? '')}${addressOf(row, column)}`;

interface Stretch {
  readonly sheet: number;
  readonly top: number;
  readonly left: number;
  bottom: number;
  right: number;
}

/** Cells as ranges, one below or beside the other joined: `Pins!F6:F29`. */
export function placesOf(workbook: CheckedWorkbook, cells: readonly Place[], most = 3): string {
  const stretches = joined(cells);
  const shown = stretches
    .slice(0, most)
    .map((s) => `${sheetPrefix(workbook.sheets[s.sheet]?.name ?? '')}${areaName(s)}`)
    .join(', ');
  return stretches.length > most ? `${shown} and ${stretches.length - most} more` : shown;
}

function joined(cells: readonly Place[]): readonly Stretch[] {
  const rows: Stretch[] = [];
  for (const { sheet, row, column } of [...cells].sort(byPlace)) {
    const last = rows.at(-1);
    if (last?.sheet === sheet && last.top === row && last.right + 1 === column) last.right = column;
    else rows.push({ sheet, top: row, left: column, bottom: row, right: column });
  }
  const stretches: Stretch[] = [];
  const open = new Map<string, Stretch>();
  for (const each of rows) {
    const key = `${each.sheet}|${each.left}:${each.right}`;
    const above = open.get(key);
    if (above && above.bottom + 1 === each.top) above.bottom = each.bottom;
    else {
      open.set(key, each);
      stretches.push(each);
    }
  }
  return stretches;
}
