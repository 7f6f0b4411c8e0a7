import type { CellSection } from '../section.ts';
import { ARGUMENTS } from './arguments.tsx';
import { ASSUMPTIONS } from './assumptions.tsx';
import { CAUTIONS } from './cautions.tsx';
import { COOLING_CHART } from './cooling-chart.tsx';
import { FIT_INTO_JOB } from './fit-into-job.tsx';
import { JOB_SHEET } from './job-sheet.tsx';
import { PIN_SECTION } from './pin-section.tsx';
import { PICTURES } from './pictures.tsx';
import { RESULT } from './result.tsx';
import { SUPPLY_LINE } from './supply-line.tsx';
import { WORKING } from './working.tsx';

/** What the pane shows of a cell, from top to bottom. */
export const CELL_SECTIONS: readonly CellSection[] = [
  RESULT,
  JOB_SHEET,
  PICTURES,
  FIT_INTO_JOB,
  CAUTIONS,
  ARGUMENTS,
  PIN_SECTION,
  COOLING_CHART,
  SUPPLY_LINE,
  WORKING,
  ASSUMPTIONS,
];
