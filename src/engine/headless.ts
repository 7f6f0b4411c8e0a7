import { LocaleType, LogLevel, Univer, UniverInstanceType } from '@univerjs/core';
import type { IRange, IWorkbookData } from '@univerjs/core';
import {
  deserializeRangeWithSheet,
  FormulaDataModel,
  functionArray,
  functionCompatibility,
  functionCube,
  functionDatabase,
  functionDate,
  functionEngineering,
  functionFinancial,
  functionInformation,
  functionLogical,
  functionLookup,
  functionMath,
  functionMeta,
  functionStatistical,
  functionText,
  functionUniver,
  functionWeb,
  ICalculateFormulaService,
  IDefinedNamesService,
  IFunctionService,
  UniverFormulaEnginePlugin,
} from '@univerjs/engine-formula';
import type { BaseFunction, IAllRuntimeData } from '@univerjs/engine-formula';
import type { CalculatedWorkbook, WorkbookDescription } from '../sheet/described-workbook.ts';
import type { Cell, HostFunction } from '../sheet/host-function.ts';
import { attachEngine } from './attach.ts';
import { onEngineFault, plainLinks } from './univer-patches.ts';
import { functionClass } from './function-class.ts';
import { readCell } from './read-cell.ts';
import { definedNames, workbookData } from './workbook.ts';

const OWN_FUNCTIONS = [
  functionArray,
  functionCompatibility,
  functionCube,
  functionDatabase,
  functionDate,
  functionEngineering,
  functionFinancial,
  functionInformation,
  functionLogical,
  functionLookup,
  functionMath,
  functionMeta,
  functionStatistical,
  functionText,
  functionUniver,
  functionWeb,
].flat() as unknown as readonly (readonly [new (name: string) => BaseFunction, string])[];

/** The functions of the sheet's own. */
export const functionNames: readonly string[] = OWN_FUNCTIONS.map(([, name]) => name);

let workbooks = 0;

/**
 * Calculates a workbook without a page. A failed cell is an error with a text, our own where the error
 * began in one of our functions, however many formulas it passed through.
 */
export async function calculateWorkbook(
  description: WorkbookDescription,
  functions: readonly HostFunction[],
): Promise<CalculatedWorkbook> {
  // The engine keeps parsed formulas by workbook id for the life of the process.
  const id = `book${++workbooks}`;
  const univer = new Univer({
    locale: LocaleType.EN_US,
    locales: { [LocaleType.EN_US]: {} },
    logLevel: LogLevel.SILENT,
  });
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
    plainLinks(injector);
    const results = await calculate(injector.get(ICalculateFormulaService), injector.get(FormulaDataModel));
    return reader(data, results, [...register.getExecutors().keys()].map(String));
  } finally {
    univer.dispose();
  }
}

function calculate(service: ICalculateFormulaService, model: FormulaDataModel): Promise<IAllRuntimeData> {
  return new Promise((resolve, reject) => {
    service.executionCompleteListener$.subscribe(resolve);
    onEngineFault(service, reject);
    void service.execute({
      formulaData: model.getFormulaData(),
      arrayFormulaCellData: {},
      arrayFormulaRange: {},
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

function reader(workbook: IWorkbookData, results: IAllRuntimeData, names: readonly string[]): CalculatedWorkbook {
  const unit = workbook.id;

  const cellAt = (sheet: string, row: number, column: number): Cell => {
    const typed = workbook.sheets[sheet]?.cellData?.[row]?.[column];
    const found =
      results.unitData[unit]?.[sheet]?.getValue(row, column) ??
      results.arrayFormulaCellData[unit]?.[sheet]?.getValue(row, column) ??
      typed;
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
      Array.from({ length: range.endColumn - range.startColumn + 1 }, (__, c) =>
        cellAt(sheet, range.startRow + r, range.startColumn + c),
      ),
    );

  const spill = (sheet: string, row: number, column: number): Cell[][] => {
    const anchor = results.unitData[unit]?.[sheet]?.getValue(row, column);
    const range = anchor?.v === '#SPILL!' ? undefined : results.arrayFormulaRange[unit]?.[sheet]?.[row]?.[column];
    return cells(sheet, range ?? { startRow: row, endRow: row, startColumn: column, endColumn: column });
  };
  const nth = (sheet: number): string => {
    const id = workbook.sheetOrder[sheet];
    if (id === undefined) throw new RangeError(`there is no sheet ${sheet}`);
    return id;
  };

  return {
    values: (reference) => {
      const { sheet, range } = place(reference);
      return cells(sheet, range);
    },
    spilled: (reference) => {
      const { sheet, range } = place(reference);
      return spill(sheet, range.startRow, range.startColumn);
    },
    valueAt: (sheet, row, column) => cellAt(nth(sheet), row, column),
    spilledAt: (sheet, row, column) => spill(nth(sheet), row, column),
  };
}
