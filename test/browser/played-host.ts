/** What the played hosts have in common: a workbook in memory, calls of functions by messages, and the answers to requests. */
import { WorkbookHost, type Book, type Request } from '../host/workbook-host.ts';

export type Outcome = { readonly value: unknown } | { readonly failure: number; readonly message: string };

/** A message that the host pushes to the add-in's page. */
export interface Entry {
  readonly messageCategory: number;
  readonly messageType: number;
  readonly targetId: string;
  readonly message: unknown;
}

/** A function being calculated. */
export interface Running {
  readonly outcome: Promise<Outcome>;
  /** Takes the call back, as the host does where its cell is edited; the library answers all the same. */
  cancel(): Promise<void>;
}

export type Call = readonly [id: string, args: readonly unknown[]];
/** As the library sends it where the host takes lists, and where it does not. */
type Result = readonly [call: number, good: boolean, value: unknown, failure?: number] | NamedResult;
interface NamedResult {
  readonly id: number;
  readonly failed?: boolean;
  readonly value: unknown;
  readonly errorCode?: number;
}

const RESULTS = /^SetInvocation(Array)?Results$/;
const OF_FUNCTIONS = 1;
const CALLED = 1000;
const CANCELLED = 1001;
/** Flags of a call: it can be cancelled, and its function takes error values. */
const FLAGS = 1 + 4;
const OF_OBJECTS = 65_536;
const SELECTED = { messageCategory: OF_OBJECTS, messageType: 16, targetId: 'Workbook' };

export abstract class PlayedHost {
  readonly workbook: WorkbookHost;
  private readonly waiting = new Map<number, (outcome: Outcome) => void>();
  private calls = 0;

  protected constructor(book: Book) {
    this.workbook = new WorkbookHost(book);
  }

  protected abstract push(entries: readonly Entry[]): Promise<void>;

  async select(sheet: string, at: string): Promise<void> {
    this.workbook.book.active = { sheet, at };
    await this.push([{ ...SELECTED, message: '{"worksheetId":"x","address":"A1"}' }]);
  }

  /** Calls functions by id, with a matrix for each argument, through the library's runtime. */
  async run(...list: readonly Call[]): Promise<readonly Outcome[]> {
    return Promise.all((await this.begin(...list)).map((running) => running.outcome));
  }

  /** The same, where something is to be done before they are ready. */
  async begin(...list: readonly Call[]): Promise<readonly Running[]> {
    const calls = list.map(([id, args]) => {
      const number = ++this.calls;
      return {
        entry: entry(CALLED, [number, id, args, 'Pins!Z1', FLAGS, null]),
        running: {
          outcome: new Promise<Outcome>((resolve) => this.waiting.set(number, resolve)),
          cancel: () => this.push([entry(CANCELLED, { invocationId: number })]),
        },
      };
    });
    await this.push(calls.map((c) => c.entry));
    return calls.map((c) => c.running);
  }

  /** The body of the answer to a request of the library. */
  protected answer(request: Request): object {
    const { Actions } = request;
    const results = Actions.filter((action) => RESULTS.test(action.Name));
    for (const action of results)
      for (const result of (action.ArgumentInfo?.Arguments?.[0] ?? []) as readonly Result[]) {
        const [call, good, value, failure = 0] =
          'id' in result ? [result.id, !result.failed, result.value, result.errorCode] : result;
        this.waiting.get(call)?.(good ? { value } : { message: String(value), failure });
        this.waiting.delete(call);
      }
    return results.length > 0
      ? { Results: Actions.map((action) => ({ ActionId: action.Id, Value: null })) }
      : this.workbook.answer(request);
  }
}

const entry = (messageType: number, message: unknown): Entry => ({
  messageCategory: OF_FUNCTIONS,
  messageType,
  targetId: '',
  message,
});
