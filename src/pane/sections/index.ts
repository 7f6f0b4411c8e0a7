import type { CellSection } from '../section.ts';
import { ARGUMENTS } from './arguments.tsx';
import { ASSUMPTIONS } from './assumptions.tsx';
import { CAUTIONS } from './cautions.tsx';
import { RESULT } from './result.tsx';
import { WORKING } from './working.tsx';

/** What the pane shows of a cell, from top to bottom. */
export const CELL_SECTIONS: readonly CellSection[] = [RESULT, CAUTIONS, ARGUMENTS, WORKING, ASSUMPTIONS];
