/// <reference types="office-js" />
import { mountPane } from '../pane/mount.tsx';
import { officePort } from './office-port.ts';
import { shownInPage } from './shown.ts';

/** Shows the side pane in its place in the page, once the host is there and somebody can see it. */
export function startPane(): void {
  void Office.onReady(({ host }) => {
    const element = document.getElementById('pane');
    // Outside the host, in a plain browser, the page keeps its text.
    if (!element || host !== Office.HostType.Excel) return;
    const shown = shownInPage(element);
    void shown.wait().then(() => mountPane(element, officePort(Excel.run, shown)));
  });
}
