/**
 * The container of a workbook: a zip archive, read with bounds and rewritten part by part.
 *
 * A part that is not changed keeps its packed bytes and its time as they were; only a changed part is packed anew.
 * Layout and names of the fields: APPNOTE.TXT, .ZIP File Format Specification, 4.3. Not taken: archives in several
 * volumes, 64-bit archives, encrypted parts, packing methods other than stored (0) and deflated (8).
 */
import { deflateSync, Inflate } from 'fflate';
import { joined, longWord, putLongWord, putWord, utf8, word } from './bytes.ts';
import { crc32 } from './crc32.ts';
import { LIMITS } from './limits.ts';
import { UnreadableFile } from './unreadable.ts';

const LOCAL = 0x04034b50;
const CENTRAL = 0x02014b50;
const END = 0x06054b50;
const END_SIZE = 22;
const LONGEST_COMMENT = 0xffff;
const LOCAL_SIZE = 30;
const CENTRAL_SIZE = 46;
const ENCRYPTED = 1;
const NAME_IS_UTF8 = 1 << 11;
const STORED = 0;
const DEFLATED = 8;
const VERSION_NEEDED = 20;

interface Entry {
  readonly name: string;
  readonly flags: number;
  readonly method: number;
  readonly crc: number;
  readonly packed: number;
  readonly unpacked: number;
  /** The whole record in the central directory. */
  readonly record: Uint8Array;
  /** Where the local header begins. */
  readonly at: number;
}

export interface Archive {
  readonly names: readonly string[];
  /** Whether there is such a part; names of parts do not tell small from capital letters. */
  has(name: string): boolean;
  /** The bytes of a part. Throws UnreadableFile. */
  read(name: string): Uint8Array;
  /** The archive with the bytes of some parts replaced. Throws UnreadableFile where any part is damaged. */
  with(changed: ReadonlyMap<string, Uint8Array>): Uint8Array;
}

export function openArchive(file: Uint8Array): Archive {
  const entries = centralDirectory(file);
  const byName = new Map<string, Entry>();
  for (const entry of entries) {
    const key = entry.name.toLowerCase();
    if (byName.has(key)) throw new UnreadableFile(`the part ${entry.name} is there twice`);
    byName.set(key, entry);
  }
  let left: number = LIMITS.unpacked;
  return {
    names: entries.map((e) => e.name),
    has: (name) => byName.has(name.toLowerCase()),
    read: (name) => {
      const entry = byName.get(name.toLowerCase());
      if (!entry) throw new UnreadableFile(`the part ${name} is missing`);
      const bytes = unpack(file, entry, Math.min(LIMITS.part, left));
      left -= bytes.length;
      return bytes;
    },
    with: (changed) => {
      for (const entry of entries) unpack(file, entry, LIMITS.part);
      return rewrite(file, entries, new Map([...changed].map(([name, bytes]) => [name.toLowerCase(), bytes])));
    },
  };
}

function centralDirectory(file: Uint8Array): readonly Entry[] {
  const end = findEnd(file);
  const count = word(file, end + 10);
  const size = longWord(file, end + 12);
  const start = longWord(file, end + 16);
  if (word(file, end + 4) !== 0 || word(file, end + 6) !== 0)
    throw new UnreadableFile('the archive is one of several volumes');
  if (word(file, end + 8) !== count) throw damaged();
  if (count === 0xffff || start === 0xffffffff)
    throw new UnreadableFile('it is a 64-bit archive, which no workbook of a size taken here needs');
  if (count > LIMITS.parts) throw new UnreadableFile(`it has ${count} parts; at most ${LIMITS.parts} are taken`);
  if (start + size > end) throw damaged();
  const entries: Entry[] = [];
  let at = start;
  for (let i = 0; i < count; i++) {
    if (at + CENTRAL_SIZE > end || longWord(file, at) !== CENTRAL) throw damaged();
    const nameLength = word(file, at + 28);
    const length = CENTRAL_SIZE + nameLength + word(file, at + 30) + word(file, at + 32);
    if (at + length > end) throw damaged();
    const name = checkedName(
      new TextDecoder().decode(file.subarray(at + CENTRAL_SIZE, at + CENTRAL_SIZE + nameLength)),
    );
    const entry: Entry = {
      name,
      flags: word(file, at + 8),
      method: word(file, at + 10),
      crc: longWord(file, at + 16),
      packed: longWord(file, at + 20),
      unpacked: longWord(file, at + 24),
      at: longWord(file, at + 42),
      record: file.subarray(at, at + length),
    };
    if (entry.flags & ENCRYPTED)
      throw new UnreadableFile(
        'it is protected by a password; open it in the spreadsheet program and save a copy without one',
      );
    if (dataStart(file, entry) + entry.packed > start) throw damaged();
    entries.push(entry);
    at += length;
  }
  // One record fewer than there are would be a part that nobody misses.
  if (at !== start + size) throw damaged();
  // Parts that share bytes are how a small archive unpacks to a huge one.
  const ordered = [...entries].sort((x, y) => x.at - y.at);
  for (const [i, entry] of ordered.entries()) {
    const next = ordered[i + 1];
    if (next && dataStart(file, entry) + entry.packed > next.at)
      throw new UnreadableFile(`the parts ${entry.name} and ${next.name} overlap in the archive`);
  }
  for (const entry of entries) checkHeader(file, entry);
  return entries;
}

function findEnd(file: Uint8Array): number {
  for (let at = file.length - END_SIZE; at >= Math.max(0, file.length - END_SIZE - LONGEST_COMMENT); at--) {
    if (longWord(file, at) === END && at + END_SIZE + word(file, at + 20) === file.length) return at;
  }
  throw damaged();
}

const damaged = (): UnreadableFile =>
  new UnreadableFile('it is no workbook, or it is damaged: the directory of its archive cannot be read');

/** Names are never used as paths here, but a file with such names is not to be trusted or passed on. */
function checkedName(name: string): string {
  const steps = name.split('/');
  if (/[\u0000-\u001f\\\ufffd]|^\/|^[a-z]:/i.test(name) || steps.includes('..') || name === '') {
    throw new UnreadableFile(`the name of a part, ${JSON.stringify(name)}, leads out of the package`);
  }
  return name;
}

function dataStart(file: Uint8Array, { at }: Entry): number {
  if (at + LOCAL_SIZE > file.length || longWord(file, at) !== LOCAL) throw damaged();
  return at + LOCAL_SIZE + word(file, at + 26) + word(file, at + 28);
}

/** A part has the same name in its own header; what else the header says is not used, and sizes may follow the data. */
function checkHeader(file: Uint8Array, { at, name, record }: Entry): void {
  const nameAt = at + LOCAL_SIZE;
  const header = file.subarray(nameAt, nameAt + word(file, at + 26));
  const listed = record.subarray(CENTRAL_SIZE, CENTRAL_SIZE + word(record, 28));
  if (header.length !== listed.length || header.some((byte, i) => byte !== listed[i]))
    throw new UnreadableFile(`the part ${name} is damaged: it has another name in its header`);
}

function unpack(file: Uint8Array, entry: Entry, most: number): Uint8Array {
  const tooLarge = (): UnreadableFile =>
    new UnreadableFile(`the part ${entry.name} is too large: unpacked it has more than ${Math.floor(most / 1e6)} MB`);
  if (entry.unpacked > most) throw tooLarge();
  const start = dataStart(file, entry);
  const packed = file.subarray(start, start + entry.packed);
  const bytes =
    entry.method === STORED ? packed : entry.method === DEFLATED ? inflated(packed, entry, most, tooLarge) : undefined;
  if (!bytes)
    throw new UnreadableFile(`the part ${entry.name} is packed by a method (${entry.method}) that no workbook uses`);
  if (bytes.length !== entry.unpacked || crc32(bytes) !== entry.crc)
    throw new UnreadableFile(`the part ${entry.name} is damaged: its checksum does not fit`);
  return bytes;
}

/** Bytes unpacked at a time, so that what is too large is found out before it takes much room. */
const BITE = 16_384;

function inflated(packed: Uint8Array, entry: Entry, most: number, tooLarge: () => UnreadableFile): Uint8Array {
  const pieces: Uint8Array[] = [];
  let size = 0;
  const inflate = new Inflate((piece) => {
    size += piece.length;
    if (size > most) throw tooLarge();
    if (size > entry.unpacked)
      throw new UnreadableFile(`the part ${entry.name} is damaged: it is larger than the archive says`);
    pieces.push(piece);
  });
  try {
    for (let at = 0; at < packed.length; at += BITE)
      inflate.push(packed.subarray(at, at + BITE), at + BITE >= packed.length);
  } catch (thrown) {
    if (thrown instanceof UnreadableFile) throw thrown;
    throw new UnreadableFile(`the part ${entry.name} is damaged: it cannot be unpacked`);
  }
  return joined(pieces);
}

function rewrite(file: Uint8Array, entries: readonly Entry[], changed: ReadonlyMap<string, Uint8Array>): Uint8Array {
  const pieces: Uint8Array[] = [];
  const records: Uint8Array[] = [];
  let at = 0;
  const put = (piece: Uint8Array): void => {
    pieces.push(piece);
    at += piece.length;
  };
  const starts = entries.map((e) => e.at).sort((x, y) => x - y);
  const after = (entry: Entry): number => starts.find((s) => s > entry.at) ?? longWord(file, findEnd(file) + 16);
  for (const entry of entries) {
    const record = new Uint8Array(entry.record);
    putLongWord(record, at, 42);
    records.push(record);
    const bytes = changed.get(entry.name.toLowerCase());
    if (!bytes) {
      // With the descriptor that may follow the data.
      put(file.subarray(entry.at, after(entry)));
      continue;
    }
    const packed = deflateSync(bytes);
    const header = new Uint8Array(file.subarray(entry.at, dataStart(file, entry)));
    // Sizes stand in the header, so no descriptor follows.
    const flags = entry.flags & ~0x8;
    for (const [target, shift] of [
      [header, 0],
      [record, 2],
    ] as const) {
      putWord(target, flags, 6 + shift);
      putWord(target, DEFLATED, 8 + shift);
      putLongWord(target, crc32(bytes), 14 + shift);
      putLongWord(target, packed.length, 18 + shift);
      putLongWord(target, bytes.length, 22 + shift);
    }
    put(header);
    put(packed);
  }
  return finished(pieces, records, at, file.subarray(findEnd(file) + END_SIZE));
}

function finished(
  pieces: readonly Uint8Array[],
  records: readonly Uint8Array[],
  directory: number,
  comment: Uint8Array,
): Uint8Array {
  const end = new Uint8Array(END_SIZE);
  putLongWord(end, END, 0);
  putWord(end, records.length, 8);
  putWord(end, records.length, 10);
  putLongWord(
    end,
    records.reduce((sum, r) => sum + r.length, 0),
    12,
  );
  putLongWord(end, directory, 16);
  putWord(end, comment.length, 20);
  return joined([...pieces, ...records, end, comment]);
}

/** The first day a zip archive can name, so that the same workbook has the same bytes: 1 January 1980. */
const NO_DATE = 0x21;

/** A new archive of these parts, in their order. */
export function newArchive(parts: ReadonlyMap<string, Uint8Array>): Uint8Array {
  const pieces: Uint8Array[] = [];
  const records: Uint8Array[] = [];
  let at = 0;
  for (const [name, bytes] of parts) {
    const packed = deflateSync(bytes);
    const nameBytes = utf8(checkedName(name));
    const common = new Uint8Array(26);
    putWord(common, VERSION_NEEDED, 0);
    putWord(common, NAME_IS_UTF8, 2);
    putWord(common, DEFLATED, 4);
    putWord(common, NO_DATE, 8);
    putLongWord(common, crc32(bytes), 10);
    putLongWord(common, packed.length, 14);
    putLongWord(common, bytes.length, 18);
    putWord(common, nameBytes.length, 22);
    const local = new Uint8Array(4);
    putLongWord(local, LOCAL, 0);
    const record = new Uint8Array(CENTRAL_SIZE);
    putLongWord(record, CENTRAL, 0);
    putWord(record, VERSION_NEEDED, 4);
    record.set(common, 6);
    putLongWord(record, at, 42);
    records.push(joined([record, nameBytes]));
    for (const piece of [local, common, nameBytes, packed]) {
      pieces.push(piece);
      at += piece.length;
    }
  }
  return finished(pieces, records, at, new Uint8Array());
}
