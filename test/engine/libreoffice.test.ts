/** Ordinary formulas against LibreOffice Calc, which calculates them when it opens a workbook without saved values. */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { calculateWorkbook } from '../../src/engine/headless.ts';
import { newWorkbook } from '../../src/files/xlsx/new-workbook.ts';
import { readWorkbook } from '../../src/files/xlsx/read-workbook.ts';
import { newArchive, openArchive } from '../../src/files/xlsx/zip.ts';
import { escaped } from '../../src/files/xlsx/xml.ts';
import type { Cell } from '../../src/sheet/host-function.ts';

const SOFFICE = ['/usr/bin/soffice', '/usr/bin/libreoffice'].find((p) => existsSync(p));

const ROWS = [
  [4, 12, 'boom', true, 0.5],
  [3.5, 10, 'arm', false, -2],
  [6, 24, 'Bucket', true, 1e6],
  [5, 18, 'boom', false, 0.1],
  [3.5, 7, '3/8', true, 45],
];

/**
 * Without what differs between any two programs: clocks, chance, links, pictures; truth values in a range, which
 * LibreOffice counts as numbers and the host does not; newer functions, which files name with a prefix.
 */
const FORMULAS = (
  'SUM(A1:B5) AVERAGE(A1:A5) MIN(A1:E5) MAX(A1:A5) COUNT(A1:C5) COUNTA(A1:E5) COUNTBLANK(A1:F5) PRODUCT(A1:A3) MEDIAN(B1:B5) MODE(A1:A5) ' +
  'STDEV(A1:A5) STDEVP(A1:A5) VAR(B1:B5) VARP(B1:B5) LARGE(B1:B5,2) SMALL(B1:B5,2) RANK(18,B1:B5) PERCENTILE(B1:B5,0.3) QUARTILE(B1:B5,1) GEOMEAN(A1:A5) HARMEAN(A1:A5) ' +
  'SUMIF(C1:C5,"boom",B1:B5) SUMIF(A1:A5,">4") COUNTIF(C1:C5,"b*") COUNTIF(A1:A5,3.5) AVERAGEIF(C1:C5,"boom",B1:B5) SUMIFS(B1:B5,C1:C5,"boom",A1:A5,">4") COUNTIFS(A1:A5,">3",B1:B5,"<20") ' +
  'SUMPRODUCT(A1:A5,B1:B5) SUMSQ(A1:A5) SUMX2MY2(A1:A5,B1:B5) SUMXMY2(A1:A5,B1:B5) SUBTOTAL(9,A1:A5) SUBTOTAL(1,B1:B5) MMULT(A1:B1,A1:A2) MDETERM(A1:B2) ' +
  'ROUND(2.345,2) ROUND(-2.5,0) ROUNDUP(2.1,0) ROUNDDOWN(-2.9,0) MROUND(7,3) CEILING(2.1,0.5) FLOOR(2.9,0.5) INT(-2.5) TRUNC(-2.5) MOD(-7,3) QUOTIENT(7,2) ABS(-3) SIGN(-3) SQRT(2) POWER(2,10) EXP(1) LN(10) LOG(8,2) LOG10(1000) ' +
  'PI() SIN(1) COS(1) TAN(1) ASIN(0.5) ACOS(0.5) ATAN(1) ATAN2(1,2) SINH(1) COSH(1) TANH(1) DEGREES(1) RADIANS(180) FACT(6) COMBIN(5,2) PERMUT(5,2) GCD(12,18) LCM(4,6) EVEN(3) ODD(4) ROMAN(1999) ' +
  'IF(A1>A2,"more","less") IF(D2,1,2) AND(D1,D3) OR(D2,D4) NOT(D1) IFERROR(1/0,"none") ISNUMBER(A1) ISTEXT(C1) ISBLANK(F1) ISERROR(1/0) ISLOGICAL(D1) ISEVEN(4) ISODD(3) N(TRUE) TYPE("a") CHOOSE(2,"a","b","c") ' +
  'VLOOKUP(6,A1:C5,3,FALSE) VLOOKUP(4.5,A4:B4,2,TRUE) HLOOKUP(4,A1:E2,2,FALSE) INDEX(A1:C5,3,2) MATCH(24,B1:B5,0) LOOKUP(5,A4:A4,B4:B4) OFFSET(A1,2,1) INDIRECT("B3") ROW(A5) COLUMN(C1) ROWS(A1:A5) COLUMNS(A1:E1) ADDRESS(2,3) ' +
  'LEN(C1) LEFT(C1,2) RIGHT(C1,2) MID(C3,2,3) UPPER(C1) LOWER(C3) PROPER("big_arm") TRIM("_a__b_") SUBSTITUTE(C1,"o","0") REPLACE(C1,2,2,"xx") FIND("o",C1) SEARCH("O",C1) REPT("ab",3) EXACT(C1,C4) VALUE("12.5") T(C1) CONCATENATE(C1,"-",A1) C1&A1 CHAR(65) CODE("A") TEXT(1234.567,"0.00") TEXT(0.25,"0%") FIXED(1234.567,1,TRUE) ' +
  'DATE(2026,2,29) YEAR(46000) MONTH(46000) DAY(46000) WEEKDAY(46000) EDATE(46000,1) EOMONTH(46000,0) DAYS360(46000,46100) HOUR(0.75) MINUTE(0.7604) TIME(6,30,0) ' +
  'PMT(0.01,12,1000) FV(0.01,12,-100) PV(0.01,12,-100) NPV(0.1,B1:B5) NPER(0.01,-100,1000) RATE(12,-100,1000) SLN(1000,100,5) DB(1000,100,5,1) DDB(1000,100,5,1) ' +
  'CORREL(A1:A5,B1:B5) SLOPE(B1:B5,A1:A5) INTERCEPT(B1:B5,A1:A5) RSQ(A1:A5,B1:B5) FORECAST(4.2,B1:B5,A1:A5) NORMDIST(1,0,1,TRUE) NORMINV(0.9,0,1) NORMSDIST(1) TDIST(1,5,2) CHIDIST(3,2) BINOMDIST(2,5,0.4,FALSE) POISSON(2,3,TRUE) EXPONDIST(1,2,TRUE) WEIBULL(1,2,3,TRUE) CONFIDENCE(0.05,1,10) ' +
  'DEC2BIN(9) BIN2DEC("1001") DEC2HEX(255) HEX2DEC("FF") CONVERT(1,"in","cm") -A1^2 2^-1 10% A1=A2 "a"<"B" 1/3 A1&"x" SUMPRODUCT(--(A1:A5>4),B1:B5) A1:A1*2'
)
  .split(' ')
  .map((formula) => formula.replaceAll('_', ' '));

/** The workbook as the host would store it, without values. */
async function withoutValues(): Promise<Buffer> {
  const workbook = { sheets: [{ name: 'S', rows: ROWS }], title: 'Formulas' };
  const archive = openArchive(newWorkbook(workbook, await calculateWorkbook(workbook, [])));
  const rows = FORMULAS.map(
    (formula, i) => `<row r="${i + 11}"><c r="H${i + 11}"><f>${escaped(formula)}</f></c></row>`,
  );
  const parts = archive.names.map((name): [string, Uint8Array] => [
    name,
    name === 'xl/worksheets/sheet1.xml'
      ? Buffer.from(
          Buffer.from(archive.read(name))
            .toString()
            .replace('</sheetData>', `${rows.join('')}</sheetData>`),
        )
      : Buffer.from(archive.read(name)),
  ]);
  return Buffer.from(newArchive(new Map(parts)));
}

function agree(one: Cell, other: Cell): boolean {
  if (typeof one === 'number' && typeof other === 'number')
    return Math.abs(one - other) <= 1e-9 * Math.max(1, Math.abs(one));
  if (typeof one === 'object' && one !== null)
    return typeof other === 'object' && other !== null && one.error === other.error;
  return one === other;
}

describe.skipIf(!SOFFICE)('ordinary formulas', () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'rodsheet-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  let theirs: ReadonlyMap<number, Cell>;
  let ours: (i: number) => Cell;
  beforeAll(async () => {
    writeFileSync(path.join(folder, 'formulas.xlsx'), await withoutValues());
    execFileSync(
      SOFFICE!,
      [
        `-env:UserInstallation=file://${folder}/profile`,
        '--headless',
        '--convert-to',
        'xlsx',
        '--outdir',
        path.join(folder, 'out'),
        path.join(folder, 'formulas.xlsx'),
      ],
      { stdio: 'pipe' },
    );
    const read = readWorkbook(readFileSync(path.join(folder, 'out/formulas.xlsx')));
    theirs = new Map((read.sheets[0]?.cells ?? []).filter((c) => c.column === 7).map((c) => [c.row, c.value]));
    const cells = Object.fromEntries(FORMULAS.map((formula, i) => [`H${i + 11}`, `=${formula}`]));
    const calculated = await calculateWorkbook({ sheets: [{ name: 'S', rows: ROWS, cells }] }, []);
    ours = (i) => calculated.valueAt(0, i + 10, 7);
  });
  it.each(FORMULAS.map((formula, i) => [formula, i] as const))('%s comes out as in LibreOffice', (_, i) => {
    const [here, there] = [ours(i), theirs.get(i + 10) ?? null];
    expect(agree(here, there), `${JSON.stringify(here)}, there ${JSON.stringify(there)}`).toBe(true);
  });
});
