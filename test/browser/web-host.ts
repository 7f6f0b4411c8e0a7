/**
 * Plays the host on the web to the built page in a browser: a page of another origin that holds the add-in in a frame that is
 * locked up as the host does it, and talks to the vendor's library in it by messages between windows.
 *
 * The library speaks with addresses of its maker's own services alone, so the host's page has one of these; it is answered
 * here and nothing leaves the machine.
 */
import type { Frame, Page } from 'playwright-core';
import type { Book, Request } from '../host/workbook-host.ts';
import { typeOf } from './page.ts';
import { PlayedHost, type Entry } from './played-host.ts';

const HOST = 'https://excel.officeapps.live.com';
/** Where the add-in is served from: a frame of a secure page must be secure too. */
const ADDIN = 'https://localhost:3000';
/** What is answered here. */
export const PLAYED = [HOST, ADDIN];
const CONVERSATION = 'conversation';
/** Longest that the frame takes to load [ms]. */
const PATIENCE = 20_000;
/** The page is of a shared runtime, and has custom functions. */
const FLAGS = 1 + 2;

interface Facts {
  readonly address: string;
  /** How the library finds its host: a text that the frame is named by. */
  readonly name: string;
  readonly context: object;
  readonly conversation: string;
}

export class WebHost extends PlayedHost {
  private constructor(
    private readonly page: Page,
    book: Book,
  ) {
    super(book);
  }

  /** To be called before it is shown; the add-in is served out of these files. */
  static async on(page: Page, files: Readonly<Record<string, string | Buffer>>, book: Book): Promise<WebHost> {
    const host = new WebHost(page, book);
    await page.exposeFunction('toHost', (text: string) => host.receive(text));
    await page.route(`${HOST}/**`, (route) =>
      route.fulfill({ contentType: 'text/html', body: '<!doctype html><title>host</title>' }),
    );
    await page.route(`${ADDIN}/**`, (route) => {
      const body = files[new URL(route.request().url()).pathname.slice(1)];
      return body === undefined
        ? route.fulfill({ status: 404 })
        : route.fulfill({ body, contentType: typeOf(route.request().url()) });
    });
    return host;
  }

  /** Opens the host's page with the add-in in a frame of it; gives the frame, once its page is there. */
  async show(): Promise<Frame> {
    await this.page.goto(`${HOST}/host.html`);
    await this.page.evaluate(playWeb, factsOf(`${ADDIN}/pane.html`));
    const isThere = (frame: Frame): boolean => frame.url().startsWith(ADDIN);
    return (
      this.page.frames().find(isThere) ??
      (await this.page.waitForEvent('framenavigated', { predicate: isThere, timeout: PATIENCE }))
    );
  }

  /** A call of one of the library's methods; the body of a request stands in it as a text among others. */
  private receive(text: string): string {
    const given = JSON.parse(text) as Readonly<Record<string, unknown>>;
    const list = Object.values(given).find((each) => Array.isArray(each)) as readonly unknown[] | undefined;
    const body = list?.find((each): each is string => typeof each === 'string' && each.includes('"Actions"'));
    const answer = body === undefined ? {} : this.answer(JSON.parse(body) as Request);
    return JSON.stringify({ Version: 1, Error: 0, Data: [200, [], JSON.stringify(answer)] });
  }

  protected push(entries: readonly Entry[]): Promise<void> {
    const rows = entries.map(({ messageCategory, messageType, targetId, message }) => [
      messageCategory,
      messageType,
      targetId,
      typeof message === 'string' ? message : JSON.stringify(message),
      null,
      false,
    ]);
    return this.page.evaluate(
      (data) =>
        (globalThis as unknown as { toAddin(event: string, data: object): void }).toAddin('richApiMessage', data),
      { ArrayData: rows, Data: rows },
    );
  }
}

function factsOf(address: string): Facts {
  const sets = { ExcelApi: '1.19', SharedRuntime: '1.2', CustomFunctionsRuntime: '1.4', CustomFunctions: '1.7' };
  return {
    address,
    conversation: CONVERSATION,
    name: JSON.stringify({
      baseFrameName: 'add-in',
      hostInfo: `Excel|Web|16.00|en-US|corr|telemetry|isDialog=|${FLAGS}`,
      xdmInfo: `${CONVERSATION}|app|${HOST}/`,
      flags: '{}',
    }),
    context: {
      _id: 'app',
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
      _requirementMatrix: JSON.stringify(sets),
      _initialDisplayMode: 2,
      _hostFullVersion: '16.0.20306.1',
    },
  };
}

/** Runs in the host's page. */
function playWeb({ address, name, context, conversation }: Facts): void {
  const here = globalThis as unknown as Window & { toHost(text: string): Promise<string>; toAddin: typeof send };
  const frame = document.createElement('iframe');
  frame.style.cssText = 'width: 360px; height: 750px';
  frame.setAttribute(
    'sandbox',
    'allow-scripts allow-same-origin allow-forms allow-popups allow-modals allow-downloads',
  );
  frame.name = name;
  const ANSWER = 0;
  const EVENT = 1;
  function post(asked: object, kind: number, data: unknown): void {
    const message = { _messageType: 1, _origin: location.origin, _errorCode: 0, _serializerVersion: 1 };
    frame.contentWindow?.postMessage(
      JSON.stringify({ ...message, ...asked, _conversationId: conversation, _responseType: kind, _data: data }),
      '*',
    );
  }
  function send(event: string, data: object): void {
    post({ _actionName: event, _correlationId: -1 }, EVENT, data);
  }
  here.toAddin = send;
  async function answer(action: string, data: unknown): Promise<unknown> {
    if (action === 'ContextActivationManager_getAppContextAsync') return context;
    if (action === 'executeMethod') return JSON.parse(await here.toHost(JSON.stringify(data))) as unknown;
    return { Error: 0 };
  }
  addEventListener('message', ({ source, data }) => {
    if (source !== frame.contentWindow || typeof data !== 'string' || !data.startsWith('{')) return;
    const { _messageType, _actionName, _correlationId, _data } = JSON.parse(data) as {
      readonly _messageType: number;
      readonly _actionName: string;
      readonly _correlationId: number;
      readonly _data: unknown;
    };
    if (_messageType !== 0) return;
    void answer(_actionName, _data).then((given) => post({ _actionName, _correlationId }, ANSWER, given));
  });
  frame.src = address;
  document.body.append(frame);
}
