import type { ShowMoves } from '../pane/moves/pane-tools.ts';

/** Name by which the fetched script is found. */
export const MOVES = 'rodsheetMoves';

/** Fetches moves.js, once. */
export function fetchMoves(): Promise<ShowMoves> {
  const found = (): ShowMoves | undefined => (globalThis as { [MOVES]?: ShowMoves })[MOVES];
  return new Promise((resolve, reject) => {
    const there = found();
    if (there) {
      resolve(there);
      return;
    }
    const script = document.createElement('script');
    script.src = 'moves.js';
    script.onload = () => resolve(found()!);
    script.onerror = () => reject(new Error('moves.js could not be fetched'));
    document.head.append(script);
  });
}
