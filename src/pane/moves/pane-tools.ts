import type { readSelectedCell } from '../explain-cell.ts';
import type { findCalls } from '../formula-calls.ts';
import type { SheetPort } from '../port.ts';
import type { FormulaCell } from '../unknown-name.ts';

/** What the pane lends to what is fetched on demand, so that the functions are in the page once. */
export interface PaneTools {
  readonly findCalls: typeof findCalls;
  readonly readSelectedCell: typeof readSelectedCell;
  /** Whether a formula is BURN.VERSION and nothing else. */
  readonly isVersion: (formula: string) => boolean;
}

/** Shows in an element what this version would move in a workbook; `older` is the cell that names the version it was calculated with. */
export type ShowMoves = (
  element: HTMLElement,
  port: SheetPort,
  tools: PaneTools,
  older: FormulaCell | undefined,
) => Promise<void>;
