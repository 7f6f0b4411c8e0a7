/** The trial workbook: a sheet in the browser that loads the same functions as the spreadsheet host. */
import { mountPane } from '../pane/mount.tsx';
import { demoWorkbook } from './demo/demo-workbook.ts';
import { loadFunctions } from './load-functions.ts';
import { moveFocusWithF6 } from './move-focus.ts';
import { openWorkbook } from './open-workbook.ts';

async function start(): Promise<void> {
  const sheet = place('sheet');
  const status = place('status');
  const print = place('print');
  const pane = place('pane');
  try {
    moveFocusWithF6(pane);
    mountPane(pane, openWorkbook({ sheet, status, print }, demoWorkbook(), await loadFunctions('..')));
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

void start();
