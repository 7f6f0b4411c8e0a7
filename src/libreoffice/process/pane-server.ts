/**
 * Serves the pane to the browser, on this computer's own address only. Every address holds a token that nobody can
 * guess: one for the page, another for the program, so that a page can never speak for the program. The Host header must
 * be this very address, so that no name of somebody else's that leads here is served, and a request with an Origin must
 * come from the page itself.
 *
 *   page       GET  /TOKEN/, its script and style; /TOKEN/selection, a stream of the cell that is selected
 *              POST /TOKEN/read, put, add, format, formulas, write
 *   program    POST /TOKEN/selected, what is selected; gives what the status bar shall say
 *              POST /TOKEN/asked, with the last answer; gives the next thing to do, or null after a while
 */
import { randomBytes, timingSafeEqual } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import path from 'node:path';
import type { Cell } from '../../catalogue/cell.ts';
import { isKnown, readSelectedCell, type ReadCell } from '../../pane/explain-cell.ts';
import type { SelectedCell, WrittenCell } from '../../pane/port.ts';
import type { FormulaCell } from '../../pane/unknown-name.ts';
import { forPane, forProgram, inPaneWriting } from './formula-text.ts';
import { reasonIn } from './why.ts';

const HOST = '127.0.0.1';
/** Longest that a question from the program is left open [ms]. */
const PATIENCE = 20_000;
const MOST_BYTES = 64_000_000;

const FILES: Readonly<Record<string, readonly [file: string, type: string]>> = {
  '': ['pane.html', 'text/html; charset=utf-8'],
  'pane.js': ['pane.js', 'text/javascript; charset=utf-8'],
  'pane.css': ['pane.css', 'text/css; charset=utf-8'],
  'icon.png': ['icon.png', 'image/png'],
};

const HEADERS = {
  'Cache-Control': 'no-store',
  'Content-Security-Policy':
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  // The address holds the token.
  'Referrer-Policy': 'no-referrer',
  'X-Content-Type-Options': 'nosniff',
};

interface Doing {
  readonly id: number;
  readonly do: string;
  readonly with: readonly unknown[];
}

interface Done {
  readonly id: number;
  readonly result?: unknown;
  readonly problem?: string;
}

interface Waiting {
  readonly resolve: (result: unknown) => void;
  readonly reject: (reason: Error) => void;
}

class Refused extends Error {
  constructor(readonly status: number) {
    super(`refused with ${status}`);
  }
}

export class PaneServer {
  private readonly server = createServer((request, response) => void this.answer(request, response));
  private readonly pageToken = randomBytes(24).toString('base64url');
  private readonly programToken = randomBytes(24).toString('base64url');
  private selected: SelectedCell | null = null;
  private lastRead: ReadCell | undefined;
  private readonly pages = new Set<ServerResponse>();
  private readonly todo: Doing[] = [];
  private readonly waiting = new Map<number, Waiting>();
  private asking: (() => void) | undefined;
  private asked = 0;
  private turn = 0;

  private constructor(private readonly folder: string) {}

  static async start(folder: string): Promise<PaneServer> {
    const made = new PaneServer(folder);
    await new Promise<void>((resolve, reject) => {
      made.server.once('error', reject);
      made.server.listen(0, HOST, resolve);
    });
    return made;
  }

  get page(): string {
    return `http://${this.host}/${this.pageToken}/`;
  }

  get program(): string {
    return `http://${this.host}/${this.programToken}/`;
  }

  close(): void {
    this.server.close();
    this.server.closeAllConnections();
  }

  private get host(): string {
    return `${HOST}:${(this.server.address() as AddressInfo).port}`;
  }

  private async answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    for (const [name, value] of Object.entries(HEADERS)) response.setHeader(name, value);
    try {
      const { host, origin } = request.headers;
      if (host !== this.host || (origin !== undefined && origin !== `http://${this.host}`)) throw new Refused(403);
      const [, token = '', ...rest] = (request.url ?? '').split('/');
      const what = rest.join('/');
      if (same(token, this.programToken) && request.method === 'POST')
        json(response, await this.forProgram(what, await body(request)));
      else if (!same(token, this.pageToken)) throw new Refused(404);
      else if (request.method === 'POST') json(response, await this.forPage(what, await body(request)));
      else if (request.method !== 'GET') throw new Refused(405);
      else if (what === 'selection') this.stream(response);
      else this.file(what, response);
    } catch (thrown) {
      response.statusCode = thrown instanceof Refused ? thrown.status : 500;
      response.end();
    }
  }

  private file(what: string, response: ServerResponse): void {
    const [file, type] = (Object.hasOwn(FILES, what) ? FILES[what] : undefined) ?? [];
    if (file === undefined || type === undefined) throw new Refused(404);
    response.setHeader('Content-Type', type);
    response.end(readFileSync(path.join(this.folder, file)));
  }

  private stream(response: ServerResponse): void {
    response.setHeader('Content-Type', 'text/event-stream');
    response.write(eventOf(this.selected));
    this.pages.add(response);
    response.on('close', () => this.pages.delete(response));
  }

  private async forPage(what: string, asked: unknown): Promise<unknown> {
    switch (what) {
      case 'read': {
        const { reference, sheet } = asked as { readonly reference: string; readonly sheet: string };
        return this.outcome(this.read(reference, sheet));
      }
      case 'put':
        return this.outcome(this.put((asked as { readonly formula: string }).formula));
      case 'formulas':
        return this.outcome(this.formulas());
      case 'write': {
        const { sheet, cells } = asked as { readonly sheet: string; readonly cells: readonly WrittenCell[] };
        return this.outcome(this.ask('write', sheet, cells));
      }
      case 'add': {
        const { name, rows } = asked as { readonly name: string; readonly rows: unknown };
        return this.outcome(this.ask('add', name, rows));
      }
      case 'format':
        return this.outcome(this.ask('format', asked));
      default:
        throw new Refused(404);
    }
  }

  /** What the page is told: a result, or why there is none. */
  private async outcome(work: Promise<unknown>): Promise<Omit<Done, 'id'>> {
    try {
      return { result: await work };
    } catch (thrown) {
      return { problem: thrown instanceof Error ? thrown.message : String(thrown) };
    }
  }

  private read(reference: string, sheet: string): Promise<readonly (readonly Cell[])[]> {
    return this.ask('read', reference, sheet) as Promise<readonly (readonly Cell[])[]>;
  }

  private async formulas(): Promise<readonly FormulaCell[]> {
    const found = (await this.ask('formulas')) as readonly FormulaCell[];
    return found.map((cell) => ({ ...cell, formula: forPane(cell.formula) }));
  }

  /** A result of several cells is put in as an array over so many, since the program does not let one spill by itself. */
  private async put(formula: string): Promise<void> {
    const { sheet = '', address = '' } = this.selected ?? {};
    const cell: SelectedCell = { sheet, address, formula, value: null };
    const { calls } = await readSelectedCell(cell, { read: (reference, on) => this.read(reference, on) });
    const [call] = calls;
    const results = call && isKnown(call) && call.whole ? call.results : undefined;
    await this.ask('put', forProgram(formula), results?.length ?? 1, results?.[0]?.length ?? 1);
  }

  private ask(what: string, ...given: readonly unknown[]): Promise<unknown> {
    return new Promise((resolve, reject) => {
      const id = ++this.asked;
      this.waiting.set(id, { resolve, reject });
      this.todo.push({ id, do: what, with: given });
      this.asking?.();
    });
  }

  private async forProgram(what: string, told: unknown): Promise<unknown> {
    switch (what) {
      case 'asked':
        if (told !== null) this.done(told as Done);
        return this.next();
      case 'selected':
        return { status: await this.select(told as SelectedCell | null) };
      default:
        throw new Refused(404);
    }
  }

  private done({ id, result, problem }: Done): void {
    const waiting = this.waiting.get(id);
    this.waiting.delete(id);
    if (problem === undefined) waiting?.resolve(result);
    else waiting?.reject(new Error(problem));
  }

  /** Of two that ask, the first has gone: its line broke. */
  private async next(): Promise<Doing | null> {
    const turn = ++this.turn;
    this.asking?.();
    if (this.todo.length === 0) {
      await new Promise<void>((resolve) => {
        const timer = setTimeout(resolve, PATIENCE);
        this.asking = () => {
          clearTimeout(timer);
          resolve();
        };
      });
    }
    return turn === this.turn ? (this.todo.shift() ?? null) : null;
  }

  private async select(told: SelectedCell | null): Promise<string> {
    this.selected = told && inPaneWriting(told);
    for (const page of this.pages) page.write(eventOf(this.selected));
    if (!this.selected) return '';
    const read = await readSelectedCell(
      this.selected,
      { read: (reference, sheet) => this.read(reference, sheet) },
      this.lastRead,
    );
    this.lastRead = read;
    return reasonIn(read);
  }
}

const eventOf = (cell: SelectedCell | null): string => `data: ${JSON.stringify(cell)}\n\n`;

function same(one: string, other: string): boolean {
  return one.length === other.length && timingSafeEqual(Buffer.from(one), Buffer.from(other));
}

function json(response: ServerResponse, value: unknown): void {
  response.setHeader('Content-Type', 'application/json');
  response.end(JSON.stringify(value ?? null));
}

async function body(request: IncomingMessage): Promise<unknown> {
  const pieces: Buffer[] = [];
  let size = 0;
  for await (const piece of request as AsyncIterable<Buffer>) {
    size += piece.length;
    if (size > MOST_BYTES) throw new Refused(413);
    pieces.push(piece);
  }
  return JSON.parse(Buffer.concat(pieces).toString('utf8')) as unknown;
}
