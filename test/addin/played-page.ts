import { Turns } from '../../src/addin/turns.ts';
import type { Paused } from '../../src/sheet/call.ts';

/** A page whose clock goes on with the work alone, and by a little from turn to turn. */
export class PlayedPage {
  time = 0;
  readonly done: string[] = [];
  private readonly next: (() => void)[] = [];
  readonly turns = new Turns(
    () => this.time,
    (next) => void this.next.push(next),
  );

  /** A calculation of so many steps of a millisecond. */
  *steps(name: string, count: number): Paused<string> {
    for (let i = 0; i < count; i++) {
      this.time++;
      this.done.push(name);
      yield;
    }
    return name;
  }

  /** Steps that the next turn of the page made, by the name of their calculation. */
  turn(): Readonly<Record<string, number>> {
    this.done.length = 0;
    this.time += 4;
    for (const go of this.next.splice(0)) go();
    return Object.fromEntries(
      [...new Set(this.done)].map((name) => [name, this.done.filter((n) => n === name).length]),
    );
  }
}
