import type { WorkbookDescription } from '../engine/workbook.ts';

/** A placeholder until the job of our own invention is written. */
export const demoWorkbook: WorkbookDescription = {
  sheets: [
    {
      name: 'Job',
      rows: [
        ['Pin', 'Diameter, in', 'Length, in', 'Oxygen, scf', 'Rods'],
        ['Boom foot, left', 4, 12, '=BURN.PIN.OXYGEN(B2:B5,C2:C5)', '=BURN.PIN.RODS(B2:B5,C2:C5)'],
        ['Boom foot, right', 4, 12],
        ['Bucket', { text: '3-1/2' }, 10],
        ['Link', -1, 10],
        ['Total', null, null, '=SUM(D2:D5)', '=SUM(E2:E4)'],
        [null],
        ['=BURN.PIN.PLAN(B2:B4,C2:C4)'],
      ],
      widths: { A: 140, 'B:E': 95 },
      looks: { 'A1:E1': { bold: true, background: '#e8edf2' }, 'D2:D6': { format: '0.0' } },
      heights: { 1: 28 },
      frozenRows: 1,
      size: [200, 26],
    },
  ],
};
