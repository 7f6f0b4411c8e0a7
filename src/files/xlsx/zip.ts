/**
 * The container of a workbook: a zip archive, read with bounds and rewritten part by part.
 *
 * A part that is not changed keeps its packed bytes and its time as they were; only a changed part is packed anew.
 * Layout and names of the fields: APPNOTE.TXT, .ZIP File Format Specification, 4.3. Not taken: archives in several
 * volumes, 64-bit archives, encrypted parts, packing methods other than stored (0) and deflated (8).
 */
import { crc32, deflateRawSync, inflateRawSync } from 'node:zlib';
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
  readonly record: Buffer;
  /** Where the local header begins. */
  readonly at: number;
}

export interface Archive {
  readonly names: readonly string[];
  /** Whether there is such a part; names of parts do not tell small from capital letters. */
  has(name: string): boolean;
  /** The bytes of a part. Throws UnreadableFile. */
  read(name: string): Buffer;
  /** The archive with the bytes of some parts replaced. Throws UnreadableFile where any part is damaged. */
  with(changed: ReadonlyMap<string, Uint8Array>): Buffer;
}

export function openArchive(file: Buffer): Archive {
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

function centralDirectory(file: Buffer): readonly Entry[] {
  const end = findEnd(file);
  const count = file.readUInt16LE(end + 10);
  const size = file.readUInt32LE(end + 12);
  const start = file.readUInt32LE(end + 16);
  if (file.readUInt16LE(end + 4) !== 0 || file.readUInt16LE(end + 6) !== 0)
    throw new UnreadableFile('the archive is one of several volumes');
  if (file.readUInt16LE(end + 8) !== count) throw damaged();
  if (count === 0xffff || start === 0xffffffff)
    throw new UnreadableFile('it is a 64-bit archive, which no workbook of a size taken here needs');
  if (count > LIMITS.parts) throw new UnreadableFile(`it has ${count} parts; at most ${LIMITS.parts} are taken`);
  if (start + size > end) throw damaged();
  const entries: Entry[] = [];
  let at = start;
  for (let i = 0; i < count; i++) {
    if (at + CENTRAL_SIZE > end || file.readUInt32LE(at) !== CENTRAL) throw damaged();
    const nameLength = file.readUInt16LE(at + 28);
    const length = CENTRAL_SIZE + nameLength + file.readUInt16LE(at + 30) + file.readUInt16LE(at + 32);
    if (at + length > end) throw damaged();
    const name = checkedName(file.toString('utf8', at + CENTRAL_SIZE, at + CENTRAL_SIZE + nameLength));
    const entry: Entry = {
      name,
      flags: file.readUInt16LE(at + 8),
      method: file.readUInt16LE(at + 10),
      crc: file.readUInt32LE(at + 16),
      packed: file.readUInt32LE(at + 20),
      unpacked: file.readUInt32LE(at + 24),
      at: file.readUInt32LE(at + 42),
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

function findEnd(file: Buffer): number {
  for (let at = file.length - END_SIZE; at >= Math.max(0, file.length - END_SIZE - LONGEST_COMMENT); at--) {
    if (file.readUInt32LE(at) === END && at + END_SIZE + file.readUInt16LE(at + 20) === file.length) return at;
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

function dataStart(file: Buffer, { at }: Entry): number {
  if (at + LOCAL_SIZE > file.length || file.readUInt32LE(at) !== LOCAL) throw damaged();
  return at + LOCAL_SIZE + file.readUInt16LE(at + 26) + file.readUInt16LE(at + 28);
}

/** A part has the same name in its own header; what else the header says is not used, and sizes may follow the data. */
function checkHeader(file: Buffer, { at, name, record }: Entry): void {
  const nameAt = at + LOCAL_SIZE;
  const header = file.subarray(nameAt, nameAt + file.readUInt16LE(at + 26));
  if (!header.equals(record.subarray(CENTRAL_SIZE, CENTRAL_SIZE + record.readUInt16LE(28))))
    throw new UnreadableFile(`the part ${name} is damaged: it has another name in its header`);
}

function unpack(file: Buffer, entry: Entry, most: number): Buffer {
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

function inflated(packed: Buffer, entry: Entry, most: number, tooLarge: () => UnreadableFile): Buffer {
  try {
    return inflateRawSync(packed, { maxOutputLength: Math.max(1, Math.min(most, entry.unpacked)) });
  } catch (thrown) {
    if ((thrown as NodeJS.ErrnoException).code === 'ERR_BUFFER_TOO_LARGE')
      throw entry.unpacked < most
        ? new UnreadableFile(`the part ${entry.name} is damaged: it is larger than the archive says`)
        : tooLarge();
    throw new UnreadableFile(`the part ${entry.name} is damaged: it cannot be unpacked`);
  }
}

function rewrite(file: Buffer, entries: readonly Entry[], changed: ReadonlyMap<string, Uint8Array>): Buffer {
  const pieces: Uint8Array[] = [];
  const records: Buffer[] = [];
  let at = 0;
  const put = (piece: Uint8Array): void => {
    pieces.push(piece);
    at += piece.length;
  };
  const starts = entries.map((e) => e.at).sort((x, y) => x - y);
  const after = (entry: Entry): number => starts.find((s) => s > entry.at) ?? file.readUInt32LE(findEnd(file) + 16);
  for (const entry of entries) {
    const record = Buffer.from(entry.record);
    record.writeUInt32LE(at, 42);
    records.push(record);
    const bytes = changed.get(entry.name.toLowerCase());
    if (!bytes) {
      // With the descriptor that may follow the data.
      put(file.subarray(entry.at, after(entry)));
      continue;
    }
    const packed = deflateRawSync(bytes);
    const header = Buffer.from(file.subarray(entry.at, dataStart(file, entry)));
    // Sizes stand in the header, so no descriptor follows.
    const flags = entry.flags & ~0x8;
    for (const [target, shift] of [
      [header, 0],
      [record, 2],
    ] as const) {
      target.writeUInt16LE(flags, 6 + shift);
      target.writeUInt16LE(DEFLATED, 8 + shift);
      target.writeUInt32LE(crc32(bytes), 14 + shift);
      target.writeUInt32LE(packed.length, 18 + shift);
      target.writeUInt32LE(bytes.length, 22 + shift);
    }
    put(header);
    put(packed);
  }
  return finished(pieces, records, at, file.subarray(findEnd(file) + END_SIZE));
}

function finished(
  pieces: readonly Uint8Array[],
  records: readonly Buffer[],
  directory: number,
  comment: Uint8Array,
): Buffer {
  const end = Buffer.alloc(END_SIZE);
  end.writeUInt32LE(END, 0);
  end.writeUInt16LE(records.length, 8);
  end.writeUInt16LE(records.length, 10);
  end.writeUInt32LE(
    records.reduce((sum, r) => sum + r.length, 0),
    12,
  );
  end.writeUInt32LE(directory, 16);
  end.writeUInt16LE(comment.length, 20);
  return Buffer.concat([...pieces, ...records, end, comment]);
}

/** The first day a zip archive can name, so that the same workbook has the same bytes: 1 January 1980. */
const NO_DATE = 0x21;

/** A new archive of these parts, in their order. */
export function newArchive(parts: ReadonlyMap<string, Uint8Array>): Buffer {
  const pieces: Uint8Array[] = [];
  const records: Buffer[] = [];
  let at = 0;
  for (const [name, bytes] of parts) {
    const packed = deflateRawSync(bytes);
    const nameBytes = Buffer.from(checkedName(name));
    const common = Buffer.alloc(26);
    common.writeUInt16LE(VERSION_NEEDED, 0);
    common.writeUInt16LE(NAME_IS_UTF8, 2);
    common.writeUInt16LE(DEFLATED, 4);
    common.writeUInt16LE(NO_DATE, 8);
    common.writeUInt32LE(crc32(bytes), 10);
    common.writeUInt32LE(packed.length, 14);
    common.writeUInt32LE(bytes.length, 18);
    common.writeUInt16LE(nameBytes.length, 22);
    const local = Buffer.alloc(4);
    local.writeUInt32LE(LOCAL, 0);
    const record = Buffer.alloc(CENTRAL_SIZE);
    record.writeUInt32LE(CENTRAL, 0);
    record.writeUInt16LE(VERSION_NEEDED, 4);
    common.copy(record, 6);
    record.writeUInt32LE(at, 42);
    records.push(Buffer.concat([record, nameBytes]));
    for (const piece of [local, common, nameBytes, packed]) {
      pieces.push(piece);
      at += piece.length;
    }
  }
  return finished(pieces, records, at, new Uint8Array());
}
