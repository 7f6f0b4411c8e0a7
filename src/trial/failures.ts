import { ICommandService, ObjectMatrix } from '@univerjs/core';
import type { ICellData, Injector, Nullable } from '@univerjs/core';
import { ERROR_TYPE_SET, SetFormulaCalculationResultMutation } from '@univerjs/engine-formula';
import type { ISetFormulaCalculationResultMutation } from '@univerjs/engine-formula';

export type CellPlace = readonly [row: number, column: number];

/** Gives for a sheet the cells that the last calculation left failed, row by row. */
export function watchFailures(injector: Injector, workbookId: string): (sheetId: string) => readonly CellPlace[] {
  let sheets: ISetFormulaCalculationResultMutation['unitData'][string];
  injector.get(ICommandService).onCommandExecuted(({ id, params }) => {
    if (id === SetFormulaCalculationResultMutation.id)
      sheets = (params as ISetFormulaCalculationResultMutation).unitData[workbookId];
  });
  return (sheetId) => {
    const failed: CellPlace[] = [];
    new ObjectMatrix<Nullable<ICellData>>(sheets?.[sheetId] ?? {}).forValue((row, column, cell) => {
      if (ERROR_TYPE_SET.has(cell?.v as never)) failed.push([row, column]);
    });
    return failed;
  };
}
