/** Stands in for the host's script: a workbook in memory with one list of our own invention. */
import { FakeExcel } from '../addin/fake-excel.ts';

const excel = new FakeExcel({
  sheets: { Pins: { A5: 3.5, B5: 10, D5: 93.8, D6: '#VALUE!' } },
  formulas: { Pins: { D5: '=BURN.PIN.OXYGEN(A5,B5)', D6: '=BURN.PIN.OXYGEN(A5,-1)' } },
  active: { sheet: 'Pins', at: 'D6' },
});
const associated: string[] = [];
Object.assign(globalThis, {
  excel,
  associated,
  Excel: { run: excel.run },
  Office: {
    HostType: { Excel: 'Excel' },
    onReady: (ready: (info: { host: string }) => void) => Promise.resolve({ host: 'Excel' }).then(ready),
  },
  CustomFunctions: { associate: (functions: object) => associated.push(...Object.keys(functions)) },
});
