import { ObjectMatrix } from '@univerjs/core';
import type { ICellData, Injector, IRange, IUnitRange, Nullable } from '@univerjs/core';
import {
  FORMULA_REF_TO_ARRAY_CACHE,
  ICalculateFormulaService,
  IFormulaCurrentConfigService,
  IFormulaRuntimeService,
} from '@univerjs/engine-formula';
import type { IAllRuntimeData } from '@univerjs/engine-formula';
import { textOfCell } from './error-text.ts';

/** Formulas that read spilled cells can feed others that spill; no sensible sheet goes deeper than this. */
const MOST_PASSES = 20;

/** The engine's steps of one calculation; its typings keep them from view. */
interface Steps {
  _executeStep(): Promise<true | undefined>;
  /** Calculates what is dirty; undefined where it was stopped. */
  _apply(forSpills?: boolean): Promise<IAllRuntimeData | undefined>;
  _getArrayFormulaDirtyRangeAndExcludedRange(
    arrays: IAllRuntimeData['arrayFormulaRange'],
    features: IAllRuntimeData['runtimeFeatureRange'],
  ): { readonly dirtyRanges: IUnitRange[] };
}

interface Spill {
  readonly unitId: string;
  readonly sheetId: string;
  readonly row: number;
  readonly column: number;
  readonly range: IRange;
  readonly content: string;
}

/** By the cell of the formula. */
type Spills = ReadonlyMap<string, Spill>;

/**
 * Calculates again what reads spilled cells until no spill changes any more.
 *
 * The engine knows that a formula depends on the cells it names, not that these cells are filled by the
 * formula that spills into them. By itself it looks once for what it has missed, and not at all where a
 * spill shrinks or goes; a total of a spill would stay as it was.
 */
export function settleSpills(injector: Injector): void {
  const steps = injector.get(ICalculateFormulaService) as unknown as Steps;
  const config = injector.get(IFormulaCurrentConfigService);
  const runtime = injector.get(IFormulaRuntimeService);
  forgetEarlierSpills(runtime, config);

  /** As the last finished calculation left them. */
  let settled: Spills = new Map();

  steps._executeStep = async () => {
    const first = await steps._apply();
    if (!first) return undefined;
    let before = settled;
    let features = steps._getArrayFormulaDirtyRangeAndExcludedRange({}, first.runtimeFeatureRange).dirtyRanges;
    for (let pass = 0; pass < MOST_PASSES; pass++) {
      const now = spillsAfter(before, runtime, config);
      const dirty = [...features, ...changes(before, now)];
      before = now;
      if (dirty.length === 0) break;
      FORMULA_REF_TO_ARRAY_CACHE.clear();
      config.loadDirtyRangesAndExcludedCell(dirty, {});
      // After a calculation of everything, only what is dirty remains to be done.
      (config as unknown as { _forceCalculate: boolean })._forceCalculate = false;
      if (!(await steps._apply(true))) return undefined;
      features = [];
    }
    settled = before;
    return true;
  };
}

/**
 * A formula calculated again leaves nothing of its spill before, be it of this calculation or of the last.
 * References to ranges look at what the engine keeps of it without asking whether it still holds.
 */
function forgetEarlierSpills(runtime: IFormulaRuntimeService, config: IFormulaCurrentConfigService): void {
  const set = runtime.setRuntimeData.bind(runtime);
  runtime.setRuntimeData = (value) => {
    const { currentUnitId: unit, currentSubUnitId: sheet, currentRow: row, currentColumn: column } = runtime;
    const ranges = runtime.getUnitArrayFormula()[unit]?.[sheet];
    const earlier = ranges?.[row]?.[column];
    if (ranges && earlier) {
      // One that found no room filled no cells; those in its range are another's.
      const blocked = runtime.getUnitData()[unit]?.[sheet]?.getValue(row, column)?.v === '#SPILL!';
      if (!blocked) clear(runtime.getRuntimeArrayFormulaCellData()[unit]?.[sheet], earlier);
      new ObjectMatrix<IRange>(ranges).realDeleteValue(row, column);
    }
    set(value);
    const last = config.getArrayFormulaRange()[unit]?.[sheet]?.[row]?.[column];
    if (last) clear(config.getArrayFormulaCellData()[unit]?.[sheet], last);
  };
}

function clear(cells: ObjectMatrix<Nullable<ICellData>> | undefined, range: IRange): void {
  for (let r = range.startRow; r <= range.endRow; r++) {
    for (let c = range.startColumn; c <= range.endColumn; c++) cells?.realDeleteValue(r, c);
  }
}

/** The spills before, less those whose formula has gone or spills no more, and with those calculated in this calculation. */
function spillsAfter(before: Spills, runtime: IFormulaRuntimeService, config: IFormulaCurrentConfigService): Spills {
  const formulas = config.getFormulaData();
  const found = new Map(
    [...before].filter(
      ([, { unitId, sheetId, row, column }]) =>
        formulas[unitId]?.[sheetId]?.[row]?.[column] &&
        !runtime.getUnitData()[unitId]?.[sheetId]?.getValue(row, column),
    ),
  );
  for (const [unitId, sheets] of Object.entries(runtime.getUnitArrayFormula())) {
    for (const [sheetId, anchors] of Object.entries(sheets ?? {})) {
      const cells = runtime.getRuntimeArrayFormulaCellData()[unitId]?.[sheetId];
      new ObjectMatrix<IRange>(anchors).forValue((row, column, range) => {
        found.set(`${unitId}|${sheetId}|${row}|${column}`, {
          unitId,
          sheetId,
          row,
          column,
          range,
          content: content(cells, range),
        });
      });
    }
  }
  return found;
}

function content(cells: ObjectMatrix<Nullable<ICellData>> | undefined, range: IRange): string {
  const values: unknown[] = [range.endRow, range.endColumn];
  for (let r = range.startRow; r <= range.endRow; r++) {
    for (let c = range.startColumn; c <= range.endColumn; c++) {
      const cell = cells?.getValue(r, c);
      values.push(cell?.v ?? null, cell?.custom ? textOfCell(cell) : 0);
    }
  }
  return JSON.stringify(values);
}

/** Where spills have changed, without the formulas' own cells, which the engine orders rightly by itself. */
function changes(before: Spills, now: Spills): IUnitRange[] {
  const changed = [...new Set([...before.keys(), ...now.keys()])].filter(
    (key) => before.get(key)?.content !== now.get(key)?.content,
  );
  return changed
    .flatMap((key) => [before.get(key), now.get(key)])
    .flatMap((spill) => {
      if (!spill) return [];
      const { unitId, sheetId, range } = spill;
      const parts: IRange[] = [];
      if (range.endColumn > range.startColumn)
        parts.push({ ...range, endRow: range.startRow, startColumn: range.startColumn + 1 });
      if (range.endRow > range.startRow) parts.push({ ...range, startRow: range.startRow + 1 });
      return parts.map((part) => ({ unitId, sheetId, range: part }));
    });
}
