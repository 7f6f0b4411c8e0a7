import { ObjectMatrix } from '@univerjs/core';
import type { ICellData, IRange, IUnitRange, Nullable } from '@univerjs/core';
import type { IFormulaCurrentConfigService, IFormulaRuntimeService } from '@univerjs/engine-formula';
import { textOfCell } from './error-text.ts';

interface Spill {
  readonly unitId: string;
  readonly sheetId: string;
  readonly row: number;
  readonly column: number;
  readonly range: IRange;
  readonly content: string;
}

/** By the cell of the formula. */
export type Spills = ReadonlyMap<string, Spill>;

/** The spills before, less those whose formula has gone or spills no more, and with those calculated in this calculation. */
export function spillsAfter(
  before: Spills,
  runtime: IFormulaRuntimeService,
  config: IFormulaCurrentConfigService,
): Spills {
  const formulas = config.getFormulaData();
  const found = new Map(
    [...before].filter(
      ([, { unitId, sheetId, row, column }]) =>
        formulas[unitId]?.[sheetId]?.[row]?.[column] &&
        !runtime.getUnitData()[unitId]?.[sheetId]?.getValue(row, column),
    ),
  );
  for (const [unitId, sheets] of Object.entries(runtime.getUnitArrayFormula())) {
    for (const [sheetId, anchors] of Object.entries(sheets ?? {})) {
      const cells = runtime.getRuntimeArrayFormulaCellData()[unitId]?.[sheetId];
      new ObjectMatrix<IRange>(anchors).forValue((row, column, range) => {
        found.set(`${unitId}|${sheetId}|${row}|${column}`, {
          unitId,
          sheetId,
          row,
          column,
          range,
          content: content(cells, range),
        });
      });
    }
  }
  return found;
}

function content(cells: ObjectMatrix<Nullable<ICellData>> | undefined, range: IRange): string {
  const values: unknown[] = [range.endRow, range.endColumn];
  for (let r = range.startRow; r <= range.endRow; r++) {
    for (let c = range.startColumn; c <= range.endColumn; c++) {
      const cell = cells?.getValue(r, c);
      values.push(cell?.v ?? null, cell?.custom ? textOfCell(cell) : 0);
    }
  }
  return JSON.stringify(values);
}

/** Where spills have changed, without the formulas' own cells, which the engine orders rightly by itself. */
export function changes(before: Spills, now: Spills): IUnitRange[] {
  const changed = [...new Set([...before.keys(), ...now.keys()])].filter(
    (key) => before.get(key)?.content !== now.get(key)?.content,
  );
  return changed
    .flatMap((key) => [before.get(key), now.get(key)])
    .flatMap((spill) => {
      if (!spill) return [];
      const { unitId, sheetId, range } = spill;
      const parts: IRange[] = [];
      if (range.endColumn > range.startColumn)
        parts.push({ ...range, endRow: range.startRow, startColumn: range.startColumn + 1 });
      if (range.endRow > range.startRow) parts.push({ ...range, startRow: range.startRow + 1 });
      return parts.map((part) => ({ unitId, sheetId, range: part }));
    });
}
