import { beforeAll, describe, expect, it } from 'vitest';
import type { Change } from '../../../src/core/assumptions/history.ts';
import { FIRST_VERSION } from '../../../src/core/assumptions/history.ts';
import { recheck, type CheckedCell, type Recheck } from '../../../src/cli/recheck/recheck.ts';
import { reportLines } from '../../../src/cli/recheck/report.ts';
import { refreshed } from '../../../src/cli/recheck/refresh.ts';
import { hostFunctions } from '../../../src/sheet/host-functions.ts';
import { functionsOf } from '../../../src/cli/recheck/reasons.ts';
import type { NewSheet } from '../../../src/files/xlsx/new-workbook.ts';
import { altered, makeWorkbook, replacing, SHEET1 } from '../../files/xlsx/make.ts';

const PINS: NewSheet = {
  name: 'Job sheet',
  rows: [
    ['diameter', 'length', 'rods', 'oxygen', null, 'name', 'value'],
    [3, 10, '=BURN.PIN.RODS(A2,B2,,,,F1:G3)', '=BURN.PIN.OXYGEN(A2:A4,B2:B4)', null, 'stub', 4],
    [4, 12, '=BURN.PIN.RODS(A3,B3,,,,F1:G3)', null, null, 'idle oxygen share', 0.1],
    [{ text: '100 mm' }, 14, '=BURN.PIN.RODS(A4,B4,,,,F1:G3)'],
    [null, null, '=SUM(C2:C4)', '=SUM(D2:D4)'],
    ['=BURN.VERSION()'],
  ],
};
const counts = ({ cells }: Recheck): string =>
  (['same', 'moved', 'broken'] as const).map((s) => cells.filter((c) => c.status === s).length).join(' ');
const of = (r: Recheck, cell: string): CheckedCell => r.cells.find((c) => c.cell === cell)!;
const sheet = (xml: (text: string) => string) => ({ [SHEET1]: xml });

let job: Buffer;
beforeAll(async () => {
  job = await makeWorkbook([PINS]);
});

describe('a workbook as it was saved', () => {
  it('comes out the same, cell by cell, with the version it was calculated with', async () => {
    const r = await recheck(job);
    expect(counts(r)).toBe('6 0 0');
    expect(r.formulas).toBe(4);
    expect(r.cells.map((c) => c.cell)).toEqual(['C2', 'D2', 'D3', 'D4', 'C3', 'C4']);
    expect(r.cells[0]).toEqual({
      sheet: 'Job sheet',
      cell: 'C2',
      functions: ['BURN.PIN.RODS'],
      status: 'same',
      before: expect.any(Number) as number,
      after: r.cells[0]?.before,
    });
    expect(r.versions).toEqual([{ place: "'Job sheet'!A6", version: FIRST_VERSION }]);
    expect(r.others).toEqual([]);
    expect(r.kept).toEqual([]);
  });

  it("takes the last digits of another computer's calculation for the same, and no more", async () => {
    const saved = Number((of(await recheck(job), 'D2').before as number).toPrecision(17));
    const at = (factor: number) => altered(job, sheet(replacing(`<v>${saved}</v>`, `<v>${saved * factor}</v>`)));
    expect(counts(await recheck(at(1 + 1e-12)))).toBe('6 0 0');
    expect(counts(await recheck(at(1 + 1e-7)))).toBe('5 1 0');
  });
});

describe('a fingerprint beside the version', () => {
  const rows = [
    ['=BURN.PIN.RODS(4,12,,,,C1:D2)', '=BURN.VERSION(C1:D2)', 'stub', 4],
    [null, null, 'burning duty', 0.6],
  ];

  it('stands for the assumptions that the workbook was saved with', async () => {
    const r = await recheck(await makeWorkbook([{ name: 'S', rows }]));
    expect(r.otherAssumptions).toEqual([]);
    expect(r.versions.map((v) => v.version)).toEqual([FIRST_VERSION]);
  });

  it('tells of the same version with other assumptions, and which depart from the defaults now', async () => {
    const made = await makeWorkbook([{ name: 'S', rows }]);
    const r = await recheck(altered(made, sheet(replacing('<v>0.6</v>', '<v>0.5</v>'))));
    expect(r.otherAssumptions).toEqual([
      {
        place: 'S!B1',
        before: expect.stringMatching(/^\S+ [0-9a-f]{8}$/) as string,
        after: expect.stringMatching(/^\S+ [0-9a-f]{8}$/) as string,
        departures: ['stub 4 in (default 3)', 'burning duty 0.5 (default 0.7)'],
      },
    ]);
    expect(reportLines('job.xlsx', r)).toContain(
      'S!B1  same version, other assumptions: stub 4 in (default 3), burning duty 0.5 (default 0.7)',
    );
  });
});

describe('stored forms of a formula', () => {
  it('name one function each, though `_` stands for every period', () => {
    const stored = hostFunctions.map((f) => f.name.replaceAll('.', '_'));
    expect(new Set(stored).size).toBe(stored.length);
    for (const f of hostFunctions) expect(f.name).not.toContain('_');
  });

  const forms: readonly (readonly [string, string])[] = [
    ['for itself, not as an array', '<c r="C3"><f>_xldudf_BURN_PIN_RODS(A3,B3,,,,F1:G3)</f>'],
    ['with the number of another workbook before it', '<c r="C3"><f>[2]!_xldudf_BURN_PIN_RODS(A3,B3,,,,F1:G3)</f>'],
    ['by its own name', '<c r="C3"><f>BURN.PIN.RODS(A3,B3,,,,F1:G3)</f>'],
    ['in small letters', '<c r="C3"><f>_xldudf_burn_pin_rods(A3,B3,,,,F1:G3)</f>'],
    ['with periods kept', '<c r="C3"><f>_xldudf_BURN_PIN.RODS(A3,B3,,,,F1:G3)</f>'],
    ['as another kind of add-in function', '<c r="C3"><f>_xll.BURN.PIN.RODS(A3,B3,,,,F1:G3)</f>'],
    ['as an array of the old kind', '<c r="C3"><f t="array" ref="C3">_xldudf_BURN_PIN_RODS(A3,B3,,,,F1:G3)</f>'],
    [
      "with the sheet's name in each reference",
      "<c r=\"C3\"><f>_xldudf_BURN_PIN_RODS('Job sheet'!A3,'Job sheet'!$B$3,,,,'Job sheet'!F1:G3)</f>",
    ],
  ];
  it.each(forms)('%s, is read and calculated', async (_, form) => {
    const r = await recheck(altered(job, sheet(replacing(/<c r="C3"[^>]*><f[^>]*>[^<]*<\/f>/, form))));
    expect(of(r, 'C3')).toMatchObject({ status: 'same', functions: ['BURN.PIN.RODS'] });
    expect(counts(r)).toBe('6 0 0');
  });

  it('shared down a column, is read in every cell', async () => {
    const shared = altered(
      job,
      sheet((xml) =>
        replacing(
          /<c r="C4"[^>]*><f[^>]*>[^<]*<\/f>/,
          '<c r="C4"><f t="shared" si="0"/>',
        )(
          replacing(
            /<c r="C3"[^>]*><f[^>]*>[^<]*<\/f>/,
            '<c r="C3"><f t="shared" si="0" ref="C3:C4">_xldudf_BURN_PIN_RODS(A3,B3,,,,F$1:G$3)</f>',
          )(xml),
        ),
      ),
    );
    expect(counts(await recheck(shared))).toBe('6 0 0');
  });

  it('inside another formula, is found', async () => {
    const r = await recheck(
      await makeWorkbook([{ name: 'S', rows: [[3, 10, '=ROUND(SUM(BURN.PIN.OXYGEN(A1,B1))*1.1,0)&" scf"']] }]),
    );
    expect(r.cells).toMatchObject([{ cell: 'C1', status: 'same', functions: ['BURN.PIN.OXYGEN'] }]);
  });

  it('beside elements and attributes of the same names in extensions, is found as it stands', async () => {
    const extended = altered(job, {
      [SHEET1]: (xml) =>
        replacing(
          '</sheetData>',
          '</sheetData><extLst><ext uri="{0}" xmlns:o="urn:other"><o:row r="1"><o:c r="C2"><o:f>1+1</o:f><o:v>7</o:v></o:c></o:row><o:sheetData/></ext></extLst>',
        )(replacing(/<c r="C3"/, '<c xmlns:o="urn:other" o:t="e" r="C3" o:r="D9"')(xml)),
      'xl/workbook.xml': (xml) =>
        replacing(
          '</sheets>',
          '</sheets><extLst><ext uri="{0}" xmlns:o="urn:other"><o:sheet name="Other" o:id="rId1"/></ext></extLst>',
        )(replacing('<sheet ', '<sheet xmlns:o="urn:other" o:id="none" ')(xml)),
    });
    expect(counts(await recheck(extended))).toBe('6 0 0');
    expect((await recheck(extended)).cells).toEqual((await recheck(job)).cells);
  });

  it('in capital parts of a package with other prefixes and an absolute target, is found', async () => {
    const prefixed = altered(job, {
      [SHEET1]: (xml) =>
        xml
          .replace('xmlns=', 'xmlns:x=')
          .replace(/<(\/?)(?=[a-z])/gi, '<$1x:')
          .replace('<x:?xml', '<?xml'),
      'xl/_rels/workbook.xml.rels': replacing('worksheets/sheet1.xml', '/xl/worksheets/sheet1.xml'),
    });
    expect(counts(await recheck(prefixed))).toBe('6 0 0');
  });
});

describe('why a cell moved', () => {
  const INVENTED: readonly Change[] = [
    { version: '2099.01.01', replaced: [{ name: 'bore ratio', value: 0.5, low: 0.4, high: 0.6 }], calculation: [] },
  ];
  const thenFunctions = functionsOf(FIRST_VERSION, INVENTED);

  it('an input: a size was changed and not recalculated', async () => {
    const r = await recheck(altered(job, sheet(replacing('<c r="A3"><v>4</v></c>', '<c r="A3"><v>6</v></c>'))));
    expect(counts(r)).toBe('4 2 0');
    expect(of(r, 'D3')).toMatchObject({ status: 'moved', why: { kind: 'input' } });
    expect(r.others.map((o) => o.place)).toEqual(["'Job sheet'!C5", "'Job sheet'!D5"]);
  });

  it('an input: a row of its assumptions was changed', async () => {
    const r = await recheck(altered(job, sheet(replacing('<c r="G2"><v>4</v></c>', '<c r="G2"><v>14</v></c>'))));
    // Rods are coupled where it pays and leave one stub then, so that a longer stub costs no rod at the pin of 4 in.
    expect(r.cells.filter((c) => c.status === 'moved').map((c) => c.cell)).toEqual(['C2', 'C4']);
    for (const cell of ['C2', 'C4']) expect(of(r, cell).why).toMatchObject({ kind: 'input' });
    expect(of(r, 'D3').status).toBe('same');
  });

  it('an input: a formula before it moved, by name and figure', async () => {
    const chained = await makeWorkbook([
      { name: 'S', rows: [[1.5, '=A1*2', '=BURN.PIN.HOLE(B1)', '=BURN.PIN.RODS(4,12,C1)', '=BURN.VERSION()']] },
    ]);
    const r = await recheck(altered(chained, sheet(replacing('<c r="A1"><v>1.5</v></c>', '<c r="A1"><v>1.8</v></c>'))));
    expect(of(r, 'C1').why).toEqual({ kind: 'input', text: 'S!B1 before it changed: 3 -> 3.6' });
    expect(of(r, 'D1').why).toMatchObject({
      kind: 'input',
      text: expect.stringContaining('S!C1 before it changed: 1.8 -> 2.16') as string,
    });
  });

  it('an assumption: with the defaults of the saved version the saved value comes out', async () => {
    const old = await makeWorkbook([PINS], {}, thenFunctions);
    const r = await recheck(old, { history: INVENTED });
    expect(r.version).toBe('2099.01.01');
    expect(of(r, 'D3')).toMatchObject({
      status: 'moved',
      why: {
        kind: 'assumption',
        text: `defaults changed since ${FIRST_VERSION}: bore ratio 0.5 (0.4 to 0.6) -> 0.6 (0.55 to 0.67)`,
      },
    });
    expect(r.cells.filter((c) => c.status === 'moved').every((c) => c.why?.kind === 'assumption')).toBe(true);
  });

  it('an assumption is told from an input in the same workbook', async () => {
    const old = altered(
      await makeWorkbook([PINS], {}, thenFunctions),
      sheet(replacing('<c r="A3"><v>4</v></c>', '<c r="A3"><v>6</v></c>')),
    );
    const r = await recheck(old, { history: INVENTED });
    expect(of(r, 'D2').why?.kind).toBe('assumption');
    expect(of(r, 'D3').why?.kind).toBe('input');
  });

  it('the version: the calculation itself changed since, which the history tells in words', async () => {
    const changed: readonly Change[] = [{ version: '2099.01.01', replaced: [], calculation: ['friction in rods'] }];
    const saved = of(await recheck(job), 'D3').before as number;
    const r = await recheck(altered(job, sheet(replacing(`<v>${saved}</v>`, `<v>${saved * 1.02}</v>`))), {
      history: changed,
    });
    expect(of(r, 'D3').why).toMatchObject({
      kind: 'version',
      text: expect.stringContaining('friction in rods (2099.01.01)') as string,
    });
    expect(of(r, 'D2').status).toBe('same');
  });

  it('unknown, where no version stands in the workbook, unless the defaults of a kept version explain it', async () => {
    const unversioned: NewSheet = { ...PINS, rows: PINS.rows?.slice(0, -1) ?? [] };
    const saved = of(await recheck(job), 'D3').before as number;
    const r = await recheck(
      altered(await makeWorkbook([unversioned]), sheet(replacing(`<v>${saved}</v>`, '<v>1</v>'))),
    );
    expect(of(r, 'D3').why).toMatchObject({
      kind: 'unknown',
      text: expect.stringContaining('no BURN.VERSION') as string,
    });
    const explained = await recheck(await makeWorkbook([unversioned], {}, thenFunctions), { history: INVENTED });
    expect(of(explained, 'D3').why?.kind).toBe('assumption');
  });

  it('unknown, where the saved version is not kept', async () => {
    const saved = of(await recheck(job), 'D3').before as number;
    const older = altered(
      job,
      sheet((xml) => replacing(`<v>${saved}</v>`, '<v>1</v>')(replacing(FIRST_VERSION, '2001.01.01')(xml))),
    );
    expect(of(await recheck(older), 'D3').why).toEqual({
      kind: 'unknown',
      text: 'version or input: version 2001.01.01 is not kept here',
    });
  });

  it('the version cell itself is told and not counted', async () => {
    const r = await recheck(altered(job, sheet(replacing(FIRST_VERSION, '2001.01.01'))));
    expect(r.versions.map((v) => v.version)).toEqual(['2001.01.01']);
    expect(counts(r)).toBe('6 0 0');
  });

  it('as of an older version the old figures come out again', async () => {
    const old = await makeWorkbook([PINS], {}, thenFunctions);
    const r = await recheck(old, { history: INVENTED, asOf: '2050-06-01' });
    expect(r.version).toBe(FIRST_VERSION);
    expect(counts(r)).toBe('6 0 0');
    await expect(recheck(old, { history: INVENTED, asOf: '1990-01-01' })).rejects.toThrow(
      `the first that is kept is ${FIRST_VERSION}`,
    );
    await expect(recheck(old, { asOf: 'yesterday' })).rejects.toThrow('yesterday is no date or version');
  });

  it('as of an older version what cannot be turned back is told', async () => {
    const history: readonly Change[] = [{ version: '2099.01.01', replaced: [], calculation: ['friction in rods'] }];
    expect((await recheck(job, { history, asOf: FIRST_VERSION })).notTurnedBack).toEqual([
      'friction in rods (2099.01.01)',
    ]);
  });
});

describe('where the cells come from', () => {
  it('other sheets, whatever their names', async () => {
    for (const name of ["It's the yard", 'a!b', 'Données', '2026', 'A1', 'x-y', 'Über "alles"']) {
      const quoted = `'${name.replaceAll("'", "''")}'`;
      // The engine by itself misreads a name with an exclamation mark, so the workbook is made with another and renamed.
      const made = await makeWorkbook([
        { name: 'S', rows: [['=BURN.PIN.RODS(Other!A1,Other!B1)', '=SUM(BURN.PIN.RODS(Other!A:A,Other!B:B))']] },
        {
          name: 'Other',
          rows: [
            [3, 10],
            [4, 12],
          ],
        },
      ]);
      const escaped = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('"', '&quot;');
      const renamed = altered(made, {
        'xl/workbook.xml': replacing('"Other"', `"${escaped(name)}"`),
        ...sheet(replacing('Other!', `${escaped(quoted)}!`)),
      });
      expect(counts(await recheck(renamed)), name).toBe('2 0 0');
    }
  });

  it('named ranges of the workbook, of a sheet and of one another', async () => {
    const rows = [
      [3, 10, '=BURN.PIN.RODS(diameters,lengths)'],
      [4, 12],
      [5, 14],
    ];
    const made = await makeWorkbook(
      [
        { name: 'S', rows },
        { name: 'T', rows: [[9]] },
      ],
      { diameters: 'S!$A$1:$A$3', lengths: 'S!$B$1:$B$3' },
    );
    expect(counts(await recheck(made))).toBe('3 0 0');
    const names =
      '<definedName name="one" localSheetId="0">S!$A$1</definedName><definedName name="one">T!$A$1</definedName><definedName name="two">one*2</definedName><definedName name="_xlnm.Print_Area" localSheetId="0">S!$A$1</definedName>';
    const more = altered(made, {
      'xl/workbook.xml': replacing('</definedNames>', `${names}</definedNames>`),
      ...sheet(
        replacing(
          '</row><row r="2">',
          '<c r="E1"><f>BURN.PIN.HOLE(one)</f><v>0</v></c><c r="F1"><f>BURN.PIN.HOLE(two)</f><v>0</v></c></row><row r="2">',
        ),
      ),
    });
    const r = await recheck(more);
    expect(of(r, 'E1').after).toBeCloseTo(0.6 * 3, 10);
    expect(of(r, 'F1').after).toBeCloseTo(0.6 * 6, 10);
  });

  it('a name relative to the cell that uses it', async () => {
    const made = await makeWorkbook([
      {
        name: 'S',
        rows: [
          [3, 4, 5],
          ['=BURN.PIN.HOLE(A1)', '=BURN.PIN.HOLE(B1)', '=BURN.PIN.HOLE(C1)'],
        ],
      },
    ]);
    const above = altered(made, {
      'xl/workbook.xml': replacing(
        '</sheets>',
        '</sheets><definedNames><definedName name="above">S!A1048576</definedName></definedNames>',
      ),
      ...sheet((xml) => xml.replace(/_xldudf_BURN_PIN_HOLE\([ABC]1\)/g, '_xldudf_BURN_PIN_HOLE(above)')),
    });
    expect(counts(await recheck(above))).toBe('3 0 0');
  });

  it('tables: columns of one, this row, its name alone', async () => {
    const made = await makeWorkbook([
      {
        name: 'S',
        rows: [
          ['Pin diameter', 'Length [in]', 'Rods'],
          [3, 10, '=BURN.PIN.RODS(A2,B2)'],
          [4, 12, '=BURN.PIN.RODS(A3,B3)'],
        ],
        cells: { A6: '=SUM(BURN.PIN.RODS(A2:A3,B2:B3))', B6: '=COUNTA(BURN.ASSUMED("stub"))' },
      },
    ]);
    const table =
      '<table xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" id="1" name="Pins" displayName="Pins" ref="A1:C3" totalsRowShown="0"><tableColumns count="3"><tableColumn id="1" name="Pin diameter"/><tableColumn id="2" name="Length [in]"/><tableColumn id="3" name="Rods"/></tableColumns></table>';
    const tabled = altered(made, {
      'xl/tables/table1.xml': () => table,
      'xl/worksheets/_rels/sheet1.xml.rels': () =>
        '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/table" Target="../tables/table1.xml"/></Relationships>',
      ...sheet((xml) =>
        xml
          .replace(
            'BURN_PIN_RODS(A2,B2)',
            "BURN_PIN_RODS(Pins[[#This Row],[Pin diameter]],Pins[[#This Row],[Length '[in']]])",
          )
          .replace(
            'BURN_PIN_RODS(A3,B3)',
            "BURN_PIN_RODS(Pins[[#This Row],[Pin diameter]],Pins[[#This Row],[Length '[in']]])",
          )
          .replace('BURN_PIN_RODS(A2:A3,B2:B3)', 'BURN_PIN_RODS(Pins[Pin diameter],INDEX(Pins,0,2))'),
      ),
    });
    // Alternative text of a table stands in an extension, whose elements have names of this namespace's too.
    const described = altered(tabled, {
      'xl/tables/table1.xml': replacing(
        '</tableColumns>',
        '</tableColumns><extLst><ext uri="{504A1905-F514-4f6f-8877-14C23A59335A}" xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main"><x14:table altText="Pins" altTextSummary="to be burned"/><x14:tableColumn name="none"/></ext></extLst>',
      ),
    });
    expect((await recheck(described)).cells).toEqual((await recheck(tabled)).cells);
    const r = await recheck(tabled);
    expect(r.cells.map((c) => `${c.cell} ${c.status}`)).toEqual(['C2 same', 'C3 same', 'A6 same', 'B6 same']);
    const unknown = await recheck(altered(tabled, sheet(replacing('Pins[Pin diameter]', 'Pins[Diameter]'))));
    expect(of(unknown, 'A6')).toMatchObject({ status: 'broken', message: 'the table Pins has no column Diameter' });
  });

  it("whole columns and rows to the sheet's end", async () => {
    const rows = [
      [3, 10],
      [4, 12],
      [5, 14],
    ];
    const made = await makeWorkbook([
      { name: 'Pins', rows },
      { name: 'S', rows: [['=SUM(BURN.PIN.RODS(Pins!A:A,Pins!B:B))', '=BURN.PIN.OXYGEN(Pins!A1:A3,Pins!B1:B3)']] },
    ]);
    const ends = altered(made, {
      'xl/worksheets/sheet2.xml': replacing(
        'BURN_PIN_OXYGEN(Pins!A1:A3,Pins!B1:B3)',
        'BURN_PIN_OXYGEN(Pins!A1:A1048576,Pins!B1:B1048576)',
      ),
    });
    expect(counts(await recheck(ends))).toBe('4 0 0');
  });

  it('what another formula spilled, by A1# and by a part of it', async () => {
    const made = await makeWorkbook([
      {
        name: 'S',
        rows: [
          [3, 10, '=BURN.PIN.RODS(A1:A3,B1:B3)', '=SUM(C1:C3)', '=BURN.PIN.RODS(4,12)'],
          [4, 12],
          [5, 14],
        ],
        cells: { G1: '=SUM(BURN.PIN.OXYGEN(A1:A3,B1:B3))' },
      },
    ]);
    const anchored = altered(made, sheet(replacing('SUM(C1:C3)', 'SUM(_xlfn.ANCHORARRAY(C1))')));
    const r = await recheck(anchored);
    expect(counts(r)).toBe('5 0 0');
    expect(r.others).toEqual([]);
    const hash = await recheck(altered(made, sheet(replacing('SUM(C1:C3)', 'SUM(C1#)'))));
    expect(hash.others).toEqual([]);
  });

  it('newer functions of the sheet with their prefixes, and names a formula declares for itself', async () => {
    const made = await makeWorkbook([
      {
        name: 'S',
        rows: [
          [3, 10, '=BURN.PIN.RODS(A1:A3,B1:B3)', '=SUM(C1:C3)'],
          [4, 12],
          [5, 14],
        ],
      },
    ]);
    const r = await recheck(
      altered(
        made,
        sheet(
          replacing(
            '<f>SUM(C1:C3)</f>',
            '<f>SUM(_xlfn._xlws.FILTER(C1:C3,C1:C3&gt;0))+_xlfn.LET(_xlpm.x,0,_xlpm.x*2)+(_xlfn.SINGLE(A2)-4)+(_xlfn.SINGLE(A1:A3)-3)</f>',
          ),
        ),
      ),
    );
    expect(r.others).toEqual([]);
    expect(r.kept).toEqual([]);
  });
});

describe('a spill that changed its size', () => {
  const grown = [
    [3, 10, '=BURN.PIN.RODS(A:A,B:B)'],
    [4, 12],
    [5, 14],
  ];
  it('shows what is new and what is gone', async () => {
    const made = await makeWorkbook([{ name: 'S', rows: grown }]);
    const longer = await recheck(
      altered(
        made,
        sheet(replacing('</sheetData>', '<row r="4"><c r="A4"><v>4</v></c><c r="B4"><v>9</v></c></row></sheetData>')),
      ),
    );
    expect(counts(longer)).toBe('3 1 0');
    expect(of(longer, 'C4')).toMatchObject({
      before: null,
      after: expect.any(Number) as number,
      why: { kind: 'unknown' },
    });
    const shorter = await recheck(
      altered(
        made,
        sheet((xml) => xml.replace('<c r="A3"><v>5</v></c>', '').replace('<c r="B3"><v>14</v></c>', '')),
      ),
    );
    expect(of(shorter, 'C3')).toMatchObject({ status: 'moved', after: null });
  });

  it('breaks where something is in the way, once for the formula', async () => {
    const made = await makeWorkbook([{ name: 'S', rows: grown }]);
    const blocked = await recheck(
      altered(
        made,
        sheet(
          replacing(
            '</sheetData>',
            '<row r="4"><c r="A4"><v>4</v></c><c r="B4"><v>9</v></c><c r="C4"><v>1</v></c></row></sheetData>',
          ),
        ),
      ),
    );
    expect(counts(blocked)).toBe('0 0 1');
    expect(of(blocked, 'C1')).toMatchObject({ status: 'broken', after: { error: '#SPILL!' } });
  });
});

describe('what breaks', () => {
  const broken = async (formula: string, rows: NonNullable<NewSheet['rows']> = [[3, 10]]): Promise<CheckedCell> => {
    const made = await makeWorkbook([{ name: 'S', rows: [...rows, ['=BURN.PIN.RODS(3,10)']] }]);
    return (await recheck(altered(made, sheet(replacing('_xldudf_BURN_PIN_RODS(3,10)', formula))))).cells.find(
      (c) => c.status === 'broken',
    )!;
  };

  it.each([
    [
      'an unknown function of ours',
      '_xldudf_BURN_PIN_ROD(A1,B1)',
      /^there is no function BURN\.PIN\.ROD; nearest: BURN\.PIN\.RODS/,
    ],
    ['too many arguments', '_xldudf_BURN_PIN_RODS(1,2,3,4,5,6,7)', 'BURN.PIN.RODS has 7 arguments; it takes 2 to 6'],
    ['too few', '_xldudf_BURN_PIN_RODS(A1)', 'BURN.PIN.RODS has 1 argument; it takes 2 to 6'],
    ['none', '_xldudf_BURN_PIN_RODS()', 'BURN.PIN.RODS has 0 arguments; it takes 2 to 6'],
    [
      'a link to another workbook',
      "_xldudf_BURN_PIN_RODS('[1]Pins'!A1,B1)",
      "it reads another workbook ('[1]Pins'!A1), which is not opened",
    ],
    [
      'a name of another workbook',
      '_xldudf_BURN_PIN_RODS([1]!size,B1)',
      'it reads another workbook ([1]!size), which is not opened',
    ],
    [
      'several sheets at once',
      'SUM(_xldudf_BURN_PIN_RODS(A1,B1),First:Last!A1)',
      'it reads through several sheets (First:Last!A1), which is not done here',
    ],
    ['a name that is not known', '_xldudf_BURN_PIN_RODS(size,B1)', 'the name size is not known'],
    ['a sheet that is not there', '_xldudf_BURN_PIN_RODS(Gone!A1,B1)', 'there is no sheet Gone'],
    [
      'a function of another add-in in it',
      '_xldudf_BURN_PIN_RODS(_xldudf_OTHER_SIZE(A1),B1)',
      'OTHER_SIZE is a function of another add-in',
    ],
    ['an argument that is refused', '_xldudf_BURN_PIN_RODS(-3,B1)', 'diameter is -3 in; must be more than 0 in'],
    ['a parenthesis left open', '_xldudf_BURN_PIN_RODS(3,(10', 'a parenthesis is not closed'],
    ['a text left open', '_xldudf_BURN_PIN_RODS(3,"10', 'a text in it has no closing quote'],
    ['a lost reference', '_xldudf_BURN_PIN_RODS(#REF!,10)', /holds the error #REF!/],
  ])('%s', async (_, formula, message) => {
    const cell = await broken(formula.replaceAll('"', '&quot;'));
    expect(cell.message).toMatch(
      message instanceof RegExp ? message : new RegExp(`^${message.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}$`),
    );
  });

  it('a circle, with the cells it runs through', async () => {
    const made = await makeWorkbook([{ name: 'S', rows: [[3, '=BURN.PIN.HOLE(A1)', '=B1*2']] }]);
    const r = await recheck(
      altered(made, sheet(replacing('<c r="A1"><v>3</v></c>', '<c r="A1"><f>C1+1</f><v>3</v></c>'))),
    );
    expect(of(r, 'B1')).toMatchObject({
      status: 'broken',
      message: expect.stringContaining('circular reference: B1 uses A1 uses C1 uses B1') as string,
    });
  });

  it('a formula of a million characters', async () => {
    const cell = await broken(`_xldudf_BURN_PIN_RODS(${'1+'.repeat(500_000)}1,10)`);
    expect(cell.message).toBe('the formula has 1,000,027 characters; the host takes 8,192');
  });

  it('but not an error that was saved as the same error', async () => {
    const made = await makeWorkbook([
      {
        name: 'S',
        rows: [
          [-3, 10, '=BURN.PIN.RODS(A1:A2,B1:B2)'],
          [4, 12],
        ],
      },
    ]);
    expect(counts(await recheck(made))).toBe('2 0 0');
  });

  it('and not a value saved while the add-in was not there', async () => {
    const r = await recheck(
      altered(
        job,
        sheet(replacing(/(<c r="C3")([^>]*>)(<f[^>]*>[^<]*<\/f>)<v>[^<]*<\/v>/, '$1 t="e"$2$3<v>#NAME?</v>')),
      ),
    );
    expect(of(r, 'C3')).toMatchObject({
      status: 'moved',
      before: { error: '#NAME?' },
      after: expect.any(Number) as number,
      why: { kind: 'unknown', text: expect.stringContaining('the add-in was not there') as string },
    });
  });
});

describe("formulas of the sheet's own that are not calculated here as in the host", () => {
  const withFormula = async (stored: string, saved: string): Promise<Recheck> => {
    const made = await makeWorkbook([{ name: 'S', rows: [['=BURN.PIN.RODS(B1,10)', 3], ['=BURN.VERSION()']] }]);
    return recheck(altered(made, sheet(replacing('<c r="B1"><v>3</v></c>', `<c r="B1"><f>${stored}</f>${saved}</c>`))));
  };

  it.each([
    ['a function it does not have', 'NOT.THERE(1)', /no function NOT\.THERE/],
    ['a link to another workbook', '[1]Pins!A1', /reads another workbook/],
    ['a function of another add-in', '_xldudf_OTHER_SIZE(1)', /another add-in/],
    ['a clock', 'TODAY()*0+3', /TODAY changes by itself/],
    ['chance', 'RANDBETWEEN(3,3)', /RANDBETWEEN changes by itself/],
    ['a range taken by place', '$Z$1:$Z$3', /one value of a range/],
  ])('%s keeps its saved value, which ours are calculated from', async (_, formula, why) => {
    const r = await withFormula(formula, '<v>3</v>');
    expect(r.kept).toEqual([{ place: 'S!B1', why: expect.stringMatching(why) as string }]);
    expect(counts(r)).toBe('1 0 0');
  });

  it.each([
    [
      'a function that is missing here',
      '_xldudf_BURN_PIN_RODS(B1,10)+_xlfn.PERCENTOF(B1,B1)',
      'there is no function PERCENTOF here',
    ],
    ["a user's own function", '_xldudf_BURN_PIN_RODS(MyPins(B1),10)', 'there is no function MYPINS here'],
    [
      'a summary of another sheet',
      'GETPIVOTDATA("a",B1)*_xldudf_BURN_PIN_RODS(B1,10)',
      'there is no function GETPIVOTDATA here',
    ],
    [
      'a line break inside an array',
      '_xldudf_BURN_PIN_RODS(B1,10)&amp;{"a&#10;b"}',
      'a text in an array of it has a line break',
    ],
  ])('one of ours with %s keeps its value too, and says why', async (_, formula, why) => {
    const made = await makeWorkbook([
      { name: 'S', rows: [['=BURN.PIN.RODS(B1,10)', 3, '=A1*2', '=BURN.PIN.HOLE(A1)']] },
    ]);
    const stored = altered(made, sheet(replacing('_xldudf_BURN_PIN_RODS(B1,10)', formula.replaceAll('"', '&quot;'))));
    const r = await recheck(stored);
    expect(of(r, 'A1')).toMatchObject({ status: 'kept', message: why });
    expect(r.cells.map((c) => c.status)).toEqual(['kept', 'same']);
    expect([r.others, r.kept]).toEqual([[], []]);
    expect(stored.equals(refreshed(r, true))).toBe(true);
  });

  it('a total that leaves out hidden rows keeps its value, and ours are calculated from it', async () => {
    const rows = [[1], [2], [4], [null, '=SUM(A1:A3)', '=BURN.PIN.HOLE(B4)', '=BURN.PIN.HOLE(SUM(A1:A3))']];
    const made = altered(await makeWorkbook([{ name: 'S', rows }]), {
      [SHEET1]: (xml) =>
        replacing('<f>SUM(A1:A3)</f>', '<f>SUBTOTAL(9,A1:A3)</f>')(replacing('HOLE(SUM(', 'HOLE(SUBTOTAL(109,')(xml)),
    });
    expect(counts(await recheck(made))).toBe('2 0 0');
    const hidden = altered(made, {
      [SHEET1]: (xml) =>
        replacing(/<row r="2"/, '<row hidden="1" r="2"')(replacing(/(<c r="B4"><f>[^<]*<\/f><v>)7/, '$15')(xml)),
    });
    const r = await recheck(hidden);
    expect(r.kept).toEqual([
      { place: 'S!B4', why: expect.stringContaining('SUBTOTAL leaves out hidden rows') as string },
    ]);
    expect(of(r, 'D4')).toMatchObject({ status: 'kept' });
    expect(of(r, 'C4').after).toEqual(
      of(await recheck(await makeWorkbook([{ name: 'S', rows: [['=BURN.PIN.HOLE(5)']] }])), 'A1').after,
    );
  });

  it('days counted from 1904 are not taken for days from 1900', async () => {
    const made = altered(
      await makeWorkbook([{ name: 'S', rows: [['=BURN.PIN.RODS(A2,10)', '=ROUND(3,0)'], [3]] }]),
      sheet(replacing('ROUND(3,0)', 'DAY(3)')),
    );
    expect((await recheck(made)).kept).toEqual([]);
    const r = await recheck(
      altered(made, { 'xl/workbook.xml': replacing('<bookViews>', '<workbookPr date1904="true"/><bookViews>') }),
    );
    expect(r.kept).toEqual([{ place: 'S!B1', why: expect.stringContaining('days from 1904') as string }]);
  });

  it('a long list inside a function is calculated', async () => {
    const made = await makeWorkbook([{ name: 'S', rows: [['=BURN.PIN.HOLE(SUM(12502500)/4000000)']] }]);
    const listed = altered(made, sheet(replacing('SUM(12502500)', 'SUM(_xlfn.SEQUENCE(5000))')));
    expect(counts(await recheck(listed))).toBe('1 0 0');
  });

  it('a what-if table keeps its values', async () => {
    const made = await makeWorkbook([{ name: 'S', rows: [['=BURN.PIN.RODS(B1,10)', 3]] }]);
    const r = await recheck(
      altered(
        made,
        sheet(
          replacing(
            '<c r="B1"><v>3</v></c>',
            '<c r="B1"><f t="dataTable" ref="B1:B2" dt2D="0" dtr="0" r1="D1"/><v>3</v></c>',
          ),
        ),
      ),
    );
    expect(counts(r)).toBe('1 0 0');
    expect(r.kept[0]?.why).toBe('it is a what-if table');
  });

  it('a formula that fails because one of ours fails is not kept', async () => {
    const made = await makeWorkbook([{ name: 'S', rows: [['=BURN.PIN.RODS(B1,10)', 3, '=A1*2']] }]);
    const r = await recheck(altered(made, sheet(replacing('<c r="B1"><v>3</v></c>', '<c r="B1"><v>-3</v></c>'))));
    expect(r.kept).toEqual([]);
    expect(r.others).toMatchObject([{ place: 'S!C1', after: { error: '#VALUE!' } }]);
  });

  it('a formula that reads a kept one is calculated from it', async () => {
    const made = await makeWorkbook([{ name: 'S', rows: [['=BURN.PIN.RODS(C1,10)', 3, '=B1*1']] }]);
    const r = await recheck(
      altered(made, sheet(replacing('<c r="B1"><v>3</v></c>', '<c r="B1"><f>NOT.THERE()</f><v>3</v></c>'))),
    );
    expect(r.kept.map((k) => k.place)).toEqual(['S!B1']);
    expect(counts(r)).toBe('1 0 0');
  });
});
