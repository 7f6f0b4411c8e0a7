/** The pane on a sheet in memory, both within reach of the tests. The list of pins is our own invention. */
import { mountPane } from '../../src/pane/mount.tsx';
import { MemoryPort } from './memory-port.ts';

const sheet = new MemoryPort();
const element = document.getElementById('pane');
if (!element) throw new Error('the page has no place for the pane');

async function start(place: HTMLElement): Promise<void> {
  await sheet.fill('Job sheet', {
    A4: 'pin',
    B4: 'diameter',
    C4: 'length',
    A5: 'hoist sheave',
    B5: 3.5,
    C5: 10,
    A6: 'bucket hinge',
    B6: '110 mm',
    C6: 14,
    A7: 'dump link',
    B7: 'wide',
    C7: 9,
    B10: 'name',
    C10: 'value',
    B11: 'stub',
    C11: 4,
    E5: '=BURN.PIN.OXYGEN(B5,C5)',
    F5: '=BURN.PIN.OXYGEN(B7,C7)',
    G5: '=SUM(B5:B6)',
    H5: '=BURN.PIN.RODS(MAX(B5:B6),C5)',
    J5: '=BURN.PIN.RODS(B5,C5,BURN.PIN.HOLE(B5),,,B10:C11)',
    K5: '=BURN.PIN.OXIGEN(1)',
    E12: '=BURN.PIN.PLAN(B5:B9,C5:C9)',
  });
  Object.assign(globalThis, { sheet, unmount: mountPane(place, sheet) });
}

void start(element);
