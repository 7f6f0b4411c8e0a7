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

/** Flag of a call whose function takes error values as arguments. */
const ERRORS_ALLOWED = 4;

export interface Call {
  readonly id: string;
  /** As the host passes them: a matrix for each argument, null for one left out. */
  readonly args: readonly unknown[];
  /** Where each argument stands, as hosts send it to functions that ask; empty for a typed value. */
  readonly addresses?: readonly string[];
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

type RuntimeWindow = Window & typeof globalThis & {
  _richApiNativeBridge: Bridge;
  CustomFunctions: { readonly _association: { readonly mappings: Readonly<Record<string, unknown>> } };
};

/** A request of the runtime; the results of calls are the argument of one of its actions. */
interface Request {
  readonly id: number;
  readonly type: number;
  readonly message: { readonly body: { readonly Actions: readonly Action[] } };
}
interface Action { readonly Id: number; readonly Name: string; readonly ArgumentInfo?: { readonly Arguments: readonly [readonly Result[]] } }
type Result = readonly [call: number, good: true, value: unknown] | readonly [call: number, good: false, message: string, failure: number];

export class SpreadsheetHost {
  /** Everything the runtime warned of or complained about. */
  readonly warnings: string[] = [];
  readonly #window: RuntimeWindow;
  readonly #waiting = new Map<number, (outcome: Outcome) => void>();
  #calls = 0;

  private constructor(window: RuntimeWindow) {
    this.#window = window;
    const note = (...texts: unknown[]): void => void this.warnings.push(texts.map(String).join(' '));
    Object.assign(window.console, { warn: note, error: note });
    window._richApiNativeBridge = { sendMessageToHost: (message) => this.#receive(message) };
  }

  /** Loads the runtime and then the bundles, as a page of the add-in does. */
  static async load(...bundles: readonly string[]): Promise<SpreadsheetHost> {
    const page = '<!doctype html><script src="https://localhost:3000/custom-functions-runtime.js"></script>';
    const { window } = new JSDOM(page, { url: 'https://localhost:3000/pane.html', runScripts: 'outside-only' });
    const host = new SpreadsheetHost(window as unknown as RuntimeWindow);
    window.eval(await readFile(RUNTIME, 'utf8'));
    for (const bundle of bundles) window.eval(bundle);
    return host;
  }

  get ids(): readonly string[] {
    return Object.keys(this.#window.CustomFunctions._association.mappings);
  }

  /** Sends all calls in one message: a call alone takes half a second, many share it. */
  async run(calls: readonly Call[]): Promise<readonly Outcome[]> {
    const entries = calls.map(({ id, args, addresses }) => {
      const number = ++this.#calls;
      const outcome = new Promise<Outcome>((resolve) => this.#waiting.set(number, resolve));
      return { outcome, entry: { messageCategory: 1, messageType: 1000, targetId: '', message: [number, id, args, '', ERRORS_ALLOWED, addresses ?? null] } };
    });
    this.#send({ type: 3, message: { entries: entries.map((e) => e.entry) } });
    return Promise.all(entries.map((e) => e.outcome));
  }

  close(): void {
    this.#window.close();
  }

  #receive(text: string): void {
    const { id, type, message } = JSON.parse(text) as Request;
    if (type !== 1) return;
    const actions = message.body.Actions;
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
