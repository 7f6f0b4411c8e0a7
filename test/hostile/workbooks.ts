/** Workbooks that somebody spoilt, by accident or on purpose: each begins as a good one. */
import { openArchive } from '../../src/files/xlsx/zip.ts';
import { storedForm } from '../../src/files/xlsx/stored-form.ts';
import { escaped } from '../../src/files/xlsx/xml.ts';
import { altered, makeWorkbook, SHEET1 } from '../files/xlsx/make.ts';
import type { Chance } from './chance.ts';
import { formula } from './formulas.ts';

/** A small job: sizes, our functions alone, in ordinary formulas and spilled, and formulas that read them. */
export const goodWorkbook = (): Promise<Buffer> =>
  makeWorkbook(
    [
      {
        name: 'S',
        rows: [
          [4, 10, '=BURN.PIN.RODS(A1,B1)', '=SUM(C1:C3)', 'Boom foot'],
          [3.5, 12, '=BURN.PIN.OXYGEN(A2,B2)', '=IF(C2>100,"two","one")', { text: '3/8' }],
          [6, 24, '=ROUND(BURN.PIN.TIME(A3,B3)/60,2)', '=D1*2', true],
          [null, null, '=BURN.PIN.HOLE(A1:A3)', '=AVERAGE(A1:A3)', 46000],
          [null, null, null, '=VLOOKUP(3.5,A1:B3,2,FALSE)', null],
          [null, null, null, '=BURN.PIN.HOLE(D4)&" in"', '=BURN.VERSION()'],
        ],
      },
      { name: 'Other', rows: [['=S!C1*2', '=SUM(sizes)', '=BURN.PIN.RODS(MAX(sizes),10)']] },
    ],
    { sizes: 'S!$A$1:$A$3' },
  );

const HOSTILE_TEXTS = [
  '',
  '0',
  '-1',
  '1e999',
  'NaN',
  '99999999999',
  'A0',
  'XFE1',
  'A1:',
  'A1:XFD1048576',
  'B9:A1',
  'str',
  'e',
  'xml\u0001',
  '../../../etc/passwd',
  'http://127.0.0.1:9/',
  '&#0;',
  '&x;',
  ']]>',
  '<!--',
  '<a>',
  '\u202e\u009b2J',
  'x'.repeat(40_000),
  '#VALUE!',
  '1,5',
  'TRUE',
];

export interface Spoiling {
  readonly kind: string;
  readonly spoil: (good: Buffer, chance: Chance) => Buffer;
}

const xmlParts = (good: Buffer): readonly string[] => openArchive(good).names.filter((n) => /\.(xml|rels)$/.test(n));

function replaceOne(text: string, pattern: RegExp, chance: Chance, by: (found: string) => string): string {
  const found = [...text.matchAll(pattern)];
  if (found.length === 0) return text;
  const { 0: whole, index } = chance.one(found);
  return text.slice(0, index) + by(whole) + text.slice(index + whole.length);
}

const TAG = /<[^>]+>/g;
const VALUE = /<v>[^<]*<\/v>/g;

export const SPOILINGS: readonly Spoiling[] = [
  {
    kind: 'bits flipped',
    spoil: (good, chance) => {
      const file = Buffer.from(good);
      chance.times(6, () => (file[chance.below(file.length)]! ^= 1 << chance.below(8)));
      return file;
    },
  },
  {
    kind: 'bytes cut, doubled or put in',
    spoil: (good, chance) => {
      const at = chance.below(good.length);
      const to = Math.min(good.length, at + chance.below(2000));
      const piece = good.subarray(at, to);
      const middle = chance.one([Buffer.alloc(0), Buffer.concat([piece, piece]), Buffer.from([chance.below(256)])]);
      return Buffer.concat([good.subarray(0, at), middle, good.subarray(chance.in(4) ? good.length : to)]);
    },
  },
  {
    kind: 'elements dropped, doubled or moved',
    spoil: (good, chance) => {
      const part = chance.one(xmlParts(good));
      const change = (found: string): string =>
        chance.one([
          '',
          found + found,
          found.replace(/\/?>$/, '>'),
          found.replace(/^<\w+/, '<w:other'),
          `<w>${found}</w>`,
        ]);
      return altered(good, {
        [part]: (xml) => chance.times(3, () => 0).reduce((t) => replaceOne(t, TAG, chance, change), xml),
      });
    },
  },
  {
    kind: 'attributes and texts of another kind',
    spoil: (good, chance) => {
      const part = chance.one(xmlParts(good));
      const attribute = (): string => `="${chance.one(HOSTILE_TEXTS)}"`;
      const text = (): string => `>${chance.one(HOSTILE_TEXTS)}<`;
      return altered(good, {
        [part]: (xml) =>
          chance
            .times(3, () => chance.in(2))
            .reduce(
              (t, inside) =>
                inside ? replaceOne(t, />[^<>]+</g, chance, text) : replaceOne(t, /="[^"]*"/g, chance, attribute),
              xml,
            ),
      });
    },
  },
  {
    kind: 'values of another kind',
    spoil: (good, chance) =>
      altered(good, {
        [SHEET1]: (xml) =>
          chance
            .times(6, () => 0)
            .reduce(
              (t) =>
                replaceOne(t, VALUE, chance, () =>
                  chance.in(4)
                    ? ''
                    : `<v>${chance.one([...HOSTILE_TEXTS.filter((h) => !/[<&]/.test(h)), '17', '3.25'])}</v>`,
                ),
              xml,
            ),
      }),
  },
  {
    kind: 'formulas that nobody means',
    spoil: (good, chance) =>
      altered(good, {
        [SHEET1]: (xml) =>
          chance
            .times(4, () => 0)
            .reduce(
              (t) =>
                replaceOne(t, /<f[^>]*>[^<]*<\/f>/g, chance, (found) => {
                  const text = formula(chance);
                  const stored = chance.in(3) ? text : attempt(() => storedForm(text).text, text);
                  const [open = '<f>'] = /^<f[^>]*>/.exec(found) ?? [];
                  return `${chance.in(2) ? open : '<f>'}${escaped(stored)}</f>`;
                }),
              xml,
            ),
      }),
  },
  {
    kind: 'areas, shared formulas and arrays',
    spoil: (good, chance) =>
      altered(good, {
        [SHEET1]: (xml) =>
          chance
            .times(3, () => 0)
            .reduce(
              (t) =>
                replaceOne(t, /<f[^>]*>/g, chance, () =>
                  chance.one([
                    '<f t="array" ref="C1:C3">',
                    '<f t="array" ref="C1">',
                    '<f t="array" ref="A1:XFD1048576">',
                    '<f t="shared" si="0" ref="C1:D6">',
                    '<f t="shared" si="0">',
                    '<f t="shared">',
                    '<f t="dataTable" ref="C1:D2" dt2D="1" r1="A1" r2="B1">',
                    '<f t="none">',
                    '<f t="array" ref="B2:A1">',
                  ]),
                ),
              xml,
            ),
      }),
  },
  {
    kind: 'names, hidden rows, days from 1904',
    spoil: (good, chance) =>
      altered(good, {
        'xl/workbook.xml': (xml) => {
          const names = chance.times(3, () => {
            const name = chance.one(['sizes', 'a', 'b', '_xlnm.Print_Area', 'A1', 'R1C1', '', 'BURN.PIN.RODS', 'SUM']);
            return `<definedName name="${name}"${chance.in(3) ? ` localSheetId="${chance.below(9)}"` : ''}>${escaped(formula(chance, 1))}</definedName>`;
          });
          const named = xml.includes('</definedNames>')
            ? xml.replace('</definedNames>', `${names.join('')}</definedNames>`)
            : xml;
          return chance.in(3) ? named.replace(/<workbookPr[^>]*\/>|(?=<sheets>)/, '<workbookPr date1904="1"/>') : named;
        },
        [SHEET1]: (xml) => (chance.in(2) ? replaceOne(xml, /<row /g, chance, () => '<row hidden="1" ') : xml),
      }),
  },
];

function attempt<T>(make: () => T, otherwise: T): T {
  try {
    return make();
  } catch {
    return otherwise;
  }
}
