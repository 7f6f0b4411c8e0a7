import { ICommandService, IUniverInstanceService, UniverInstanceType } from '@univerjs/core';
import type { Injector } from '@univerjs/core';
import { SetSelectionsOperation } from '@univerjs/sheets';
import type { ISetSelectionsOperationParams } from '@univerjs/sheets';

/**
 * Sends a selection to the workbook that it is of. Leaving an edit that was begun in the formula bar, the sheet would
 * select in the bar's text instead, and throw.
 */
export function mendSelection(injector: Injector, workbookId: string): void {
  const units = injector.get(IUniverInstanceService);
  injector.get(ICommandService).beforeCommandExecuted(({ id, params }) => {
    if (id !== SetSelectionsOperation.id) return;
    const selection = params as ISetSelectionsOperationParams;
    if (units.getUnitType(selection.unitId) !== UniverInstanceType.UNIVER_SHEET) selection.unitId = workbookId;
  });
}
