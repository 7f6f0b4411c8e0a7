/// <reference types="office-js" />
import type { CellLook } from '../sheet/described-workbook.ts';

/** The host measures in points where a description has pixels. */
export const POINTS_A_PIXEL = 0.75;

const ALIGN = { left: 'Left', center: 'Center', right: 'Right' } as const;
const VERTICAL = { top: 'Top', center: 'Center', bottom: 'Bottom' } as const;

/** Of a cell, or of what it takes on under a condition. */
interface Colours {
  readonly font: { bold: boolean; color: string };
  readonly fill: { color: string };
}

export function setColours({ font, fill }: Colours, { bold, color, background }: CellLook): void {
  if (bold !== undefined) font.bold = bold;
  if (color !== undefined) font.color = color;
  if (background !== undefined) fill.color = background;
}

/** Of a look what our own workbooks use. */
export function setLook(range: Excel.Range, look: CellLook): void {
  const { format } = range;
  setColours(format, look);
  if (look.unlocked) format.protection.locked = false;
  if (look.italic !== undefined) format.font.italic = look.italic;
  if (look.size !== undefined) format.font.size = look.size;
  if (look.align !== undefined) format.horizontalAlignment = ALIGN[look.align];
  if (look.wrap !== undefined) format.wrapText = look.wrap;
  if (look.vertical !== undefined || look.wrap) format.verticalAlignment = VERTICAL[look.vertical ?? 'top'];
  // One for all cells of the range.
  if (look.format !== undefined) range.numberFormat = look.format as unknown as string[][];
}
