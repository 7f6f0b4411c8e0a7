import type { Injector } from '@univerjs/core';
import { CellAlertManagerService } from '@univerjs/preset-sheets-core';

/** Where the sheet would explain an error by its code, says what we know of it. */
export function showErrorTexts(
  injector: Injector,
  textAt: (sheet: string, row: number, column: number) => string,
): void {
  const alerts = injector.get(CellAlertManagerService);
  const show = alerts.showAlert.bind(alerts);
  alerts.showAlert = (alert) => {
    const { subUnitId, row, col } = alert.location;
    const text = textAt(subUnitId, row, col);
    show(text === '' ? alert : { ...alert, message: text });
  };
}
