import { execFile } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';

const RUN = new URL('../../src/cli/run.mjs', import.meta.url).pathname;
const cache = mkdtempSync(path.join(tmpdir(), 'rodsheet-'));
afterAll(() => rmSync(cache, { recursive: true, force: true }));

interface Ended {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

const run = (...args: string[]): Promise<Ended> =>
  new Promise((resolve) => {
    execFile(
      process.execPath,
      [RUN, ...args],
      { env: { ...process.env, RODSHEET_CACHE: cache } },
      (error, out, err) => {
        resolve({ code: typeof error?.code === 'number' ? error.code : 0, out, err });
      },
    );
  });

describe('the command started by hand', () => {
  it('bundles itself, and three started at once do not disturb one another', async () => {
    const all = await Promise.all([1, 2, 3].map((n) => run('calc', `=${n}+SUM({1;2})`)));
    expect(all).toEqual([1, 2, 3].map((n) => ({ code: 0, out: `${n + 3}\n`, err: '' })));
    expect(readdirSync(cache)).toHaveLength(1);
  });
  it('knows the functions that the host loads', async () => {
    const { code, out } = await run('calc', '--json', '=SUM(BURN.PIN.RODS({3;4},{10;12}))', '=BURN.PIN.OXYGEN(-1,12)');
    const [sum, bad] = out
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as { values: [[unknown]] });
    expect(sum?.values[0][0]).toSatisfy((rods) => Number.isInteger(rods) && Number(rods) > 0);
    expect(bad?.values[0][0]).toEqual({ error: '#VALUE!', message: expect.stringContaining('-1 in') as string });
    expect(code).toBe(1);
  });
  it('says how it is used where the command is not known', async () => {
    expect(await run('clac')).toMatchObject({ code: 2, err: expect.stringContaining('calc') as string });
  });
});

describe('output that nobody takes', () => {
  const shell = (line: string): Promise<Ended> =>
    new Promise((resolve) => {
      execFile('bash', ['-c', line], { env: { ...process.env, RODSHEET_CACHE: cache } }, (error, out, err) => {
        resolve({ code: typeof error?.code === 'number' ? error.code : 0, out, err });
      });
    });
  const calc = `'${process.execPath}' '${RUN}' calc`;
  it('is no fault where the reader has seen enough', async () => {
    const { err, code } = await shell(`set -o pipefail; ${calc} --help | head -1`);
    expect([code, err]).toEqual([0, '']);
  });
  it.skipIf(!existsSync('/dev/full'))('is told in one line where the disk is full', async () => {
    const { err, code } = await shell(`${calc} '=1' > /dev/full`);
    expect(code).toBe(2);
    expect(err).toMatch(/^the output cannot be written: ENOSPC[^\n]*\n$/);
  });
  it('is given up in time where a pipe gives nothing to read, or a formula takes too long', async () => {
    expect(await shell(`${calc} --seconds 3 --sheet <(sleep 9 2>&-) '=1'`)).toEqual({
      code: 2,
      out: '',
      err: 'given up after 3 seconds\n',
    });
    expect(await shell(`'${process.execPath}' '${RUN}' recheck --seconds 3 <(sleep 9 2>&-)`)).toMatchObject({
      code: 2,
      out: '',
      err: expect.stringMatching(/: given up after 3 seconds; nothing was written\n$/) as string,
    });
    expect(await shell(`${calc} --seconds 3 '=SUM(MAKEARRAY(9000,9000,LAMBDA(a,b,a*b)))'`)).toMatchObject({
      code: 2,
      err: 'given up after 3 seconds\n',
    });
  });
  it.each([
    // The engine refuses what repeats a repetition, and not this, which tries every way to take 45 letters one or two at a time.
    `=REGEXREPLACE(REPT("a",45),"(a|aa)+$b","x")`,
    `=REGEXMATCH(REPT("a",45),"^(a|aa)+b")`,
  ])('is given up in time where a pattern is sought without end: %s', async (formula) => {
    expect(await shell(`${calc} --seconds 3 '${formula}'`)).toEqual({
      code: 2,
      out: '',
      err: 'given up after 3 seconds\n',
    });
  });
  it('calculates with a sheet of a million rows', async () => {
    const file = path.join(cache, 'million.csv');
    writeFileSync(file, Array.from({ length: 1_000_000 }, (_, i) => `${i},3/8\n`).join(''));
    expect(await run('calc', '--seconds', '600', '--sheet', file, '=SUM(A:A)+COUNTIF(B:B,"3/8")')).toEqual({
      code: 0,
      out: `${(1_000_000 * 999_999) / 2 + 1_000_000}\n`,
      err: '',
    });
  });
});
