import { pageTime } from './clock.ts';
import type { Paused } from '../sheet/call.ts';

/** Longest work before the page may answer something else [ms]; the host restarts an add-in that answers nothing for 5 s. */
const SLICE = 40;
/** How long calculations that are under way wait for a pane that is about to show something, and at most in a row [ms]. */
const PAUSE = 50;
const MOST_PAUSE = 60;

interface Job {
  /** Works until the time given; whether it is done. */
  readonly work: (until: number) => boolean;
}

/**
 * Runs calculations that pause, so that none of them, nor many together, holds the page up. Short ones are answered at once,
 * or in the next turn; what takes longer is promised, and goes on turn by turn with whatever else is under way.
 */
export class Turns {
  /** Those that had no turn yet. */
  private readonly fresh = new Set<Job>();
  private readonly underWay = new Set<Job>();
  /** When the turn ends that is being worked in. */
  private until: number | undefined;
  /** When the pause ends that was asked for, and when what is under way was last worked at. */
  private pauseEnds = 0;
  private worked = 0;

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
    const inTurn = !this.isFull();
    if (inTurn && work(this.turn())) return result;
    return new Promise((resolve, reject) => {
      (inTurn ? this.underWay : this.fresh).add({
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

  /** Whether what comes now has to wait for the next turn. */
  isFull(): boolean {
    const until = this.turn();
    return this.fresh.size > 0 || this.now() >= until;
  }

  /** The end of this turn of the page, which begins with the first work in it. */
  private turn(): number {
    if (this.until === undefined) {
      this.until = this.now() + SLICE;
      this.later(() => this.next());
    }
    return this.until;
  }

  /** Lets the page show something first: what is under way waits a little. */
  giveWay(): void {
    this.pauseEnds = this.now() + PAUSE;
  }

  /** The next turn: one calculation after the other, each until the turn is over; those first that had none. */
  private next(): void {
    this.until = undefined;
    if (this.fresh.size + this.underWay.size === 0) return;
    const until = this.turn();
    this.workAt(this.fresh, until);
    const now = this.now();
    if (now < Math.min(this.pauseEnds, this.worked + MOST_PAUSE)) return;
    this.workAt(this.underWay, until);
    this.worked = this.now();
  }

  private workAt(jobs: Set<Job>, until: number): void {
    for (const job of jobs) {
      if (this.now() >= until) return;
      jobs.delete(job);
      if (!job.work(until)) this.underWay.add(job);
    }
  }
}

/** All that is calculated in a page takes turns. */
export const PAGE_TURNS = new Turns();
