/**
 * Entry of dist/functions.js: the functions, and the pane, whose script is fetched when it is shown. The only file that
 * associates: an id associated twice is a fault in the host.
 *
 * The host loads it in the page of the shared runtime, and the page in a worker, which calculates what takes long. In a
 * runtime that runs scripts without a page it answers every function all the same, and shows nothing.
 */
import { hostFunctions } from '../sheet/host-functions.ts';
import { Aside, type Helper } from './aside.ts';
import { associate } from './associate.ts';
import { showCards } from './cards.ts';
import { answerPage, ownWorker } from './in-worker.ts';
import { startPane } from './pane.ts';
import { calculator } from './calculator.ts';

/** Whether the build is one whose functions.json lets rich values through. */
declare const CARDS: boolean | undefined;

const worker = ownWorker();
if (worker) answerPage(worker, hostFunctions);
else {
  const cards = typeof CARDS !== 'undefined' && CARDS ? showCards : undefined;
  // Beside the page, as its other scripts.
  const aside = typeof Worker === 'undefined' ? undefined : new Aside(() => new Worker('functions.js') as Helper);
  associate(hostFunctions, { cards, aside });
  if (typeof document !== 'undefined') startPane(calculator(hostFunctions, aside));
}
