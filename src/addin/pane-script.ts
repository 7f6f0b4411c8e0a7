import { giveWords } from '../catalogue/function-words.ts';
import { WORDS } from './written-words.ts';

/** What the add-in's page fetches once its pane is shown. */
export { mountPane } from '../pane/mount.tsx';
export { officePort } from './office-port.ts';

giveWords(WORDS);
