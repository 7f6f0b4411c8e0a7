import type { CellContent, CellLook } from '../../sheet/described-workbook.ts';
import { YELLOW } from '../../sheet/yellow.ts';

export const HEADING: CellLook = { bold: true, background: '#dfe6e4', wrap: true };
/** Numbers of items, which must not run into a rod beside them: 1 and 3/8 would read as 1-3/8. */
export const ITEM: CellLook = { align: 'left' };
export const INPUT: CellLook = { background: YELLOW };

/** Something as its user would type it: text stays text, so that 3/8 is no date. */
export const typed = (size: number | string): CellContent => (typeof size === 'string' ? { text: size } : size);
