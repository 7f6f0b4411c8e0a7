import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readFolder } from '../../src/release/folder.ts';
import { publish, type ReleaseFiles } from '../../src/release/publish.ts';

let out: string;
beforeEach(() => {
  out = mkdtempSync(path.join(tmpdir(), 'rodsheet-publish-'));
});
afterEach(() => rmSync(out, { recursive: true, force: true }));

const files = (text: string): Map<string, Buffer> => new Map([['in/a.txt', Buffer.from(text)]]);
const made = (text: string): ReleaseFiles => ({
  pinned: files(text),
  latest: () => files(`${text} for latest`),
  root: (versions) => new Map([['index.html', Buffer.from(versions.join(' '))]]),
});
const read = (name: string): string => readFileSync(path.join(out, name), 'utf8');

describe('a release put into its folder', () => {
  it('stands in the folder of its version and as the latest', () => {
    expect(publish(out, '0.1.0-2031.01.01', made('one'))).toEqual({
      version: '0.1.0-2031.01.01',
      same: false,
      latest: '0.1.0-2031.01.01',
    });
    expect(read('v/0.1.0-2031.01.01/in/a.txt')).toBe('one');
    expect(read('latest/in/a.txt')).toBe('one for latest');
    expect(read('index.html')).toBe('0.1.0-2031.01.01');
  });

  it('made again with the same bytes changes nothing and says so', () => {
    publish(out, '0.1.0-2031.01.01', made('one'));
    const before = readFolder(out);
    expect(publish(out, '0.1.0-2031.01.01', made('one')).same).toBe(true);
    expect(readFolder(out)).toEqual(before);
  });

  it.each([
    ['with another byte', 'in/a.txt', 'onf'],
    ['with a file more', 'more.txt', ''],
  ])('is refused where the version stands there %s, and nothing is written', (_, name, text) => {
    publish(out, '0.1.0-2031.01.01', made('one'));
    writeFileSync(path.join(out, 'v/0.1.0-2031.01.01', name), text);
    const before = readFolder(out);
    expect(() => publish(out, '0.1.0-2031.01.01', made('one'))).toThrow(`is never changed, since people may have it`);
    expect(() => publish(out, '0.1.0-2031.01.01', made('one'))).toThrow(`What differs: ${name}`);
    expect(readFolder(out)).toEqual(before);
  });

  it('leaves older versions as they are, and lists all, the newest first', () => {
    publish(out, '0.1.0-2031.01.01', made('one'));
    publish(out, '0.1.0-2031.02.01', made('two'));
    expect(read('v/0.1.0-2031.01.01/in/a.txt')).toBe('one');
    expect(read('latest/in/a.txt')).toBe('two for latest');
    expect(read('index.html')).toBe('0.1.0-2031.02.01 0.1.0-2031.01.01');
  });

  it('takes nobody back: an older version made later does not become the latest', () => {
    publish(out, '0.1.0-2031.02.01', made('two'));
    expect(publish(out, '0.1.0-2031.01.01', made('one')).latest).toBe('0.1.0-2031.02.01');
    expect(read('latest/in/a.txt')).toBe('two for latest');
  });

  it('leaves nothing half written beside it', () => {
    publish(out, '0.1.0-2031.01.01', made('one'));
    publish(out, '0.1.0-2031.02.01', made('two'));
    expect(readdirSync(out).sort()).toEqual(['index.html', 'latest', 'v']);
    expect(readdirSync(path.join(out, 'v')).sort()).toEqual(['0.1.0-2031.01.01', '0.1.0-2031.02.01']);
  });
});
