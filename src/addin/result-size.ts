/** What the runtime sends of a result is JSON; the host refuses requests over 5 MB (a limit by design, so its vendor). */
import { resultTooLong } from '../core/messages.ts';
import type { Paused } from '../sheet/call.ts';

/** Most bytes of one result; the rest of 5 MB is for what stands round it. */
export const MOST_BYTES = 4_500_000;

/** Results smaller than this go at once; the rest of 5 MB is for them. */
export const SMALL = 10_000;

/** Whether a result of a row or two is small for certain, which needs no look at every sign. */
export function isSmall(rows: readonly (readonly unknown[])[]): boolean {
  let most = rows.length > 2 ? SMALL : 0;
  for (let r = 0; r < rows.length && most < SMALL; r++)
    for (const cell of rows[r]!)
      most += typeof cell === 'string' ? 6 * cell.length + 3 : typeof cell === 'object' ? SMALL : 25;
  return most < SMALL;
}

/** Bytes of a result's cells; a text of other than ASCII signs has more bytes than signs. */
export function* bytesOf(rows: readonly (readonly unknown[])[]): Paused<number> {
  let bytes = 2;
  for (const row of rows) {
    yield;
    bytes += 2;
    for (const cell of row) bytes += 1 + (typeof cell === 'number' ? String(cell).length : bytesOfText(cell));
  }
  return bytes;
}

function bytesOfText(cell: unknown): number {
  const text = JSON.stringify(cell);
  let bytes = text.length;
  for (let i = 0; i < text.length; i++) if (text.charCodeAt(i) > 0x7f) bytes += 2;
  return bytes;
}

/** Throws where a result of so many rows has more bytes than the host takes, and says how many rows it would take. */
export function checkSize(rows: number, bytes: number): void {
  if (bytes <= MOST_BYTES) return;
  const fitting = Math.floor((0.95 * rows * MOST_BYTES) / bytes);
  const digits = 10 ** Math.max(0, String(fitting).length - 2);
  throw resultTooLong(rows, bytes / 1e6, Math.max(1, Math.floor(fitting / digits) * digits));
}
