/** What came of a command: the texts it prints and its exit code. */
export interface Ended {
  readonly code: ExitCode;
  readonly out: string;
  readonly err: string;
}

export type ExitCode = 0 | 1 | 2 | 3 | 4;

/** The same for all commands. */
export const EXIT_CODES = `Exit code, of all commands:
  0  all good: calculated, the same, written, nothing found
  1  some cell failed (calc); some moved or were kept, none is broken (recheck); something was found (check)
  2  wrong use, a file or output that cannot be read or written, or given up at a limit
  3  some cell is broken (recheck)
  4  a fault of ours; please report it`;

/** The end of a command by a throw that nothing expected. */
export function faultOfOurs(thrown: unknown, about = ''): Ended {
  const told = thrown instanceof Error ? (thrown.stack ?? thrown.message) : String(thrown);
  return { code: 4, out: '', err: `${about}a fault of ours; please report it\n${told}` };
}
