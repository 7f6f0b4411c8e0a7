import { changesSince, MOST_SHOWN, movedText } from '../pane/moves/moves.tsx';
import type { MovedCell } from '../pane/moves/what-moves.ts';
import { showCell } from '../pane/show-cell.ts';
import { CALCULATION_VERSION } from '../core/version.ts';
import { versionIn } from '../core/version-in.ts';
import { addressOf, isWithin } from '../files/xlsx/address.ts';
import type { SavedSheet } from '../files/xlsx/saved-workbook.ts';
import { isSame } from '../sheet/same-value.ts';
import { isBlankCell, isCellError, type Cell } from '../catalogue/cell.ts';
import type { Notice } from './notice.ts';
import type { SheetCells } from './sheet-cells.ts';

/** What the cells of our functions held in a file when it was opened. */
export interface SavedFigures {
  /** The version that calculated them, where a cell tells it. */
  readonly since: string | undefined;
  readonly cells: readonly {
    readonly sheet: string;
    readonly row: number;
    readonly column: number;
    readonly value: Cell;
  }[];
}

/** In the writing of the host and in that of other programs. */
const OURS = /\bBURN[._]|_xldudf_BURN_/i;
const VERSION = /BURN[._]VERSION\b/i;

/** The figures of our functions in a file's sheets; what failed there or was never calculated is left out. */
export function savedFigures(sheets: readonly Pick<SavedSheet, 'name' | 'cells'>[]): SavedFigures {
  let since: string | undefined;
  const cells = sheets.flatMap(({ name, cells: all }) => {
    const filled = all.filter(({ formula }) => formula && OURS.test(formula.text));
    for (const { formula, value } of filled)
      if (formula && VERSION.test(formula.text)) since ??= versionIn(showCell(value));
    const figures = filled.filter(({ formula }) => formula && !VERSION.test(formula.text));
    const singles = new Set(figures);
    // Few formulas fill more than their own cell.
    const spills = figures.flatMap(({ formula }) => {
      const area = formula?.area;
      return area && (area.bottom > area.top || area.right > area.left) ? [area] : [];
    });
    return (figures.length === 0 ? [] : all)
      .filter(
        (cell) =>
          !isBlankCell(cell.value) &&
          !isCellError(cell.value) &&
          (singles.has(cell) || spills.some((area) => isWithin(area, cell.row, cell.column))),
      )
      .map(({ row, column, value }) => ({ sheet: name, row, column, value }));
  });
  return { since, cells };
}

/** The cells that hold something else now. */
export function movedSince(saved: SavedFigures, cells: SheetCells): readonly MovedCell[] {
  const workbook = cells.workbook();
  return saved.cells.flatMap(({ sheet, row, column, value }) => {
    const on = workbook.getSheetBySheetName(sheet);
    const after = on ? cells.valueAt(on, row, column) : null;
    return isSame(value, after) ? [] : [{ sheet, address: addressOf(row, column), before: value, after }];
  });
}

/** Says which figures of a file the page gives otherwise; undefined where all are the same and no other version made them. */
export function movedNotice({ since, cells }: SavedFigures, moved: readonly MovedCell[]): Notice | undefined {
  const other = since !== undefined && since !== CALCULATION_VERSION;
  if (moved.length === 0 && !other) return undefined;
  const made = other
    ? `This workbook was calculated with ${since}; this page calculates with ${CALCULATION_VERSION}. `
    : '';
  const count = `${moved.length === 0 ? 'None' : moved.length} of ${cells.length} figures ${moved.length === 1 ? 'is' : 'are'} other than in the file, which stays as it is${moved.length === 0 ? '.' : ':'}`;
  return {
    text: made + count,
    points: [
      ...moved.slice(0, MOST_SHOWN).map(movedText),
      ...(moved.length > MOST_SHOWN ? [`${moved.length - MOST_SHOWN} more`] : []),
      ...(other ? [changesSince(since)] : []),
    ],
  };
}

/** Says of kept work that another version kept it. */
export function keptByOther(version: string | undefined): string {
  return version === undefined || version === CALCULATION_VERSION
    ? ''
    : ` It was calculated with ${version}; this page calculates with ${CALCULATION_VERSION}, so that figures may have moved. ${changesSince(version)}`;
}
