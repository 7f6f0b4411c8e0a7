/**
 * Plays the host on the web to the built page in a browser: a page of another address that holds the add-in in a sandboxed
 * frame and answers the messages that the vendor's library posts. The workbook behind it is in memory.
 */
import { chromium, type Browser, type Frame, type Page } from 'playwright-core';
import { WorkbookHost, type Book, type Request } from '../host/workbook-host.ts';

const HOST = 'https://excel.example.test';
const ADD_IN = 'https://localhost:3000';
const TYPES: Readonly<Record<string, string>> = {
  html: 'text/html',
  js: 'text/javascript',
  css: 'text/css',
  json: 'application/json',
  png: 'image/png',
};
const AT_HOME = '--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE localhost';
const SELECTED = [65_536, 16, 'Workbook', '{"worksheetId":"x","address":"A1"}', null, false];

export class WebHost {
  readonly workbook: WorkbookHost;
  /** What the pages complained of, and the addresses outside that they asked for. */
  readonly complaints: string[] = [];
  readonly outside: string[] = [];

  private constructor(
    private readonly browser: Browser,
    readonly page: Page,
    book: Book,
  ) {
    this.workbook = new WorkbookHost(book);
  }

  static async open(files: Readonly<Record<string, string | Buffer>>, book: Book, hidden = false): Promise<WebHost> {
    const browser = await chromium.launch({
      executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
      args: ['--no-sandbox', '--disable-gpu', AT_HOME],
    });
    const page = await browser.newPage({ viewport: { width: 420, height: 900 } });
    const host = new WebHost(browser, page, book);
    page.on('console', (m) => {
      if (['error', 'warning'].includes(m.type())) host.complaints.push(m.text());
    });
    page.on('pageerror', (e) => host.complaints.push(e.message));
    page.context().on('request', (request) => {
      const address = request.url();
      if (![HOST, ADD_IN, 'about:', 'data:', 'blob:'].some((own) => address.startsWith(own)))
        host.outside.push(address);
    });
    await page.exposeFunction('toHost', (text: string) => host.receive(text));
    await page.route(`${ADD_IN}/**`, (route) => {
      const name = new URL(route.request().url()).pathname.slice(1);
      const body = files[name];
      if (body === undefined) return route.fulfill({ status: 404 });
      return route.fulfill({ contentType: TYPES[name.split('.').pop() ?? ''] ?? 'text/plain', body });
    });
    await page.route(`${HOST}/**`, (route) => route.fulfill({ contentType: 'text/html', body: hostPage(hidden) }));
    await page.goto(`${HOST}/`);
    return host;
  }

  frame(): Frame {
    return this.page.frames().find((f) => f.url().startsWith(ADD_IN)) ?? this.page.mainFrame();
  }

  async select(sheet: string, at: string): Promise<void> {
    this.workbook.book.active = { sheet, at };
    await this.page.evaluate((entry) => (globalThis as unknown as { fire(e: unknown): void }).fire(entry), SELECTED);
  }

  async show(): Promise<void> {
    await this.page.evaluate(() => document.querySelector('iframe')?.removeAttribute('hidden'));
  }

  async close(): Promise<void> {
    await this.browser.close();
    if (this.outside.length > 0) throw new Error(`the page asked for ${this.outside.join(', ')}`);
  }

  /** A request of the library, packed among other things; its answer. */
  private receive(text: string): string {
    const packed = Object.values(JSON.parse(text) as Readonly<Record<string, unknown>>).find((v) => Array.isArray(v));
    const request = ((packed ?? []) as readonly unknown[]).find(
      (v) => typeof v === 'string' && v.includes('"Actions"'),
    );
    if (typeof request !== 'string') return 'null';
    const answer = this.workbook.answer(JSON.parse(request) as Request);
    return JSON.stringify({ Version: 1, Error: 0, Data: [200, [], JSON.stringify(answer)] });
  }
}

function hostPage(hidden: boolean): string {
  const frame = {
    baseFrameName: 'b',
    hostInfo: 'Excel|Web|16.00|en-US|corr|telemetry|isDialog=|1',
    xdmInfo: `conv-1|app-1|${HOST}/`,
    flags: '{}',
  };
  const context = {
    _id: 'app-1',
    _appName: 16,
    _appVersion: 16,
    _appMinorVersion: 0,
    _appUILocale: 'en-US',
    _dataLocale: 'en-US',
    _docUrl: 'https://example.test/check.xlsx',
    _clientMode: 1,
    _settings: [],
    _reason: 0,
    _osfControlType: 1,
    _eToken: 'x',
    _correlationId: 'c',
    _appInstanceId: 'i',
    _requirementMatrix: JSON.stringify({
      ExcelApi: '1.19',
      SharedRuntime: '1.2',
      CustomFunctionsRuntime: '1.4',
      CustomFunctions: '1.7',
    }),
    _initialDisplayMode: 2,
    _hostFullVersion: '16.0.20306.1',
  };
  return `<!doctype html><title>host</title><body><script>
const frame = document.createElement('iframe');
frame.hidden = ${hidden};
frame.width = 360;
frame.height = 850;
frame.setAttribute('sandbox', 'allow-scripts allow-same-origin allow-forms allow-popups allow-modals allow-downloads');
frame.name = ${JSON.stringify(JSON.stringify(frame))};
const send = (message) => frame.contentWindow.postMessage(JSON.stringify({ _messageType: 1, _conversationId: 'conv-1', _origin: location.origin, _errorCode: 0, _serializerVersion: 1, ...message }), '*');
globalThis.fire = (entry) => send({ _actionName: 'richApiMessage', _correlationId: -1, _responseType: 1, _data: { ArrayData: [entry], Data: [entry] } });
addEventListener('message', async ({ source, data }) => {
  if (source !== frame.contentWindow) return;
  let message;
  try { message = JSON.parse(data); } catch { return; }
  if (message._messageType !== 0) return;
  const reply = (_data) => send({ _actionName: message._actionName, _correlationId: message._correlationId, _responseType: 0, _data });
  if (message._actionName === 'ContextActivationManager_getAppContextAsync') reply(${JSON.stringify(context)});
  else if (message._actionName === 'executeMethod') reply(JSON.parse(await toHost(JSON.stringify(message._data))));
  else reply({ Error: 0 });
});
frame.src = '${ADD_IN}/pane.html';
document.body.append(frame);
</script>`;
}
