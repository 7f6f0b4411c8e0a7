import type { WorkbookDescription } from '../engine/workbook.ts';
import { draglineSheets } from './dragline.ts';
import { lockGateSheet } from './lock-gate.ts';
import { rescueBreachSheet } from './rescue-breach.ts';
import { starterHolesSheet } from './starter-holes.ts';

/** The trial workbook: jobs of our own invention. */
export function demoWorkbook(): WorkbookDescription {
  return { sheets: [...draglineSheets(), lockGateSheet(), rescueBreachSheet(), starterHolesSheet()] };
}
