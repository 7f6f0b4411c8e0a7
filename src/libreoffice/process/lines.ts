import type { Readable } from 'node:stream';

const LINE_END = 10;

/** Calls back with each whole line of a stream; a long one comes in many pieces. */
export function eachLine(stream: Readable, take: (line: string) => void): void {
  let pieces: Buffer[] = [];
  stream.on('data', (piece: Buffer) => {
    let from = 0;
    for (let end = piece.indexOf(LINE_END); end !== -1; end = piece.indexOf(LINE_END, from)) {
      pieces.push(piece.subarray(from, end));
      const line = pieces.length === 1 ? pieces[0]! : Buffer.concat(pieces);
      pieces = [];
      from = end + 1;
      take(line.toString('utf8'));
    }
    if (from < piece.length) pieces.push(piece.subarray(from));
  });
}
