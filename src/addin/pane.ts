/// <reference types="office-js" />
/** Entry of dist/pane.js: the side pane inside the spreadsheet host. The functions are associated by functions.js alone. */
import { mountPane } from '../pane/mount.tsx';
import { officePort } from './office-port.ts';

void Office.onReady(({ host }) => {
  const element = document.getElementById('pane');
  // Outside the host, in a plain browser, the page keeps its text.
  if (element && host === Office.HostType.Excel) mountPane(element, officePort(Excel.run));
});
