import type { ICellData, IRange, Nullable, ObjectMatrix } from '@univerjs/core';
import type { BaseReferenceObject } from '@univerjs/engine-formula';

export interface CellPlace {
  readonly unit: string;
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

type Row = Readonly<Record<number, Nullable<ICellData>>>;

/**
 * The ranges of the references of one call. Whole columns end at the last row that holds anything in any
 * of them, so that `A:A` and `B:B` have equal sizes, and whole rows at the last column. The asking
 * formula's own cell holds nothing.
 */
export function usedRanges(references: readonly BaseReferenceObject[], self: CellPlace): readonly IRange[] {
  const asked = references.map((reference) => {
    const range = reference.getRangePosition();
    return {
      range,
      reference,
      columns: range.startRow === 0 && range.endRow >= reference.getActiveSheetRowCount() - 1,
      rows: range.startColumn === 0 && range.endColumn >= reference.getActiveSheetColumnCount() - 1,
    };
  });
  const endRow = Math.max(0, ...asked.filter((a) => a.columns).map((a) => lastRow(a.reference, a.range, self)));
  const endColumn = Math.max(0, ...asked.filter((a) => a.rows).map((a) => lastColumn(a.reference, a.range, self)));
  return asked.map((a) => ({ ...a.range, ...(a.columns ? { endRow } : {}), ...(a.rows ? { endColumn } : {}) }));
}

/** From the bottom up, since most sheets are longer than what has to be looked at. */
function lastRow(reference: BaseReferenceObject, range: IRange, self: CellPlace): number {
  const ends = sources(reference).map(
    (rows) =>
      Object.keys(rows)
        .map(Number)
        .reverse()
        .find((row) => filledColumns(rows[row], row, reference, range, self).length > 0) ?? -1,
  );
  return Math.max(...ends);
}

function lastColumn(reference: BaseReferenceObject, range: IRange, self: CellPlace): number {
  const ends = sources(reference).flatMap((rows) =>
    Object.keys(rows)
      .map(Number)
      .filter((row) => row >= range.startRow && row <= range.endRow)
      .map((row) => Math.max(-1, ...filledColumns(rows[row], row, reference, range, self))),
  );
  return Math.max(-1, ...ends);
}

/** What is typed, and what formulas have spilled in this round and before. */
function sources(reference: BaseReferenceObject): Readonly<Record<number, Row>>[] {
  const unit = reference.getUnitId();
  const sheet = reference.getSheetId();
  const matrices: (ObjectMatrix<ICellData> | ObjectMatrix<Nullable<ICellData>> | undefined)[] = [
    reference.getUnitData()[unit]?.[sheet]?.cellData,
    reference.getRuntimeArrayFormulaCellData()[unit]?.[sheet],
    reference.getArrayFormulaCellData()[unit]?.[sheet],
  ];
  return matrices.map((matrix) => matrix?.getMatrix() ?? {});
}

function filledColumns(
  cells: Row | undefined,
  row: number,
  reference: BaseReferenceObject,
  range: IRange,
  self: CellPlace,
): number[] {
  const own =
    row === self.row && self.sheet === reference.getSheetId() && self.unit === reference.getUnitId() ? self.column : -1;
  return Object.entries(cells ?? {})
    .filter(([, cell]) => filled(cell))
    .map(([column]) => Number(column))
    .filter((column) => column >= range.startColumn && column <= range.endColumn && column !== own);
}

function filled(cell: Nullable<ICellData>): boolean {
  if (!cell) return false;
  return (
    (cell.v !== undefined && cell.v !== null && cell.v !== '') || Boolean(cell.f) || Boolean(cell.si) || Boolean(cell.p)
  );
}
