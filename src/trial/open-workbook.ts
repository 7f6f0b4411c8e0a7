import { isCellError } from '../catalogue/cell.ts';
import type { HostFunction } from '../sheet/host-function.ts';
import type { WorkbookDescription } from '../sheet/described-workbook.ts';
import { showErrorTexts } from './error-hover.ts';
import { printAsTable } from './print-sheet.ts';
import { sheetPort } from './sheet-port.ts';
import type { TrialSheetPort } from './sheet-port.ts';
import { showSheet, WORKBOOK_ID } from './show-sheet.ts';
import { warnOfLoss } from './warn-of-loss.ts';

/** Where in the page things go. */
export interface Places {
  readonly sheet: HTMLElement;
  /** Line below the sheet, for the error of the selected cell. */
  readonly status: HTMLElement;
  /** Where the sheet stands as a table while it is printed. */
  readonly print: HTMLElement;
}

/** Shows a workbook in the page and says of every failed cell why: on hovering it, on selecting it, and after the edit that made it fail. */
export function openWorkbook(
  places: Places,
  description: WorkbookDescription,
  functions: readonly HostFunction[],
): TrialSheetPort {
  const injector = showSheet(places.sheet, description, functions);
  const port = sheetPort(injector, WORKBOOK_ID);
  showErrorTexts(injector, port.errorText);
  warnOfLoss(injector);
  printAsTable(places.print, port.shownSheet);
  port.onSelection((cell) => {
    const own = cell && isCellError(cell.value) ? { address: cell.address, ...cell.value, more: 0 } : undefined;
    const failed = own ?? port.lastFailure();
    const more =
      failed && failed.more > 0
        ? ` (and ${failed.more} more ${failed.more === 1 ? 'cell' : 'cells'} on this sheet)`
        : '';
    places.status.textContent = failed ? `${failed.address} ${failed.error} ${failed.message}${more}` : '';
  });
  return port;
}
