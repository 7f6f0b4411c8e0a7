import ExcelJS from 'exceljs';
import { beforeAll, describe, expect, it } from 'vitest';
import { recheck } from '../../../src/cli/recheck/recheck.ts';
import { refreshed } from '../../../src/cli/recheck/refresh.ts';
import { openArchive } from '../../../src/files/xlsx/zip.ts';
import { altered, makeWorkbook, partOf, replacing, SHEET1 } from '../../files/xlsx/make.ts';

/** A workbook with what users add: looks, a note, a validation, a picture's part, another sheet, an extension. */
async function fullWorkbook(): Promise<Buffer> {
  const made = await makeWorkbook([
    {
      name: 'Pins',
      rows: [
        [3, 10, '=BURN.PIN.RODS(A1,B1)', '=BURN.PIN.OXYGEN(A:A,B:B)', '=SUM(C1:C2)'],
        [4, 12, '=BURN.PIN.RODS(A2,B2)'],
      ],
      looks: { 'A1:B2': { background: '#fff8e3' }, C1: { bold: true, format: '0.0' } },
      widths: { A: 120 },
      validations: { 'A1:A9': { message: 'a diameter' } },
      frozenRows: 1,
    },
    { name: 'Prices', rows: [['rod', 9]], looks: { A1: { italic: true } } },
  ]);
  return altered(made, {
    'xl/comments1.xml': () =>
      '<comments xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><authors><author>A</author></authors><commentList/></comments>',
    'xl/media/image1.png': () => 'not really a picture',
    'docProps/custom.xml': () => '<Properties  xmlns="x" ><!-- kept   as it is --></Properties>',
    [SHEET1]: replacing(
      '</worksheet>',
      '<!-- left -->\r\n<extLst><ext uri="{X}"><a xmlns="y"/></ext></extLst></worksheet>\n',
    ),
  });
}

describe('a workbook written with new results', () => {
  let source: Buffer;
  let edited: Buffer;
  beforeAll(async () => {
    source = await fullWorkbook();
    edited = altered(source, { [SHEET1]: replacing('<c r="A2" s="1"><v>4</v></c>', '<c r="A2" s="1"><v>6</v></c>') });
  });

  it('is the source to the byte where nothing moved', async () => {
    expect(source.equals(refreshed(await recheck(source)))).toBe(true);
  });

  it('keeps every other part to the byte, and in the sheet all but the values', async () => {
    const written = refreshed(await recheck(edited));
    const [before, after] = [openArchive(edited), openArchive(written)];
    expect(after.names).toEqual(before.names);
    for (const name of before.names)
      if (name !== SHEET1) expect(Buffer.from(after.read(name)).equals(before.read(name)), name).toBe(true);
    const withoutValues = (xml: string): string => xml.replace(/<v>[^<]*<\/v>/g, '<v/>');
    expect(withoutValues(partOf(written, SHEET1))).toBe(withoutValues(partOf(edited, SHEET1)));
    expect(partOf(written, SHEET1)).not.toBe(partOf(edited, SHEET1));
  });

  it('is the same when rechecked, its ordinary formulas too', async () => {
    const r = await recheck(refreshed(await recheck(edited), true));
    expect(r.cells.every((c) => c.status === 'same')).toBe(true);
    expect(r.others).toEqual([]);
  });

  it("leaves the sheet's own formulas as saved unless all are asked for", async () => {
    const r = await recheck(edited);
    expect(r.others).toMatchObject([{ place: 'Pins!E1' }]);
    const own = (file: Uint8Array): string | undefined => /<c r="E1".*?<\/c>/.exec(partOf(file, SHEET1))?.[0];
    expect(own(refreshed(r))).toBe(own(edited));
    expect(own(refreshed(r, true))).not.toBe(own(edited));
  });

  it('never puts an error of the calculation here over a saved value, but what our function refuses', async () => {
    const made = await makeWorkbook([
      { name: 'S', rows: [['=BURN.PIN.RODS(B1,10)*(1+0*C1)', 3, 0, '=BURN.PIN.RODS(B1,10)', '=A1+1']] },
    ]);
    const broken = altered(made, { [SHEET1]: replacing('<c r="C1"><v>0</v></c>', '<c r="C1" t="str"><v>x</v></c>') });
    const r = await recheck(broken);
    expect(r.cells.find((c) => c.cell === 'A1')).toMatchObject({ status: 'broken', after: { error: '#VALUE!' } });
    expect(broken.equals(refreshed(r, true))).toBe(true);
    const refused = altered(made, { [SHEET1]: replacing('<c r="B1"><v>3</v></c>', '<c r="B1"><v>-3</v></c>') });
    expect(partOf(refreshed(await recheck(refused)), SHEET1)).toMatch(/<c r="D1"[^>]* t="e"/);
  });

  it('is read by another program with the new values', async () => {
    const r = await recheck(edited);
    const book = new ExcelJS.Workbook();
    await book.xlsx.load(refreshed(r) as never);
    const pins = book.getWorksheet('Pins')!;
    expect(pins.getCell('C2').value).toMatchObject({ result: r.cells.find((c) => c.cell === 'C2')?.after });
    expect(pins.getCell('D2').value).toBe(r.cells.find((c) => c.cell === 'D2')?.after);
    expect(pins.getCell('A2').value).toBe(6);
    expect(pins.getCell('C1').font.bold).toBe(true);
  });

  it('holds texts and errors in the place of numbers', async () => {
    const made = await makeWorkbook([
      {
        name: 'S',
        rows: [
          ['=BURN.PIN.RODS(B1,10)', 3, '=BURN.VERSION()&"<&"', '=BURN.PIN.RODS(B1:B2,10)'],
          [null, 4],
        ],
      },
    ]);
    const off = altered(made, {
      [SHEET1]: (xml) =>
        xml
          .replace('<c r="B1"><v>3</v></c>', '<c r="B1"><v>-3</v></c>')
          .replace('<c r="B2"><v>4</v></c>', '')
          .replace(/<c r="C1"[^>]*>(<f[^>]*>[^<]*<\/f>)<v>[^<]*<\/v>/, '<c r="C1">$1<v>7</v>'),
    });
    const written = refreshed(await recheck(off));
    const xml = partOf(written, SHEET1);
    expect(xml).toMatch(/<c r="A1" cm="1" t="e"><f t="array" ref="A1">[^<]*<\/f><v>#VALUE!<\/v><\/c>/);
    expect(xml).toMatch(/<c r="C1" t="str"><f[^>]*>[^<]*<\/f><v>\d{4}\.\d\d\.\d\d&#60;&#38;<\/v><\/c>/);
    expect((await recheck(written)).cells.filter((c) => c.status !== 'same')).toEqual([]);
  });

  it('has a spill of another size: new cells in their rows, old ones emptied, its area told', async () => {
    const rows = [
      [3, 10, '=BURN.PIN.RODS(A:A,B:B)', 'kept'],
      [4, 12],
      [5, 14],
    ];
    const made = await makeWorkbook([{ name: 'S', rows }]);
    const grown = altered(made, {
      [SHEET1]: replacing(
        '</sheetData>',
        '<row r="4"><c r="A4"><v>4</v></c><c r="B4"><v>9</v></c><c r="D4"><v>1</v></c></row><row r="5"/><row r="7"><c r="A7"><v>4</v></c><c r="B7"><v>9</v></c></row></sheetData>',
      ),
    });
    const written = refreshed(await recheck(grown));
    const xml = partOf(written, SHEET1);
    expect(xml).toContain('ref="C1:C7"');
    expect(xml).toMatch(
      /<row r="4"><c r="A4"><v>4<\/v><\/c><c r="B4"><v>9<\/v><\/c><c r="C4"><v>\d+<\/v><\/c><c r="D4"><v>1<\/v><\/c><\/row><row r="5"\/><row r="7">/,
    );
    expect((await recheck(written)).cells.filter((c) => c.status !== 'same')).toEqual([]);

    const shrunk = altered(made, {
      [SHEET1]: (text) => text.replace('<c r="A3"><v>5</v></c><c r="B3"><v>14</v></c>', ''),
    });
    const less = refreshed(await recheck(shrunk));
    expect(partOf(less, SHEET1)).toContain('ref="C1:C2"');
    expect(partOf(less, SHEET1)).toContain('<c r="C3"/>');
    expect((await recheck(less)).cells.filter((c) => c.status !== 'same')).toEqual([]);
  });

  it('puts a spill into rows that were not there, and into an empty one', async () => {
    const made = await makeWorkbook([
      {
        name: 'Pins',
        rows: [
          [3, 10],
          [4, 12],
          [5, 14],
        ],
      },
      { name: 'S', rows: [['=BURN.PIN.RODS(Pins!A1:A1,Pins!B1:B1)'], [], [], [], ['below']] },
    ]);
    const longer = altered(made, {
      'xl/worksheets/sheet2.xml': (xml) =>
        replacing(
          'Pins!A1:A1,Pins!B1:B1',
          'Pins!A1:A3,Pins!B1:B3',
        )(replacing('</row><row r="5">', '</row><row r="3" ht="20"/><row r="5">')(xml)),
    });
    const written = refreshed(await recheck(longer));
    expect(partOf(written, 'xl/worksheets/sheet2.xml')).toMatch(
      /<\/row><row r="2"><c r="A2"><v>\d+<\/v><\/c><\/row><row r="3" ht="20"><c r="A3"><v>\d+<\/v><\/c><\/row><row r="5">/,
    );
    expect((await recheck(written)).cells.map((c) => c.status)).toEqual(['same', 'same', 'same']);
  });

  it('drops what a rich value said of the old result, and keeps the extensions of a cell', async () => {
    const made = await makeWorkbook([{ name: 'S', rows: [['=BURN.PIN.RODS(3,10)']] }]);
    const rich = altered(made, {
      [SHEET1]: replacing(
        /<c r="A1" cm="1">(.*?)<v>\d+<\/v><\/c>/,
        '<c r="A1" vm="3" cm="1" ph="1">$1<v>99</v><extLst><ext uri="{Y}"/></extLst></c>',
      ),
    });
    expect(partOf(refreshed(await recheck(rich)), SHEET1)).toMatch(
      /<c r="A1" cm="1" ph="1"><f [^>]*>[^<]*<\/f><v>\d<\/v><extLst><ext uri="\{Y\}"\/><\/extLst><\/c>/,
    );
  });
});
