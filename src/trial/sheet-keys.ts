import { BooleanNumber, ICommandService } from '@univerjs/core';
import type { Injector } from '@univerjs/core';
import { deserializeRangeWithSheet, IDefinedNamesService, isReferenceString } from '@univerjs/engine-formula';
import { InsertSheetCommand, SelectRangeCommand, SetWorksheetActivateCommand } from '@univerjs/sheets';
import type { SheetCells } from './sheet-cells.ts';

/**
 * Keys of the sheet as people know them: ctrl+PageDown and ctrl+PageUp (or with alt, where the browser keeps those for
 * its own tabs) go from sheet to sheet, shift+F11 adds one; and the name box goes to any reference or name, on other
 * sheets too. Gives a function that stops it. `say` tells what the name box cannot go to.
 */
export function takeSheetKeys(injector: Injector, cells: SheetCells, say: (text: string) => void): () => void {
  const commands = injector.get(ICommandService);
  const names = injector.get(IDefinedNamesService);
  const unitId = cells.workbook().getUnitId();

  const turn = (by: number): void => {
    const sheets = cells
      .workbook()
      .getSheets()
      .filter((sheet) => sheet.isSheetHidden() !== BooleanNumber.TRUE);
    const at = sheets.indexOf(cells.workbook().getActiveSheet());
    const next = sheets[at + by];
    if (next) void commands.executeCommand(SetWorksheetActivateCommand.id, { unitId, subUnitId: next.getSheetId() });
  };
  const goTo = async (asked: string): Promise<void> => {
    const meaning = names.getValueByName(unitId, asked)?.formulaOrRefString.replace(/^=/, '') ?? asked;
    const reference = meaning.toUpperCase() === meaning || meaning.includes('!') ? meaning : meaning.toUpperCase();
    if (!isReferenceString(reference)) {
      say(`There is no cell or name ${asked}.`);
      return;
    }
    const { sheetName, range: said } = deserializeRangeWithSheet(reference);
    const workbook = cells.workbook();
    const sheet =
      sheetName === ''
        ? workbook.getActiveSheet()
        : workbook.getSheets().find((each) => each.getName().toLowerCase() === sheetName.toLowerCase());
    if (!sheet) {
      say(`There is no sheet ${sheetName}.`);
      return;
    }
    const range = {
      ...said,
      startRow: said.startRow || 0,
      startColumn: said.startColumn || 0,
      endRow: Number.isNaN(said.endRow) ? sheet.getRowCount() - 1 : said.endRow,
      endColumn: Number.isNaN(said.endColumn) ? sheet.getColumnCount() - 1 : said.endColumn,
    };
    if (!(range.endRow < sheet.getRowCount() && range.endColumn < sheet.getColumnCount())) {
      say(`${asked} is beyond the end of the sheet ${sheet.getName()}.`);
      return;
    }
    const subUnitId = sheet.getSheetId();
    if (sheet !== workbook.getActiveSheet())
      await commands.executeCommand(SetWorksheetActivateCommand.id, { unitId, subUnitId });
    await commands.executeCommand(SelectRangeCommand.id, { unitId, subUnit: subUnitId, range, reveal: true });
  };

  const onKey = (event: KeyboardEvent): void => {
    const { key, target } = event;
    if (target instanceof Element && target.closest('dialog, #pane, #job')) return;
    if ((event.ctrlKey || event.altKey) && (key === 'PageDown' || key === 'PageUp')) turn(key === 'PageDown' ? 1 : -1);
    else if (event.shiftKey && key === 'F11') void commands.executeCommand(InsertSheetCommand.id, { unitId });
    else if (key === 'Enter' && target instanceof HTMLInputElement && target.closest('[data-u-comp="defined-name"]')) {
      const asked = target.value.trim();
      if (asked === '') return;
      target.blur();
      void goTo(asked).finally(() => document.querySelector<HTMLElement>('#sheet [data-u-comp="editor"]')?.focus());
    } else return;
    event.preventDefault();
    event.stopPropagation();
  };
  document.addEventListener('keydown', onKey, true);
  return () => document.removeEventListener('keydown', onKey, true);
}
