/**
 * Plays the desktop host to the built page in a browser: the window's `external` object that the vendor's library asks who it
 * is in, and the native bridge of requests, events and calls of functions. The workbook behind it is in memory.
 */
import type { Page } from 'playwright-core';
import type { Book, Request } from '../host/workbook-host.ts';
import { PlayedHost, type Entry } from './played-host.ts';

interface Message {
  readonly id: number;
  readonly type: number;
  readonly message: { readonly body: Request };
}

export class DesktopHost extends PlayedHost {
  private constructor(
    private readonly page: Page,
    book: Book,
  ) {
    super(book);
  }

  /** To be called before the page is opened. */
  static async on(page: Page, book: Book): Promise<DesktopHost> {
    const host = new DesktopHost(page, book);
    await page.exposeFunction('toHost', (text: string) => host.receive(text));
    await page.addInitScript(playDesktop);
    return host;
  }

  private receive(text: string): string {
    const { id, type, message } = JSON.parse(text) as Message;
    if (type !== 1) return '';
    const body = this.answer(message.body);
    return JSON.stringify({ id, type: 2, flags: 0, message: { statusCode: 200, headers: {}, body } });
  }

  protected push(entries: readonly Entry[]): Promise<void> {
    return this.page.evaluate(
      (text) =>
        (
          globalThis as unknown as { _richApiNativeBridge: { onMessageFromHost(t: string): void } }
        )._richApiNativeBridge.onMessageFromHost(text),
      JSON.stringify({ type: 3, message: { entries } }),
    );
  }
}

/** Runs in the page, before its own scripts. */
function playDesktop(): void {
  const page = globalThis as unknown as Record<string, unknown> & { toHost(text: string): Promise<string> };
  const bridge = {
    onMessageFromHost: (_: string): void => undefined,
    sendMessageToHost: (text: string): void => {
      void page.toHost(text).then((answer) => {
        if (answer !== '') bridge.onMessageFromHost(answer);
      });
    },
  };
  page['_richApiNativeBridge'] = bridge;
  const sets = {
    ExcelApi: '1.19',
    SharedRuntime: '1.2',
    CustomFunctionsRuntime: '1.4',
    AddInCommands: '1.3',
    CustomFunctions: '1.7',
  };
  const facts: Record<string, unknown> = {
    AppType: 1,
    SolutionRef: '97e1007a-eef1-4539-b997-503154f84009',
    AppVersionMajor: 16,
    AppVersionMinor: 1,
    AppUILocale: 1033,
    AppDataLocale: 1033,
    DocUrl: 'C:\\check.xlsx',
    AppCapabilities: 1,
    ActivationMode: 0,
    ControlIntegrationLevel: 1,
    SolutionToken: 'x',
    CorrelationId: 'c',
    InstanceId: 'i',
    HostFullVersion: '16.0.19929.20090',
    SupportedMatrix: JSON.stringify(sets),
    InitialDisplayMode: 2,
    Settings: { Read: () => undefined, Write: () => undefined },
    OfficeThemeInfo: { GetColor: () => 0 },
  };
  const context = Object.fromEntries(Object.entries(facts).map(([name, value]) => [`Get${name}`, () => value]));
  const external = {
    GetHostInfo: () => '_host_Info=Excel$Win32$16.01$en-US$corr$$$1',
    GetContext: () => context,
    GetLoggingAllowed: () => false,
    Execute: () => undefined,
    RegisterEvent: (_id: unknown, _target: unknown, _handler: unknown, done: (status: number) => void) => done(0),
    UnregisterEvent: (_id: unknown, _target: unknown, done: (status: number) => void) => done(0),
  };
  Object.defineProperty(globalThis, 'external', { value: external, configurable: true });
}
