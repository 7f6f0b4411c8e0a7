/** LibreOffice Calc as the tests use it: one program with a profile of its own, driven by drive.py. */
import { spawn, type ChildProcessWithoutNullStreams } from 'node:child_process';
import { cpSync, rmSync } from 'node:fs';
import { createInterface } from 'node:readline';
import path from 'node:path';
import { asSomebody, copyOfProfile, environment, give, lock } from './profile.ts';

/** One cell: its value, what it shows, its error (0 for none) and its formula. */
export interface CalcCell {
  readonly value: number | string | null;
  readonly shown: string;
  readonly error: number;
  readonly formula: string;
}

export type Constant = number | string | null;

export interface CalcFunction {
  readonly name: string;
  readonly description: string;
  readonly category: number;
  readonly arguments: readonly { readonly name: string; readonly description: string }[];
}

const PYTHON = '/usr/bin/python3';
const DRIVER = path.resolve('test/libreoffice/program/drive.py');

export interface Options {
  /** More for the environment of the program. */
  readonly environment?: NodeJS.ProcessEnv;
  /** A folder that comes first where the program looks for others. */
  readonly path?: string;
  readonly window?: boolean;
  /** Folders of the profile that nobody may write to; '' is all of it. */
  readonly locked?: readonly string[];
}

export class Calc {
  private readonly answers: AsyncIterator<string, undefined>;

  private constructor(
    private readonly driver: ChildProcessWithoutNullStreams,
    readonly profile: string,
  ) {
    this.answers = createInterface({ input: driver.stdout })[Symbol.asyncIterator]() as AsyncIterator<
      string,
      undefined
    >;
  }

  /** With a copy of a profile. */
  static async start(original: string, options: Options = {}): Promise<Calc> {
    const profile = copyOfProfile(original);
    const { locked, window = false } = options;
    let command = [PYTHON, DRIVER, profile, ...(window ? ['--window'] : [])];
    if (locked) {
      // Root may write where nobody may, so that it is somebody else then, who may not be able to read the sources.
      const driver = path.join(profile, 'drive.py');
      cpSync(DRIVER, driver);
      give(profile);
      for (const folder of locked) lock(path.join(profile, folder));
      command = asSomebody([PYTHON, driver, profile]);
    }
    const [first = '', ...rest] = command;
    const driver = spawn(first, rest, { env: { ...environment(options.path), ...options.environment } });
    const said: Buffer[] = [];
    driver.stderr.on('data', (piece: Buffer) => said.push(piece));
    const calc = new Calc(driver, profile);
    const ready = await calc.answers.next();
    if (ready.done) {
      rmSync(profile, { recursive: true, force: true });
      throw new Error(`the program did not start: ${Buffer.concat(said).toString()}`);
    }
    return calc;
  }

  /** Ends the program as a user does, and takes its profile away. */
  async end(): Promise<void> {
    const ended = new Promise((resolve) => this.driver.once('exit', resolve));
    this.driver.stdin.end();
    await ended;
    rmSync(this.profile, { recursive: true, force: true });
  }

  async do(what: string, given: object = {}): Promise<unknown> {
    this.driver.stdin.write(`${JSON.stringify({ do: what, with: given })}\n`);
    const { value, done } = await this.answers.next();
    if (done) throw new Error(`the program ended over ${what}`);
    const answer = JSON.parse(value) as { readonly result?: unknown; readonly problem?: string };
    if (answer.problem !== undefined) throw new Error(answer.problem);
    return answer.result;
  }

  open(document: string, file?: string): Promise<unknown> {
    return this.do('open', { document, path: file });
  }
  close(document: string): Promise<unknown> {
    return this.do('close', { document });
  }
  save(document: string, file: string): Promise<unknown> {
    return this.do('save', { document, path: file });
  }
  fill(document: string, address: string, rows: readonly (readonly Constant[])[], sheet?: string): Promise<unknown> {
    return this.do('fill', { document, address, rows, sheet });
  }
  /** Formulas by cell, array formulas by range, with semicolons between arguments. */
  put(document: string, formulas: Readonly<Record<string, string>>, sheet?: string): Promise<unknown> {
    return this.do('formulas', { document, formulas, sheet });
  }
  recalculate(document: string): Promise<unknown> {
    return this.do('recalculate', { document });
  }
  async read(document: string, address: string, sheet?: string): Promise<readonly (readonly CalcCell[])[]> {
    return (await this.do('read', { document, address, sheet })) as readonly (readonly CalcCell[])[];
  }
  async cell(document: string, address: string, sheet?: string): Promise<CalcCell> {
    return (await this.read(document, address, sheet))[0]![0]!;
  }
  async shown(document: string, address: string, sheet?: string): Promise<string> {
    return (await this.cell(document, address, sheet)).shown;
  }
  /** What a range holds, quicker than `read`; null for an error. */
  async values(document: string, address: string, sheet?: string): Promise<readonly (readonly Constant[])[]> {
    return (await this.do('values', { document, address, sheet })) as readonly (readonly Constant[])[];
  }
  /** Process ids of the calculation that belongs to this program. */
  async processes(): Promise<readonly number[]> {
    return (await this.do('children')) as readonly number[];
  }
  async functions(): Promise<readonly CalcFunction[]> {
    return (await this.do('functions')) as readonly CalcFunction[];
  }
}
