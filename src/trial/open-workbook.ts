import { ICommandService, IResourceLoaderService, CommandType } from '@univerjs/core';
import type { IWorkbookData } from '@univerjs/core';
import { SetFormulaCalculationResultMutation } from '@univerjs/engine-formula';
import { SetWorksheetActivateCommand } from '@univerjs/sheets';
import { isCellError } from '../catalogue/cell.ts';
import type { HostFunction } from '../sheet/host-function.ts';
import type { OnAdded } from './add-sheets.ts';
import { copySpilledCells } from './copy-spills.ts';
import { showErrorTexts } from './error-hover.ts';
import { pasteBlocks } from './paste-blocks.ts';
import { sheetCells, type SheetCells } from './sheet-cells.ts';
import { takeSheetKeys } from './sheet-keys.ts';
import { sheetPort } from './sheet-port.ts';
import type { TrialSheetPort } from './sheet-port.ts';
import { showSheet } from './show-sheet.ts';
import { keepRoomForSpills } from './spill-room.ts';

/** Where in the page things go. */
export interface Places {
  readonly sheet: HTMLElement;
  /** Line below the sheet, for the error of the selected cell. */
  readonly status: HTMLElement;
}

export interface OpenWorkbook {
  readonly port: TrialSheetPort;
  readonly cells: SheetCells;
  /** The workbook as it stands, to be kept or written. */
  readonly data: () => IWorkbookData;
  /** Calls back at each change of what the workbook holds, not of what is calculated or selected; `moved` names a sheet whose rows or columns moved. */
  readonly onEdit: (listener: (moved: string | undefined) => void) => void;
  /** When all formulas were calculated for the first time. */
  readonly calculated: Promise<void>;
  /** Shows a sheet by its id, where there is such. */
  readonly activate: (sheet: string) => void;
  readonly close: () => void;
}

/** Commands of the engine that change nothing a file holds. */
const NO_EDIT =
  /^(formula\.|sheet\.mutation\.(set-worksheet-active|set-scroll|set-zoom|set-worksheet-row-auto-height)|doc\.|ui\.|rpc\.|sheet\.mutation\.set-array-formula)/;
const MOVES =
  /^sheet\.mutation\.(insert-row|insert-col|remove-row|remove-rows|remove-col|remove-cols|move-rows|move-columns)/;

/** Shows a workbook in the page and says of every failed cell why: on hovering it, on selecting it, and after the edit that made it fail. */
export function openWorkbook(
  places: Places,
  data: IWorkbookData,
  functions: readonly HostFunction[],
  onAdded: OnAdded,
): OpenWorkbook {
  const { injector, close } = showSheet(places.sheet, data, functions);
  const cells = sheetCells(injector, data.id);
  const port = sheetPort(injector, data.id, cells, onAdded);
  const commands = injector.get(ICommandService);
  const calculated = new Promise<void>((resolve) => {
    const watching = commands.onCommandExecuted(({ id }) => {
      if (id !== SetFormulaCalculationResultMutation.id) return;
      watching.dispose();
      // The results are put into the cells by the same command.
      setTimeout(resolve);
    });
  });
  showErrorTexts(injector, port.errorText);
  keepRoomForSpills(injector, cells);
  copySpilledCells(injector, cells);
  pasteBlocks(injector, cells);
  const dropKeys = takeSheetKeys(injector, cells, (text) => {
    places.status.textContent = text;
  });
  port.onSelection((cell) => {
    const own = cell && isCellError(cell.value) ? { address: cell.address, ...cell.value, more: 0 } : undefined;
    const failed = own ?? port.lastFailure();
    const more =
      failed && failed.more > 0
        ? ` (and ${failed.more} more ${failed.more === 1 ? 'cell' : 'cells'} on this sheet)`
        : '';
    places.status.textContent = failed ? `${failed.address} ${failed.error} ${failed.message}${more}` : '';
  });
  return {
    port,
    cells,
    calculated,
    data: () => {
      const saved = injector.get(IResourceLoaderService).saveUnit<IWorkbookData>(data.id);
      if (!saved) throw new Error('the workbook is gone');
      return saved;
    },
    onEdit: (listener) => {
      commands.onCommandExecuted(({ id, type, params }, options) => {
        // What the sheet writes in the wake of a calculation nobody has typed.
        const calculated = options?.['applyFormulaCalculationResult'] === true || options?.['fromFormula'] === true;
        if (type !== CommandType.MUTATION || NO_EDIT.test(id) || calculated) return;
        listener(MOVES.test(id) ? (params as { subUnitId?: string }).subUnitId : undefined);
      });
    },
    activate: (sheet) => {
      if (cells.workbook().getSheetBySheetId(sheet))
        void commands.executeCommand(SetWorksheetActivateCommand.id, { unitId: data.id, subUnitId: sheet });
    },
    close: () => {
      dropKeys();
      close();
    },
  };
}
