/**
 * Everything here goes round the typings or changes the workings of the pinned sheet engine, and nothing else does.
 * Each says what it mends and how to see whether a newer engine still needs it: take it out and run the test it names.
 */
import { CellValueType, ObjectMatrix } from '@univerjs/core';
import type { ICellData, Injector, IRange, IUnitRange, Nullable } from '@univerjs/core';
import {
  ArrayValueObject,
  AstTreeBuilder,
  BaseFunction,
  BaseReferenceObject,
  CELL_INVERTED_INDEX_CACHE,
  ErrorValueObject,
  FORMULA_REF_TO_ARRAY_CACHE,
  FormulaExecuteStageType,
  functionDate,
  functionLookup,
  FunctionNodeFactory,
  ICalculateFormulaService,
  IDependencyManagerService,
  IFormulaCurrentConfigService,
  IFormulaDependencyGenerator,
  IFormulaRuntimeService,
  IFunctionService,
  IHyperlinkEngineFormulaService,
  Interpreter,
  Lexer,
  LexerNode,
  LexerTreeBuilder,
  NumberValueObject,
  SuffixNodeFactory,
  ValueObjectFactory,
} from '@univerjs/engine-formula';
import type { BaseValueObject, FormulaDependencyTree, IAllRuntimeData } from '@univerjs/engine-formula';
import { unexpected, unreadableFormula } from '../core/messages.ts';
import { engineErrors } from '../sheet/engine-errors.ts';
import { circularCells, placeKey } from './circular.ts';
import { errorValue, textOfCell } from './error-text.ts';
import { changes, spillsAfter, type Spills } from './settle-spills.ts';
import { AnchorArray } from './spill-reference.ts';

type NodeValueType = ReturnType<BaseFunction['calculate']>;
type AstNode = ReturnType<AstTreeBuilder['parse']>;

/** Set on the engine's own objects once it is mended, so that a second workbook does not mend it again. */
const MENDED = Symbol.for('rodsheet.engine-mended');

/** What all engines of a page or process share. To be called before the first formula. */
export function patchShared(): void {
  const marked = ValueObjectFactory as typeof ValueObjectFactory & { [MENDED]?: true };
  if (marked[MENDED]) return;
  marked[MENDED] = true;
  dropIndexCache();
  keepTextAsText();
  keepErrorText();
  keepCellsApart();
  keepNumbersFinite();
  keepTextAsTyped();
  chooseWholeRanges();
  measureByHost();
  keepToTheMonth();
}

/** What belongs to one engine. To be called before its first calculation. */
export function patchEngine(injector: Injector): void {
  allowSpillReferences(injector);
  countWholeLines(injector);
  guardParsing(injector);
  guardCalculation(injector);
  settleSpills(injector);
}

/**
 * The cache of values by column makes a spill of n rows cost n squared, and is only ever a shortcut.
 *
 * Still needed while 10,000 rows of a spill take longer than ten times 1,000.
 */
function dropIndexCache(): void {
  CELL_INVERTED_INDEX_CACHE.set = () => undefined;
  CELL_INVERTED_INDEX_CACHE.setContinueBuildingCache = () => undefined;
}

/**
 * A quoted "3/8" in a formula is a text. The engine would read it as the third of August; only its
 * functions of dates may go on doing so, because some of them take no text.
 *
 * Test: headless, "leaves a quoted fraction a text".
 */
function keepTextAsText(): void {
  const create = ValueObjectFactory.create.bind(ValueObjectFactory);
  ValueObjectFactory.create = (raw, ignorePatterns = true) => create(raw, ignorePatterns);
  // The engine's list is of pairs, class and name, which its typings mix.
  for (const [date] of functionDate as unknown as readonly (readonly [
    { readonly prototype: BaseFunction },
    string,
  ])[]) {
    if (!Object.hasOwn(date.prototype, 'isArgumentsIgnoreNumberPattern'))
      date.prototype.isArgumentsIgnoreNumberPattern = () => false;
  }
  BaseFunction.prototype.isArgumentsIgnoreNumberPattern = () => true;
}

/**
 * A reference to a failed cell brings the cell's text along with its code.
 *
 * Test: headless, those of an error's text through formulas.
 */
function keepErrorText(): void {
  // eslint-disable-next-line @typescript-eslint/unbound-method -- called with its own `this` below
  const read = BaseReferenceObject.prototype.getCellValueObject;
  BaseReferenceObject.prototype.getCellValueObject = function (this: BaseReferenceObject, cell) {
    const value = read.call(this, cell);
    const text = value instanceof ErrorValueObject ? textOfCell(cell) : '';
    return text === '' ? value : errorValue(String(value.getValue()), text);
  };
}

/**
 * A function that sorts the rows of its argument in place, as SORT does, would reorder the cells themselves: the
 * engine keeps one array for a range and hands it to every formula that reads it.
 *
 * Test: arguments-untouched, which asks every function.
 */
function keepCellsApart(): void {
  // eslint-disable-next-line @typescript-eslint/unbound-method -- called with its own `this` below
  const rows = ArrayValueObject.prototype.getArrayValue;
  ArrayValueObject.prototype.getArrayValue = function (this: ArrayValueObject) {
    return rows.call(this).slice();
  };
}

/**
 * A function's result that is no number, or endless, is a #NUM!, so that nothing can be calculated or compared with it.
 *
 * Test: engine-throws, "never a NaN".
 */
function keepNumbersFinite(): void {
  // eslint-disable-next-line @typescript-eslint/unbound-method -- called with its own `this` below
  const create = FunctionNodeFactory.prototype.create;
  const guarded = new WeakSet<object>();
  FunctionNodeFactory.prototype.create = function (this: FunctionNodeFactory, token) {
    const node = create.call(this, token);
    const kind = Object.getPrototypeOf(node) as { _calculate?: (variants: readonly NodeValueType[]) => NodeValueType };
    const calculate = kind._calculate;
    if (calculate && !guarded.has(kind)) {
      guarded.add(kind);
      kind._calculate = function (this: unknown, variants) {
        return finite(calculate.call(this, variants));
      };
    }
    return node;
  };
}

function finite(value: NodeValueType): NodeValueType {
  const endless = (each: Nullable<BaseValueObject>): boolean =>
    each instanceof NumberValueObject && !Number.isFinite(each.getValue());
  const failed = (): ErrorValueObject => errorValue('#NUM!', engineErrors['#NUM!'] ?? '');
  if (!(value instanceof ArrayValueObject)) return endless(value as BaseValueObject) ? failed() : value;
  return value.getArrayValue().flat().some(endless)
    ? value.mapValue((each) => (endless(each) ? failed() : each))
    : value;
}

/**
 * A line break in a quoted text stays one. The engine takes every line break for a blank before it takes the formula
 * apart; so such a text is put together from pieces. In an array it cannot be, and becomes a blank still.
 *
 * Test: headless, "keep a line break".
 */
function keepTextAsTyped(): void {
  // eslint-disable-next-line @typescript-eslint/unbound-method -- called with its own `this` below
  const build = LexerTreeBuilder.prototype.treeBuilder;
  LexerTreeBuilder.prototype.treeBuilder = function (this: LexerTreeBuilder, formula, ...more) {
    const single = formula.includes('-') ? withoutDoubleMinus(formula) : formula;
    return build.call(this, /[\r\n]/.test(single) ? withoutLineBreaks(single) : single, ...more);
  };
}

/**
 * Two minus signs after an arithmetic operator, as in `1+--A1`, say nothing; the engine takes them for one.
 *
 * Test: headless, "take two minus signs".
 */
function withoutDoubleMinus(formula: string): string {
  return formula.replace(/'(?:[^']|'')*'|"(?:[^"]|"")*"|(?<=[\w)\]%"'}#]\s*[-+*/^]\s*)(?:-\s*-\s*)+/g, (piece) =>
    piece.startsWith('-') ? '' : piece,
  );
}

/** Names of sheets in single quotes and arrays stay as they are. */
function withoutLineBreaks(formula: string): string {
  return formula.replace(/'(?:[^']|'')*'|\{(?:"(?:[^"]|"")*"|[^"}])*\}|"(?:[^"]|"")*"/g, (piece) =>
    piece.startsWith('"') && /[\r\n]/.test(piece)
      ? `(${piece.replace(/\r\n|\r|\n/g, (end) => `"&${end === '\r' ? 'CHAR(13)' : 'CHAR(10)'}&"`)})`
      : piece,
  );
}

/**
 * CHOOSE with a list of numbers takes ranges at their whole size. The engine measures arrays only, and gives the first
 * row of a range.
 *
 * Test: headless, "choose whole columns".
 */
function chooseWholeRanges(): void {
  const choose = classOf('CHOOSE', functionLookup);
  // eslint-disable-next-line @typescript-eslint/unbound-method -- called with its own `this` below
  const calculate = choose.prototype.calculate;
  choose.prototype.calculate = function (this: BaseFunction, index: NodeValueType, ...choices: NodeValueType[]) {
    const list = asArray(index);
    const whole = list instanceof ArrayValueObject && list.getRowCount() * list.getColumnCount() > 1;
    return calculate.call(
      this,
      index as BaseValueObject,
      ...((whole ? choices.map(asArray) : choices) as BaseValueObject[]),
    );
  };
}

/** The class of a function of the engine, out of one of its lists of class and name, which its typings mix. */
function classOf(name: string, list: unknown): typeof BaseFunction {
  const found = (list as readonly (readonly [typeof BaseFunction, string])[]).find(([, each]) => each === name);
  if (!found) throw new Error(`the engine has no ${name}`);
  return found[0];
}

/**
 * EDATE from the 30th of January to February is the last day of February. The engine counts on into March.
 *
 * Test: headless, "stay in the month".
 */
function keepToTheMonth(): void {
  const edate = classOf('EDATE', functionDate);
  // eslint-disable-next-line @typescript-eslint/unbound-method -- called with its own `this` below
  const calculate = edate.prototype.calculate;
  edate.prototype.calculate = function (this: BaseFunction, start: BaseValueObject, months: BaseValueObject) {
    const result = calculate.call(this, start, months) as BaseValueObject;
    const corrected = (value: BaseValueObject, from: Nullable<BaseValueObject>): BaseValueObject => {
      const [day, wanted] = [dayOfMonth(value), dayOfMonth(from)];
      return day < wanted ? NumberValueObject.create(Number(value.getValue()) - day) : value;
    };
    if (!(result instanceof ArrayValueObject)) return corrected(result, start);
    const from = (row: number, column: number): Nullable<BaseValueObject> =>
      start instanceof ArrayValueObject
        ? start.get(Math.min(row, start.getRowCount() - 1), Math.min(column, start.getColumnCount() - 1))
        : start;
    return result.map((value, row, column) => corrected(value, from(row, column)));
  };
}

/** Day of the month of a serial number, which counts a 29th of February 1900; 0 for what is none. */
function dayOfMonth(value: Nullable<BaseValueObject>): number {
  const serial = value?.isNumber() ? Math.floor(Number(value.getValue())) : NaN;
  return serial > 0 ? new Date(Date.UTC(1899, 11, serial < 60 ? 31 : 30) + serial * 86_400_000).getUTCDate() : 0;
}

/** Rows and columns of a sheet in the host. Source: its documentation of limits. */
const HOST_ROWS = 1_048_576;
const HOST_COLUMNS = 16_384;

/**
 * SEQUENCE and RANDARRAY may be as long as a sheet of the host, not as the sheet they happen to stand in here, which is
 * only as long as what is filled and some room.
 *
 * Test: headless, "make lists longer than the sheet".
 */
function measureByHost(): void {
  // eslint-disable-next-line @typescript-eslint/unbound-method -- called with its own `this` below
  const set = BaseFunction.prototype.setSheetRowColumnCount;
  BaseFunction.prototype.setSheetRowColumnCount = function (this: BaseFunction) {
    set.call(this, HOST_ROWS, HOST_COLUMNS);
  };
}

/**
 * ROWS of a whole column are those of a sheet in the host, and so are COLUMNS of a whole row. The engine counts those of the
 * sheet it has, which ends soon after what is filled.
 *
 * Test: headless, "count a whole column".
 */
function countWholeLines(injector: Injector): void {
  const mend = (executor: BaseFunction): void => {
    const rows = executor.name === 'ROWS';
    if (!rows && executor.name !== 'COLUMNS') return;
    const calculate = executor.calculate.bind(executor);
    executor.needsReferenceObject = true;
    executor.calculate = (reference: NodeValueType) => {
      if (!(reference instanceof BaseReferenceObject)) return calculate(reference as BaseValueObject);
      const { startRow, endRow, startColumn, endColumn } = reference.getRangeData();
      const [start, end, whole] = rows ? [startRow, endRow, HOST_ROWS] : [startColumn, endColumn, HOST_COLUMNS];
      return NumberValueObject.create(Number.isNaN(start) || Number.isNaN(end) ? whole : end - start + 1);
    };
  };
  const service = injector.get(IFunctionService);
  for (const executor of service.getExecutors().values()) mend(executor);
  const register = service.registerExecutors.bind(service);
  service.registerExecutors = (...executors) => {
    executors.forEach(mend);
    register(...executors);
  };
}

const asArray = (value: NodeValueType): NodeValueType =>
  value instanceof BaseReferenceObject ? value.toArrayValueObject() : value;

/**
 * Without a page a link is its text. The engine gives formatted text, which is a blank to whoever reads the value.
 *
 * Test: headless, "give the text of a link".
 */
export function plainLinks(injector: Injector): void {
  injector.get(IHyperlinkEngineFormulaService).generateCellValue = (_url, label) => ({
    v: label,
    t: CellValueType.STRING,
  });
}

/**
 * Lets formulas say `A1#`, which the engine parses and then answers with an error.
 *
 * Test: headless, those of `#`.
 */
function allowSpillReferences(injector: Injector): void {
  const name = 'ANCHORARRAY';
  injector.get(IFunctionService).registerExecutors(new AnchorArray(name));
  const suffixes = injector.get(SuffixNodeFactory);
  const functions = injector.get(FunctionNodeFactory);
  const check = suffixes.checkAndCreateNodeType.bind(suffixes);
  suffixes.checkAndCreateNodeType = (param) =>
    param instanceof LexerNode && param.getToken().trim() === '#'
      ? (functions.create(name) as ReturnType<typeof check>)
      : check(param);
}

/** Stands in a formula that the engine cannot take apart. */
class Unreadable extends BaseFunction {
  override minParams = 0;
  override maxParams = 0;
  override calculate(): BaseValueObject {
    return errorValue('#VALUE!', unreadableFormula());
  }
}

/**
 * A formula whose parsing throws, such as LET with a range for a name, fails alone. The engine would stop: nothing else
 * of the workbook would calculate any more.
 *
 * Test: engine-throws.
 */
function guardParsing(injector: Injector): void {
  const name = 'UNREADABLE';
  injector.get(IFunctionService).registerExecutors(new Unreadable(name));
  const lexer = injector.get(Lexer);
  const trees = injector.get(AstTreeBuilder);
  const build = lexer.treeBuilder.bind(lexer);
  const parse = trees.parse.bind(trees);
  const unreadable = (): ReturnType<typeof build> => build(`=${name}()`);
  lexer.treeBuilder = (formula, transformSuffix) => {
    try {
      return build(formula, transformSuffix);
    } catch {
      return unreadable();
    }
  };
  trees.parse = (lexed): AstNode => {
    try {
      const tree = parse(lexed);
      if (!isTooDeep(tree)) return tree;
    } catch {
      // Told by the cell.
    }
    return parse(unreadable() as LexerNode);
  };
}

/** Steps of a formula inside one another, as the terms of a sum are; the engine goes through them by recursion. */
const MOST_DEEP = 2000;

function isTooDeep(tree: AstNode): boolean {
  let level = tree ? [tree] : [];
  for (let deep = 0; level.length > 0; deep++) {
    if (deep > MOST_DEEP) return true;
    level = level.flatMap((node) => node.getChildren());
  }
  return false;
}

/** The one step of the engine's ordering that is replaced; its typings keep it private. */
interface Ordering {
  _checkIsCycleDependency(trees: readonly FormulaDependencyTree[]): boolean;
}

/**
 * Makes every cell of a circle a `#CYCLE!` that says which cells it runs through, where the engine by
 * itself would go round once and leave a number; and makes a throw inside a formula that cell's error,
 * where the engine would end the whole page or process.
 *
 * Tests: circular, engine-throws.
 */
function guardCalculation(injector: Injector): void {
  const ordering = injector.get(IFormulaDependencyGenerator) as unknown as Ordering;
  const dependencies = injector.get(IDependencyManagerService);
  const runtime = injector.get(IFormulaRuntimeService);
  const interpreter = injector.get(Interpreter);
  let circular: ReadonlyMap<string, ErrorValueObject> = new Map();

  ordering._checkIsCycleDependency = (trees) => {
    circular = new Map([...circular, ...circularCells(trees, dependencies)]);
    // The engine need not iterate: the circles are settled.
    return false;
  };

  const failed = (thrown: unknown): ErrorValueObject =>
    errorValue('#VALUE!', unexpected('a function of the sheet', thrown).message);
  const execute = interpreter.execute.bind(interpreter);
  interpreter.execute = (node) => {
    if (circular.size > 0 && isCalculating(runtime.getFormulaExecuteStage())) {
      const error = circular.get(
        placeKey(runtime.currentUnitId, runtime.currentSubUnitId, runtime.currentRow, runtime.currentColumn),
      );
      if (error) return error;
    }
    try {
      return finite(execute(node)) as ReturnType<typeof execute>;
    } catch (thrown) {
      return failed(thrown);
    }
  };
  // Parts of formulas that give addresses, as OFFSET, are calculated while the order is found.
  const before = interpreter.executePreCalculateNode.bind(interpreter);
  interpreter.executePreCalculateNode = (node) => {
    try {
      return before(node);
    } catch (thrown) {
      return failed(thrown);
    }
  };
  injector.get(ICalculateFormulaService).executionCompleteListener$.subscribe(() => (circular = new Map()));
}

function isCalculating(stage: FormulaExecuteStageType): boolean {
  return (
    stage === FormulaExecuteStageType.CURRENTLY_CALCULATING ||
    stage === FormulaExecuteStageType.CURRENTLY_CALCULATING_ARRAY_FORMULA
  );
}

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

/**
 * Calculates again what reads spilled cells until no spill changes any more.
 *
 * The engine knows that a formula depends on the cells it names, not that these cells are filled by the
 * formula that spills into them. By itself it looks once for what it has missed, and not at all where a
 * spill shrinks or goes; a total of a spill would stay as it was.
 *
 * Tests: headless and trial-sheet, those of spills.
 */
function settleSpills(injector: Injector): void {
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

/**
 * Tells of a throw in the engine's own workings. It runs this step unawaited, so that a throw in it would end the process.
 *
 * Still needed while `ICalculateFormulaService.execute` gives nothing to wait for.
 */
export function onEngineFault(service: ICalculateFormulaService, tell: (fault: Error) => void): void {
  const guarded = service as unknown as { _executeStep(): Promise<unknown> };
  const step = guarded._executeStep.bind(service);
  guarded._executeStep = () =>
    step().catch((thrown: unknown) => tell(thrown instanceof Error ? thrown : new Error(String(thrown))));
}
