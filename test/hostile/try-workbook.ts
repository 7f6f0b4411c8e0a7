import { isCellError } from '../../src/catalogue/cell.ts';
import { recheck, type Recheck } from '../../src/cli/recheck/recheck.ts';
import { refreshed } from '../../src/cli/recheck/refresh.ts';
import { reportJson, reportLines } from '../../src/cli/recheck/report.ts';
import { addressOf } from '../../src/files/xlsx/address.ts';
import { readWorkbook } from '../../src/files/xlsx/read-workbook.ts';
import { UnreadableFile } from '../../src/files/xlsx/unreadable.ts';
import type { Cell } from '../../src/sheet/host-function.ts';

/** What came of a case; `fault` says what may not be. */
export interface Outcome {
  readonly came: string;
  readonly fault?: string;
}

/** Rechecks a workbook, writes it, and rechecks what was written. */
export async function tryWorkbook(file: Buffer): Promise<Outcome> {
  try {
    const result = await recheck(file);
    const told = reportLines('x', result, { all: true }).join('\n') + reportJson('x', result);
    if (/\bNaN\b|Infinity/.test(told.replaceAll('"NaN"', '')))
      return { came: 'read', fault: `the report tells ${told.slice(0, 400)}` };
    const written = refreshed(result);
    const spoilt = whatElseChanged(file, written, result);
    if (spoilt !== undefined) return { came: 'read', fault: spoilt };
    const again = await recheck(written);
    const moved = again.cells.find((c) => c.status === 'moved');
    if (moved)
      return {
        came: 'read',
        fault: `${moved.sheet}!${moved.cell} moves again after writing: ${JSON.stringify(moved)}`,
      };
    return { came: cameOf(result) };
  } catch (thrown) {
    if (thrown instanceof UnreadableFile)
      return thrown.message.includes('\n')
        ? { came: 'refused', fault: `more than a line: ${thrown.message}` }
        : { came: 'refused' };
    return { came: 'thrown', fault: thrown instanceof Error ? (thrown.stack ?? thrown.message) : String(thrown) };
  }
}

function cameOf({ cells }: Recheck): string {
  const has = (status: string): boolean => cells.some((c) => c.status === status);
  return has('broken') ? 'broken' : has('kept') ? 'kept' : has('moved') ? 'moved' : 'same';
}

/** What a recheck that writes our cells only changed besides them. */
function whatElseChanged(file: Buffer, written: Uint8Array, result: Recheck): string | undefined {
  const [before, after] = [readWorkbook(file), readWorkbook(written)];
  const parts = new Set(before.sheets.map((s) => s.part));
  for (const name of before.archive.names) {
    if (parts.has(name)) continue;
    if (!Buffer.from(before.archive.read(name)).equals(Buffer.from(after.archive.read(name)))) return `${name} changed`;
  }
  for (const [i, sheet] of before.sheets.entries()) {
    const ours = new Set(
      result.compared.filter((c) => c.sheet === i && c.formula.ours).map((c) => addressOf(c.row, c.column)),
    );
    const now = new Map(after.sheets[i]!.cells.map((c) => [addressOf(c.row, c.column), c]));
    for (const cell of sheet.cells) {
      const at = addressOf(cell.row, cell.column);
      const then = now.get(at);
      if (cell.formula?.text !== then?.formula?.text) return `the formula of ${at} changed`;
      if (!ours.has(at) && text(cell.value) !== text(then?.value ?? null))
        return `${at} was ${text(cell.value)} and is ${text(then?.value ?? null)}`;
    }
  }
  return undefined;
}

const text = (cell: Cell): string => (isCellError(cell) ? cell.error : JSON.stringify(cell));
