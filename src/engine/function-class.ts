import { CellValueType } from '@univerjs/core';
import type { IRange } from '@univerjs/core';
import {
  ArrayValueObject,
  BaseFunction,
  BaseReferenceObject,
  BooleanValueObject,
  ErrorValueObject,
  NullValueObject,
  NumberValueObject,
  StringValueObject,
} from '@univerjs/engine-formula';
import type { BaseValueObject } from '@univerjs/engine-formula';
import { tooManyArguments, unexpected } from '../core/messages.ts';
import { engineErrors } from '../sheet/engine-errors.ts';
import type { Argument, Cell, CellError, HostFunction } from '../sheet/host-function.ts';
import { errorValue, textOfValue } from './error-text.ts';
import { usedRanges } from './used-range.ts';
import type { CellPlace } from './used-range.ts';

/** What a function of the engine is called with. */
type Incoming = BaseValueObject | BaseReferenceObject;

/** A class of the engine's own kind for one of our functions. */
export function functionClass(host: HostFunction): new () => BaseFunction {
  return class extends BaseFunction {
    override needsReferenceObject = true;
    // No limits here: the engine's own answer to a wrong count is an #N/A without a word.
    override minParams = -1;
    override maxParams = -1;

    constructor() {
      super(host.name);
    }

    override calculate(...incoming: Incoming[]): BaseValueObject {
      return outgoing(call(host, incoming, this.self()));
    }

    /** The cell this formula stands in, which is no data of the ranges it reads. */
    private self(): CellPlace {
      return { unit: this.unitId ?? '', sheet: this.subUnitId ?? '', row: this.row, column: this.column };
    }
  };
}

function call(host: HostFunction, incoming: readonly Incoming[], self: CellPlace): readonly (readonly Cell[])[] {
  const most = host.parameters.length;
  if (incoming.length > most) return [[failed(tooManyArguments(incoming.length, most))]];
  try {
    const references = incoming.filter((value) => value instanceof BaseReferenceObject);
    const ranges = new Map(usedRanges(references, self).map((range, i) => [references[i], range]));
    return host.call(incoming.map((value) => argument(value, ranges)));
  } catch (thrown) {
    // A function of ours never throws; if one did, the engine would end with it.
    return [[failed(unexpected(host.name, thrown))]];
  }
}

const failed = (reason: { readonly code: string; readonly message: string }): CellError => ({
  error: reason.code,
  message: reason.message,
});

function argument(value: Incoming, ranges: ReadonlyMap<unknown, IRange>): Argument {
  if (value instanceof BaseReferenceObject)
    return single(referenceCells(value, ranges.get(value) ?? value.getRangePosition()));
  if (value instanceof ArrayValueObject) return single(arrayCells(value));
  // An argument left out is a null of its own; a blank cell comes inside a reference.
  return value.isNull() ? undefined : cell(value);
}

/** A range of one cell is that cell. */
function single(cells: readonly (readonly Cell[])[]): Argument {
  const first = cells[0]?.[0];
  return cells.length === 1 && cells[0]?.length === 1 && first !== undefined ? first : cells;
}

function referenceCells(reference: BaseReferenceObject, range: IRange): Cell[][] {
  // The engine reads a sheet it does not find as the formula's own.
  const noSheet = reference.getForcedSheetName() !== '' && !reference.getForcedSheetId();
  if (noSheet || range.startRow < 0 || range.startColumn < 0)
    return [[{ error: '#REF!', message: engineErrors['#REF!'] ?? '' }]];
  return grid(range.endRow - range.startRow + 1, range.endColumn - range.startColumn + 1, (r, c) => {
    const data = reference.getCellData(range.startRow + r, range.startColumn + c);
    if (data?.v === undefined || data.v === null) return null;
    // The most common cells are what they hold; the rest goes the engine's way, which tells errors from texts.
    if (data.t === CellValueType.NUMBER && typeof data.v === 'number') return data.v;
    if (data.t === CellValueType.FORCE_STRING && typeof data.v === 'string') return data.v;
    return cell(reference.getCellValueObject(data));
  });
}

function arrayCells(array: ArrayValueObject): Cell[][] {
  return grid(array.getRowCount(), array.getColumnCount(), (r, c) => {
    const value = array.get(r, c);
    return value === null || value === undefined ? null : cell(value);
  });
}

const grid = <T>(rows: number, columns: number, at: (row: number, column: number) => T): T[][] =>
  Array.from({ length: rows }, (_, r) => Array.from({ length: columns }, (__, c) => at(r, c)));

function cell(value: BaseValueObject): Cell {
  if (value instanceof ErrorValueObject) return { error: value.getErrorType(), message: textOfValue(value) };
  if (value.isNull()) return null;
  return value.getValue();
}

function outgoing(cells: readonly (readonly Cell[])[]): BaseValueObject {
  const columns = Math.max(1, ...cells.map((row) => row.length));
  if (cells.length <= 1 && columns === 1) return valueObject(cells[0]?.[0] ?? null);
  return ArrayValueObject.create({
    calculateValueList: cells.map((row) => Array.from({ length: columns }, (_, c) => valueObject(row[c] ?? null))),
    rowCount: cells.length,
    columnCount: columns,
    unitId: '',
    sheetId: '',
    row: -1,
    column: -1,
  });
}

function valueObject(value: Cell): BaseValueObject {
  if (value === null) return NullValueObject.create();
  if (typeof value === 'number') {
    return Number.isFinite(value) ? NumberValueObject.create(value) : errorValue('#NUM!', '');
  }
  if (typeof value === 'boolean') return BooleanValueObject.create(value);
  if (typeof value === 'string') return StringValueObject.create(value);
  return errorValue(value.error, value.message);
}
