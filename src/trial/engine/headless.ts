import { LocaleType, LogLevel, ObjectMatrix, Univer, UniverInstanceType } from '@univerjs/core';
import type { IRange, IUnitRange, IWorkbookData } from '@univerjs/core';
import {
  deserializeRangeWithSheet, FormulaDataModel, functionArray, functionCompatibility, functionCube, functionDatabase,
  functionDate, functionEngineering, functionFinancial, functionInformation, functionLogical, functionLookup, functionMath, functionMeta,
  functionStatistical, functionText, functionUniver, functionWeb, ICalculateFormulaService, IDefinedNamesService, IDependencyManagerService,
  IFunctionService, UniverFormulaEnginePlugin,
} from '@univerjs/engine-formula';
import type { BaseFunction, IAllRuntimeData } from '@univerjs/engine-formula';
import type { Cell, HostFunction } from '../../sheet/host-function.ts';
import { attachEngine } from './attach.ts';
import { functionClass } from './function-class.ts';
import { readCell } from './read-cell.ts';
import { definedNames, workbookData } from './workbook.ts';
import type { WorkbookDescription } from './workbook.ts';

/** A calculated workbook, read by sheet and address or by reference (`'Job sheet'!A1:C9`; the first sheet where none is named). */
export interface CalculatedWorkbook {
  values(reference: string): readonly (readonly Cell[])[];
  /** The value of the formula in a cell with all that it spilled; the cell alone where it spilled nothing. */
  spilled(reference: string): readonly (readonly Cell[])[];
}

/** Formulas that read what others spill may need another round; nothing sensible needs more than this. */
const MOST_ROUNDS = 8;

const OWN_FUNCTIONS = [
  functionArray, functionCompatibility, functionCube, functionDatabase, functionDate, functionEngineering, functionFinancial,
  functionInformation, functionLogical, functionLookup, functionMath, functionMeta, functionStatistical, functionText, functionUniver,
  functionWeb,
].flat() as unknown as readonly (readonly [new (name: string) => BaseFunction, string])[];

let workbooks = 0;

/**
 * Calculates a workbook without a page. A failed cell is an error with a text, our own where the error
 * began in one of our functions, however many formulas it passed through.
 */
export async function calculateWorkbook(
  description: WorkbookDescription, functions: readonly HostFunction[],
): Promise<CalculatedWorkbook> {
  // The engine keeps parsed formulas by workbook id for the life of the process.
  const id = `book${++workbooks}`;
  const univer = new Univer({ locale: LocaleType.EN_US, locales: { [LocaleType.EN_US]: {} }, logLevel: LogLevel.SILENT });
  try {
    univer.registerPlugin(UniverFormulaEnginePlugin);
    const data = workbookData(id, description);
    univer.createUnit(UniverInstanceType.UNIVER_SHEET, data);
    const injector = univer.__getInjector();
    const register = injector.get(IFunctionService);
    register.registerExecutors(...OWN_FUNCTIONS.map(([Own, name]) => new Own(name)));
    register.registerExecutors(...functions.map((host) => new (functionClass(host))()));
    injector.get(IDefinedNamesService).registerDefinedNames(id, definedNames(description));
    attachEngine(injector);
    const results = await settled(
      injector.get(ICalculateFormulaService), injector.get(FormulaDataModel), injector.get(IDependencyManagerService),
    );
    return reader(data, results, [...register.getExecutors().keys()].map(String));
  } finally {
    univer.dispose();
  }
}

/** Calculates until what is spilled changes nothing more for the formulas that read it. */
async function settled(
  service: ICalculateFormulaService, model: FormulaDataModel, dependencies: IDependencyManagerService,
): Promise<IAllRuntimeData> {
  let last = await calculateOnce(service, model);
  for (let round = 1; round < MOST_ROUNDS; round++) {
    if (dependencies.searchDependency(spilledCells(last)).size === 0) break;
    const before = fingerprint(last);
    last = await calculateOnce(service, model, last);
    if (fingerprint(last) === before) break;
  }
  return last;
}

/** All cells that formulas spilled into, without the formulas' own cells, which the engine orders rightly by itself. */
function spilledCells(data: IAllRuntimeData): IUnitRange[] {
  const found: IUnitRange[] = [];
  for (const [unitId, sheets] of Object.entries(data.arrayFormulaRange)) {
    for (const [sheetId, anchors] of Object.entries(sheets ?? {})) {
      new ObjectMatrix<IRange>(anchors).forValue((_row, _column, range) => {
        const { startRow, endRow, startColumn, endColumn } = range;
        if (endColumn > startColumn) found.push({ unitId, sheetId, range: { ...range, endRow: startRow, startColumn: startColumn + 1 } });
        if (endRow > startRow) found.push({ unitId, sheetId, range: { ...range, startRow: startRow + 1 } });
      });
    }
  }
  return found;
}

function calculateOnce(service: ICalculateFormulaService, model: FormulaDataModel, last?: IAllRuntimeData): Promise<IAllRuntimeData> {
  return new Promise((resolve, reject) => {
    const done = service.executionCompleteListener$.subscribe((data) => {
      done.unsubscribe();
      resolve(data);
    });
    // The engine runs this step unawaited: a throw in it would end the process instead of this promise.
    const guarded = service as unknown as { _executeStep(): Promise<unknown> };
    const step = Object.getPrototypeOf(service) as typeof guarded;
    guarded._executeStep = () => step._executeStep.call(service).catch((thrown: unknown) => {
      done.unsubscribe();
      reject(thrown instanceof Error ? thrown : new Error(String(thrown)));
    });
    void service.execute({
      formulaData: model.getFormulaData(),
      arrayFormulaCellData: primitive(last?.arrayFormulaCellData ?? {}),
      arrayFormulaRange: last?.arrayFormulaRange ?? {},
      forceCalculate: true,
      dirtyRanges: [],
      dirtyNameMap: {},
      dirtyDefinedNameMap: {},
      dirtyUnitFeatureMap: {},
      dirtyUnitOtherFormulaMap: {},
      maxIteration: 1,
    });
  });
}

/** Spilled cells of a round in the form the next round takes them. */
function primitive(data: IAllRuntimeData['arrayFormulaCellData']): Parameters<ICalculateFormulaService['execute']>[0]['arrayFormulaCellData'] {
  return Object.fromEntries(Object.entries(data).map(([unit, sheets]) =>
    [unit, Object.fromEntries(Object.entries(sheets ?? {}).map(([sheet, cells]) => [sheet, cells.getMatrix()]))]));
}

function fingerprint(data: IAllRuntimeData): string {
  const parts: unknown[] = [];
  for (const cells of [data.unitData, data.arrayFormulaCellData]) {
    for (const sheets of Object.values(cells)) {
      for (const [sheet, matrix] of Object.entries(sheets ?? {})) {
        matrix.forValue((row, column, cell) => void parts.push(sheet, row, column, cell?.v));
      }
    }
  }
  return JSON.stringify(parts);
}

function reader(workbook: IWorkbookData, results: IAllRuntimeData, names: readonly string[]): CalculatedWorkbook {
  const unit = workbook.id;

  const cellAt = (sheet: string, row: number, column: number): Cell => {
    const typed = workbook.sheets[sheet]?.cellData?.[row]?.[column];
    const found = results.unitData[unit]?.[sheet]?.getValue(row, column)
      ?? results.arrayFormulaCellData[unit]?.[sheet]?.getValue(row, column)
      ?? typed;
    return readCell(found, typed?.f ?? '', names);
  };
  const place = (reference: string): { readonly sheet: string; readonly range: IRange } => {
    const { sheetName, range } = deserializeRangeWithSheet(reference);
    const sheet = workbook.sheetOrder.find((id) => sheetName === '' || workbook.sheets[id]?.name === sheetName);
    if (sheet === undefined) throw new RangeError(`there is no sheet ${sheetName}`);
    return { sheet, range };
  };
  const cells = (sheet: string, range: IRange): Cell[][] =>
    Array.from({ length: range.endRow - range.startRow + 1 }, (_, r) =>
      Array.from({ length: range.endColumn - range.startColumn + 1 }, (__, c) => cellAt(sheet, range.startRow + r, range.startColumn + c)));

  return {
    values: (reference) => {
      const { sheet, range } = place(reference);
      return cells(sheet, range);
    },
    spilled: (reference) => {
      const { sheet, range } = place(reference);
      const anchor = results.unitData[unit]?.[sheet]?.getValue(range.startRow, range.startColumn);
      const spill = anchor?.v === '#SPILL!' ? undefined : results.arrayFormulaRange[unit]?.[sheet]?.[range.startRow]?.[range.startColumn];
      return cells(sheet, spill ?? { ...range, endRow: range.startRow, endColumn: range.startColumn });
    },
  };
}
