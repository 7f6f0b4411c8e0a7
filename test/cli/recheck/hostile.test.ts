import { describe, expect, it, beforeAll } from 'vitest';
import { recheck } from '../../../src/cli/recheck/recheck.ts';
import { refreshed } from '../../../src/cli/recheck/refresh.ts';
import { newArchive, openArchive } from '../../../src/files/xlsx/zip.ts';
import { altered, makeWorkbook, partOf, replacing, SHEET1 } from '../../files/xlsx/make.ts';

let job: Buffer;
beforeAll(async () => {
  job = await makeWorkbook([{ name: 'S', rows: [['=BURN.PIN.RODS(B1,10)', 3, 'text', '=SUM(B1)']] }]);
});

const MAIN_RELS = 'xl/_rels/workbook.xml.rels';
const COMPOUND = Buffer.concat([Buffer.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]), Buffer.alloc(2000)]);

describe('a file that is no workbook to be read', () => {
  it.each([
    ['an empty file', () => Buffer.alloc(0), 'it is empty'],
    ['a text', () => Buffer.from('pin,diameter\n1,3\n'), 'it is no workbook (.xlsx, .xlsm or .ods)'],
    ['a workbook cut short', () => job.subarray(0, job.length / 2), 'damaged'],
    ['a workbook with a flipped bit', () => flipped(job), 'damaged'],
    [
      'a password-protected workbook',
      () => Buffer.concat([COMPOUND, Buffer.from('EncryptedPackage', 'utf16le'), Buffer.alloc(500)]),
      'protected by a password',
    ],
    ['an old binary workbook', () => COMPOUND, 'old binary workbook (.xls); save it as .xlsx'],
    [
      'a binary workbook',
      () => altered(job, { '_rels/.rels': replacing('xl/workbook.xml', 'xl/workbook.bin') }),
      'binary workbook (.xlsb); save it as .xlsx',
    ],
    [
      'an OpenDocument text',
      () =>
        newArchive(
          new Map([
            ['mimetype', Buffer.from('application/vnd.oasis.opendocument.text')],
            ['content.xml', Buffer.from('<x/>')],
          ]),
        ),
      'it is an OpenDocument file, but no workbook (application/vnd.oasis.opendocument.text)',
    ],
    [
      'another archive',
      () => newArchive(new Map([['readme.txt', Buffer.from('hello')]])),
      'is an archive, but holds no workbook',
    ],
    [
      'a text document in the same kind of package',
      () => altered(job, { 'xl/workbook.xml': () => '<document/>' }),
      'is no workbook but a document',
    ],
    [
      'a workbook without sheets',
      () => altered(job, { 'xl/workbook.xml': replacing(/<sheet .*?\/>/, '') }),
      'no sheet with cells',
    ],
    [
      'a workbook without one of ours',
      () => altered(job, { [SHEET1]: replacing('_xldudf_BURN_PIN_RODS(B1,10)', 'SUM(B1)') }),
      'there is no formula with a BURN function in it',
    ],
  ])('%s is refused, and why', async (_, file, why) => {
    await expect(recheck(file())).rejects.toMatchObject({
      name: 'UnreadableFile',
      message: expect.stringContaining(why) as string,
    });
  });
});

describe('a damaged workbook', () => {
  it.each([
    [
      'a part that is missing',
      { [MAIN_RELS]: replacing('worksheets/sheet1.xml', 'worksheets/sheet7.xml') },
      'the part xl/worksheets/sheet7.xml is missing',
    ],
    [
      'XML that is cut off',
      { [SHEET1]: (xml: string) => xml.slice(0, -20) },
      'the part xl/worksheets/sheet1.xml cannot be read: ',
    ],
    ['an element not closed', { [SHEET1]: replacing('</row>', '') }, 'cannot be read'],
    ['cells out of order', { [SHEET1]: replacing('r="B1"', 'r="A1"') }, 'is damaged: cell A1 is out of order'],
    ['a cell of another row', { [SHEET1]: replacing('r="B1"', 'r="B2"') }, 'is damaged: cell B2 is out of order'],
    ['rows out of order', { [SHEET1]: replacing('</sheetData>', '<row r="1"/></sheetData>') }, 'row 1 is out of order'],
    ['a cell beyond the sheet', { [SHEET1]: replacing('r="B1"', 'r="ZZZ1"') }, 'cell ZZZ1 is out of order'],
    [
      'a text that is not there',
      { [SHEET1]: replacing('<c r="B1"><v>3</v>', '<c r="B1" t="s"><v>3</v>') },
      'the text of B1 is missing',
    ],
    [
      'a shared formula without its first',
      { [SHEET1]: replacing('<f>SUM(B1)</f>', '<f t="shared" si="9"/>') },
      'the shared formula of D1 is missing',
    ],
    [
      'no UTF-8',
      { [SHEET1]: replacing('encoding="UTF-8"', 'encoding="ISO-8859-1"') },
      'its encoding is ISO-8859-1; must be UTF-8',
    ],
  ])('%s', async (_, parts, why) => {
    await expect(recheck(altered(job, parts as never))).rejects.toThrow(why);
  });

  it('bytes that are no UTF-8, and UTF-16', async () => {
    const withBytes = (bytes: Uint8Array): Buffer => Buffer.from(openArchive(job).with(new Map([[SHEET1, bytes]])));
    await expect(
      recheck(withBytes(Buffer.from(partOf(job, SHEET1).replace('text', '\xff'), 'latin1'))),
    ).rejects.toThrow('is no UTF-8 text');
    await expect(recheck(withBytes(Buffer.from(`\ufeff${partOf(job, SHEET1)}`, 'utf16le')))).rejects.toThrow('UTF-16');
  });

  it('a number or an attribute that makes no sense is passed over', async () => {
    const odd = altered(job, {
      [SHEET1]: (xml) =>
        xml
          .replace('<c r="B1"><v>3</v>', '<c r="B1" s="x"><v>3</v>')
          .replace('<f>SUM(B1)</f><v>3</v>', '<f>SUM(B1)</f><v>three</v>'),
    });
    expect((await recheck(odd)).cells).toMatchObject([{ cell: 'A1', status: 'same' }]);
  });
});

describe('a hostile workbook', () => {
  it.each([
    ['entities that grow', '<!DOCTYPE worksheet [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]>'],
    ['an entity that points to a file', '<!DOCTYPE worksheet [<!ENTITY x SYSTEM "file:///etc/passwd">]>'],
    ['a document type that points to the network', '<!DOCTYPE worksheet SYSTEM "http://127.0.0.1:9/x.dtd">'],
  ])('with %s is refused before anything of it is used', async (_, doctype) => {
    const declared = altered(job, {
      [SHEET1]: (xml) => xml.replace('?>\n', `?>\n${doctype}`).replace('<v>3</v>', '<v>&a;&x;</v>'),
    });
    await expect(recheck(declared)).rejects.toThrow('it has a document type, which no workbook has');
  });

  it('with an entity it does not declare is refused', async () => {
    await expect(
      recheck(altered(job, { [SHEET1]: replacing('<v>3</v></c><c r="C1"', '<v>&x;</v></c><c r="C1"') })),
    ).rejects.toThrow('cannot be read');
  });

  it('with elements deep inside one another is refused', async () => {
    const deep = '<a>'.repeat(100_000);
    await expect(recheck(altered(job, { [SHEET1]: replacing('<sheetData>', `${deep}<sheetData>`) }))).rejects.toThrow(
      'more than 64 deep',
    );
  });

  it('with a relationship out of the package is refused, and one to the network is not followed', async () => {
    const out = altered(job, { [MAIN_RELS]: replacing('Target="styles.xml"', 'Target="../../../etc/passwd"') });
    await expect(recheck(out)).rejects.toThrow('points out of the package: ../../../etc/passwd');
    const away = altered(job, {
      [MAIN_RELS]: replacing('Target="styles.xml"', 'Target="http://127.0.0.1:9/x" TargetMode="External"'),
    });
    expect((await recheck(away)).cells).toHaveLength(1);
  });

  it('with an array over the whole sheet costs no more than what it shows', async () => {
    const huge = altered(job, {
      [SHEET1]: (xml) =>
        xml
          .replace(/ref="A1"/, 'ref="A1:XFD1048576"')
          .replace('<f>SUM(B1)</f>', '<f t="array" ref="D1:XFD1048576">SUM(B1)</f>'),
    });
    const r = await recheck(huge);
    expect(r.cells).toMatchObject([
      { cell: 'A1', status: 'broken', message: 'it covers more cells than are taken here' },
    ]);
  });

  it('with a cell at the far end of the sheet costs no more than another', async () => {
    const far = altered(job, {
      [SHEET1]: replacing('</sheetData>', '<row r="1048576"><c r="XFD1048576"><v>1</v></c></row></sheetData>'),
    });
    expect((await recheck(far)).cells).toMatchObject([{ status: 'same' }]);
  });

  it('with names that stand for one another without end', async () => {
    const names = (...defined: readonly string[]) =>
      altered(job, {
        'xl/workbook.xml': replacing('</sheets>', `</sheets><definedNames>${defined.join('')}</definedNames>`),
        [SHEET1]: replacing('BURN_PIN_RODS(B1,10)', 'BURN_PIN_RODS(a,10)'),
      });
    const message = async (file: Buffer): Promise<string | undefined> => (await recheck(file)).cells[0]?.message;
    expect(await message(names('<definedName name="a">b</definedName>', '<definedName name="b">a</definedName>'))).toBe(
      'the name a is defined by itself',
    );
    const many = (i: number): string => Array.from({ length: 30 }, () => `name_${i}`).join('+');
    const growing = Array.from(
      { length: 14 },
      (_, i) => `<definedName name="${i === 0 ? 'a' : `name_${i}`}">${many(i + 1)}</definedName>`,
    );
    expect(await message(names(...growing, '<definedName name="name_14">1</definedName>'))).toBe(
      'with its names put in, the formula is too long',
    );
  });

  it('with formulas that nest without end, or chain a thousand terms', async () => {
    const message = async (formula: string): Promise<string | undefined> =>
      (await recheck(altered(job, { [SHEET1]: replacing('_xldudf_BURN_PIN_RODS(B1,10)', formula) }))).cells[0]?.message;
    expect(await message(`_xldudf_BURN_PIN_RODS(${'('.repeat(500)}3${')'.repeat(500)},10)`)).toContain(
      'more than 64 deep',
    );
    expect(await message(`_xldudf_BURN_PIN_RODS(${'SUM('.repeat(500)}3${')'.repeat(500)},10)`)).toContain(
      'more than 64 deep',
    );
    expect(await message(`_xldudf_BURN_PIN_RODS(${'0+'.repeat(1000)}3,10)`)).toBeUndefined();
  });

  it('with a million characters in one formula, a text or a name', async () => {
    const long = 'x'.repeat(1_000_000);
    const r = await recheck(
      altered(job, {
        'xl/workbook.xml': replacing(
          '</sheets>',
          `</sheets><definedNames><definedName name="long">${long}</definedName></definedNames>`,
        ),
        [SHEET1]: (xml) => xml.replace('text', long).replace('<f>SUM(B1)</f>', `<f>SUM(B1)&amp;"${long}"</f>`),
      }),
    );
    expect(r.cells).toMatchObject([{ status: 'same' }]);
    expect(r.kept).toMatchObject([
      { place: 'S!D1', why: expect.stringContaining('characters; the host takes 8,192') as string },
    ]);
  });
});

describe('a macro workbook', () => {
  it('is read, its macros left alone and kept to the byte', async () => {
    const macros = Buffer.from('not really a program');
    const made = altered(job, {
      '[Content_Types].xml': replacing(
        'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml',
        'application/vnd.ms-excel.sheet.macroEnabled.main+xml',
      ),
      [MAIN_RELS]: replacing(
        '</Relationships>',
        '<Relationship Id="rId99" Type="http://schemas.microsoft.com/office/2006/relationships/vbaProject" Target="vbaProject.bin"/></Relationships>',
      ),
      'xl/vbaProject.bin': () => macros.toString(),
      [SHEET1]: replacing('<c r="B1"><v>3</v></c>', '<c r="B1"><v>4</v></c>'),
    });
    const r = await recheck(made);
    expect(r.macros).toBe(true);
    expect(Buffer.from(openArchive(refreshed(r)).read('xl/vbaProject.bin')).equals(macros)).toBe(true);
  });
});

/** With one bit of the packed sheet changed. */
function flipped(file: Buffer): Buffer {
  const changed = Buffer.from(file);
  const at = changed.indexOf(SHEET1) + SHEET1.length + 40;
  changed[at] = (changed[at] ?? 0) ^ 4;
  return changed;
}
