import { describe, expect, it } from 'vitest';
import { readOpenDocument } from '../../../src/files/ods/read-ods.ts';
import type { SavedWorkbook } from '../../../src/files/xlsx/saved-workbook.ts';
import { newArchive, openArchive } from '../../../src/files/xlsx/zip.ts';

const NAMESPACES = ['office', 'table', 'text', 'calcext']
  .map((n) => `xmlns:${n}="urn:oasis:names:tc:opendocument:xmlns:${n}:1.0"`)
  .join(' ');

function read(content: string, more: Readonly<Record<string, string>> = {}): SavedWorkbook {
  const parts = { mimetype: 'application/vnd.oasis.opendocument.spreadsheet', 'content.xml': content, ...more };
  return readOpenDocument(
    openArchive(newArchive(new Map(Object.entries(parts).map(([name, text]) => [name, Buffer.from(text)])))),
  );
}
const sheet = (rows: string, after = ''): string =>
  `<office:document-content ${NAMESPACES}><office:body><office:spreadsheet><table:table table:name="Pins">${rows}</table:table>${after}</office:spreadsheet></office:body></office:document-content>`;
const row = (cells: string, attributes = ''): string => `<table:table-row ${attributes}>${cells}</table:table-row>`;
const cell = (attributes: string, text = ''): string => `<table:table-cell ${attributes}>${text}</table:table-cell>`;
const values = ({ sheets }: SavedWorkbook): readonly unknown[] =>
  sheets[0]!.cells.map(({ row: r, column, value }) => [r, column, value]);

describe('the cells of an OpenDocument workbook', () => {
  it('hold numbers, texts, truths, days, times and errors', () => {
    const types = [
      cell('office:value-type="float" office:value="3.5"'),
      cell('office:value-type="string"', '<text:p>two<text:s text:c="2"/>lines</text:p><text:p>here</text:p>'),
      cell('office:value-type="boolean" office:boolean-value="true"'),
      // 8 March 2026 is day 46089 of a sheet that counts from 1900.
      cell('office:value-type="date" office:date-value="2026-03-08"'),
      cell('office:value-type="date" office:date-value="2026-03-08T12:00:00"'),
      cell('office:value-type="time" office:time-value="PT06H00M00S"'),
      cell('office:value-type="string" calcext:value-type="error" office:string-value=""', '<text:p>#N/A</text:p>'),
      cell('office:value-type="string" calcext:value-type="error" office:string-value=""', '<text:p>Err:502</text:p>'),
    ];
    expect(values(read(sheet(row(types.join('')))))).toEqual(
      [
        3.5,
        'two  lines\nhere',
        true,
        46_089,
        46_089.5,
        0.25,
        { error: '#N/A', message: '' },
        { error: '#VALUE!', message: '' },
      ].map((value, i) => [0, i, value]),
    );
  });

  it('are repeated as often as they say, and blank ones take their place only', () => {
    const one = cell('office:value-type="float" office:value="1" table:number-columns-repeated="2"');
    const rows = row(`${cell('table:number-columns-repeated="3"')}${one}`, 'table:number-rows-repeated="2"');
    const far = row(cell('table:number-columns-repeated="16384"'), 'table:number-rows-repeated="1048570"');
    expect(values(read(sheet(`${rows}${far}`)))).toEqual([
      [0, 3, 1],
      [0, 4, 1],
      [1, 3, 1],
      [1, 4, 1],
    ]);
  });

  it('are read without remarks, the history of changes and what other files held', () => {
    const remark = '<office:annotation><text:p>mind the boss</text:p></office:annotation><text:p>pin</text:p>';
    const changes = `<table:tracked-changes><table:cell-content-change>${cell('office:value-type="float" office:value="9"')}</table:cell-content-change></table:tracked-changes>`;
    const other = `<table:table table:name="'file:///a.ods'#$S">${row(cell('office:value-type="float" office:value="7"'))}</table:table>`;
    const workbook = read(sheet(row(cell('office:value-type="string"', remark)), `${changes}${other}`));
    expect(workbook.sheets).toHaveLength(1);
    expect(values(workbook)).toEqual([[0, 0, 'pin']]);
  });

  it('keep formulas with the area that an array fills', () => {
    const array = cell(
      'table:number-matrix-columns-spanned="14" table:number-matrix-rows-spanned="3" table:formula="of:=BURN.PIN.PLAN([.A1:.A2];[.B1:.B2])" office:value-type="string"',
      '<text:p>item</text:p>',
    );
    expect(read(sheet(row(array))).sheets[0]!.cells[0]!.formula).toEqual({
      text: 'BURN.PIN.PLAN(A1:A2,B1:B2)',
      kind: 'array',
      area: { top: 0, left: 0, bottom: 2, right: 13 },
    });
  });

  it('are named as seen from the first cell', () => {
    const names = `<table:named-expressions>
      <table:named-range table:name="pins" table:base-cell-address="$Pins.$A$1" table:cell-range-address="$Pins.$A$1:.$A$9"/>
      <table:named-expression table:name="left" table:base-cell-address="$Pins.$C$5" table:expression="[.B5]*2"/>
    </table:named-expressions>`;
    expect(read(sheet(row(cell('office:value-type="float" office:value="1"')), names)).names).toEqual([
      { name: 'pins', sheet: undefined, formula: 'Pins!$A$1:$A$9' },
      { name: 'left', sheet: undefined, formula: 'XFD1*2' },
    ]);
  });
});

describe('an OpenDocument file that is not taken', () => {
  const many = (attributes: string, rows = ''): string =>
    sheet(row(cell(`office:value-type="float" office:value="1" ${attributes}`), rows));
  it.each([
    ['a million filled columns', () => read(many('table:number-columns-repeated="1000000"')), /beyond the last column/],
    [
      'more cells than a workbook has',
      () => read(many('table:number-columns-repeated="16000"', 'table:number-rows-repeated="1000000"')),
      /more than 1500000 cells/,
    ],
    ['a count that is none', () => read(many('table:number-columns-repeated="-3"')), /number-columns-repeated is -3/],
    ['a document type', () => read(`<!DOCTYPE x [<!ENTITY a "b">]>${sheet('')}`), /document type/],
    [
      'a password',
      () => read(sheet(''), { 'META-INF/manifest.xml': '<m><encryption-data/></m>' }),
      /protected by a password/,
    ],
    ['no sheet', () => read(`<office:document-content ${NAMESPACES}/>`), /no sheet with cells/],
    [
      'an array beyond the sheet',
      () => read(sheet(row(cell('table:number-matrix-rows-spanned="99999999" table:formula="of:=1"')))),
      /beyond the sheet/,
    ],
  ])('%s', (_, reading, message) => {
    expect(reading).toThrow(message);
  });
});
