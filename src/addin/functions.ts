/**
 * Entry of dist/functions.js: the functions, and the pane, whose script is fetched when it is shown. The only file that
 * associates: an id associated twice is a fault in the host.
 *
 * The host loads it in the page of the shared runtime. In a runtime that runs scripts without a page it answers every function
 * all the same, and shows nothing.
 */
import { hostFunctions } from '../sheet/host-functions.ts';
import { associate } from './associate.ts';
import { showCards } from './cards.ts';
import { startPane } from './pane.ts';

/** Whether the build is one whose functions.json lets rich values through. */
declare const CARDS: boolean | undefined;

associate(hostFunctions, typeof CARDS !== 'undefined' && CARDS ? showCards : undefined);
if (typeof document !== 'undefined') startPane();
