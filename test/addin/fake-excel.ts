/**
 * A workbook in memory behind the part of the host's interface that the port uses. As in the host, a property can
 * be read only after it was loaded and synchronised, and what is written arrives with the next synchronisation.
 */
import { parseA1Ref, toCol } from '@borgar/fx';
import type { Run } from '../../src/addin/office-port.ts';

type Value = string | number | boolean;
interface Area {
  readonly top: number;
  readonly left: number;
  readonly rows: number;
  readonly columns: number;
}
export interface Table {
  readonly sheet: string;
  readonly at: string;
  readonly columns: readonly string[];
  readonly rows: number;
}
interface Spill {
  readonly from: string;
  readonly to: string;
}

export interface Book {
  readonly sheets: Record<string, Record<string, Value>>;
  /** Formulas by sheet and address. */
  readonly formulas?: Record<string, Record<string, string>>;
  readonly spills?: Record<string, readonly Spill[]>;
  readonly names?: Record<string, string | number>;
  readonly tables?: Record<string, Table>;
  active: { sheet: string; at: string };
}

const ERROR = /^#[A-Z/0!?]+[!?]?$/;

export class FakeExcel {
  readonly book: Book;
  readonly handlers = new Set<() => Promise<void>>();
  /** Set to make the host refuse, as it does while a cell is being edited. */
  refuses: string | undefined;
  readonly actions: string[] = [];

  constructor(book: Book) {
    this.book = book;
  }

  readonly run: Run = async (batch) => {
    if (this.refuses !== undefined) throw new Error(this.refuses);
    return batch(this.context() as unknown as Parameters<typeof batch>[0]);
  };

  async fire(): Promise<void> {
    await Promise.all([...this.handlers].map((handler) => handler()));
  }

  private context(): object {
    const queue: (() => void)[] = [];
    const { book, handlers, actions } = this;
    const sync = (): Promise<void> => {
      while (queue.length > 0) queue.shift()?.();
      return Promise.resolve();
    };

    /** An object whose properties are there after `load` and `sync`, beside its methods. */
    const loadable = (properties: Record<string, () => unknown>, methods: object = {}, exists = true): object => {
      const loaded: Record<string, unknown> = {};
      queue.push(() => (loaded['isNullObject'] = !exists));
      const load = (names: string): void => {
        for (const each of names.split(',')) {
          const [name = '', ofItems] = each.split('/');
          if (!(name in properties)) throw new Error(`${name} is not a property here`);
          queue.push(() => {
            if (exists) loaded[name] = properties[name]?.();
            if (ofItems)
              for (const item of loaded[name] as readonly { readonly load: (names: string) => void }[])
                item.load(ofItems);
          });
        }
      };
      return new Proxy(
        { load, ...methods },
        {
          get(target, key) {
            if (key in target) return target[key as keyof typeof target] as unknown;
            if (key === 'then') return undefined;
            if (!(key in loaded)) throw new Error(`${String(key)} was read before it was loaded and synchronised`);
            return loaded[key as string];
          },
        },
      );
    };
    const nothing = (): object => loadable(new Proxy({}, { has: () => true }), {}, false);

    const range = (sheet: string, area: Area): object => {
      const cells = <T>(of: (address: string) => T): T[][] =>
        Array.from({ length: area.rows }, (_, r) =>
          Array.from({ length: area.columns }, (_c, c) => of(addressOf(area.top + r, area.left + c))),
        );
      const value = (at: string): Value => book.sheets[sheet]?.[at] ?? '';
      const first = addressOf(area.top, area.left);
      const last = addressOf(area.top + area.rows - 1, area.left + area.columns - 1);
      const spills = book.spills?.[sheet] ?? [];
      const methods = {
        worksheet: worksheet(sheet),
        format: { font: {}, autofitColumns: () => undefined },
        getRow: () => ({ format: { font: {} } }),
        getSpillParentOrNullObject: () => {
          const spill = spills.find((s) => holds(areaOf(s.to), area));
          return spill ? range(sheet, areaOf(spill.from)) : nothing();
        },
        getSpillingToRangeOrNullObject: () => {
          const spill = spills.find((s) => s.from === first);
          return spill ? range(sheet, areaOf(spill.to)) : nothing();
        },
        getEntireRow: () => range(sheet, { ...area, left: 0, columns: 16384 }),
        getIntersection: (other: { readonly area: Area }) => range(sheet, intersection(area, other.area)),
        getBoundingRect: (other: { readonly area: Area }) => range(sheet, bounding(area, other.area)),
        getTables: () => {
          const found = Object.entries(book.tables ?? {}).filter(
            ([, t]) => t.sheet === sheet && holds(areaOfTable(t), area),
          );
          return loadable({ items: () => found.map(([, t]) => table(t)) });
        },
        area,
      };
      const properties = {
        address: () => `${quoted(sheet)}!${first}${first === last ? '' : `:${last}`}`,
        values: () => cells(value),
        valueTypes: () =>
          cells((at) =>
            value(at) === ''
              ? 'Empty'
              : typeof value(at) === 'string'
                ? ERROR.test(String(value(at)))
                  ? 'Error'
                  : 'String'
                : 'Double',
          ),
        formulas: () => cells((at) => book.formulas?.[sheet]?.[at] ?? value(at)),
        rowIndex: () => area.top,
        columnIndex: () => area.left,
        rowCount: () => area.rows,
        columnCount: () => area.columns,
      };
      const made = loadable(properties, methods);
      return new Proxy(made, {
        set(_, key, rows: readonly (readonly Value[])[]) {
          queue.push(() =>
            rows.forEach((row, r) =>
              row.forEach((v, c) => {
                const at = addressOf(area.top + r, area.left + c);
                if (key === 'formulas') (book.formulas ?? {})[sheet] = { ...book.formulas?.[sheet], [at]: String(v) };
                else (book.sheets[sheet] ??= {})[at] = v;
              }),
            ),
          );
          return true;
        },
      });
    };

    const worksheet = (name: string): object =>
      loadable(
        { name: () => name },
        {
          getRange: (at: string) => range(name, areaOf(at)),
          getRangeByIndexes: (top: number, left: number, rows: number, columns: number) =>
            range(name, { top, left, rows, columns }),
          getUsedRangeOrNullObject: () => {
            const used = Object.keys(book.sheets[name] ?? {}).map(areaOf);
            return used.length === 0 ? nothing() : range(name, used.reduce(bounding));
          },
          names: { getItemOrNullObject: (n: string) => namedItem(`${name}!${n}`) },
          freezePanes: { freezeRows: (n: number) => actions.push(`freeze ${name} ${n}`) },
          activate: () => actions.push(`activate ${name}`),
        },
      );

    const namedItem = (name: string): object => {
      const refers = book.names?.[name];
      if (refers === undefined) return nothing();
      const [sheet = '', at = ''] = typeof refers === 'string' ? refers.split('!') : [];
      return loadable(
        { type: () => (typeof refers === 'string' ? 'Range' : 'Double'), value: () => refers },
        { getRange: () => range(sheet, areaOf(at)) },
      );
    };

    const table = (t: Table): object => {
      const { top, left, rows, columns } = areaOfTable(t);
      const parts = (at: number, wide: number): object => ({
        getRange: () => range(t.sheet, { top, left: at, rows, columns: wide }),
        getDataBodyRange: () => range(t.sheet, { top: top + 1, left: at, rows: rows - 1, columns: wide }),
        getHeaderRowRange: () => range(t.sheet, { top, left: at, rows: 1, columns: wide }),
      });
      const column = (name: string): object => {
        if (!t.columns.includes(name)) throw new Error(`there is no column ${name}`);
        return parts(left + t.columns.indexOf(name), 1);
      };
      return loadable({ name: () => '' }, { ...parts(left, columns), columns: { getItem: column } });
    };

    const event = {
      add: (handler: () => Promise<void>) => {
        handlers.add(handler);
        return { context: { sync }, remove: () => queue.push(() => handlers.delete(handler)) };
      },
    };
    return {
      sync,
      workbook: {
        onSelectionChanged: event,
        getActiveCell: () => range(book.active.sheet, areaOf(book.active.at)),
        names: { getItemOrNullObject: namedItem },
        tables: { getItemOrNullObject: (name: string) => (book.tables?.[name] ? table(book.tables[name]) : nothing()) },
        worksheets: loadable(
          { items: () => Object.keys(book.sheets).map(worksheet) },
          {
            onActivated: event,
            onCalculated: event,
            onChanged: event,
            getItem: worksheet,
            getItemOrNullObject: (name: string) => (name in book.sheets ? worksheet(name) : nothing()),
            add: (name: string) => {
              book.sheets[name] = {};
              return worksheet(name);
            },
          },
        ),
      },
    };
  }
}

function areaOf(address: string): Area {
  const parsed = parseA1Ref(address);
  if (!parsed || !('range' in parsed)) throw new Error(`${address} is no address`);
  const { top, left, bottom, right } = parsed.range as Required<{
    top: number;
    left: number;
    bottom: number;
    right: number;
  }>;
  return { top, left, rows: bottom - top + 1, columns: right - left + 1 };
}

const addressOf = (row: number, column: number): string => `${toCol(column)}${row + 1}`;
const quoted = (name: string): string => (/^\w+$/.test(name) ? name : `'${name.replaceAll("'", "''")}'`);
const holds = (big: Area, small: Area): boolean =>
  small.top >= big.top &&
  small.left >= big.left &&
  small.top + small.rows <= big.top + big.rows &&
  small.left + small.columns <= big.left + big.columns;

function areaOfTable({ at, columns, rows }: Table): Area {
  const { top, left } = areaOf(at);
  return { top, left, rows: rows + 1, columns: columns.length };
}

function intersection(a: Area, b: Area): Area {
  const [top, left] = [Math.max(a.top, b.top), Math.max(a.left, b.left)];
  return {
    top,
    left,
    rows: Math.min(a.top + a.rows, b.top + b.rows) - top,
    columns: Math.min(a.left + a.columns, b.left + b.columns) - left,
  };
}

function bounding(a: Area, b: Area): Area {
  const [top, left] = [Math.min(a.top, b.top), Math.min(a.left, b.left)];
  return {
    top,
    left,
    rows: Math.max(a.top + a.rows, b.top + b.rows) - top,
    columns: Math.max(a.left + a.columns, b.left + b.columns) - left,
  };
}
