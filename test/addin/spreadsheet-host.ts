/**
 * Plays the spreadsheet host to the vendor's own custom-functions runtime, loaded unmodified from node_modules.
 *
 * The runtime wants a script element whose address ends in its file name, and a native bridge made before it
 * loads. Calls go in as bridge messages; results come back as requests that want an answer.
 */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { JSDOM } from 'jsdom';

const RUNTIME = createRequire(import.meta.url).resolve('@microsoft/office-js/dist/custom-functions-runtime.js');

/** Flags of a call: it can be cancelled, its function takes error values, its function takes rich values. */
const CANCELABLE = 1;
const ERRORS_ALLOWED = 4;
const RICH_VALUES = 8;
const CALLED = 1000;
const CANCELLED = 1001;

export interface Call {
  readonly id: string;
  /** As the host passes them: a matrix for each argument, null for one left out. */
  readonly args: readonly unknown[];
  /** Where each argument stands, as hosts send it to functions that ask; empty for a typed value. */
  readonly addresses?: readonly string[];
  /** Rich values come as the host packs them for functions that ask: an object whose `value` is a text. */
  readonly rich?: boolean;
  /** Taken back by the host as soon as it is sent, as when its cell is edited; the runtime answers all the same. */
  readonly cancelled?: boolean;
}

/** What a function of ours gave the runtime, before the runtime did anything to it. */
export interface Handed {
  readonly id: string;
  readonly how: 'returned' | 'thrown';
  readonly value: unknown;
}

/** What the host is told of a call: the value, or the error's internal number and message. */
export type Outcome = { readonly value: unknown } | { readonly failure: number; readonly message: string };

/** Numbers by which the runtime reports a thrown error. */
export const NOT_AVAILABLE = 1;
export const INVALID_VALUE = 7;

export const errorArgument = (code: string): unknown => ({ type: 'CustomFunctionError', code });

interface Bridge {
  onMessageFromHost?: (message: string) => void;
  sendMessageToHost: (message: string) => void;
}

type RuntimeWindow = Window &
  typeof globalThis & {
    _richApiNativeBridge: Bridge;
    CustomFunctions: {
      readonly _association: { readonly mappings: Readonly<Record<string, Associated>> };
      readonly Error: new (code?: string, message?: string) => Error;
      associate: (functions: Readonly<Record<string, Associated>>) => void;
    };
  };
type Associated = (...args: unknown[]) => unknown;

/** A request of the runtime; the results of calls are the argument of one of its actions. */
interface Request {
  readonly id: number;
  readonly type: number;
  readonly message: { readonly body: { readonly Actions: readonly Action[] } };
}
interface Action {
  readonly Id: number;
  readonly Name: string;
  readonly ArgumentInfo?: { readonly Arguments: readonly [readonly Result[]] };
}
type Result =
  | readonly [call: number, good: true, value: unknown]
  | readonly [call: number, good: false, message: string, failure: number];

/** The runtime waits some 20 seconds for a script of its own from the network, which is not here, and then complains; a slow machine gets to see it. */
const NO_NETWORK = 'MicrosoftAjax.js is not loaded successfully.';

export class SpreadsheetHost {
  /** Everything the runtime warned of or complained about. */
  readonly warnings: string[] = [];
  /** What our functions handed the runtime, in the order of the calls. */
  readonly handed: Handed[] = [];
  /** Bytes of the largest request with results; a real host refuses more than 5 MB. */
  largest = 0;
  readonly #window: RuntimeWindow;
  readonly #waiting = new Map<number, (outcome: Outcome) => void>();
  #calls = 0;

  private constructor(window: RuntimeWindow) {
    this.#window = window;
    const note = (...texts: unknown[]): void => {
      const text = texts.map(String).join(' ');
      if (!text.includes(NO_NETWORK)) this.warnings.push(text);
    };
    Object.assign(window.console, { warn: note, error: note });
    window.addEventListener('error', (event) => note(event.message));
    window._richApiNativeBridge = { sendMessageToHost: (message) => this.#receive(message) };
  }

  /** Loads the runtime and then the scripts, as a page of the add-in does. */
  static async load(...scripts: readonly string[]): Promise<SpreadsheetHost> {
    const page = '<!doctype html><script src="https://localhost:3000/custom-functions-runtime.js"></script>';
    const { window } = new JSDOM(page, { url: 'https://localhost:3000/pane.html', runScripts: 'outside-only' });
    const host = new SpreadsheetHost(window as unknown as RuntimeWindow);
    window.eval(await readFile(RUNTIME, 'utf8'));
    host.#listen();
    for (const script of scripts) window.eval(script);
    return host;
  }

  get ids(): readonly string[] {
    return Object.keys(this.#window.CustomFunctions._association.mappings);
  }

  /** A function of ours as it stands in the page, for arguments that no message can carry. */
  direct(id: string, ...args: readonly unknown[]): unknown {
    return this.#window.CustomFunctions._association.mappings[id]?.(...args);
  }

  /** What a script of the page left in it. */
  global(name: string): unknown {
    return (this.#window as unknown as Readonly<Record<string, unknown>>)[name];
  }

  /** Whether a value is an error of the runtime's own kind, the only one that keeps its code and text. */
  isError(value: unknown): value is Error & { readonly code: string } {
    return value instanceof this.#window.CustomFunctions.Error;
  }

  /** Sends all calls in one message: a call alone takes half a second, many share it. */
  async run(calls: readonly Call[]): Promise<readonly Outcome[]> {
    const entries = calls.map(({ id, args, addresses, rich, cancelled }) => {
      const number = ++this.#calls;
      const outcome = new Promise<Outcome>((resolve) => this.#waiting.set(number, resolve));
      const flags = ERRORS_ALLOWED + (rich ? RICH_VALUES : 0) + (cancelled ? CANCELABLE : 0);
      const entry = {
        messageCategory: 1,
        messageType: CALLED,
        targetId: '',
        message: [number, id, args, cancelled ? 'Sheet1!D5' : '', flags, addresses ?? null],
      };
      return {
        outcome,
        entries: cancelled
          ? [entry, { messageCategory: 1, messageType: CANCELLED, targetId: '', message: { invocationId: number } }]
          : [entry],
      };
    });
    this.#send({ type: 3, message: { entries: entries.flatMap((e) => e.entries) } });
    return Promise.all(entries.map((e) => e.outcome));
  }

  close(): void {
    this.#window.close();
  }

  /** Notes what each function hands over, from the moment it is associated. */
  #listen(): void {
    const { CustomFunctions } = this.#window;
    const { associate } = CustomFunctions;
    const noted =
      (id: string, call: Associated): Associated =>
      (...args) => {
        const note = (how: Handed['how'], value: unknown): Handed => {
          const entry = { id, how, value };
          this.handed.push(entry);
          return entry;
        };
        let result;
        try {
          result = call(...args);
        } catch (thrown) {
          note('thrown', thrown);
          throw thrown;
        }
        const entry = note('returned', result);
        // What is promised is handed over when it comes.
        if (isPromised(result))
          void result.then(
            (value) => void Object.assign(entry, { value }),
            (thrown: unknown) => void Object.assign(entry, { how: 'thrown', value: thrown }),
          );
        return result;
      };
    Object.assign(CustomFunctions, {
      associate: (functions: Readonly<Record<string, Associated>>) =>
        associate(
          Object.fromEntries(
            Object.entries(functions).map(([id, call]): [string, Associated] => [id, noted(id, call)]),
          ),
        ),
    });
  }

  #receive(text: string): void {
    const { id, type, message } = JSON.parse(text) as Request;
    if (type !== 1) return;
    const actions = message.body.Actions;
    this.largest = Math.max(this.largest, Buffer.byteLength(JSON.stringify(message.body)));
    for (const action of actions) {
      if (action.Name !== 'SetInvocationResults' && action.Name !== 'SetInvocationArrayResults') continue;
      for (const result of action.ArgumentInfo?.Arguments[0] ?? []) {
        this.#waiting.get(result[0])?.(result[1] ? { value: result[2] } : { message: result[2], failure: result[3] });
        this.#waiting.delete(result[0]);
      }
    }
    const body = { Results: actions.map((action) => ({ ActionId: action.Id, Value: null })) };
    this.#send({ id, type: 2, flags: 0, message: { statusCode: 200, headers: {}, body } });
  }

  #send(message: unknown): void {
    this.#window._richApiNativeBridge.onMessageFromHost?.(JSON.stringify(message));
  }
}

/** A promise of the page's own, which is none of ours. */
function isPromised(value: unknown): value is PromiseLike<unknown> {
  return typeof value === 'object' && value !== null && 'then' in value && typeof value.then === 'function';
}
