/** Entry of dist/moves.js, which the pane fetches when somebody asks what a newer version would move. */
import { showMoves } from '../pane/moves/show-moves.tsx';
import { MOVES } from './fetch-moves.ts';

Object.assign(globalThis, { [MOVES]: showMoves });
