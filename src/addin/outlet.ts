import { pageTime } from './clock.ts';
import { MOST_BYTES, SMALL } from './result-size.ts';

/** The runtime gathers results for about so long before it sends them, all in one request [ms]. */
const GATHERED = 3000;

interface Sent {
  readonly at: number;
  readonly bytes: number;
}

/**
 * Hands large results over one after the other, so that no request of the runtime grows beyond what the host takes: it would
 * send it again for a minute, with all the small results in it, and then lose them.
 */
export class Outlet {
  private sent: readonly Sent[] = [];

  constructor(private readonly now: () => number = pageTime) {}

  /** How long a result of so many bytes has to wait [ms]. */
  wait(bytes: number): number {
    if (bytes < SMALL) return 0;
    const time = this.now();
    this.sent = this.sent.filter(({ at }) => at > time - GATHERED);
    let at = Math.max(time, this.sent.at(-1)?.at ?? time);
    for (;;) {
      const beside = this.sent.filter((s) => s.at > at - GATHERED);
      const first = beside[0];
      if (!first || beside.reduce((sum, s) => sum + s.bytes, bytes) <= MOST_BYTES) break;
      at = first.at + GATHERED;
    }
    this.sent = [...this.sent, { at, bytes }];
    return at - time;
  }
}
