/// <reference types="custom-functions-runtime" />
/**
 * Joins the functions to the spreadsheet host's custom-functions runtime.
 *
 * Every parameter is declared as a matrix of anything, so a single cell arrives as `[[x]]`, a range row by
 * row, and an argument left out as null. After the declared parameters the host adds an object of its own.
 * `CustomFunctions.Error` exists only once the host's own script is loaded, so it is looked up in the call.
 */
import type { Argument, Calculated, Cell, CellError, HostFunction, Scalar } from '../sheet/host-function.ts';
import { givenUp } from '../core/messages.ts';
import { toCellError, type Paused } from '../sheet/call.ts';
import { SHARED } from '../sheet/shared-bases.ts';
import { trimmed } from '../sheet/trim.ts';
import { functionId } from './function-id.ts';
import { Gathered } from './gathered.ts';
import type { Aside } from './aside.ts';
import type { Card, Cards } from './cards.ts';
import { Outlet } from './outlet.ts';
import { bytesOf, checkSize, isSmall } from './result-size.ts';
import { PAGE_TURNS } from './turns.ts';

type HostValue = number | string | boolean | CustomFunctions.Error | Card;

/** An error or a rich value as the host passes it in; older hosts set `code`, newer ones `basicValue`. */
interface HostObject {
  readonly code?: string;
  readonly basicValue?: Scalar;
  readonly message?: string;
}

/** The object that the host adds after the arguments. */
interface Invocation {
  /** Where each argument stands in the sheet; nothing for a value typed into the formula. */
  readonly parameterAddresses?: readonly (string | null | undefined)[] | null;
  onCanceled?: () => void;
}

/** What a page may have besides: cards that a result can carry its working on, and a worker for what takes long at a stretch. */
export interface Besides {
  readonly cards?: Cards | undefined;
  readonly aside?: Aside | undefined;
}

/** Gives the host one callable for each id of functions.json. */
export function associate(functions: readonly HostFunction[], besides: Besides = {}): void {
  CustomFunctions.associate(Object.fromEntries(functions.map((f) => [functionId(f.name), hostCall(f, besides)])));
}

/** All functions of a page hand over one after the other. */
const OUTLET = new Outlet();

interface Result {
  readonly rows: HostValue[][];
  readonly bytes: number;
}

/** One function as the host calls it. Where it takes long, the answer is promised, and the page answers others meanwhile. */
export function hostCall(
  f: HostFunction,
  { cards, aside }: Besides = {},
): (...values: unknown[]) => HostValue[][] | Promise<HostValue[][]> {
  const gathered = new Gathered<Result>(f, (args, rows) => results(f, args, cards, rows));
  const alone = (args: readonly Argument[], invocation: Invocation): HostValue[][] | Promise<HostValue[][]> => {
    let cancelled = false;
    let stop: () => void = () => undefined;
    // The host needs the result no more: the cell was edited, or calculated anew.
    invocation.onCanceled = () => {
      cancelled = true;
      stop();
    };
    const inPage = (known?: Calculated): Result | undefined | Promise<Result | undefined> =>
      PAGE_TURNS.run(results(f, args, known ? undefined : cards, known?.cells), () => cancelled);
    const result =
      f.inOnePiece && aside
        ? aside.calculate({ name: f.name, args, explained: false }, (by) => (stop = by)).then(inPage)
        : inPage();
    return result instanceof Promise ? result.then(handedOver) : handedOver(result);
  };
  return (...values) => {
    const added = values[f.parameters.length];
    const invocation = (typeof added === 'object' && added !== null ? added : {}) as Invocation;
    let args: readonly Argument[];
    try {
      args = argumentsOf(f, values, invocation.parameterAddresses ?? []);
    } catch (e) {
      return handedOver(failure(e));
    }
    return gathered.add(args, invocation)?.then(handedOver) ?? alone(args, invocation);
  };
}

function handedOver({ rows, bytes }: Result = failure(givenUp())): HostValue[][] | Promise<HostValue[][]> {
  const only = rows.length === 1 && rows[0]?.length === 1 ? rows[0][0] : undefined;
  // The documented way for a single value; an error inside a matrix spoiled the whole cell in older hosts.
  // eslint-disable-next-line @typescript-eslint/only-throw-error -- an Error in the runtime, though not in its types
  if (only instanceof CustomFunctions.Error) throw only;
  const wait = OUTLET.wait(bytes);
  return wait === 0 ? rows : new Promise((resolve) => setTimeout(resolve, wait, rows));
}

const failure = (reason: unknown): Result => ({ rows: [[hostError(toCellError(reason))]], bytes: 0 });

/** What goes back to the host, whatever came: of an error that is not its own it would drop the text. `known` was calculated elsewhere. */
function* results(
  f: HostFunction,
  args: readonly Argument[],
  cards: Cards | undefined,
  known?: Calculated['cells'],
): Paused<Result> {
  try {
    const card = cards?.(f, args);
    const cells = known ?? (f.paused ? yield* f.paused(args) : f.call(args));
    const rows: HostValue[][] = [];
    for (const [r, row] of cells.entries()) {
      yield;
      rows.push(row.map((cell, c) => card?.(cell, r, c) ?? fromCell(cell)));
    }
    const bytes = isSmall(rows) ? 0 : yield* bytesOf(rows);
    checkSize(rows.length, bytes);
    return { rows, bytes };
  } catch (e) {
    return failure(e);
  }
}

/**
 * The arguments without their blank ends, which a whole column has a million rows of. Assumptions, which come anew with each call, as they
 * are kept: calls that wait need no copies of them.
 */
function argumentsOf(
  f: HostFunction,
  values: readonly unknown[],
  addresses: readonly (string | null | undefined)[],
): readonly Argument[] {
  const zeros = f.parameters.map((p, i) => (p.zeroIsBlank === true || p.whole === true) && Boolean(addresses[i]));
  const isNothing = (value: unknown): boolean => value === null || value === undefined || value === '';
  const kept = trimmed<unknown, unknown>(values.slice(0, f.parameters.length), (i) => ({
    alone: f.parameters[i]?.apart === true,
    isBlank: zeros[i] ? (value) => value === 0 || isNothing(value) : isNothing,
  }));
  return f.parameters.map((p, i) => {
    const argument = toArgument(kept[i]);
    if (p.apart) return SHARED.held(argument);
    return p.zeroIsBlank && zeros[i] ? withoutZeros(argument) : argument;
  });
}

/** A range is a list of rows of equal length; a lone list is taken for a row of its own. */
function toArgument(value: unknown): Argument {
  if (value === null || value === undefined) return undefined;
  if (!Array.isArray(value)) return toCell(value);
  const list = value as readonly unknown[];
  const rows = list.some((row) => Array.isArray(row))
    ? list.map((row) => (Array.isArray(row) ? (row as readonly unknown[]) : [row]))
    : [list];
  return rows.map((row) => row.map(toCell));
}

/** Desktop hosts hand a blank cell over as 0. In a referenced cell where 0 cannot be meant it is taken for blank. */
function withoutZeros(argument: Argument): Argument {
  if (!Array.isArray(argument)) return argument === 0 ? null : argument;
  return (argument as readonly (readonly Cell[])[]).map((row) => row.map((cell) => (cell === 0 ? null : cell)));
}

/** A blank cell arrives as null or as an empty text, from desktop hosts as a 0 (see `withoutZeros`). */
function toCell(value: unknown): Cell {
  if (typeof value === 'number' || typeof value === 'boolean') return value;
  if (typeof value === 'string') return value === '' ? null : value;
  if (typeof value !== 'object' || value === null) return null;
  const { code, basicValue, message = '' } = value as HostObject;
  const plain = typeof code === 'string' ? code : basicValue;
  if (typeof plain === 'string' && plain.startsWith('#')) return { error: plain, message };
  // A data type has a plain value beside it, which is never an object.
  return typeof plain === 'object' ? null : toCell(plain);
}

function fromCell(cell: Cell): HostValue {
  if (cell === null) return ''; // the host would show 0 for null
  return typeof cell === 'object' ? hostError(cell) : cell;
}

/** The host shows a text of our own with these two codes only. */
function hostError({ error, message }: CellError): CustomFunctions.Error {
  const { notAvailable, invalidValue } = CustomFunctions.ErrorCode;
  return new CustomFunctions.Error(error === '#N/A' ? notAvailable : invalidValue, message);
}
