/**
 * Plays the spreadsheet host to the vendor's own Excel library: a workbook in memory that answers the library's requests.
 *
 * A request holds actions on objects, each object by the path that leads to it: a property, a method or an item of another,
 * or a reference kept from an earlier request. What each member gives follows the vendor's documentation of the Excel API.
 */
import { addressOf, areaOf, bounding, holds, intersection, textOf, type Area } from './areas.ts';

export type Value = string | number | boolean;

export interface Table {
  readonly sheet: string;
  readonly at: string;
  readonly columns: readonly string[];
  readonly rows: number;
}
export interface Book {
  readonly sheets: Record<string, Record<string, Value>>;
  /** Formulas by sheet and address. */
  readonly formulas: Record<string, Record<string, string>>;
  readonly spills?: Record<string, readonly { readonly from: string; readonly to: string }[]>;
  names?: Record<string, string | number>;
  readonly tables?: Record<string, Table>;
  /** Sheets that refuse to be written to. */
  readonly locked?: readonly string[];
  readonly structure?: 'protected';
  /** Rows kept in sight, by sheet. */
  readonly frozen?: Record<string, number>;
  /** Widths of columns in points, by sheet and letters, where they are not the usual ones. */
  readonly widths?: Record<string, Record<string, number>>;
  active: { sheet: string; at: string };
}

/** The body of a request, as far as it is read here. */
export interface Request {
  readonly Actions: readonly Action[];
  readonly ObjectPaths: Readonly<Record<string, Path>>;
}
interface ArgumentInfo {
  readonly Arguments?: readonly unknown[];
  /** For arguments that are objects: the id of their path, else 0. */
  readonly ReferencedObjectPathIds?: readonly unknown[];
}
interface Path {
  readonly ObjectPathType: number;
  readonly Name: string;
  readonly ParentObjectPathId?: number;
  readonly ArgumentInfo?: ArgumentInfo;
}
interface Action {
  readonly Id: number;
  readonly ActionType: number;
  readonly Name: string;
  readonly ObjectPathId: number;
  readonly ArgumentInfo?: ArgumentInfo;
  readonly QueryInfo?: { readonly Select?: readonly string[] };
}

/** Numbers of the kinds of actions and paths, as in the library. */
const ACTION = { instantiate: 1, query: 2, method: 3, set: 4, trace: 5 };
const PATH = { global: 1, method: 3, property: 4, item: 5, reference: 6 };

type OfRange =
  | 'format'
  | 'font'
  | 'fill'
  | 'lock'
  | 'validation'
  | 'conditions'
  | 'condition'
  | 'condition rule'
  | 'condition format';
type Thing =
  | { readonly kind: 'workbook' | 'worksheets' | 'tables' | 'application' }
  | { readonly kind: OfRange; readonly of: Ranged }
  | { readonly kind: 'names'; readonly sheet: string | undefined }
  | { readonly kind: 'worksheet' | 'freeze panes' | 'page' | 'guard'; readonly name: string }
  | Ranged
  | { readonly kind: 'tables at'; readonly sheet: string; readonly area: Area }
  | { readonly kind: 'name'; readonly name: string; readonly refers: string | number }
  | { readonly kind: 'table' | 'columns'; readonly table: Table }
  | { readonly kind: 'column'; readonly table: Table; readonly at: number };
interface Ranged {
  readonly kind: 'range';
  readonly sheet: string;
  readonly area: Area;
}

/** A refusal of the host with its code. */
class Refusal extends Error {
  constructor(
    readonly code: string,
    message: string,
  ) {
    super(message);
  }
}
const unknownMember = (on: Thing | null, name: string): Refusal =>
  new Refusal('ApiNotFound', `${on?.kind ?? 'nothing'} has no ${name} here`);

const ERROR = /^#[A-Z/0!?]+[!?]?$/;

export class WorkbookHost {
  /** Names of the events that are followed. */
  readonly followed = new Set<string>();
  /** What was done to the look of the workbook. */
  readonly done: string[] = [];
  /** How far the calculation is, as it is asked; done after these. */
  readonly states: string[] = [];
  /** Looks that were set, by sheet and range. */
  readonly looks: Record<string, Record<string, Record<string, unknown>>> = {};
  /** Every object path type and member that was asked for. */
  requests = 0;
  /** Whether the library on the web has said that functions may be called; what is called before is lost. */
  takesCalls = false;
  /** Set to make the host refuse, as it does while a cell is being edited. */
  refuses: string | undefined;
  private readonly references = new Map<string, Thing>();

  constructor(readonly book: Book) {}

  /** The body of the response to a request. What was answered before a refusal stands before it. */
  answer(request: Request): object {
    this.requests++;
    const results: object[] = [];
    const found = new Map<number, Thing | null>();
    try {
      if (this.refuses !== undefined) throw new Refusal('InvalidOperationInCellEditMode', this.refuses);
      for (const action of request.Actions)
        results.push({
          ActionId: action.Id,
          Value: this.act(action, (id) => this.find(request.ObjectPaths, id, found)),
        });
      return { Results: results };
    } catch (e) {
      const { code, message } = e instanceof Refusal ? e : new Refusal('GeneralException', String(e));
      return { Results: results, Error: { Code: code, Message: message, Location: '' } };
    }
  }

  private act(action: Action, find: (id: number) => Thing | null): unknown {
    if (action.ActionType === ACTION.trace) return null;
    const on = find(action.ObjectPathId);
    const args = argumentsOf(action.ArgumentInfo, find);
    if (action.ActionType === ACTION.instantiate) return on && this.reference(on);
    if (action.ActionType === ACTION.query) return on && this.load(on, action.QueryInfo?.Select ?? []);
    if (action.ActionType === ACTION.set) return this.set(on, action.Name, args[0]);
    if (action.ActionType === ACTION.method) return this.run(on, action.Name, args);
    throw unknownMember(on, action.Name);
  }

  /** Ranges are kept for later requests; other objects are found by their paths again. */
  private reference(thing: Thing): object {
    if (thing.kind !== 'range') return {};
    const id = `range ${this.references.size + 1}`;
    this.references.set(id, thing);
    return { _ReferenceId: id };
  }

  private find(paths: Request['ObjectPaths'], id: number, found: Map<number, Thing | null>): Thing | null {
    const known = found.get(id);
    if (known !== undefined) return known;
    const path = paths[id];
    if (!path) throw new Refusal('InvalidReference', `there is no path ${id}`);
    const find = (other: number): Thing | null => this.find(paths, other, found);
    const thing = this.follow(path, find);
    found.set(id, thing);
    return thing;
  }

  private follow(path: Path, find: (id: number) => Thing | null): Thing | null {
    if (path.ObjectPathType === PATH.global) return { kind: 'workbook' };
    if (path.ObjectPathType === PATH.reference) return this.references.get(path.Name) ?? null;
    const parent = path.ParentObjectPathId === undefined ? null : find(path.ParentObjectPathId);
    if (!parent) return null; // what hangs on nothing is nothing itself
    const args = argumentsOf(path.ArgumentInfo, find);
    if (path.ObjectPathType === PATH.property) return this.property(parent, path.Name);
    if (path.ObjectPathType === PATH.method) return this.method(parent, path.Name, args);
    if (path.ObjectPathType !== PATH.item) throw unknownMember(parent, path.Name);
    const item = this.item(parent, String(args[0]));
    if (!item) throw new Refusal('ItemNotFound', "The requested resource doesn't exist.");
    return item;
  }

  private property(on: Thing, name: string): Thing {
    switch (`${on.kind}.${name}`) {
      case 'workbook.Worksheets':
        return { kind: 'worksheets' };
      case 'workbook.Tables':
        return { kind: 'tables' };
      case 'workbook.Names':
        return { kind: 'names', sheet: undefined };
      case 'workbook.Application':
        return { kind: 'application' };
    }
    if (on.kind === 'range' && name === 'Format') return { kind: 'format', of: on };
    if (on.kind === 'range' && name === 'DataValidation') return { kind: 'validation', of: on };
    if (on.kind === 'range' && name === 'ConditionalFormats') return { kind: 'conditions', of: on };
    const part = 'of' in on ? PARTS[`${on.kind}.${name}`] : undefined;
    if ('of' in on && part) return { kind: part, of: on.of };
    if (on.kind === 'worksheet' && name === 'Protection') return { kind: 'guard', name: on.name };
    if (on.kind === 'worksheet' && name === 'PageLayout') return { kind: 'page', name: on.name };
    if (on.kind === 'worksheet' && name === 'Names') return { kind: 'names', sheet: on.name };
    if (on.kind === 'worksheet' && name === 'FreezePanes') return { kind: 'freeze panes', name: on.name };
    if (on.kind === 'range' && name === 'Worksheet') return { kind: 'worksheet', name: on.sheet };
    if (on.kind === 'table' && name === 'Columns') return { kind: 'columns', table: on.table };
    throw unknownMember(on, name);
  }

  private item(on: Thing, key: string): Thing | null {
    const { book } = this;
    switch (on.kind) {
      case 'worksheets': {
        const name = Object.keys(book.sheets).find((each) => each.toLowerCase() === key.toLowerCase());
        return name === undefined ? null : { kind: 'worksheet', name };
      }
      case 'tables':
        return book.tables?.[key] ? { kind: 'table', table: book.tables[key] } : null;
      case 'names': {
        const refers = book.names?.[on.sheet === undefined ? key : `${on.sheet}!${key}`];
        return refers === undefined ? null : { kind: 'name', name: key, refers };
      }
      case 'columns': {
        const at = on.table.columns.indexOf(key);
        return at < 0 ? null : { kind: 'column', table: on.table, at };
      }
      case 'tables at':
        return this.item({ kind: 'tables' }, key);
      default:
        throw unknownMember(on, `item ${key}`);
    }
  }

  private method(on: Thing, name: string, args: readonly unknown[]): Thing | null {
    if (name === 'GetItemOrNullObject') return this.item(on, String(args[0]));
    if (name === 'GetItem') return this.item(on, String(args[0]));
    switch (on.kind) {
      case 'workbook':
        if (name === 'GetActiveCell') return range(this.book.active.sheet, areaOf(this.book.active.at));
        break;
      case 'worksheets':
        if (name !== 'Add') break;
        if (this.book.structure === 'protected')
          throw new Refusal('AccessDenied', 'The structure of the workbook is protected.');
        this.book.sheets[String(args[0])] = {};
        return { kind: 'worksheet', name: String(args[0]) };
      case 'names':
        if (name !== 'Add') break;
        (this.book.names ??= {})[String(args[0])] = String(args[1]).slice(1);
        return { kind: 'name', name: String(args[0]), refers: String(args[1]).slice(1) };
      case 'conditions':
        if (name === 'Add') return { kind: 'condition', of: on.of };
        break;
      case 'freeze panes':
        if (name === 'GetLocationOrNullObject') {
          const rows = this.book.frozen?.[on.name];
          return rows === undefined ? null : range(on.name, { top: 0, left: 0, rows, columns: 16_384 });
        }
        break;
      case 'worksheet':
        return this.rangeOfSheet(on.name, name, args);
      case 'name': {
        const [sheet = '', at = ''] = String(on.refers).split('!');
        if (name === 'GetRange') return range(sheet, areaOf(at));
        break;
      }
      case 'range':
        return this.rangeOfRange(on, name, args);
      case 'table':
        return partOf(on.table, name, 0, on.table.columns.length);
      case 'column':
        return partOf(on.table, name, on.at, 1);
    }
    throw unknownMember(on, `${name}()`);
  }

  private rangeOfSheet(sheet: string, name: string, args: readonly unknown[]): Ranged | null {
    if (name === 'GetRange') return range(sheet, areaOf(String(args[0])));
    if (name === 'GetRangeByIndexes') {
      const [top, left, rows, columns] = args as readonly number[] as [number, number, number, number];
      return range(sheet, { top, left, rows, columns });
    }
    if (name !== 'GetUsedRangeOrNullObject') throw unknownMember({ kind: 'worksheet', name: sheet }, `${name}()`);
    const cells = { ...this.book.sheets[sheet], ...this.book.formulas[sheet] };
    const used = Object.keys(cells).flatMap((at) => areaOf(at) ?? []);
    return used.length === 0 ? null : range(sheet, used.reduce(bounding));
  }

  private rangeOfRange(on: Ranged, name: string, args: readonly unknown[]): Thing | null {
    const { sheet, area } = on;
    const other = (): Area => (args[0] as Ranged).area;
    const spills = this.book.spills?.[sheet] ?? [];
    switch (name) {
      case 'GetSpillParentOrNullObject': {
        const spill = spills.find(({ to }) => holds(must(areaOf(to)), area));
        return spill ? range(sheet, areaOf(spill.from)) : null;
      }
      case 'GetSpillingToRangeOrNullObject': {
        const spill = spills.find(({ from }) => from === addressOf(area.top, area.left));
        return spill ? range(sheet, areaOf(spill.to)) : null;
      }
      case 'GetEntireRow':
        return range(sheet, { ...area, left: 0, columns: 16_384 });
      case 'GetEntireColumn':
        return range(sheet, { ...area, top: 0, rows: 1_048_576 });
      case 'GetOffsetRange':
        return range(sheet, { ...area, top: area.top + Number(args[0]), left: area.left + Number(args[1]) });
      case 'GetRow':
        return range(sheet, { ...area, top: area.top + Number(args[0]), rows: 1 });
      case 'GetCell':
        return range(sheet, {
          top: area.top + Number(args[0]),
          left: area.left + Number(args[1]),
          rows: 1,
          columns: 1,
        });
      case 'GetIntersection':
        return range(sheet, intersection(area, other()));
      case 'GetBoundingRect':
        return range(sheet, bounding(area, other()));
      case 'GetTables':
        return { kind: 'tables at', sheet, area };
      default:
        throw unknownMember(on, `${name}()`);
    }
  }

  /** Methods that give no object. */
  private run(on: Thing | null, name: string, args: readonly unknown[]): null {
    if (name === '_SetOsfControlContainerReadyForCustomFunctions') {
      this.takesCalls = true;
      return null;
    }
    const [, what, event] = /^_(Register|Unregister)(\w+)Event$/.exec(name) ?? [];
    if (event !== undefined) {
      if (what === 'Register') this.followed.add(event);
      else this.followed.delete(event);
    } else if (on?.kind === 'freeze panes' && /^Freeze(Rows|Columns)$/.test(name))
      this.done.push(`freeze ${on.name} ${String(args[0])}`);
    else if (on?.kind === 'freeze panes' && name === 'FreezeAt')
      this.done.push(`freeze ${on.name} ${textOf((args[0] as Ranged).area)}`);
    else if (on?.kind === 'guard' && name === 'Protect') this.done.push(`protect ${on.name}`);
    else if (on?.kind === 'page' && name === 'SetPrintTitleRows')
      this.done.push(`repeat ${on.name} ${String(args[0])}`);
    else if (on?.kind === 'worksheet' && name === 'Activate') this.done.push(`activate ${on.name}`);
    else if (on?.kind === 'range' && name === 'Select')
      this.done.push(`select ${on.sheet} ${addressOf(on.area.top, on.area.left)}`);
    else if (on?.kind === 'worksheet' && name === 'Delete') {
      Reflect.deleteProperty(this.book.sheets, on.name);
      Reflect.deleteProperty(this.book.formulas, on.name);
    } else if (on?.kind === 'name' && name === 'Delete') delete this.book.names?.[on.name];
    else if (on?.kind === 'format' && name === 'AutofitRows') this.look(on.of, 'rows', 'fitted');
    else if (!HOUSEKEEPING.includes(name) && !(on?.kind === 'format' && name === 'AutofitColumns'))
      throw unknownMember(on, `${name}()`);
    return null;
  }

  private set(on: Thing | null, name: string, value: unknown): null {
    if (on && 'of' in on) return this.look(on.of, `${on.kind} ${name}`, value);
    if (on?.kind === 'page' || (on?.kind === 'worksheet' && name === 'Visibility')) {
      this.done.push(`${name} of ${on.name} ${typeof value === 'string' ? value : JSON.stringify(value)}`);
      return null;
    }
    if (on?.kind === 'range' && name === 'NumberFormat') return this.look(on, name, value);
    if (on?.kind !== 'range' || (name !== 'Values' && name !== 'Formulas')) throw unknownMember(on, `${name} =`);
    const { top, left, rows, columns } = on.area;
    const given = value as readonly (readonly Value[])[];
    if (given.length !== rows || given.some((row) => row.length !== columns))
      throw new Refusal('InvalidArgument', "The input array doesn't match the size of the range.");
    if (this.book.locked?.includes(on.sheet))
      throw new Refusal('AccessDenied', 'The cell or chart you are trying to change is on a protected sheet.');
    given.forEach((row, r) => row.forEach((each, c) => this.write(on.sheet, addressOf(top + r, left + c), name, each)));
    return null;
  }

  private look({ sheet, area }: Ranged, what: string, value: unknown): null {
    if (this.book.locked?.includes(sheet))
      throw new Refusal('AccessDenied', 'The cell or chart you are trying to change is on a protected sheet.');
    ((this.looks[sheet] ??= {})[textOf(area)] ??= {})[what] = value;
    return null;
  }

  private write(sheet: string, at: string, what: 'Values' | 'Formulas', value: Value): void {
    if (what === 'Formulas') (this.book.formulas[sheet] ??= {})[at] = String(value);
    else (this.book.sheets[sheet] ??= {})[at] = value;
  }

  private load(on: Thing, select: readonly string[]): object {
    const loaded: Record<string, unknown> = { ...this.reference(on) };
    for (const wanted of select) {
      const [name = ''] = wanted.split('/');
      const items = this.itemsOf(on);
      if (items) loaded['_Items'] = items.map((item) => ({ Name: item, Id: item }));
      else loaded[name.charAt(0).toUpperCase() + name.slice(1)] = this.value(on, name.toLowerCase());
    }
    return loaded;
  }

  private itemsOf(on: Thing): readonly string[] | undefined {
    const { sheets, tables = {} } = this.book;
    if (on.kind === 'worksheets') return Object.keys(sheets);
    if (on.kind === 'tables') return Object.keys(tables);
    if (on.kind === 'names') return Object.keys(this.book.names ?? {}).filter((name) => !name.includes('!'));
    if (on.kind !== 'tables at') return undefined;
    return Object.keys(tables).filter((name) => {
      const table = must(tables[name]);
      return table.sheet === on.sheet && holds(areaOfTable(table), on.area);
    });
  }

  private value(on: Thing, name: string): unknown {
    if ((on.kind === 'worksheet' || on.kind === 'name') && name === 'name') return on.name;
    if (on.kind === 'application' && name === 'calculationstate') return this.states.shift() ?? 'Done';
    if (on.kind === 'format' && name === 'columnwidth') {
      const { sheet, area } = on.of;
      return this.book.widths?.[sheet]?.[addressOf(0, area.left).replace(/\d+/, '')] ?? USUAL_WIDTH;
    }
    if (on.kind === 'name' && name === 'type') return typeof on.refers === 'string' ? 'Range' : 'Double';
    if (on.kind === 'name' && name === 'value') return on.refers;
    const read = on.kind === 'range' ? this.cells(on)[name] : undefined;
    if (!read) throw unknownMember(on, name);
    return read();
  }

  private cells({ sheet, area }: Ranged): Readonly<Record<string, () => unknown>> {
    const { top, left, rows, columns } = area;
    const each = (of: (at: string) => unknown): unknown[][] =>
      Array.from({ length: rows }, (_, r) =>
        Array.from({ length: columns }, (__, c) => of(addressOf(top + r, left + c))),
      );
    const value = (at: string): Value => this.book.sheets[sheet]?.[at] ?? '';
    return {
      address: () => `${/^\w+$/.test(sheet) ? sheet : `'${sheet.replaceAll("'", "''")}'`}!${textOf(area)}`,
      values: () => each(value),
      valuetypes: () => each((at) => typeOf(value(at))),
      formulas: () => each((at) => this.book.formulas[sheet]?.[at] ?? value(at)),
      rowindex: () => top,
      columnindex: () => left,
      rowcount: () => rows,
      columncount: () => columns,
    };
  }
}

/** Objects that hang on a range's own. */
const PARTS: Readonly<Record<string, OfRange>> = {
  'format.Font': 'font',
  'format.Fill': 'fill',
  'format.Protection': 'lock',
  'condition.Custom': 'condition',
  'condition.Rule': 'condition rule',
  'condition.Format': 'condition format',
  'condition format.Font': 'condition format',
  'condition format.Fill': 'condition format',
};

/** Of a column, points. */
const USUAL_WIDTH = 48;

/** What the library does for itself. */
const HOUSEKEEPING = [
  ...['_KeepReference', '_RemoveReference', '_RemoveReferenceCount', '_ValidateArraySize'],
  'NotifyActionHandlerReady',
];

function argumentsOf(info: ArgumentInfo | undefined, find: (id: number) => Thing | null): readonly unknown[] {
  const ids = info?.ReferencedObjectPathIds;
  return (info?.Arguments ?? []).map((value, i) => {
    const id = ids?.[i];
    return typeof id === 'number' && id !== 0 ? find(id) : value;
  });
}

function must<T>(found: T | undefined): T {
  if (found === undefined)
    throw new Refusal('InvalidArgument', 'The argument is invalid or missing or has an incorrect format.');
  return found;
}

const range = (sheet: string, area: Area | undefined): Ranged => ({ kind: 'range', sheet, area: must(area) });

function typeOf(value: Value): string {
  if (value === '') return 'Empty';
  if (typeof value === 'string') return ERROR.test(value) ? 'Error' : 'String';
  return typeof value === 'number' ? 'Double' : 'Boolean';
}

/** With its heading row. */
function areaOfTable({ at, columns, rows }: Table): Area {
  const { top, left } = must(areaOf(at));
  return { top, left, rows: rows + 1, columns: columns.length };
}

function partOf(table: Table, name: string, from: number, columns: number): Ranged {
  const { top, left, rows } = areaOfTable(table);
  const part = {
    GetRange: { top, rows },
    GetDataBodyRange: { top: top + 1, rows: rows - 1 },
    GetHeaderRowRange: { top, rows: 1 },
  }[name];
  if (!part) throw unknownMember({ kind: 'table', table }, `${name}()`);
  return range(table.sheet, { ...part, left: left + from, columns });
}
