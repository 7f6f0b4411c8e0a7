import { LONG } from '../catalogue/long.ts';
import type { LongList } from '../catalogue/plan-list.ts';

/** How a host works out long lists: what it has for them from the start, or where that is fetched when the first one comes. */
export const LONG_LISTS: { work?: LongList; fetch?: () => Promise<LongList> } = {};

/** Waits for what a long list is worked out with, where it has to be fetched; without it every row is worked out by itself. */
export function* readyFor(args: readonly unknown[]): Generator<undefined, void> {
  const { work, fetch } = LONG_LISTS;
  if (work || !fetch || !args.some((each) => Array.isArray(each) && each.length >= LONG)) return;
  const waiting = { for: true };
  void fetch()
    .then(
      (fetched) => void (LONG_LISTS.work = fetched),
      () => undefined,
    )
    .then(() => void (waiting.for = false));
  while (waiting.for) yield;
}
