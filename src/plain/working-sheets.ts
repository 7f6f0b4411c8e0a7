import { isBlankCell, isCellError, type Cell } from '../catalogue/cell.ts';
import { DIMENSIONS, dimensionText } from '../core/model/dimensions.ts';
import { sheetFormula, sheetNumber } from '../core/model/sheet-formula.ts';
import type { WorkedStep } from '../core/model/step.ts';
import { conversion, fromSi, plainUnit, siUnit } from '../core/units/parse-quantity.ts';
import type { QuantityName, UnitSystem } from '../core/units/quantities.ts';
import type { CellContent, CellLook } from '../sheet/described-workbook.ts';
import { addressOf, sheetPrefix } from '../files/xlsx/address.ts';
import type { NewSheet } from '../files/xlsx/new-workbook.ts';
import type { ExplainedCall } from './explained-call.ts';
import type { ItemWorking, ShownCell } from './item-working.ts';
import { fixed, type Placed } from './read-cells.ts';

/** One finished sheet with the values of its formulas. */
export interface WorkingSheet {
  readonly sheet: NewSheet;
  valueAt(row: number, column: number): Cell;
}

const NAME = 'Working';
/** Rows after which another sheet is begun. */
const MOST_ROWS = 500_000;
const HEADINGS = [
  'step',
  'symbol',
  'value, SI',
  'unit',
  'value',
  'unit',
  'in words',
  'in symbols',
  'kind',
  'source',
  'note',
];
const [STEP, SYMBOL, SI, SI_UNIT, SHOWN, UNIT, WORDS, SYMBOLS, KIND, SOURCE, NOTE] = HEADINGS.map((_, i) => i) as [
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
];
const WIDTHS = { A: 230, B: 80, C: 120, D: 80, E: 110, F: 80, G: 380, H: 300, I: 120, J: 160, K: 230 };
const INK = '#5a5f66';
const STILL: CellLook = { italic: true, color: INK };
const HEAD: CellLook = { bold: true, background: '#e8eaed' };

/** What a number that no formula gives is. */
const SOLVED = 'found by iteration or from a table: stands still';
const ASSUMED = 'assumption: stands still';
const GIVEN = 'handed over: stands still';
const LINKED = 'from the cell that holds it';

export class WorkingSheets {
  private readonly made: Sheet[] = [];

  constructor(private readonly taken: readonly string[]) {}

  add(place: string, call: ExplainedCall): Placed {
    let sheet = this.made.at(-1);
    if (!sheet || sheet.rows > MOST_ROWS) {
      sheet = new Sheet(this.freeName());
      this.made.push(sheet);
    }
    return sheet.add(place, call);
  }

  sheets(): readonly WorkingSheet[] {
    return this.made.map((sheet) => sheet.finished());
  }

  private freeName(): string {
    const all = new Set([...this.taken, ...this.made.map(({ name }) => name)].map((name) => name.toLowerCase()));
    for (let n = 1; ; n++) {
      const name = n === 1 ? NAME : `${NAME} ${n}`;
      if (!all.has(name.toLowerCase())) return name;
    }
  }
}

class Sheet {
  private next = 0;
  private readonly cells: Record<string, CellContent> = {};
  private readonly looks: Record<string, CellLook> = {};
  private readonly values = new Map<string, Cell>();

  constructor(readonly name: string) {
    this.put(
      0,
      0,
      { text: 'Every number here with a formula follows from the numbers before it; those in italics stand still.' },
      STILL,
    );
    this.next = 2;
  }

  get rows(): number {
    return this.next;
  }

  add(place: string, call: ExplainedCall): Placed {
    const { text, results, items, system } = call;
    this.put(this.next, 0, { text: `${place}: ${text}` }, { bold: true });
    const top = this.next + 1;
    // A row below the results is for why some of them stand still.
    this.next = top + results.length + (results.length > 1 ? 2 : 1);
    const cellsOf = items.map((item) => this.addItem(item, system));
    const still = new Set<number>();
    results.forEach((cells, r) =>
      cells.forEach((cell, c) => {
        const shown = call.shown(r, c);
        const from = shown && this.from(shown, cellsOf, system, results, top, c);
        if (!this.result(top + r, c, cell, from)) still.add(c);
      }),
    );
    if (results.length > 1)
      for (const c of still) {
        const reason = reasonFor(results[0]?.[c] ?? null);
        if (reason !== '') this.put(top + results.length, c, { text: reason }, STILL);
      }
    const prefix = sheetPrefix(this.name);
    const [height, width] = [results.length, results[0]?.length ?? 1];
    return {
      results,
      at: (row, column) => prefix + fixed(top + row, column),
      reference: () =>
        height * width === 1
          ? prefix + fixed(top, 0)
          : `${prefix}${fixed(top, 0)}:${fixed(top + height - 1, width - 1)}`,
    };
  }

  finished(): WorkingSheet {
    return {
      sheet: {
        name: this.name,
        cells: this.cells,
        looks: this.looks,
        widths: WIDTHS,
        size: [this.next + 20, 30],
        plain: 'singles',
        landscape: true,
      },
      valueAt: (row, column) => this.values.get(addressOf(row, column)) ?? null,
    };
  }

  /** The steps of one item; gives the cell of each step's SI value. */
  private addItem({ title, steps, links }: ItemWorking, system: UnitSystem): ReadonlyMap<string, Known> {
    if (title !== '') this.put(this.next++, 0, { text: title }, { bold: true });
    HEADINGS.forEach((heading, c) => this.put(this.next, c, { text: heading }, HEAD));
    this.next++;
    const known = new Map<string, Known>();
    for (const step of steps) {
      this.addStep(step, links.get(step.symbol), system, known);
      this.next++;
    }
    this.next++;
    return known;
  }

  private addStep(step: WorkedStep, link: string | undefined, system: UnitSystem, known: Map<string, Known>): void {
    const row = this.next;
    const text = (column: number, what: string): void => {
      if (what !== '') this.put(row, column, { text: what });
    };
    text(STEP, step.name);
    text(SYMBOL, step.symbol);
    text(WORDS, step.formula);
    text(KIND, step.kind);
    text(SOURCE, step.source);
    if (typeof step.value === 'string') {
      this.put(row, SI, { text: step.value }, STILL);
      return;
    }
    const { quantity, value, expression } = step;
    const isSolved = expression?.startsWith('solve(') ?? false;
    const formula =
      link ?? (expression === undefined || isSolved ? undefined : sheetFormula(expression, (s) => cellOf(known, s)));
    if (formula === undefined) this.put(row, SI, value, STILL);
    else this.put(row, SI, `=${formula}`, {}, value);
    text(SI_UNIT, siUnit(quantity) ?? baseUnits(quantity));
    const cell = { address: fixed(row, SI), value };
    known.set(step.symbol, cell);
    const unit = plainUnit(quantity, system);
    const shown = fromCell(cell, quantity, system);
    this.put(row, SHOWN, `=${shown.formula}`, {}, shown.value);
    text(UNIT, unit);
    text(SYMBOLS, expression ?? '');
    text(
      NOTE,
      link !== undefined
        ? LINKED
        : isSolved
          ? SOLVED
          : expression !== undefined
            ? ''
            : step.assumption === undefined
              ? GIVEN
              : ASSUMED,
    );
  }

  /** What a cell of the results is by a formula. */
  private from(
    shown: ShownCell,
    cellsOf: readonly ReadonlyMap<string, Known>[],
    system: UnitSystem,
    results: readonly (readonly Cell[])[],
    top: number,
    column: number,
  ): Shown | undefined {
    if ('sum' in shown) {
      const value = shown.sum.reduce((sum, row) => sum + Number(results[row]?.[column] ?? 0), 0);
      return {
        formula: `SUM(${runs(shown.sum)
          .map(([a, b]) => areaOf(top + a, top + b, column))
          .join(',')})`,
        value,
      };
    }
    if (!('symbol' in shown)) return shown;
    const known = cellsOf[shown.item]?.get(shown.symbol);
    if (!known) return undefined;
    const one = fromCell(known, shown.quantity, system);
    const { times } = shown;
    return times ? { formula: `${one.formula}*${times.formula}`, value: one.value * times.value } : one;
  }

  /** Whether the cell moves with others, or is no number that could. */
  private result(row: number, column: number, cell: Cell, from: Shown | undefined): boolean {
    if (isBlankCell(cell)) return true;
    if (from && typeof cell === 'number' && Math.abs(from.value - cell) <= 1e-12 * Math.abs(cell)) {
      this.put(row, column, `=${from.formula}`, {}, cell);
      return true;
    }
    this.put(row, column, typeof cell === 'string' ? { text: cell } : cell, isCellError(cell) ? {} : STILL);
    return typeof cell !== 'number';
  }

  /** `value` is what a formula gives. */
  private put(row: number, column: number, content: CellContent, look: CellLook = {}, value?: Cell): void {
    const address = addressOf(row, column);
    this.cells[address] = content;
    if (Object.keys(look).length > 0) this.looks[address] = look;
    if (value !== undefined) this.values.set(address, value);
  }
}

/** Why the numbers of a column stand still, by its heading. */
function reasonFor(heading: Cell): string {
  const [name = ''] = typeof heading === 'string' ? heading.split(',') : [];
  if (/^(item|order|rank)$/.test(name)) return '';
  return /\b(low|high|amount|short)\b/.test(name)
    ? 'drawn from the ranges: stands still'
    : 'worked out by the function as a whole: stands still';
}

const areaOf = (first: number, last: number, column: number): string =>
  first === last ? fixed(first, column) : `${fixed(first, column)}:${fixed(last, column)}`;

/** Rows that follow one another, as first and last. */
function runs(rows: readonly number[]): readonly (readonly [number, number])[] {
  const found: [number, number][] = [];
  for (const row of [...rows].sort((a, b) => a - b)) {
    const last = found.at(-1);
    if (last && row === last[1] + 1) last[1] = row;
    else found.push([row, row]);
  }
  return found;
}

interface Known {
  readonly address: string;
  readonly value: number;
}

interface Shown {
  readonly formula: string;
  readonly value: number;
}

function cellOf(known: ReadonlyMap<string, Known>, symbol: string): string {
  const cell = known.get(symbol);
  if (!cell) throw new Error(`step ${symbol} comes before its own`);
  return cell.address;
}

/** An SI value in the plain unit of a quantity. */
function fromCell({ address, value }: Known, quantity: QuantityName, system: UnitSystem): Shown {
  const { factor, offset } = conversion(quantity, plainUnit(quantity, system));
  const moved = offset === 0 ? address : `(${address}-${sheetNumber(offset)})`;
  return { formula: factor === 1 ? moved : `${moved}/${sheetNumber(factor)}`, value: fromSi(value, quantity, system) };
}

function baseUnits(quantity: QuantityName): string {
  const dimension = DIMENSIONS[quantity];
  return dimension.every((power) => power === 0) ? '' : dimensionText(dimension);
}
