/** The trial page with invented functions and its port within reach of the tests. */
import type { CellContent } from '../../src/sheet/described-workbook.ts';
import { workbookData } from '../../src/engine/workbook.ts';
import { openWorkbook } from '../../src/trial/open-workbook.ts';
import { inventedFunctions } from '../engine/invented-functions.ts';

const [sheet, status] = ['sheet', 'status'].map((id) => document.getElementById(id));
if (!sheet || !status) throw new Error('the page has not its places');

const rows: readonly (readonly CellContent[])[] = [
  ['Pin', 'Size', 'Twice', 'Sum'],
  ['one', 3, '=BURN.DOUBLE(B2:B5)', '=SUM(C2:C3)'],
  ['two', 4],
  ['three', -1],
  ['four', { text: '3/8' }, null, '=C4+1'],
];
const { port } = openWorkbook(
  { sheet, status },
  workbookData('trial', {
    sheets: [
      { name: 'Job sheet', rows, looks: { 'A1:D1': { bold: true } }, frozenRows: 1, size: [200, 20] },
      {
        name: 'Other',
        rows: [['=BURN.TABLE(2)'], [null], [null], [null], ["=SUM('Job sheet'!C2:C3)"]],
        cells: { E1: '=E2', E2: '=E1' },
      },
    ],
    definedNames: { sizes: "'Job sheet'!$B$2:$B$5" },
  }),
  inventedFunctions,
  () => undefined,
);
Object.assign(globalThis, { port });
