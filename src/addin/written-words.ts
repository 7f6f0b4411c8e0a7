import { functionWords } from '../catalogue/function-words.ts';

/** Words of the functions. A build that leaves them out of functions.js (`words-apart.mjs`) writes them down here. */
export const WORDS = functionWords();
