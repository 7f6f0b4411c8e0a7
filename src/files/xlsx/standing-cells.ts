import { isWithin, type Area } from './address.ts';
import type { SavedCell, SavedSheet } from './saved-workbook.ts';

/** The cells of a sheet that are not merely shown by a formula standing in another cell. */
export function standingCells(sheet: SavedSheet): readonly SavedCell[] {
  const areas = sheet.cells.flatMap((c) =>
    c.formula && isLarge(c.formula.area) ? [{ area: c.formula.area, anchor: c }] : [],
  );
  if (areas.length === 0) return sheet.cells;
  areas.sort((x, y) => x.area.top - y.area.top);
  let next = 0;
  let active: typeof areas = [];
  let row = -1;
  return sheet.cells.filter((cell) => {
    if (cell.row !== row) {
      row = cell.row;
      active = active.filter((a) => a.area.bottom >= row);
      for (let each = areas[next]; each && each.area.top <= row; each = areas[++next])
        if (each.area.bottom >= row) active.push(each);
    }
    return cell.formula !== undefined || !active.some((a) => isWithin(a.area, cell.row, cell.column));
  });
}

const isLarge = ({ top, left, bottom, right }: Area): boolean => bottom > top || right > left;
