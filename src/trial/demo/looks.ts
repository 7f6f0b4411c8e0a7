import type { CellContent, CellLook } from '../../engine/workbook.ts';

export const HEADING: CellLook = { bold: true, background: '#dfe6e4', wrap: true };
export const INPUT: CellLook = { background: '#fff8e3' };

/** Something as its user would type it: text stays text, so that 3/8 is no date. */
export const typed = (size: number | string): CellContent => (typeof size === 'string' ? { text: size } : size);
