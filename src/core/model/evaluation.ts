import { CalcError } from '../errors.ts';
import { COLUMNS, type Operator } from './columns.ts';
import type { Comparison, Formula, FunctionName } from './grammar.ts';
import { power } from './power.ts';
import type { AssumptionReader, Check, Solver, WorkedStep } from './step.ts';
import type { Node, StepList } from './step-list.ts';

/** One number for all, or one for each draw or row: a number is a column whose places are all alike. */
export type Column = number | Float64Array;

/** The number of a column at one place. */
export const valueAt = (column: Column, i: number): number => (typeof column === 'number' ? column : column[i]!);

export type Given = Readonly<Record<string, Column | string>>;

/** Memory of columns that are no longer needed, for the next ones of the same length. */
class Pool {
  private readonly free = new Map<number, Float64Array[]>();

  take(length: number): Float64Array {
    return this.free.get(length)?.pop() ?? new Float64Array(length);
  }

  give(column: Float64Array): void {
    const kept = this.free.get(column.length);
    if (kept) kept.push(column);
    else this.free.set(column.length, [column]);
  }
}

/**
 * The values of a list of steps, each worked out when it is first asked for. Values that are given may be numbers or columns;
 * a step on columns is a column. `over` evaluates the same list with some steps given anew: what does not rest on these is
 * worked out once for all.
 */
export class Evaluation {
  readonly list: StepList;
  private readonly reader: AssumptionReader;
  private readonly values: (Column | string | undefined)[];
  /** Where the values of steps that do not vary here are kept. */
  private readonly base: Evaluation | undefined;
  /** Places of the steps that are given anew, and of all that rest on them. */
  private readonly anew: readonly number[];
  private readonly varies: Uint8Array | undefined;
  /** Columns made here, to be used again. */
  private readonly pool: Pool;
  private readonly own: (Float64Array | undefined)[];

  constructor(list: StepList, given: Given, reader: AssumptionReader, base?: Evaluation, anew?: readonly string[]) {
    this.list = list;
    this.reader = reader;
    this.base = base;
    this.values = new Array<Column | string | undefined>(list.nodes.length).fill(undefined);
    this.own = new Array<Float64Array | undefined>(list.nodes.length).fill(undefined);
    this.pool = base?.pool ?? new Pool();
    if (anew) {
      const places = anew.map((symbol) => list.place(symbol));
      this.varies = list.restingOn(places);
      this.anew = places;
    } else this.anew = [];
    for (const symbol in given) if (list.has(symbol)) this.values[list.place(symbol)] = given[symbol];
  }

  /** The same list with the steps `symbols` given anew, as often as wanted, by `give`. */
  over(symbols: readonly string[]): Evaluation {
    return new Evaluation(this.list, {}, this.reader, this, symbols);
  }

  /** Gives the steps named to `over` their values, in that order; columns handed out before are overwritten by the next. */
  give(values: readonly (Column | string)[]): this {
    const varies = this.varies as Uint8Array;
    for (let place = 0; place < varies.length; place++) {
      if (varies[place] === 0) continue;
      this.values[place] = undefined;
      const column = this.own[place];
      if (column) {
        this.pool.give(column);
        this.own[place] = undefined;
      }
    }
    this.anew.forEach((place, i) => (this.values[place] = values[i]));
    return this;
  }

  /** Takes the value of a step as it was found otherwise, until values are given anew. */
  fill(symbol: string, value: Column): void {
    this.values[this.list.place(symbol)] = value;
  }

  /** The value of a step: a number, or one for each draw or row. */
  column(symbol: string): Column {
    return this.numeric(this.list.place(symbol));
  }

  /** The value of a step where all is numbers. */
  number(symbol: string): number {
    const value = this.column(symbol);
    if (typeof value !== 'number') throw new Error(`step ${symbol} is a column`);
    return value;
  }

  text(symbol: string): string {
    return String(this.at(this.list.place(symbol)));
  }

  /** The number or text of a step; undefined where it has no solution. */
  found(symbol: string): number | string | undefined {
    try {
      const value = this.at(this.list.place(symbol));
      return typeof value === 'object' ? undefined : value;
    } catch (e) {
      if (e instanceof CalcError) return undefined;
      throw e;
    }
  }

  /** The steps that some results rest on, in order, with their values. */
  worked(
    results: readonly string[] = this.list.results,
    said: Readonly<Record<string, string>> = {},
  ): readonly WorkedStep[] {
    return [...this.list.neededFor(results)].map((place) => {
      const line = this.line(place);
      const words = said[line.symbol];
      return words === undefined ? line : { ...line, formula: words };
    });
  }

  private line(place: number): WorkedStep {
    const { step } = this.list.nodes[place] as Node;
    const { symbol, name, quantity, from, words, kind, source } = step;
    const value = this.at(place);
    if (typeof value === 'object') throw new Error(`step ${symbol} is a column`);
    if ('assumption' in from) {
      const about = this.reader.about(from.assumption);
      const { words: formula, ...rest } = about;
      return {
        name: name === '' ? from.assumption : name,
        symbol,
        value,
        formula: words === '' ? formula : words,
        assumption: from.assumption,
        ...rest,
      };
    }
    const line = { name, symbol, value, quantity, formula: words, kind, source };
    if ('expression' in from) return { ...line, expression: from.expression };
    return 'solve' in from ? { ...line, expression: `solve(${from.solve.join(', ')})` } : line;
  }

  private numeric(place: number): Column {
    const value = this.at(place);
    if (typeof value === 'string') throw new Error(`step ${(this.list.nodes[place] as Node).step.symbol} is a text`);
    return value;
  }

  private at(place: number): Column | string {
    if (this.base && this.varies?.[place] === 0) return this.base.at(place);
    return (this.values[place] ??= this.work(place));
  }

  private work(place: number): Column | string {
    const { step, uses, formula } = this.list.nodes[place] as Node;
    const { from } = step;
    if ('assumption' in from) return this.reader.value(from.assumption);
    if ('entry' in from) return from.entry;
    if ('given' in from) throw new Error(`step ${step.symbol} is not given`);
    let value: Column;
    if ('solve' in from) value = this.solve(uses, from.by, from.where !== undefined);
    else {
      value = this.copied(formula as Formula);
      if (from.check) value = this.checked(value, from.check);
    }
    if (typeof value === 'object') this.own[place] = value;
    return value;
  }

  /** A formula's value in a column of its own. */
  private copied(f: Formula): Column {
    const value = this.formula(f);
    if (typeof value === 'number' || f.kind !== 'symbol') return value;
    const into = this.pool.take(value.length);
    into.set(value);
    return into;
  }

  private checked(value: Column, check: Check): Column {
    const { above = -Infinity, most = Infinity } = check;
    if (typeof value === 'number') {
      if (value > above && value <= most) return value;
      throw check.otherwise(value, (symbol) => this.number(symbol));
    }
    for (let i = 0; i < value.length; i++) if (!(value[i]! > above && value[i]! <= most)) value[i] = NaN;
    return value;
  }

  /** `some`: only the places where the last of `uses` is positive, which often are none. */
  private solve(uses: readonly number[], by: Solver, some: boolean): Column {
    const where = some ? this.numeric(uses.at(-1)!) : 1;
    if (typeof where === 'number' ? !(where > 0) : !where.some((x) => x > 0)) return 0;
    const values = (some ? uses.slice(0, -1) : uses).map((use) => this.numeric(use));
    const length = [...values, where].find((v) => typeof v === 'object')?.length;
    if (length === undefined) return by(...(values as number[]));
    const column = this.pool.take(length);
    const columns = values.map((value) => filled(value, length));
    if (by.column && typeof where === 'number') {
      by.column(column, ...columns);
      return column;
    }
    // One list of arguments for all places: a new one for each would cost more than what is solved.
    const at = new Array<number>(values.length).fill(0);
    for (let i = 0; i < length; i++) {
      if (typeof where === 'object' && !(where[i]! > 0)) {
        column[i] = 0;
        continue;
      }
      for (let k = 0; k < at.length; k++) at[k] = columns[k]![i]!;
      column[i] = orNaN(by, at);
    }
    return column;
  }

  private formula(f: Formula): Column {
    switch (f.kind) {
      case 'number':
        return f.value;
      case 'pi':
        return Math.PI;
      case 'symbol':
        return this.numeric(f.place as number);
      case 'negative': {
        const value = this.formula(f.of);
        return typeof value === 'number' ? -value : this.binary('*', value, f.of.kind !== 'symbol', -1, false);
      }
      case 'binary':
        return this.binary(
          f.operator,
          this.formula(f.left),
          f.left.kind !== 'symbol',
          this.formula(f.right),
          f.right.kind !== 'symbol',
        );
      case 'call':
        return this.called(f.name, f.of);
      case 'if':
        return this.chosen(f);
    }
  }

  private called(name: FunctionName, of: readonly Formula[]): Column {
    const [first, ...others] = of as readonly [Formula, ...Formula[]];
    let value = this.formula(first);
    let ours = first.kind !== 'symbol';
    if (name === 'min' || name === 'max') {
      for (const other of others) {
        value = this.binary(name, value, ours, this.formula(other), other.kind !== 'symbol');
        ours = true;
      }
      return value;
    }
    const work = ONE_NUMBER[name];
    if (typeof value === 'number') return work(value);
    const into = ours ? value : this.pool.take(value.length);
    for (let i = 0; i < into.length; i++) into[i] = work(value[i]!);
    return into;
  }

  /** A pair of numbers or columns, of which a number becomes a column where the other is one; a column that is nobody's value takes the result. */
  private binary(operator: Operator, a: Column, aOurs: boolean, b: Column, bOurs: boolean): Column {
    if (typeof a === 'number') {
      if (typeof b === 'number') return NUMBERS[operator](a, b);
      return this.binary(operator, this.pool.take(b.length).fill(a), true, b, bOurs);
    }
    if (typeof b === 'number') return this.binary(operator, a, aOurs, this.pool.take(a.length).fill(b), true);
    const into = aOurs ? a : bOurs ? b : this.pool.take(a.length);
    COLUMNS[operator](a, b, into);
    if (aOurs && bOurs) this.pool.give(b);
    return into;
  }

  private chosen(f: Extract<Formula, { kind: 'if' }>): Column {
    const [left, right] = [this.formula(f.left), this.formula(f.right)];
    const holds = COMPARED[f.comparison];
    if (typeof left === 'number' && typeof right === 'number')
      return this.copied(holds(left, right) ? f.then : f.otherwise);
    const { length } = typeof left === 'object' ? left : (right as Float64Array);
    const [x, y, then, otherwise] = [left, right, this.formula(f.then), this.formula(f.otherwise)].map((value) =>
      filled(value, length),
    ) as [Float64Array, Float64Array, Float64Array, Float64Array];
    const into = this.pool.take(length);
    for (let i = 0; i < length; i++) into[i] = (holds(x[i]!, y[i]!) ? then : otherwise)[i]!;
    return into;
  }
}

/** A number in each of so many places. */
export const filled = (column: Column, length: number): Float64Array =>
  typeof column === 'number' ? new Float64Array(length).fill(column) : column;

/** A draw with no solution is a gap in its column, as one that a check refuses. */
function orNaN(by: (...values: number[]) => number, at: readonly number[]): number {
  try {
    return by(...at);
  } catch (e) {
    if (e instanceof CalcError) return NaN;
    throw e;
  }
}

const NUMBERS: Readonly<Record<Operator, (a: number, b: number) => number>> = {
  '+': (a, b) => a + b,
  '-': (a, b) => a - b,
  '*': (a, b) => a * b,
  '/': (a, b) => a / b,
  '^': power,
  min: Math.min,
  max: Math.max,
};

const ONE_NUMBER: Readonly<Record<Exclude<FunctionName, 'min' | 'max'>, (x: number) => number>> = {
  ceil: Math.ceil,
  floor: Math.floor,
  sqrt: Math.sqrt,
  ln: Math.log,
  exp: Math.exp,
  abs: Math.abs,
};

const COMPARED: Readonly<Record<Comparison, (a: number, b: number) => boolean>> = {
  '<': (a, b) => a < b,
  '<=': (a, b) => a <= b,
  '>': (a, b) => a > b,
  '>=': (a, b) => a >= b,
};
