/**
 * Calculates in a worker, so that the page goes on answering however long one piece of work takes.
 *
 * The worker runs the same script as the page (`in-worker.ts`). It is started at the first use, asked one thing after the
 * other, and ended where the work in hand is taken back. Where there is none, or it cannot be started, nothing is
 * calculated here and the page does it itself.
 */
import { CALCULATION_VERSION } from '../core/version.ts';
import type { Argument, Calculated } from '../sheet/host-function.ts';

export interface Question {
  readonly name: string;
  readonly args: readonly Argument[];
  /** Whether it is also asked how it is worked out. */
  readonly explained: boolean;
}
/** What the worker tells: which version it calculates, once it is there; then an answer to each question. */
export type Told = { readonly version: string } | Calculated;

/** As much of a worker as is used. */
export interface Helper {
  postMessage(question: Question): void;
  terminate(): void;
  onmessage: ((event: { readonly data: Told }) => void) | null;
  onerror: ((event: { preventDefault(): void }) => void) | null;
}

interface Waiting {
  readonly question: Question;
  readonly answer: (calculated: Calculated | undefined) => void;
}

export class Aside {
  private readonly waiting: Waiting[] = [];
  private helper: Helper | undefined;
  private state: 'none' | 'starting' | 'idle' | 'busy' | 'refused' = 'none';

  constructor(private readonly start: () => Helper) {}

  /** What comes of a call; undefined where it was stopped, or no worker can be had. `onStop` is given what stops it. */
  calculate(question: Question, onStop?: (stop: () => void) => void): Promise<Calculated | undefined> {
    return new Promise((answer) => {
      const asked: Waiting = { question, answer };
      onStop?.(() => this.stop(asked));
      this.waiting.push(asked);
      this.next();
    });
  }

  private next(): void {
    if (this.state === 'refused') for (const { answer } of this.waiting.splice(0)) answer(undefined);
    const [first] = this.waiting;
    if (!first) return;
    if (this.state === 'none') this.begin();
    if (this.state !== 'idle') return;
    this.state = 'busy';
    this.helper?.postMessage(first.question);
  }

  private begin(): void {
    try {
      this.helper = this.start();
    } catch {
      this.refuse();
      return;
    }
    this.state = 'starting';
    this.helper.onmessage = ({ data }) => {
      if ('cells' in data) this.waiting.shift()?.answer(data);
      // The script was renewed since the page was loaded: figures of two versions would stand side by side.
      else if (data.version !== CALCULATION_VERSION) {
        this.refuse();
        return;
      }
      this.state = 'idle';
      this.next();
    };
    this.helper.onerror = (event) => {
      event.preventDefault();
      this.refuse();
    };
  }

  private refuse(): void {
    this.end('refused');
    this.next();
  }

  private stop(asked: Waiting): void {
    const place = this.waiting.indexOf(asked);
    if (place === -1) return;
    this.waiting.splice(place, 1);
    asked.answer(undefined);
    if (place > 0 || this.state !== 'busy') return;
    this.end('none');
    this.next();
  }

  private end(state: 'none' | 'refused'): void {
    this.helper?.terminate();
    this.helper = undefined;
    this.state = state;
  }
}
