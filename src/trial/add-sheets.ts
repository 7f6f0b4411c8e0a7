import { generateRandomId, ICommandService } from '@univerjs/core';
import type { Injector } from '@univerjs/core';
import { IDefinedNamesService, SetTriggerFormulaCalculationStartMutation } from '@univerjs/engine-formula';
import {
  InsertDefinedNameCommand,
  InsertSheetCommand,
  SCOPE_WORKBOOK_VALUE_DEFINED_NAME,
  SetWorksheetActivateCommand,
} from '@univerjs/sheets';
import { worksheetData } from '../engine/workbook.ts';
import { withFreeNames } from '../files/template/free-names.ts';
import { textHeights, type NewSheet, type NewWorkbook } from '../files/xlsx/new-workbook.ts';
import type { Added } from '../pane/port.ts';
import type { SheetCells } from './sheet-cells.ts';

/** What is told of each sheet that was added, for what the page does not show of it. */
export type OnAdded = (sheetId: string, sheet: NewSheet) => void;

/** Adds the sheets and names of a workbook behind those on show. */
export async function addSheets(
  injector: Injector,
  { workbook }: SheetCells,
  added: NewWorkbook,
  onAdded: OnAdded,
): Promise<Added> {
  const commands = injector.get(ICommandService);
  const unitId = workbook().getUnitId();
  const names = Object.values(injector.get(IDefinedNamesService).getDefinedNameMap(unitId) ?? {});
  const free = withFreeNames(added, {
    sheets: workbook()
      .getSheets()
      .map((sheet) => sheet.getName()),
    names: names.map(({ name }) => name),
  });
  const defined = Object.entries(free.definedNames ?? {});
  for (const [name, formulaOrRefString] of defined)
    await commands.executeCommand(InsertDefinedNameCommand.id, {
      unitId,
      id: generateRandomId(),
      name,
      formulaOrRefString,
      localSheetId: SCOPE_WORKBOOK_VALUE_DEFINED_NAME,
    });
  const ids: string[] = [];
  for (const sheet of free.sheets) {
    const data = worksheetData(generateRandomId(), { ...sheet, heights: { ...textHeights(sheet), ...sheet.heights } });
    onAdded(data.id, sheet);
    ids.push(data.id);
    await commands.executeCommand(InsertSheetCommand.id, { unitId, index: workbook().getSheets().length, sheet: data });
  }
  await commands.executeCommand(SetWorksheetActivateCommand.id, { unitId, subUnitId: ids[0] });
  // The first sheets were calculated before the last ones were there.
  commands.syncExecuteCommand(SetTriggerFormulaCalculationStartMutation.id, { forceCalculation: true });
  return {
    sheets: free.sheets.filter(({ hidden }) => !hidden).map(({ name }) => name),
    names: defined.map(([name]) => name),
  };
}
