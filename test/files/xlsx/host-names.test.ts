import { beforeAll, describe, expect, it } from 'vitest';
import { recheck } from '../../../src/cli/recheck/recheck.ts';
import { withHostNames } from '../../../src/files/xlsx/host-names.ts';
import { readWorkbook } from '../../../src/files/xlsx/read-workbook.ts';
import { openArchive } from '../../../src/files/xlsx/zip.ts';
import { altered, makeWorkbook, partOf, replacing, SHEET1 } from './make.ts';

const isOurs = (name: string): boolean => name !== 'BURN.WHY';
const SPILLS = ' cm="1"';

let byHost: Buffer;
/** As a program saves it that has no names of add-ins, no spills, and no metadata. */
let byOther: Buffer;
beforeAll(async () => {
  byHost = await makeWorkbook(
    [
      {
        name: "Job's",
        rows: [
          [4, 10, '=BURN.PIN.RODS(A1,B1)', '=SUM(C1)&" BURN.PIN.RODS(1,2)"'],
          [3.5, 12, '=BURN.PIN.HOLE(A1:A2)', '=IF(C1<>"a",BURN.PIN.HOLE(A2),0)'],
        ],
      },
    ],
    { hole: "_xldudf_BURN_PIN_HOLE('Job''s'!$A$1)" },
  );
  byOther = altered(byHost, {
    [SHEET1]: (xml) =>
      xml
        .replaceAll(SPILLS, '')
        .replace('<f t="array" ref="C1">', '<f aca="false">')
        .replaceAll('_xldudf_BURN_PIN_', 'BURN.PIN.')
        .replaceAll('_xldudf_BURN_', 'BURN.'),
    'xl/workbook.xml': (xml) => xml.replaceAll('_xldudf_BURN_PIN_HOLE', 'BURN.PIN.HOLE'),
    'xl/_rels/workbook.xml.rels': replacing(/<Relationship [^>]*sheetMetadata[^>]*>/, ''),
  });
});

describe('a workbook that another program saved', () => {
  it('gets the names that the host stores, and nothing else of a formula changes', () => {
    const { renamed } = withHostNames(byOther, isOurs);
    expect(renamed).toEqual([
      { place: "'Job''s'!C1", before: 'BURN.PIN.RODS(A1,B1)', after: '_xldudf_BURN_PIN_RODS(A1,B1)', spills: false },
      { place: "'Job''s'!C2", before: 'BURN.PIN.HOLE(A1:A2)', after: '_xldudf_BURN_PIN_HOLE(A1:A2)', spills: true },
      {
        place: "'Job''s'!D2",
        before: 'IF(C1<>"a",BURN.PIN.HOLE(A2),0)',
        after: 'IF(C1<>"a",_xldudf_BURN_PIN_HOLE(A2),0)',
        spills: true,
      },
      expect.objectContaining({ place: 'hole', spills: false }),
    ]);
  });

  it('spills where it had an array, and is calculated as before', async () => {
    const { file } = withHostNames(byOther, isOurs);
    const cells = readWorkbook(file).sheets[0]!.cells;
    expect(cells.filter((c) => c.formula).map((c) => c.formula!.kind)).toEqual([
      'plain',
      'plain',
      'dynamic',
      'dynamic',
    ]);
    const found = await recheck(file);
    expect(found.cells.length).toBe(4);
    expect(found.cells.filter((c) => c.status !== 'same')).toEqual([]);
  });

  it('keeps the contents of every other part', () => {
    const { file } = withHostNames(byOther, isOurs);
    const [before, after] = [openArchive(byOther), openArchive(file)];
    for (const name of before.names)
      if (
        ![SHEET1, 'xl/workbook.xml', '[Content_Types].xml', 'xl/_rels/workbook.xml.rels', 'xl/metadata.xml'].includes(
          name,
        )
      )
        expect(Buffer.from(after.read(name)).equals(Buffer.from(before.read(name))), name).toBe(true);
    expect(partOf(file, SHEET1)).not.toMatch(/<f[^>]*>[^<]*BURN\.PIN\.HOLE/);
  });

  it('is left as it is where the host saved it, or where there is nothing of ours', () => {
    expect(withHostNames(byHost, isOurs)).toEqual({ file: byHost, renamed: [] });
    const none = withHostNames(byOther, () => false);
    expect(none).toEqual({ file: byOther, renamed: [] });
  });

  it('keeps its arrays where the workbook has metadata of its own', () => {
    const own = altered(byHost, {
      [SHEET1]: (xml) => xml.replaceAll(SPILLS, '').replaceAll('_xldudf_BURN_PIN_', 'BURN.PIN.'),
    });
    const { file, renamed } = withHostNames(own, isOurs);
    expect(renamed.some((r) => r.spills)).toBe(false);
    expect(renamed.length).toBeGreaterThan(2);
    expect(readWorkbook(file).sheets[0]!.cells.find((c) => c.row === 1 && c.column === 2)?.formula?.kind).toBe('array');
  });
});
