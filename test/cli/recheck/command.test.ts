import {
  existsSync,
  linkSync,
  lstatSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { Ended } from '../../../src/cli/ended.ts';
import { readArguments, recheckFile, type Asked } from '../../../src/cli/recheck/command.ts';
import { writeWhole } from '../../../src/cli/write-file.ts';
import { altered, makeWorkbook, partOf, replacing, SHEET1 } from '../../files/xlsx/make.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'rodsheet-'));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string): string => path.join(folder, name);

async function run(...args: readonly string[]): Promise<Ended> {
  const asked = readArguments(args);
  return 'code' in asked ? asked : recheckFile(asked);
}

let same: Buffer;
let moved: Buffer;
let broken: Buffer;
beforeAll(async () => {
  same = await makeWorkbook([
    { name: 'Job sheet', rows: [['=BURN.PIN.RODS(B1,10)', 3, '=BURN.VERSION()', '=SUM(A1)']] },
  ]);
  moved = altered(same, { [SHEET1]: replacing('<v>3</v></c><c r="C1"', '<v>6</v></c><c r="C1"') });
  broken = altered(moved, { [SHEET1]: replacing('BURN_PIN_RODS', 'BURN_PIN_ROD') });
});
beforeEach(() => {
  for (const name of readdirSync(folder)) rmSync(at(name), { force: true, recursive: true });
  writeFileSync(at('same.xlsx'), same);
  writeFileSync(at('moved.xlsx'), moved);
  writeFileSync(at('broken.xlsx'), broken);
});

describe('recheck on the command line', () => {
  it('says with its exit code what came out: the same, moved, broken', async () => {
    expect((await run(at('same.xlsx'))).code).toBe(0);
    expect((await run(at('moved.xlsx'))).code).toBe(1);
    expect((await run(at('broken.xlsx'))).code).toBe(3);
  });

  it("tells cell by cell what moved and why, and what of the sheet's own came out differently", async () => {
    const { out } = await run(at('moved.xlsx'));
    const lines = out.split('\n');
    expect(lines[0]).toBe('moved.xlsx: 1 formula with BURN functions, 1 cell');
    expect(lines[1]).toMatch(/^calculated with \d{4}\.\d\d\.\d\d \('Job sheet'!C1\); rechecked with /);
    expect(lines.slice(2)).toEqual([
      'same    0',
      'moved   1',
      expect.stringMatching(/^ {2}'Job sheet'!A1 {2}\d+ -> \d+ {2}input: a cell it reads, or the formula, was changed/),
      'broken  0',
      "1 cell of the sheet's own formulas came out differently (--write leaves them as saved, unless --all-formulas is given):",
      expect.stringMatching(/^ {2}'Job sheet'!D1 {2}\d+ -> \d+$/),
    ]);
    expect((await run(at('broken.xlsx'))).out).toMatch(
      / {2}'Job sheet'!A1 {2}was \d+ {2}there is no function BURN\.PIN\.ROD; nearest: BURN\.PIN\.RODS/,
    );
  });

  it('lets nothing in the workbook look like a line of its own, turn the writing round or move the cursor', async () => {
    const evil = 'x\u0085written: job.xlsx\u202e\u009b2J';
    writeFileSync(
      at('evil.xlsx'),
      altered(same, {
        'xl/workbook.xml': replacing('Job sheet', evil),
        [SHEET1]: (xml) =>
          xml.replace(/(<c r="A1"[^>]*?)(?: t="\w+")?>(.*?)<v>[^<]*<\/v>/, `$1 t="str">$2<v>${evil}</v>`),
      }),
    );
    const { out } = await run(at('evil.xlsx'));
    expect(out).toMatch(/x.written: job\.xlsx\\u202e\\u009b2J/);
    expect(out).not.toMatch(/[\u0080-\u009f\u202e]/);
    const json = (await run('--json', at('evil.xlsx'))).out;
    expect(json).not.toMatch(/[\u0080-\u009f\u202e]/);
    expect(JSON.parse(json)).toMatchObject({ cells: [{ sheet: evil, before: evil }] });
    const { err } = await run(at('no\u009bsuch\nfile.xlsx'));
    expect(err.split('\n')).toHaveLength(1);
    expect(err).not.toContain('\u009b');
  });

  it('gives functions that another program saved the names of the host, and lists them', async () => {
    writeFileSync(at('other.xlsx'), altered(same, { [SHEET1]: replacing('_xldudf_BURN_PIN_RODS', 'BURN.PIN.RODS') }));
    expect(await run('--host-names', at('other.xlsx'))).toMatchObject({
      code: 2,
      err: expect.stringContaining('needs --write') as string,
    });
    const { code, out } = await run('--host-names', '--write', at('host.xlsx'), at('other.xlsx'));
    expect(code).toBe(0);
    expect(out).toContain(
      "renamed 1 for the spreadsheet host\n  'Job sheet'!A1  =BURN.PIN.RODS(B1,10) -> _xldudf_BURN_PIN_RODS(B1,10)\n",
    );
    expect(partOf(readFileSync(at('host.xlsx')), SHEET1)).toContain('_xldudf_BURN_PIN_RODS(B1,10)');
    expect((await run(at('host.xlsx'))).code).toBe(0);
    const { out: json } = await run('--json', '--host-names', '--write', at('json.xlsx'), at('other.xlsx'));
    expect(JSON.parse(json)).toMatchObject({ renamed: [{ place: "'Job sheet'!A1", spills: false }] });
  });

  it('shows 40 lines of a kind, or all', async () => {
    const rows = Array.from({ length: 60 }, (_, i) => [`=BURN.PIN.HOLE(${i + 2})`]);
    const many = altered(await makeWorkbook([{ name: 'S', rows }]), {
      [SHEET1]: (xml) => xml.replace(/<v>[^<]*<\/v>/g, '<v>1</v>'),
    });
    writeFileSync(at('many.xlsx'), many);
    expect((await run(at('many.xlsx'))).out).toContain('  and 20 more (--all shows them)');
    expect((await run('--all', at('many.xlsx'))).out).not.toContain('more (');
  });

  it('gives one object with --json', async () => {
    const report = JSON.parse((await run('--json', at('moved.xlsx'))).out) as Record<string, unknown>;
    expect(report).toMatchObject({
      file: 'moved.xlsx',
      formulas: 1,
      counts: { same: 0, moved: 1, broken: 0 },
      macros: false,
      kept: [],
    });
    expect(report['cells']).toMatchObject([
      { sheet: 'Job sheet', cell: 'A1', functions: ['BURN.PIN.RODS'], status: 'moved', why: { kind: 'input' } },
    ]);
  });

  it('takes the defaults of a date, and says where none were in force', async () => {
    expect((await run('--as-of', '2099-01-01', at('same.xlsx'))).code).toBe(0);
    expect(await run('--as-of=1999-01-01', at('same.xlsx'))).toMatchObject({
      code: 2,
      err: expect.stringContaining('no version was in force at 1999-01-01') as string,
    });
  });

  it.each([
    [[], 'No workbook given'],
    [['a.xlsx', 'b.xlsx'], 'One workbook at a time'],
    [['--jsn', 'a.xlsx'], 'no option --jsn'],
    [['a.xlsx', '--write'], '--write needs'],
    [['a.xlsx', '--as-of'], '--as-of needs'],
    [['a.xlsx', '--seconds', '0'], '--seconds needs'],
  ])('answers wrong use %j with exit code 2 and how it is used', async (args, why) => {
    const { code, out, err } = await run(...args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(why);
    expect(err).toContain('npm run --silent recheck');
  });

  it('explains itself', async () => {
    const { code, out } = await run('--help');
    expect(code).toBe(0);
    expect(out).toMatch(/Exit code[^]* 1 {2}[^]*some moved[^]* 2 {2}wrong use[^]* 3 {2}some cell is broken/);
  });

  it('answers a file that is not there, a folder and one that may not be read with exit code 2', async () => {
    expect(await run(at('none.xlsx'))).toMatchObject({
      code: 2,
      err: expect.stringContaining('none.xlsx: ENOENT') as string,
    });
    expect(await run(folder)).toMatchObject({ code: 2, err: expect.stringContaining('EISDIR') as string });
    writeFileSync(at('noise.xlsx'), 'noise');
    expect(await run(at('noise.xlsx'))).toMatchObject({
      code: 2,
      out: '',
      err: `${at('noise.xlsx')}: it is no workbook (.xlsx, .xlsm or .ods)`,
    });
  });

  it('does not take a file of 70 MB, and says so', async () => {
    writeFileSync(at('huge.xlsx'), same);
    truncateSync(at('huge.xlsx'), 70_000_000);
    expect(await run(at('huge.xlsx'))).toMatchObject({
      code: 2,
      err: `${at('huge.xlsx')}: it has 70 MB; at most 64 MB are taken`,
    });
  });

  it('takes a file of 50 MB, most of it pictures', async () => {
    const picture = Buffer.alloc(50_000_000);
    for (let i = 0; i < picture.length; i += 8) picture.writeUInt32LE((i * 2654435761) >>> 0, i);
    writeFileSync(at('pictures.xlsx'), altered(same, { 'xl/media/image1.png': () => picture.toString('latin1') }));
    expect(readFileSync(at('pictures.xlsx')).length).toBeGreaterThan(10_000_000);
    expect((await run(at('pictures.xlsx'))).code).toBe(0);
  });
});

describe('writing', () => {
  const names = (): readonly string[] => readdirSync(folder).sort();

  it('puts a new file beside the source, whole, and leaves the source as it is', async () => {
    expect(await run('--write', at('new.xlsx'), at('moved.xlsx'))).toMatchObject({
      code: 1,
      out: expect.stringMatching(/written: .*new\.xlsx$/) as string,
    });
    expect(readFileSync(at('moved.xlsx')).equals(moved)).toBe(true);
    expect((await run(at('new.xlsx'))).code).toBe(0);
    expect(names()).toEqual(['broken.xlsx', 'moved.xlsx', 'new.xlsx', 'same.xlsx']);
  });

  it('never takes the place of the source without --force, by whatever name it goes', async () => {
    symlinkSync(at('moved.xlsx'), at('link.xlsx'));
    linkSync(at('moved.xlsx'), at('hard.xlsx'));
    for (const name of ['moved.xlsx', 'link.xlsx', 'hard.xlsx', '../' + path.basename(folder) + '/moved.xlsx']) {
      expect(await run('--write', at(name), at('moved.xlsx')), name).toMatchObject({
        code: 2,
        err: expect.stringContaining('is the workbook itself; --force') as string,
      });
    }
    expect(readFileSync(at('moved.xlsx')).equals(moved)).toBe(true);
    expect((await run('--write', at('moved.xlsx'), '--force', at('moved.xlsx'))).code).toBe(1);
    expect((await run(at('moved.xlsx'))).code).toBe(0);
  });

  it('never takes the place of another file without --force', async () => {
    writeFileSync(at('other.xlsx'), 'precious');
    expect(await run('--write', at('other.xlsx'), at('moved.xlsx'))).toMatchObject({
      code: 2,
      err: expect.stringContaining('is there already; --force') as string,
    });
    expect(readFileSync(at('other.xlsx'), 'utf8')).toBe('precious');
    expect((await run('--force', '--write', at('other.xlsx'), at('moved.xlsx'))).code).toBe(1);
    expect((await run(at('other.xlsx'))).code).toBe(0);
  });

  it('does not write where it may not, nor leave half a file', async () => {
    expect(await run('--write', at('none/new.xlsx'), at('moved.xlsx'))).toMatchObject({
      code: 2,
      err: expect.stringContaining('ENOENT') as string,
    });
    expect(await run('--write', at('new.xlsm'), at('moved.xlsx'))).toMatchObject({
      code: 2,
      err: expect.stringContaining('must end in .xlsx') as string,
    });
    expect(names()).toEqual(['broken.xlsx', 'moved.xlsx', 'same.xlsx']);
  });

  it('writes what can be calculated where something is broken, and leaves the broken cell as it was', async () => {
    expect((await run('--write', at('new.xlsx'), at('broken.xlsx'))).code).toBe(3);
    const cell = /<c r="A1".*?<\/c>/.exec(partOf(broken, SHEET1))?.[0];
    expect(cell).toContain('BURN_PIN_ROD(');
    expect(partOf(readFileSync(at('new.xlsx')), SHEET1)).toContain(cell);
  });

  it('keeps the rights of a file that it replaces, and a link to it a link', () => {
    writeFileSync(at('secret.txt'), 'old', { mode: 0o600 });
    symlinkSync(at('secret.txt'), at('link.txt'));
    writeWhole(at('link.txt'), Buffer.from('new'), true);
    expect(readFileSync(at('secret.txt'), 'utf8')).toBe('new');
    expect(lstatSync(at('link.txt')).isSymbolicLink()).toBe(true);
    expect(statSync(at('secret.txt')).mode & 0o777).toBe(0o600);
  });

  it('speaks of the file that was asked for, and clears away what a killed run left', () => {
    expect(() => writeWhole(at('gone/there.txt'), Buffer.from('new'), false)).toThrow(`open '${at('gone/there.txt')}'`);
    // No process has this number: it is more than a system gives.
    writeFileSync(at('left.txt.99999999.part'), 'half');
    writeWhole(at('left.txt'), Buffer.from('whole'), false);
    expect(names().filter((name) => name.startsWith('left'))).toEqual(['left.txt']);
  });

  it('leaves what was there where the disk refuses', () => {
    writeFileSync(at('there.txt'), 'there');
    expect(() => writeWhole(at('there.txt'), Buffer.from('new'), false)).toThrow('EEXIST');
    expect(readFileSync(at('there.txt'), 'utf8')).toBe('there');
    expect(() => writeWhole(at('gone/there.txt'), Buffer.from('new'), true)).toThrow('ENOENT');
    writeWhole(at('there.txt'), Buffer.from('new'), true);
    expect(readFileSync(at('there.txt'), 'utf8')).toBe('new');
    expect(existsSync(at(`there.txt.${process.pid}.part`))).toBe(false);
  });
});

it('reads every option', () => {
  const asked: Asked = {
    file: 'job.xlsx',
    json: true,
    all: true,
    asOf: '2026-11-25',
    write: 'out.xlsx',
    force: true,
    allFormulas: true,
    hostNames: false,
    keepHistory: false,
    seconds: 9,
  };
  expect(
    readArguments([
      '--json',
      '--all',
      '--as-of=2026-11-25',
      '--write',
      'out.xlsx',
      '--force',
      '--all-formulas',
      '--seconds',
      '9',
      'job.xlsx',
    ]),
  ).toEqual(asked);
  expect(readArguments(['--', '--odd name.xlsx'])).toMatchObject({ file: '--odd name.xlsx', seconds: 120 });
});
