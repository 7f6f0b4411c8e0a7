import type { Argument, Cell, HostFunction } from '../sheet/host-function.ts';
import type { Paused } from '../sheet/call.ts';
import { asGrid, cellAt, shapeOf } from '../sheet/broadcast.ts';
import { sameCells } from '../sheet/shared-bases.ts';
import { PAGE_TURNS } from './turns.ts';

/** Lists that calls may still join: a workbook seldom has more sets of assumptions in use at a time. */
const MOST_OPEN = 8;

type Rows = readonly (readonly Cell[])[];

/** A call that waits with others. */
interface Waiting<R> {
  readonly args: readonly Argument[];
  /** Undefined where the host takes it back. */
  readonly answer: (result: R | undefined) => void;
  wanted: boolean;
}

/** Calls with the same assumptions and the same arguments left out. */
interface List<R> {
  readonly first: readonly Argument[];
  readonly calls: Waiting<R>[];
  wanted: number;
}

/**
 * Calls of single items that come faster than the page answers. A host hands all cells of a recalculation over one after the other;
 * those that have to wait for the next turn are worked out as one list then, and each is given its own rows.
 */
export class Gathered<R> {
  private open: readonly List<R>[] = [];

  /** @param result what goes back to the host for the arguments of one call, out of its rows where they are known */
  constructor(
    private readonly f: HostFunction,
    private readonly result: (args: readonly Argument[], rows?: Rows) => Paused<R>,
    private readonly turns = PAGE_TURNS,
  ) {}

  /** The promise of a call's result, and what takes the call back; undefined where it cannot wait with others or need not wait. */
  add(given: readonly Argument[], taken: { onCanceled?: () => void }): Promise<R | undefined> | undefined {
    if (!this.f.inList || !this.turns.isFull()) return undefined;
    const args = this.single(given);
    if (!args) return undefined;
    const list =
      this.open.find(({ first }) => args.every((arg, i) => this.joins(first[i], arg, i))) ?? this.begin(args);
    // Of its assumptions, which come anew with each call, one copy is enough.
    return this.join(
      list,
      args.map((arg, i) => (this.isApart(i) ? list.first[i] : arg)),
      taken,
    );
  }

  private join(list: List<R>, args: readonly Argument[], taken: { onCanceled?: () => void }): Promise<R | undefined> {
    return new Promise((answer) => {
      const waiting = { args, answer, wanted: true };
      list.calls.push(waiting);
      list.wanted++;
      taken.onCanceled = () => {
        if (!waiting.wanted) return;
        waiting.wanted = false;
        if (--list.wanted === 0) this.close(list);
        answer(undefined);
      };
    });
  }

  private isApart(i: number): boolean {
    return this.f.parameters[i]?.apart === true;
  }

  private joins(first: Argument, arg: Argument, i: number): boolean {
    return this.isApart(i) ? sameCells(first, arg) : (first === undefined) === (arg === undefined);
  }

  /** The arguments with cells in place of ranges of one; undefined where one is a list, or no plain number or text. */
  private single(args: readonly Argument[]): readonly Argument[] | undefined {
    const single: Argument[] = [];
    for (const [i, arg] of args.entries()) {
      if (this.isApart(i) || arg === undefined) single.push(arg);
      else {
        const grid = asGrid(arg)!;
        const { rows, columns } = shapeOf(grid);
        const cell = cellAt(grid, 0, 0);
        const isPlain =
          typeof cell === 'number' || typeof cell === 'string' || (cell === null && this.f.parameters[i]?.optional);
        if (rows * columns > 1 || !isPlain) return undefined;
        single.push(cell);
      }
    }
    return single;
  }

  private begin(first: readonly Argument[]): List<R> {
    const list: List<R> = { first, calls: [], wanted: 0 };
    this.open = [...this.open, list].slice(-MOST_OPEN);
    void this.turns.run(this.work(list), () => list.wanted === 0);
    return list;
  }

  private close(list: List<R>): void {
    this.open = this.open.filter((each) => each !== list);
  }

  private *work(list: List<R>): Paused<void> {
    this.close(list);
    const left = new Set(list.calls.filter(({ wanted }) => wanted));
    const calls = [...left];
    try {
      if (calls.length > 1) {
        for (const made of this.f.inList?.(this.columns(calls)) ?? []) {
          yield;
          const call = made && calls[made[0]];
          if (!call) continue;
          left.delete(call);
          if (call.wanted) call.answer(yield* this.result(call.args, made[1]));
        }
      }
    } catch {
      // Whatever is wrong with the list, each call says for itself.
    }
    for (const { args, wanted, answer } of left) if (wanted) answer(yield* this.result(args));
  }

  /** The arguments of the calls as columns; what is the same for all, as one cell. */
  private columns(calls: readonly Waiting<R>[]): readonly Argument[] {
    return calls[0]!.args.map((first, i) =>
      this.isApart(i) || calls.every(({ args }) => args[i] === first)
        ? first
        : calls.map(({ args }) => [args[i] as Cell]),
    );
  }
}
