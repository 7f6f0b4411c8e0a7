/// <reference types="office-js" />
import type { Calculator } from './calculator.ts';
import type { Run } from './office-port.ts';
import { shownInPage, type Shown } from './shown.ts';
import { PAGE_TURNS } from './turns.ts';

const MISSING =
  'The pane could not be fetched; the functions in the cells work without it. Where the add-in was renewed since the ' +
  'spreadsheet was started, close all workbooks and start it again.';

/**
 * Shows the side pane in its place in the page, once the host is there and somebody can see it. Its script and its looks are
 * fetched only then: most pages of the host are there for the functions alone.
 */
export function startPane(calculate: Calculator): void {
  void Office.onReady(({ host }) => {
    const element = document.getElementById('pane');
    // Outside the host, in a plain browser, the page keeps its text.
    if (!element || host !== Office.HostType.Excel) return;
    const shown = shownInPage(element);
    void shown.wait().then(() => fetchPane(element, shown, calculate));
  });
}

/** What the pane asks of the host it is about to show, so calculations wait meanwhile. */
const runFirst: Run = async (batch) => {
  PAGE_TURNS.giveWay();
  const done = await Excel.run(batch);
  PAGE_TURNS.giveWay();
  return done;
};

async function fetchPane(element: HTMLElement, shown: Shown, calculate: Calculator): Promise<void> {
  const [script] = await Promise.all([
    import(/* webpackChunkName: 'pane' */ './pane-script.ts').catch(() => undefined),
    fetchStyle(),
  ]);
  if (script) {
    script.mountPane(element, { ...script.officePort(runFirst, shown), calculateCall: calculate });
    return;
  }
  const words = document.createElement('p');
  words.setAttribute('role', 'alert');
  words.textContent = MISSING;
  const again = document.createElement('button');
  again.textContent = 'Try again';
  again.onclick = () => void fetchPane(element, shown, calculate);
  element.replaceChildren(words, again);
}

/** The looks of the pane: it is not shown before they are there, and all the same where they cannot be had. */
function fetchStyle(): Promise<void> {
  return new Promise((done) => {
    const link = document.createElement('link');
    link.rel = 'stylesheet';
    link.href = 'pane.css';
    link.onload = link.onerror = (): void => done();
    document.head.append(link);
  });
}
