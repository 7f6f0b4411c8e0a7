import type { WorkbookDescription } from '../../sheet/described-workbook.ts';
import { draglineSheets } from './dragline.ts';
import { finishedJobsSheet } from './finished-jobs.ts';
import { lockGateSheet } from './lock-gate.ts';
import { rescueBreachSheet } from './rescue-breach.ts';
import { starterHolesSheet } from './starter-holes.ts';

/** The trial workbook: jobs of our own invention. */
export function demoWorkbook(): WorkbookDescription {
  return {
    sheets: [...draglineSheets(), finishedJobsSheet(), lockGateSheet(), rescueBreachSheet(), starterHolesSheet()],
  };
}
