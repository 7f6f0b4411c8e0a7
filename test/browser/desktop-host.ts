/**
 * Plays the desktop host to the built page in a browser: the window's `external` object that the vendor's library asks who it
 * is in, and the native bridge of requests, events and calls of functions. The workbook behind it is in memory.
 */
import type { Page } from 'playwright-core';
import { WorkbookHost, type Book, type Request } from '../host/workbook-host.ts';

export type Outcome = { readonly value: unknown } | { readonly failure: number; readonly message: string };

interface Message {
  readonly id: number;
  readonly type: number;
  readonly message: { readonly body: Request };
}
type Result = readonly [call: number, good: boolean, value: unknown, failure?: number];

const RESULTS = /^SetInvocation(Array)?Results$/;
const OF_OBJECTS = 65_536;
const SELECTED = { messageType: 16, targetId: 'Workbook' };

export class DesktopHost {
  readonly workbook: WorkbookHost;
  private readonly waiting = new Map<number, (outcome: Outcome) => void>();
  private calls = 0;

  private constructor(
    private readonly page: Page,
    book: Book,
  ) {
    this.workbook = new WorkbookHost(book);
  }

  /** To be called before the page is opened. */
  static async on(page: Page, book: Book): Promise<DesktopHost> {
    const host = new DesktopHost(page, book);
    await page.exposeFunction('toHost', (text: string) => host.receive(text));
    await page.addInitScript(playDesktop);
    return host;
  }

  async select(sheet: string, at: string): Promise<void> {
    this.workbook.book.active = { sheet, at };
    await this.send({
      type: 3,
      message: {
        entries: [{ ...SELECTED, messageCategory: OF_OBJECTS, message: '{"worksheetId":"x","address":"A1"}' }],
      },
    });
  }

  /** Calls functions by id, with a matrix for each argument, through the library's runtime. */
  async run(...list: readonly (readonly [id: string, args: readonly unknown[]])[]): Promise<readonly Outcome[]> {
    const calls = list.map(([id, args]) => {
      const number = ++this.calls;
      return {
        entry: { messageCategory: 1, messageType: 1000, targetId: '', message: [number, id, args, 'Pins!Z1', 4, null] },
        outcome: new Promise<Outcome>((resolve) => this.waiting.set(number, resolve)),
      };
    });
    await this.send({ type: 3, message: { entries: calls.map((c) => c.entry) } });
    return Promise.all(calls.map((c) => c.outcome));
  }

  private receive(text: string): string {
    const { id, type, message } = JSON.parse(text) as Message;
    if (type !== 1) return '';
    const { Actions } = message.body;
    const results = Actions.filter((action) => RESULTS.test(action.Name));
    for (const action of results)
      for (const [call, good, value, failure = 0] of (action.ArgumentInfo?.Arguments?.[0] ?? []) as readonly Result[]) {
        this.waiting.get(call)?.(good ? { value } : { message: String(value), failure });
        this.waiting.delete(call);
      }
    const body =
      results.length > 0
        ? { Results: Actions.map((action) => ({ ActionId: action.Id, Value: null })) }
        : this.workbook.answer(message.body);
    return JSON.stringify({ id, type: 2, flags: 0, message: { statusCode: 200, headers: {}, body } });
  }

  private send(message: object): Promise<void> {
    return this.page.evaluate(
      (text) =>
        (
          globalThis as unknown as { _richApiNativeBridge: { onMessageFromHost(t: string): void } }
        )._richApiNativeBridge.onMessageFromHost(text),
      JSON.stringify(message),
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
