/** Numbers and texts in a file's bytes, least significant byte first, alike in a process and in a browser. */
export function word(bytes: Uint8Array, at: number): number {
  return viewOf(bytes).getUint16(at, true);
}
export function longWord(bytes: Uint8Array, at: number): number {
  return viewOf(bytes).getUint32(at, true);
}
export function putWord(bytes: Uint8Array, value: number, at: number): void {
  viewOf(bytes).setUint16(at, value, true);
}
export function putLongWord(bytes: Uint8Array, value: number, at: number): void {
  viewOf(bytes).setUint32(at, value, true);
}

export const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

export function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(pieces.reduce((sum, p) => sum + p.length, 0));
  let at = 0;
  for (const piece of pieces) {
    all.set(piece, at);
    at += piece.length;
  }
  return all;
}

/** Where a row of bytes first stands in another, -1 where it does not. */
export function indexOf(bytes: Uint8Array, wanted: Uint8Array): number {
  const first = wanted[0] ?? 0;
  for (let at = bytes.indexOf(first); at >= 0; at = bytes.indexOf(first, at + 1)) {
    if (wanted.every((byte, i) => bytes[at + i] === byte)) return at;
  }
  return -1;
}

const viewOf = (bytes: Uint8Array): DataView => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
