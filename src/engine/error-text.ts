import { ICommandService, ObjectMatrix } from '@univerjs/core';
import type { ICellData, Injector, Nullable } from '@univerjs/core';
import { ErrorType, ErrorValueObject, SetFormulaCalculationResultMutation } from '@univerjs/engine-formula';
import type { ISetFormulaCalculationResultMutation } from '@univerjs/engine-formula';

/**
 * An error of the engine that carries its text.
 *
 * The engine hands the custom data of a value on to the cell it ends in, and most functions return an
 * error they meet as it came, so the text stays with the error through the formulas around it. A code the
 * engine does not know becomes `#VALUE!`.
 */
export function errorValue(code: string, text: string): ErrorValueObject {
  const type = Object.values(ErrorType).find((known: string) => known === code) ?? ErrorType.VALUE;
  return new ErrorValueObject(type, text).withCustomData({ errorText: text });
}

/** The text that came with an error value, '' where it has none. */
export function textOfValue(error: ErrorValueObject): string {
  return error.getErrorContent();
}

/** The text kept with a failed cell, '' where it has none. */
export function textOfCell(cell: Nullable<ICellData>): string {
  const text: unknown = cell?.custom?.['errorText'];
  return typeof text === 'string' ? text : '';
}

/** Takes the text off a cell whose formula fails no more; a page's engine would keep it until the next failure. */
export function dropOldTexts(injector: Injector): void {
  injector.get(ICommandService).beforeCommandExecuted((command) => {
    if (command.id !== SetFormulaCalculationResultMutation.id) return;
    const { unitData } = command.params as ISetFormulaCalculationResultMutation;
    for (const sheets of Object.values(unitData)) {
      for (const cells of Object.values(sheets ?? {})) {
        new ObjectMatrix<Nullable<ICellData>>(cells).forValue((_row, _column, cell) => {
          if (cell && cell.custom === undefined) cell.custom = null;
        });
      }
    }
  });
}
