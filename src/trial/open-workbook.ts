import type { HostFunction } from '../sheet/host-function.ts';
import type { WorkbookDescription } from './engine/workbook.ts';
import { showErrorTexts } from './error-hover.ts';
import { sheetPort } from './sheet-port.ts';
import type { TrialSheetPort } from './sheet-port.ts';
import { showSheet, WORKBOOK_ID } from './show-sheet.ts';

/** Where in the page things go. */
export interface Places {
  readonly sheet: HTMLElement;
  /** Line below the sheet, for the error of the selected cell. */
  readonly status: HTMLElement;
}

/** Shows a workbook in the page and says of every failed cell why, on hovering it and on selecting it. */
export function openWorkbook(places: Places, description: WorkbookDescription, functions: readonly HostFunction[]): TrialSheetPort {
  const injector = showSheet(places.sheet, description, functions);
  const port = sheetPort(injector, WORKBOOK_ID);
  showErrorTexts(injector, port.errorText);
  port.onSelection((cell) => {
    const failed = cell && typeof cell.value === 'object' ? cell.value : undefined;
    places.status.textContent = cell && failed ? `${cell.address} ${failed.error} ${failed.message}` : '';
  });
  return port;
}
