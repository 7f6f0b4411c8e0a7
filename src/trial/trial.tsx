/** The trial workbook: a sheet in the browser with the functions and the pane of the add-in. */
import { render } from 'preact';
import { asInTheHost } from '../engine/as-in-the-host.ts';
import { mountPane } from '../pane/mount.tsx';
import { hostFunctions } from '../sheet/host-functions.ts';
import { JobBar } from './job-bar.tsx';
import { moveFocusWithF6, PAGE_PARTS } from './move-focus.ts';
import { printAsTable } from './print-sheet.ts';
import { showRelease } from './release.ts';
import { Session } from './session.ts';

async function start(): Promise<void> {
  const sheet = place('sheet');
  const status = place('status');
  const pane = place('pane');
  showRelease(place('release'));
  try {
    const session = new Session({ sheet, status }, hostFunctions.map(asInTheHost), (port) => mountPane(pane, port));
    moveFocusWithF6(PAGE_PARTS);
    await session.start();
    render(<JobBar session={session} />, place('job'));
    printAsTable(place('print'), () => session.workbook?.port.shownSheet());
    takeDroppedFiles(session);
  } catch (thrown) {
    status.textContent = `The trial workbook could not start: ${thrown instanceof Error ? thrown.message : String(thrown)}`;
    throw thrown;
  } finally {
    await (globalThis as EarlyKeys).typeEarlyKeys?.();
  }
}

/** Left by early-keys.ts. */
interface EarlyKeys {
  readonly typeEarlyKeys?: () => Promise<void>;
}

/** A file dropped anywhere on the page is opened. */
function takeDroppedFiles(session: Session): void {
  document.addEventListener('dragover', (event) => event.preventDefault());
  document.addEventListener('drop', (event) => {
    const file = event.dataTransfer?.files[0];
    if (!file) return;
    event.preventDefault();
    void session.open({ file, handle: undefined });
  });
}

function place(id: string): HTMLElement {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page has no #${id}`);
  return found;
}

void start();
