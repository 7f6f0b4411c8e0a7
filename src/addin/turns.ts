import { pageTime } from './clock.ts';
import type { Paused } from '../sheet/call.ts';

/** Longest work before the page may answer something else [ms]; the host restarts an add-in that answers nothing for 5 s. */
const SLICE = 40;

interface Job {
  /** Works until the time given; whether it is done. */
  readonly work: (until: number) => boolean;
}

/**
 * Runs calculations that pause, so that none of them, nor many together, holds the page up. Short ones are answered at once;
 * what takes longer is promised, and goes on turn by turn with whatever else is waiting.
 */
export class Turns {
  private readonly waiting: Job[] = [];
  /** When the turn ends that is being worked in. */
  private until: number | undefined;

  constructor(
    private readonly now: () => number = pageTime,
    // A runtime without a page may have no clock to wait by.
    private readonly later: (next: () => void) => void = (next) =>
      void (typeof setTimeout === 'undefined' ? Promise.resolve().then(next) : setTimeout(next, 0)),
  ) {}

  /** The result, or a promise of it; undefined where it was given up. */
  run<T>(steps: Paused<T>, givenUp: () => boolean = () => false): T | undefined | Promise<T | undefined> {
    let result: T | undefined;
    const work = (until: number): boolean => {
      do {
        if (givenUp()) return true;
        const step = steps.next();
        if (step.done) {
          result = step.value;
          return true;
        }
      } while (this.now() < until);
      return false;
    };
    const until = this.turn();
    if (this.waiting.length === 0 && this.now() < until && work(until)) return result;
    return new Promise((resolve, reject) => {
      this.waiting.push({
        work: (end) => {
          try {
            if (!work(end)) return false;
            resolve(result);
          } catch (e) {
            reject(e instanceof Error ? e : new Error(String(e)));
          }
          return true;
        },
      });
    });
  }

  /** The end of this turn of the page, which begins with the first work in it. */
  private turn(): number {
    if (this.until === undefined) {
      this.until = this.now() + SLICE;
      this.later(() => this.next());
    }
    return this.until;
  }

  /** The next turn: one calculation after the other, each until the turn is over. */
  private next(): void {
    this.until = undefined;
    if (this.waiting.length === 0) return;
    const until = this.turn();
    while (this.now() < until) {
      const job = this.waiting.shift();
      if (!job) return;
      if (!job.work(until)) this.waiting.push(job);
    }
  }
}

/** All that is calculated in a page takes turns. */
export const PAGE_TURNS = new Turns();
