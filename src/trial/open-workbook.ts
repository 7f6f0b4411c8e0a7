import { ICommandService, IResourceLoaderService, CommandType } from '@univerjs/core';
import type { ICommandInfo, IExecutionOptions, IWorkbookData } from '@univerjs/core';
import { SetFormulaCalculationResultMutation } from '@univerjs/engine-formula';
import { SetWorksheetActivateCommand } from '@univerjs/sheets';
import { isCellError } from '../catalogue/cell.ts';
import type { HostFunction } from '../sheet/host-function.ts';
import type { OnAdded } from './add-sheets.ts';
import { contentOf } from './content.ts';
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
  /** Calls back at each change of what the workbook may hold, not of what is calculated or selected; `moved` names a sheet whose rows or columns moved. */
  readonly onEdit: (listener: (moved: string | undefined) => void) => void;
  /** Whether it holds anything else than when it was opened or, if that was later, last saved. */
  readonly edited: () => boolean;
  /** Says that what it holds is in a file. */
  readonly saved: () => void;
  /** When all formulas were calculated for the first time. */
  readonly calculated: Promise<void>;
  /** Shows a sheet by its id, where there is such. */
  readonly activate: (sheet: string) => void;
  readonly close: () => void;
}

/** Commands of the engine that change nothing a file holds; of others there may be that change nothing after all. */
const NO_EDIT =
  /^(formula\.|sheet\.mutation\.(set-worksheet-active|set-scroll|set-zoom|set-worksheet-row-auto-height)|doc\.|ui\.|rpc\.|sheet\.mutation\.set-array-formula)/;
const MOVES =
  /^sheet\.mutation\.(insert-row|insert-col|remove-row|remove-rows|remove-col|remove-cols|move-rows|move-columns)/;

function mayEdit({ id, type }: Readonly<ICommandInfo>, options?: IExecutionOptions): boolean {
  // What the sheet writes in the wake of a calculation nobody has typed.
  const calculated = options?.['applyFormulaCalculationResult'] === true || options?.['fromFormula'] === true;
  return type === CommandType.MUTATION && !NO_EDIT.test(id) && !calculated;
}

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
  const held = (): IWorkbookData | null => injector.get(IResourceLoaderService).saveUnit<IWorkbookData>(data.id);
  const content = (): string => contentOf(held() ?? data);
  /** What it held before the first command that may have changed it. */
  let before: string | undefined;
  /** Commands under way come in after it, and nothing can be read then. */
  let closed = false;
  commands.beforeCommandExecuted((command, options) => {
    if (!closed && mayEdit(command, options)) before ??= content();
  });
  return {
    port,
    cells,
    calculated,
    data: () => {
      const saved = held();
      if (!saved) throw new Error('the workbook is gone');
      return saved;
    },
    onEdit: (listener) => {
      commands.onCommandExecuted((command, options) => {
        if (!mayEdit(command, options)) return;
        listener(MOVES.test(command.id) ? (command.params as { subUnitId?: string }).subUnitId : undefined);
      });
    },
    edited: () => !closed && before !== undefined && before !== content(),
    saved: () => {
      before = undefined;
    },
    activate: (sheet) => {
      if (cells.workbook().getSheetBySheetId(sheet))
        void commands.executeCommand(SetWorksheetActivateCommand.id, { unitId: data.id, subUnitId: sheet });
    },
    close: () => {
      closed = true;
      dropKeys();
      close();
    },
  };
}
