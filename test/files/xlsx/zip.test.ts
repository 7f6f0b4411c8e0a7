import { deflateRawSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { UnreadableFile } from '../../../src/files/xlsx/unreadable.ts';
import * as zip from '../../../src/files/xlsx/zip.ts';

const newArchive = (all: ReadonlyMap<string, Uint8Array>): Buffer => Buffer.from(zip.newArchive(all));
const { openArchive } = zip;
const partOf = (file: Uint8Array, name: string): Buffer => Buffer.from(openArchive(file).read(name));
const rewritten = (file: Uint8Array, changed: ReadonlyMap<string, Uint8Array>): Buffer =>
  Buffer.from(openArchive(file).with(changed));

const parts = new Map([
  ['a.txt', Buffer.from('alpha '.repeat(100))],
  ['b/c.xml', Buffer.from('<x/>')],
  ['empty', Buffer.alloc(0)],
]);
const archive = newArchive(parts);

/** Changes some bytes of the central directory's record of a part. */
function withRecord(name: string, change: (file: Buffer, record: number) => void, from = archive): Buffer {
  const file = Buffer.from(from);
  change(file, file.lastIndexOf(name) - 46);
  return file;
}

describe('the container', () => {
  it('gives back what was put in', () => {
    const opened = openArchive(archive);
    expect(opened.names).toEqual([...parts.keys()]);
    for (const [name, bytes] of parts) expect(Buffer.from(opened.read(name)).equals(bytes)).toBe(true);
    expect(Buffer.from(opened.read('A.TXT')).equals(opened.read('a.txt'))).toBe(true);
  });

  it('is the same file for the same parts', () => {
    expect(newArchive(parts).equals(archive)).toBe(true);
  });

  it('rewritten keeps the packed bytes of every part that is not changed', () => {
    const changed = rewritten(archive, new Map([['b/c.xml', Buffer.from('<y/>')]]));
    expect(partOf(changed, 'b/c.xml').toString()).toBe('<y/>');
    const start = (file: Buffer): number => file.indexOf('a.txt') - 30;
    const length = 30 + 'a.txt'.length + archive.readUInt32LE(start(archive) + 18);
    expect(
      changed
        .subarray(start(changed), start(changed) + length)
        .equals(archive.subarray(start(archive), start(archive) + length)),
    ).toBe(true);
    expect(openArchive(changed).read('empty').length).toBe(0);
  });

  it('rewritten with nothing changed is the same to the byte', () => {
    expect(rewritten(archive, new Map()).equals(archive)).toBe(true);
  });

  it('keeps the descriptors that some programs write after the data, and the comment', () => {
    // A part written as a stream: sizes are 0 in its header and follow its data.
    const local = Buffer.from(archive.subarray(0, archive.indexOf('b/c.xml') - 30));
    local.writeUInt16LE(0x8, 6);
    local.fill(0, 14, 26);
    const descriptor = Buffer.alloc(16);
    descriptor.writeUInt32LE(0x08074b50, 0);
    const directory = archive.subarray(archive.indexOf(Buffer.from([0x50, 0x4b, 0x01, 0x02])));
    const record = Buffer.from(directory.subarray(0, 46 + 'a.txt'.length));
    const end = Buffer.alloc(22 + 2);
    end.writeUInt32LE(0x06054b50, 0);
    end.writeUInt16LE(1, 8);
    end.writeUInt16LE(1, 10);
    end.writeUInt32LE(record.length, 12);
    end.writeUInt32LE(local.length + descriptor.length, 16);
    end.writeUInt16LE(2, 20);
    end.write('hi', 22);
    const streamed = Buffer.concat([local, descriptor, record, end]);
    expect(partOf(streamed, 'a.txt').equals(parts.get('a.txt')!)).toBe(true);
    expect(rewritten(streamed, new Map()).equals(streamed)).toBe(true);
  });

  it.each([
    ['nothing', Buffer.alloc(0), 'damaged'],
    ['noise', Buffer.from('PK\x03\x04 and then nothing of an archive'), 'damaged'],
    ['half a file', archive.subarray(0, archive.length - 40), 'damaged'],
    ['a path out of the package', newArchiveNamed('../evil.xml'), 'leads out of the package'],
    ['an absolute path', newArchiveNamed('/etc/evil'), 'leads out of the package'],
    ['a path of another system', newArchiveNamed('..\\evil.xml'), 'leads out of the package'],
    ['a drive', newArchiveNamed('c:/evilll.xml'), 'leads out of the package'],
  ])('refuses %s', (_, file, why) => {
    expect(() => openArchive(file)).toThrow(why);
  });

  it('refuses encrypted parts, parts that overlap, and parts there twice', () => {
    expect(() => openArchive(withRecord('a.txt', (f, at) => f.writeUInt16LE(1, at + 8)))).toThrow(
      'protected by a password',
    );
    expect(() => openArchive(withRecord('b/c.xml', (f, at) => f.writeUInt32LE(0, at + 42)))).toThrow('overlap');
    const twice = Buffer.from(
      newArchive(
        new Map([
          ['one', Buffer.from('1')],
          ['two', Buffer.from('2')],
        ]),
      )
        .toString('latin1')
        .replaceAll('two', 'one'),
      'latin1',
    );
    expect(() => openArchive(twice)).toThrow('the part one is there twice');
  });

  it('refuses a part whose size or checksum does not fit, before or while it is unpacked', () => {
    expect(() =>
      openArchive(withRecord('a.txt', (f, at) => f.writeUInt32LE(0xffff_0000, at + 24))).read('a.txt'),
    ).toThrow('too large');
    expect(() => openArchive(withRecord('a.txt', (f, at) => f.writeUInt32LE(10, at + 24))).read('a.txt')).toThrow(
      'larger than the archive says',
    );
    expect(() => openArchive(withRecord('a.txt', (f, at) => f.writeUInt32LE(1, at + 16))).read('a.txt')).toThrow(
      'checksum',
    );
    expect(() => openArchive(withRecord('a.txt', (f, at) => f.writeUInt16LE(12, at + 10))).read('a.txt')).toThrow(
      'method (12)',
    );
  });

  it('does not unpack a bomb, whether the archive tells the truth of its size or not', () => {
    const bomb = newArchive(new Map([['x', Buffer.from('x')]]));
    const packed = deflateRawSync(Buffer.alloc(200_000_000));
    const header = bomb.subarray(0, 31);
    const record = Buffer.from(bomb.subarray(bomb.indexOf(Buffer.from([0x50, 0x4b, 0x01, 0x02])), bomb.length - 22));
    record.writeUInt32LE(packed.length, 20);
    const end = Buffer.from(bomb.subarray(bomb.length - 22));
    end.writeUInt32LE(31 + packed.length, 16);
    // The archive says that it unpacks to one byte, and truthfully to 200 MB.
    for (const size of [1, 200_000_000]) {
      record.writeUInt32LE(size, 24);
      expect(() => openArchive(Buffer.concat([header, packed, record, end])).read('x')).toThrow(
        /larger than the archive says|too large/,
      );
    }
  });
});

function newArchiveNamed(name: string): Buffer {
  const neutral = 'x'.repeat(name.length);
  return Buffer.from(
    newArchive(new Map([[neutral, Buffer.from('1')]]))
      .toString('latin1')
      .replaceAll(neutral, name),
    'latin1',
  );
}

describe('an archive with one bit changed', () => {
  const packed = newArchive(
    new Map([
      ['xl/worksheets/sheet1.xml', Buffer.from('<row r="1"><c r="A1"><v>12</v></c></row>'.repeat(3))],
      ['xl/_rels/a.rels', Buffer.from('<Relationships/>')],
      ['media/one', Buffer.from([0, 1, 2, 255])],
    ]),
  );
  const contents = (file: Uint8Array): readonly (readonly [string, string])[] => {
    const opened = openArchive(file);
    return opened.names.map((name) => [name, Buffer.from(opened.read(name)).toString('hex')] as const);
  };
  const whole = contents(packed);
  const changedAt = (bit: number): Buffer => {
    const file = Buffer.from(packed);
    file[bit >> 3]! ^= 1 << (bit & 7);
    return file;
  };
  const outcome = (work: () => unknown): unknown => {
    try {
      return work();
    } catch (thrown) {
      return thrown instanceof UnreadableFile ? 'refused' : thrown;
    }
  };

  it('holds the same or is refused, whichever bit it is', () => {
    let refused = 0;
    for (let bit = 0; bit < packed.length * 8; bit++) {
      const read = outcome(() => contents(changedAt(bit)));
      if (read === 'refused') refused++;
      else expect(read, `bit ${bit}`).toEqual(whole);
    }
    // Times, attributes and numbers of versions say nothing of the contents.
    expect(refused).toBeGreaterThan(packed.length * 4);
  });

  it('is not written on where a part that was not read is damaged', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: packed.length * 8 - 1 }), (bit) => {
        const change = new Map([['xl/_rels/a.rels', Buffer.from('<Other/>')]]);
        const written = outcome(() => contents(rewritten(changedAt(bit), change)));
        const wanted = whole.map(([name, hex]) => [
          name,
          name === 'xl/_rels/a.rels' ? Buffer.from('<Other/>').toString('hex') : hex,
        ]);
        if (written !== 'refused') expect(written).toEqual(wanted);
      }),
      { seed: 16, numRuns: 1000 },
    );
  });
});
