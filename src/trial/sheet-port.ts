import { BooleanNumber, generateRandomId, HorizontalAlign, ICommandService } from '@univerjs/core';
import type { ICellData, Injector, IRange, Worksheet } from '@univerjs/core';
import {
  deserializeRangeWithSheet,
  IDefinedNamesService,
  IFunctionService,
  isReferenceString,
  SetArrayFormulaDataMutation,
  SetFormulaCalculationResultMutation,
} from '@univerjs/engine-formula';
import {
  InsertSheetCommand,
  SetRangeValuesCommand,
  SetRangeValuesMutation,
  SetSelectionsOperation,
  SetWorksheetActivateCommand,
  SetWorksheetActiveOperation,
  SheetsSelectionsService,
} from '@univerjs/sheets';
import { isCellError } from '../catalogue/cell.ts';
import type { SelectedCell, SheetPort } from '../pane/port.ts';
import type { FormulaCell } from '../pane/unknown-name.ts';
import type { Cell } from '../sheet/host-function.ts';
import { hostFunctions } from '../sheet/host-functions.ts';
import { worksheetData } from '../engine/workbook.ts';
import { addSheets, type OnAdded } from './add-sheets.ts';
import { watchFailures } from './failures.ts';
import { formatTable } from './format-table.ts';
import { newJob } from './new-jobs.ts';
import type { ShownCell, ShownSheet } from './print-sheet.ts';
import { address } from './sheet-cells.ts';
import type { SheetCells } from './sheet-cells.ts';

/** After any of these another cell may be selected, or some cell hold something else. */
const CHANGES: ReadonlySet<string> = new Set([
  SetSelectionsOperation.id,
  SetWorksheetActiveOperation.id,
  SetRangeValuesMutation.id,
  SetArrayFormulaDataMutation.id,
  SetFormulaCalculationResultMutation.id,
]);

/** Room left below and beside what an added sheet holds. */
const SPARE_ROWS = 100;
const SPARE_COLUMNS = 20;

export interface TrialSheetPort extends SheetPort {
  /** What is known of the error in a cell, '' where it holds none. */
  readonly errorText: (sheetId: string, row: number, column: number) => string;
  /** The first cell of the sheet on show that the last calculation left failed, and how many more it did. */
  readonly lastFailure: () => FailedCell | undefined;
  /** Names of the functions that formulas here may use. */
  readonly functionNames: () => ReadonlySet<string>;
  /** What the sheet on show shows, from A1 on. */
  readonly shownSheet: () => ShownSheet;
}

export interface FailedCell {
  readonly address: string;
  readonly error: string;
  readonly message: string;
  readonly more: number;
}

/** Joins the pane to the workbook shown in the page. */
export function sheetPort(injector: Injector, workbookId: string, cells: SheetCells, onAdded: OnAdded): TrialSheetPort {
  const commands = injector.get(ICommandService);
  const selections = injector.get(SheetsSelectionsService);
  const definedNames = injector.get(IDefinedNamesService);
  const functions = injector.get(IFunctionService);
  const failures = watchFailures(injector, workbookId);

  const { workbook, formulaAt, valueAt, spillAt, extent } = cells;

  const selected = (): SelectedCell | undefined => {
    const cell = selections.getCurrentLastSelectionPrimaryCell();
    const sheet = workbook().getActiveSheet();
    if (!cell) return undefined;
    const { actualRow: row, actualColumn: column } = cell;
    const spill = spillAt(sheet, row, column);
    const elsewhere = spill && (spill.startRow !== row || spill.startColumn !== column);
    return {
      sheet: sheet.getName(),
      address: address(row, column),
      formula: formulaAt(sheet, row, column),
      value: valueAt(sheet, row, column),
      ...(elsewhere
        ? {
            spill: {
              from: address(spill.startRow, spill.startColumn),
              formula: formulaAt(sheet, spill.startRow, spill.startColumn),
              row: row - spill.startRow,
              column: column - spill.startColumn,
            },
          }
        : {}),
    };
  };

  const sheetNamed = (name: string): Worksheet => {
    const sheet = workbook().getSheetBySheetName(name);
    if (!sheet) throw new RangeError(`there is no sheet ${name}`);
    return sheet;
  };

  /** Whole columns and rows end where the sheet's data ends, so that two columns of a sheet have equal sizes. */
  const rangeOf = (reference: string, onSheet: string): { readonly sheet: Worksheet; readonly range: IRange } => {
    const { sheetName, range } = deserializeRangeWithSheet(reference);
    const sheet = sheetNamed(sheetName || onSheet);
    const whole = Number.isNaN(range.startRow + range.endRow + range.startColumn + range.endColumn);
    const end = whole ? extent(sheet) : { row: 0, column: 0 };
    const or = (value: number, other: number): number => (Number.isNaN(value) ? other : value);
    return {
      sheet,
      range: {
        startRow: or(range.startRow, 0),
        endRow: or(range.endRow, end.row),
        startColumn: or(range.startColumn, 0),
        endColumn: or(range.endColumn, end.column),
      },
    };
  };

  const read = (reference: string, onSheet: string): Cell[][] => {
    const asked = reference.trim().replace(/^=/, '');
    const spill = asked.endsWith('#') ? asked.slice(0, -1) : undefined;
    const name = definedNames.getValueByName(workbookId, spill ?? asked);
    if (name) return readName(name.formulaOrRefString, spill !== undefined, onSheet);
    if (!isReferenceString(spill ?? asked)) throw new RangeError(`${reference} is no reference to cells`);
    const { sheet, range } = rangeOf(spill ?? asked, onSheet);
    return cellsOf(sheet, spill === undefined ? range : (spillAt(sheet, range.startRow, range.startColumn) ?? range));
  };
  const readName = (meaning: string, spill: boolean, onSheet: string): Cell[][] => {
    const plain = meaning.trim().replace(/^=/, '');
    if (plain !== '' && Number.isFinite(Number(plain))) return [[Number(plain)]];
    return read(spill ? `${plain}#` : plain, onSheet);
  };
  const cellsOf = (sheet: Worksheet, range: IRange): Cell[][] =>
    Array.from({ length: range.endRow - range.startRow + 1 }, (_, r) =>
      Array.from({ length: range.endColumn - range.startColumn + 1 }, (__, c) =>
        valueAt(sheet, range.startRow + r, range.startColumn + c),
      ),
    );

  const formulasOf = (sheet: Worksheet): readonly FormulaCell[] => {
    const found: FormulaCell[] = [];
    sheet.getCellMatrix().forValue((row, column) => {
      const formula = formulaAt(sheet, row, column);
      if (formula === '') return;
      found.push({
        sheet: sheet.getName(),
        address: address(row, column),
        formula,
        value: valueAt(sheet, row, column),
      });
    });
    return found;
  };

  const shownCell = (sheet: Worksheet, row: number, column: number): ShownCell => {
    const cell = sheet.getCell(row, column);
    const value = valueAt(sheet, row, column);
    const style = workbook().getStyles().getStyleByCell(cell);
    const text = value === null ? '' : typeof value === 'boolean' ? String(value).toUpperCase() : String(cell?.v ?? '');
    return {
      text,
      bold: style?.bl === BooleanNumber.TRUE,
      right: style?.ht === HorizontalAlign.RIGHT || typeof value === 'number',
    };
  };

  return {
    onSelection(listener) {
      let waiting = false;
      let stopped = false;
      const tell = (): void => {
        waiting = false;
        if (!stopped) listener(selected());
      };
      const watching = commands.onCommandExecuted(({ id }) => {
        if (waiting || !CHANGES.has(id)) return;
        // One change comes as many commands.
        waiting = true;
        setTimeout(tell);
      });
      tell();
      return () => {
        stopped = true;
        watching.dispose();
      };
    },
    read: (reference, sheet) =>
      new Promise((resolve) => {
        resolve(read(reference, sheet));
      }),
    looker: () => import('../pane/workbook/look.ts'),
    formulas: {
      all: () =>
        new Promise((resolve) => {
          resolve(workbook().getSheets().flatMap(formulasOf));
        }),
    },
    async write(name, written) {
      const sheet = sheetNamed(name);
      const values: Record<number, Record<number, ICellData>> = {};
      for (const { address: at, value } of written) {
        const { startRow: row, startColumn: column } = deserializeRangeWithSheet(at).range;
        if (formulaAt(sheet, row, column) !== '' || spillAt(sheet, row, column))
          throw new Error(`${name} ${at} is filled by a formula`);
        values[row] = { ...values[row], [column]: { v: value } };
      }
      await commands.executeCommand(SetRangeValuesCommand.id, {
        unitId: workbookId,
        subUnitId: sheet.getSheetId(),
        value: values,
      });
    },
    async putFormula(formula) {
      const cell = selections.getCurrentLastSelectionPrimaryCell();
      if (!cell) throw new Error('no cell is selected');
      const { actualRow: row, actualColumn: column } = cell;
      await commands.executeCommand(SetRangeValuesCommand.id, {
        unitId: workbookId,
        subUnitId: workbook().getActiveSheet().getSheetId(),
        range: { startRow: row, endRow: row, startColumn: column, endColumn: column },
        value: { f: formula, v: null, p: null, si: null, custom: null },
      });
    },
    async goTo(sheetName, at) {
      const sheet = sheetNamed(sheetName);
      const { range } = rangeOf(at, sheetName);
      const subUnitId = sheet.getSheetId();
      await commands.executeCommand(SetWorksheetActivateCommand.id, { unitId: workbookId, subUnitId });
      const primary = {
        ...range,
        actualRow: range.startRow,
        actualColumn: range.startColumn,
        isMerged: false,
        isMergedMainCell: false,
      };
      await commands.executeCommand(SetSelectionsOperation.id, {
        unitId: workbookId,
        subUnitId,
        reveal: true,
        selections: [{ range, primary, style: null }],
      });
    },
    async addSheet(name, rows) {
      const content = rows.map((row) => row.map((cell) => (typeof cell === 'string' ? { text: cell } : cell)));
      const columns = Math.max(0, ...rows.map((row) => row.length));
      const sheet = worksheetData(generateRandomId(), {
        name,
        rows: content,
        size: [rows.length + SPARE_ROWS, columns + SPARE_COLUMNS],
      });
      await commands.executeCommand(InsertSheetCommand.id, { unitId: workbookId, sheet });
      await commands.executeCommand(SetWorksheetActivateCommand.id, { unitId: workbookId, subUnitId: sheet.id });
      return workbook().getSheetBySheetId(sheet.id)?.getName() ?? name;
    },
    beginJob: (kind) => addSheets(injector, cells, newJob(kind, hostFunctions), onAdded),
    format: (table) => formatTable(injector, cells, table),
    errorText(sheetId, row, column) {
      const sheet = workbook().getSheetBySheetId(sheetId);
      const value = sheet ? valueAt(sheet, row, column) : null;
      return typeof value === 'object' && value !== null ? value.message : '';
    },
    functionNames: () => new Set([...functions.getExecutors().keys()].map(String)),
    lastFailure() {
      const sheet = workbook().getActiveSheet();
      const failed = failures(sheet.getSheetId()).flatMap(([row, column]) => {
        // A cell that was emptied since is not calculated again.
        const value = valueAt(sheet, row, column);
        return isCellError(value) ? [{ address: address(row, column), ...value }] : [];
      });
      return failed[0] && { ...failed[0], more: failed.length - 1 };
    },
    shownSheet() {
      const sheet = workbook().getActiveSheet();
      const { row, column } = extent(sheet);
      return {
        name: sheet.getName(),
        headings: Math.min(sheet.getFreeze().ySplit, row),
        rows: Array.from({ length: row + 1 }, (_, r) =>
          Array.from({ length: column + 1 }, (__, c) => shownCell(sheet, r, c)),
        ),
      };
    },
  };
}
