/** The vendor's Excel library out of node_modules, unmodified, in a page of its own, with a workbook behind its native bridge. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { JSDOM } from 'jsdom';
import type { Run } from '../../src/addin/office-port.ts';
import { WorkbookHost, type Book, type Request } from './workbook-host.ts';

/** The library of each host: Windows, browser, macOS. */
export const LIBRARIES = {
  win32: 'excel-win32-16.01.js',
  web: 'excel-web-16.00.js',
  mac: 'excel-mac-16.00.js',
} as const;
export type LibraryName = keyof typeof LIBRARIES;

const DIST = createRequire(import.meta.url)
  .resolve('@microsoft/office-js/dist/office.js')
  .replace(/office\.js$/, '');

/** Numbers of the events that a workbook fires at each step, and what they are of, as in the library. */
const EVENTS = [
  { messageType: 2, targetId: '' },
  { messageType: 11, targetId: 'Workbook' },
  { messageType: 16, targetId: 'Workbook' },
  { messageType: 10, targetId: 'Workbook' },
];
const OF_OBJECTS = 65_536;

interface LibraryPage {
  _richApiNativeBridge: { onMessageFromHost?: (text: string) => void; sendMessageToHost: (text: string) => void };
  readonly Excel: { readonly run: Run };
  readonly OfficeExtension: {
    readonly CommonUtility: { _doApiNotSupportedCheck: boolean; isSetSupported(set: string, version: string): boolean };
  };
  eval(code: string): void;
  close(): void;
}

export class OfficeLibrary {
  /** The requirement sets that the members used so far are of, with their versions. */
  readonly asked = new Map<string, Set<string>>();
  private readonly page: LibraryPage;
  private host = new WorkbookHost({ sheets: {}, formulas: {}, active: { sheet: '', at: 'A1' } });

  constructor(name: LibraryName) {
    const { window } = new JSDOM('<!doctype html><script src="https://localhost:3000/office/office.js"></script>', {
      url: 'https://localhost:3000/pane.html',
      runScripts: 'outside-only',
    });
    this.page = window as unknown as LibraryPage;
    this.page._richApiNativeBridge = { sendMessageToHost: (text) => this.receive(text) };
    for (const file of ['office.js', LIBRARIES[name]]) this.page.eval(readFileSync(DIST + file, 'utf8'));
    // Members say which requirement set they are of, where they are told to.
    const { CommonUtility } = this.page.OfficeExtension;
    CommonUtility._doApiNotSupportedCheck = true;
    CommonUtility.isSetSupported = (set, version) => {
      this.asked.set(set, (this.asked.get(set) ?? new Set()).add(version));
      return true;
    };
  }

  /** Puts a workbook behind the library. */
  open(book: Book): WorkbookHost {
    this.host = new WorkbookHost(book);
    return this.host;
  }

  readonly run: Run = (batch) => this.page.Excel.run(batch);

  /** The selection moved, a sheet was shown, calculated and changed. */
  async fire(): Promise<void> {
    const message = JSON.stringify({
      address: 'A1',
      worksheetId: 'x',
      changeType: 'RangeEdited',
      source: 'Local',
      type: 'x',
    });
    this.send({
      type: 3,
      message: { entries: EVENTS.map((event) => ({ ...event, messageCategory: OF_OBJECTS, message })) },
    });
    await this.settled();
  }

  /** After whatever the library and the port have in hand. */
  async settled(): Promise<void> {
    for (let quiet = 0, before = -1; quiet < 3;) {
      await new Promise((resolve) => setTimeout(resolve, 10));
      quiet = this.host.requests === before ? quiet + 1 : 0;
      before = this.host.requests;
    }
  }

  close(): void {
    this.page.close();
  }

  private receive(text: string): void {
    const { id, type, message } = JSON.parse(text) as {
      readonly id: number;
      readonly type: number;
      readonly message: { readonly body: Request };
    };
    if (type !== 1) return;
    const { host } = this;
    setTimeout(
      () =>
        this.send({
          id,
          type: 2,
          flags: 0,
          message: { statusCode: 200, headers: {}, body: host.answer(message.body) },
        }),
      0,
    );
  }

  private send(message: object): void {
    this.page._richApiNativeBridge.onMessageFromHost?.(JSON.stringify(message));
  }
}
