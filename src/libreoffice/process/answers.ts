import { isCellError } from '../../catalogue/cell.ts';
import type { Argument, Cell, HostFunction } from '../../sheet/host-function.ts';
import { toCellError } from '../../sheet/call.ts';
import type { SelectedCell } from '../../pane/port.ts';
import { inPaneWriting } from './formula-text.ts';
import { packedRows } from './packed-rows.ts';
import { PaneServer } from './pane-server.ts';
import { why, whyWritten } from './why.ts';

/** What the program asks on the pipe. */
type Question =
  | { readonly call: string; readonly arguments: readonly (Argument | null)[] }
  /** Why a cell failed, or a formula that is written out and stands nowhere. */
  | { readonly why: SelectedCell; readonly written?: true }
  | { readonly pane: true }
  /** Its answers to what was asked of it while it waits for a reason. */
  | { readonly cells: readonly (readonly Cell[])[] }
  | { readonly problem: string };

interface Waiting {
  readonly question: readonly string[];
  readonly resolve: (cells: readonly (readonly Cell[])[]) => void;
  readonly reject: (reason: Error) => void;
}

/** A result of more cells goes packed. */
const MOST_AS_TEXT = 1000;

/** Answers the program's questions, each in its turn; calls never wait for anything. */
export class Answers {
  private readonly functions: ReadonlyMap<string, HostFunction>;
  /** Cells asked of the program, one at a time: the first is the one it is reading. */
  private readonly waiting: Waiting[] = [];
  private server: Promise<PaneServer> | undefined;

  /** `folder` is where the files of the pane lie. */
  constructor(
    functions: readonly HostFunction[],
    private readonly folder: string,
    private readonly say: (line: string, bytes?: Uint8Array) => void,
  ) {
    this.functions = new Map(functions.map((f) => [f.name, f]));
  }

  take(line: string): void {
    const question = JSON.parse(line) as Question;
    if ('call' in question) this.tellRows(this.rows(question.call, question.arguments));
    else if ('cells' in question) this.heard((asked) => asked.resolve(question.cells));
    else if ('problem' in question) this.heard((asked) => asked.reject(new Error(question.problem)));
    else if ('why' in question) void this.reason(question.why, question.written ? whyWritten : why);
    else void this.pane();
  }

  private rows(name: string, args: readonly (Argument | null)[]): readonly (readonly Cell[])[] {
    const f = this.functions.get(name);
    if (!f) return [[{ error: '#NAME?', message: '' }]];
    return f.call(args.map((a) => a ?? undefined));
  }

  private async reason(cell: SelectedCell, of: typeof why): Promise<void> {
    const text = await of(inPaneWriting(cell), { read: (...question) => this.read(question) }).catch(
      (thrown: unknown) => toCellError(thrown).message,
    );
    this.tell({ text });
  }

  private read(question: readonly string[]): Promise<readonly (readonly Cell[])[]> {
    return new Promise((resolve, reject) => {
      this.waiting.push({ question, resolve, reject });
      if (this.waiting.length === 1) this.tell({ read: question });
    });
  }

  private heard(tell: (asked: Waiting) => void): void {
    const asked = this.waiting.shift();
    const [next] = this.waiting;
    if (next) this.tell({ read: next.question });
    if (asked) tell(asked);
  }

  private async pane(): Promise<void> {
    this.server ??= PaneServer.start(this.folder);
    const { page, program } = await this.server;
    this.tell({ page, program });
  }

  private tellRows(rows: readonly (readonly Cell[])[]): void {
    if (rows.length * (rows[0]?.length ?? 0) <= MOST_AS_TEXT) {
      this.tell(toldRows(rows));
      return;
    }
    const { head, bytes } = packedRows(rows);
    this.say(JSON.stringify(head), bytes);
  }

  private tell(answer: object): void {
    this.say(JSON.stringify(answer));
  }
}

/** A result so that the program has little left to do: a blank is an empty text, errors are listed with their places. */
function toldRows(rows: readonly (readonly Cell[])[]): object {
  const errors: (readonly [row: number, column: number, error: string])[] = [];
  const told = rows.map((row, r) =>
    row.map((cell, c) => {
      if (cell === null) return '';
      if (!isCellError(cell)) return cell;
      errors.push([r, c, cell.error]);
      return '';
    }),
  );
  return { rows: told, errors };
}
