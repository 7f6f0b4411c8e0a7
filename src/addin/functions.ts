/**
 * Entry of dist/functions.js: the functions, and the pane, whose script is fetched when it is shown. The only file that
 * associates: an id associated twice is a fault in the host.
 *
 * The host loads it in the page of the shared runtime, and the page in a worker, which calculates what takes long. In a
 * runtime that runs scripts without a page it answers every function all the same, and shows nothing.
 */
import { CATALOGUE } from '../catalogue/catalogue.ts';
import { hostFunction } from '../sheet/as-host-function.ts';
import { LONG_LISTS } from '../sheet/long-lists.ts';
import { Aside, type Helper } from './aside.ts';
import { associate } from './associate.ts';
import { showCards } from './cards.ts';
import { answerPage, ownWorker } from './in-worker.ts';
import { startPane } from './pane.ts';
import { calculator } from './calculator.ts';

/** Whether the build is one whose functions.json lets rich values through. */
declare const CARDS: boolean | undefined;

const functions = CATALOGUE.map((d) => hostFunction(d));
const worker = ownWorker();
if (worker) answerPage(worker, functions);
else {
  const cards = typeof CARDS !== 'undefined' && CARDS ? showCards : undefined;
  // Beside the page, as its other scripts.
  const aside = typeof Worker === 'undefined' ? undefined : new Aside(() => new Worker('functions.js') as Helper);
  associate(functions, { cards, aside });
  if (typeof document !== 'undefined') {
    LONG_LISTS.fetch = async () => (await import(/* webpackChunkName: 'lists' */ '../catalogue/plan-list.ts')).planList;
    startPane(calculator(functions, aside));
  }
}
