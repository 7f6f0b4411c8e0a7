/** The trial workbook: a sheet in the browser with the functions and the pane of the add-in. */
import { mountPane } from '../pane/mount.tsx';
import { asInTheHost } from '../engine/as-in-the-host.ts';
import { hostFunctions } from '../sheet/host-functions.ts';
import { demoWorkbook } from './demo/demo-workbook.ts';
import { moveFocusWithF6 } from './move-focus.ts';
import { openWorkbook } from './open-workbook.ts';

function start(): void {
  const sheet = place('sheet');
  const status = place('status');
  const print = place('print');
  const pane = place('pane');
  try {
    moveFocusWithF6(pane);
    mountPane(pane, openWorkbook({ sheet, status, print }, demoWorkbook(), hostFunctions.map(asInTheHost)));
  } catch (thrown) {
    status.textContent = `The trial workbook could not start: ${thrown instanceof Error ? thrown.message : String(thrown)}`;
    throw thrown;
  }
}

function place(id: string): HTMLElement {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page has no #${id}`);
  return found;
}

start();
