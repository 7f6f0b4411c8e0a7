/**
 * Entry of dist/functions.js, and the only file that associates: an id associated twice is a fault in the host.
 *
 * All ids are associated here; the calculations of the further functions come with functions-further.js.
 */
import { MAIN_FUNCTIONS } from '../catalogue/main-functions.ts';
import { hostFunction } from '../sheet/as-host-function.ts';
import { associate, associateLater } from './associate.ts';
import { showCards } from './cards.ts';
import { furtherFunctions } from './load-further.ts';

/** Names of the further functions, written in by the build from the catalogue. */
declare const FURTHER_NAMES: readonly string[] | undefined;
/** Whether the build is one whose functions.json lets rich values through. */
declare const CARDS: boolean | undefined;

const cards = typeof CARDS !== 'undefined' && CARDS ? showCards : undefined;

associate(
  MAIN_FUNCTIONS.map((d) => hostFunction(d)),
  cards,
);
if (typeof FURTHER_NAMES !== 'undefined') associateLater(FURTHER_NAMES, furtherFunctions(), cards);
