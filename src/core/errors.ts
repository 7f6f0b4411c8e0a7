/** The two errors a host shows with a text of its own. */
export type ErrorCode = '#VALUE!' | '#N/A';

/** A case the user can mend: a code a cell can show and a message that names the argument. Texts are in messages.ts. */
export class CalcError extends Error {
  readonly code: ErrorCode;

  constructor(code: ErrorCode, message: string) {
    super(message);
    this.name = 'CalcError';
    this.code = code;
  }
}
