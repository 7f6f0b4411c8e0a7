import { execFile } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import { parse } from 'csv-parse/sync';
import ExcelJS from 'exceljs';
import { SaxesParser } from 'saxes';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { recheck } from '../../../src/cli/recheck/recheck.ts';
import { refreshed } from '../../../src/cli/recheck/refresh.ts';
import { asInTheHost } from '../../../src/engine/as-in-the-host.ts';
import { template, templateFile } from '../../../src/cli/template/command.ts';
import { jobWorkbook } from '../../../src/files/template/job-workbook.ts';
import { newWorkbook } from '../../../src/files/xlsx/new-workbook.ts';
import { readWorkbook } from '../../../src/files/xlsx/read-workbook.ts';
import { openArchive, type Archive } from '../../../src/files/xlsx/zip.ts';
import { isCellError } from '../../../src/catalogue/cell.ts';
import { hostFunctions } from '../../../src/sheet/host-functions.ts';
import { calculateWorkbook } from '../../../src/engine/headless.ts';
import { YELLOW } from '../../../src/sheet/yellow.ts';
import { altered, replacing, SHEET1 } from '../../files/xlsx/make.ts';

const SOFFICE = ['/usr/bin/soffice', '/usr/bin/libreoffice'].find((p) => existsSync(p));
const folder = mkdtempSync(path.join(tmpdir(), 'rodsheet-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string): string => path.join(folder, name);

/** Elements of a worksheet in the order that the standard asks for: ISO/IEC 29500-1, 18.3.1.99 (CT_Worksheet), those used here. */
const WORKSHEET_ORDER = [
  'sheetPr',
  'dimension',
  'sheetViews',
  'sheetFormatPr',
  'cols',
  'sheetData',
  'sheetProtection',
  'mergeCells',
  'conditionalFormatting',
  'dataValidations',
  'pageMargins',
  'pageSetup',
];
/** The same of a workbook (18.2.27), a style sheet (18.8.39) and the metadata (18.9.9). */
const ORDERS: Readonly<Record<string, readonly string[]>> = {
  worksheet: WORKSHEET_ORDER,
  workbook: ['bookViews', 'sheets', 'definedNames', 'calcPr'],
  styleSheet: ['numFmts', 'fonts', 'fills', 'borders', 'cellStyleXfs', 'cellXfs', 'cellStyles', 'dxfs'],
  metadata: ['metadataTypes', 'futureMetadata', 'cellMetadata'],
};

interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: Element[];
  text: string;
}

/** A part as a tree; throws where it is not well-formed or a prefix is not declared. */
function tree(archive: Archive, part: string): Element {
  const parser = new SaxesParser({ xmlns: true });
  const open: Element[] = [{ name: '', attributes: {}, children: [], text: '' }];
  parser.on('opentag', (tag) => {
    const element: Element = {
      name: tag.local,
      attributes: Object.fromEntries(Object.values(tag.attributes).map((a) => [a.name, a.value])),
      children: [],
      text: '',
    };
    open.at(-1)!.children.push(element);
    open.push(element);
  });
  parser.on('closetag', () => void open.pop());
  parser.on('text', (t) => void (open.at(-1)!.text += t));
  parser.on('error', (e) => {
    throw e;
  });
  parser.write(new TextDecoder().decode(archive.read(part))).close();
  return open[0]!.children[0]!;
}

let file: Buffer;
beforeAll(async () => {
  file = Buffer.from(await templateFile());
});

describe('the job workbook as a package', () => {
  it('has a content type for every part, and every relationship leads to a part', () => {
    const archive = openArchive(file);
    const types = tree(archive, '[Content_Types].xml').children;
    const overrides = new Set(types.filter((t) => t.name === 'Override').map((t) => t.attributes['PartName']));
    const reached = new Set<string>();
    for (const name of archive.names.filter((n) => n.endsWith('.rels'))) {
      const base = path.posix.join(path.posix.dirname(name), '..');
      const ids = tree(archive, name).children.map((r) => r.attributes['Id']);
      expect(new Set(ids).size).toBe(ids.length);
      for (const { attributes } of tree(archive, name).children) {
        const target = path.posix.join(base, attributes['Target'] ?? '');
        expect(archive.names, `${name} leads to ${target}`).toContain(target);
        reached.add(target);
      }
    }
    for (const name of archive.names.filter((n) => n !== '[Content_Types].xml' && !n.endsWith('.rels'))) {
      expect(overrides, name).toContain(`/${name}`);
      expect(reached, `${name} is reached by no relationship`).toContain(name);
    }
    expect(overrides.size).toBe(
      archive.names.filter((n) => n !== '[Content_Types].xml' && !n.endsWith('.rels')).length,
    );
  });

  it("has well-formed parts with their elements in the standard's order", () => {
    const archive = openArchive(file);
    for (const name of archive.names) {
      const root = tree(archive, name);
      const order = ORDERS[root.name];
      if (!order) continue;
      const places = root.children.map((c) => order.indexOf(c.name));
      expect(places, `${name}: ${root.children.map((c) => c.name).join(' ')}`).not.toContain(-1);
      expect([...places].sort((a, b) => a - b)).toEqual(places);
    }
  });

  it('points to styles that are there, and has rows and cells in order', () => {
    const archive = openArchive(file);
    const looks = tree(archive, 'xl/styles.xml').children.find((c) => c.name === 'cellXfs')!;
    expect(looks.attributes['count']).toBe(String(looks.children.length));
    for (const name of archive.names.filter((n) => n.startsWith('xl/worksheets/sheet'))) {
      for (const row of tree(archive, name).children.find((c) => c.name === 'sheetData')!.children) {
        for (const cell of row.children) {
          expect(Number(cell.attributes['s'] ?? 0)).toBeLessThan(looks.children.length);
          expect(cell.attributes['r']).toMatch(new RegExp(`^[A-Z]+${row.attributes['r'] ?? ''}$`));
        }
      }
    }
    // The reader refuses rows and cells that are out of order.
    expect(readWorkbook(file).sheets.map((s) => s.name)).toEqual([
      'Pins',
      'Plan',
      'Stock',
      'Quote',
      'Shifts',
      'Cautions',
      'Basis',
      'Working',
      'Log',
      'Audit',
      'Assumptions',
      'Checks',
      'About',
      'Calculation',
    ]);
  });

  it('is the same file each time', async () => {
    expect(file.equals(await templateFile())).toBe(true);
  });
});

describe('the formulas of the job workbook', () => {
  it('stand as the host stores them: tables spill on the sheet Calculation, single values are plain elsewhere', () => {
    const { sheets } = readWorkbook(file);
    const ours = sheets.flatMap((s) =>
      s.cells.flatMap((c) => (c.formula?.text.includes('_xldudf_BURN_') ? [{ sheet: s.name, ...c.formula }] : [])),
    );
    expect(ours.length).toBeGreaterThan(150);
    for (const { sheet, kind } of ours) expect(kind).toBe(sheet === 'Calculation' ? 'dynamic' : 'plain');
    const names = new Set(hostFunctions.map((f) => `_xldudf_${f.name.replaceAll('.', '_')}`));
    for (const { text } of ours) for (const name of text.match(/_xldudf_\w+/g) ?? []) expect(names).toContain(name);
    expect(new Set(ours.flatMap(({ text }) => text.match(/_xldudf_\w+/g) ?? [])).size).toBeGreaterThanOrEqual(12);
  });

  it('use all sections, and hold no error', () => {
    const { sheets } = readWorkbook(file);
    for (const s of sheets)
      for (const c of s.cells)
        expect(isCellError(c.value), `${s.name} row ${c.row + 1}: ${JSON.stringify(c.value)}`).toBe(false);
    const text = sheets.map((s) => s.cells.map((c) => c.formula?.text ?? '').join('\n')).join('\n');
    for (const name of [
      'PIN_RODS',
      'JOB_PLAN',
      'JOB_STOCK',
      'JOB_COST',
      'JOB_SCHEDULE',
      'CAUTIONS',
      'JOB_BASIS',
      'PIN_STEPS',
      'ASSUME_DIFF',
      'ASSUME_EFFECT',
      'VERSION',
    ])
      expect(text).toContain(`_xldudf_BURN_${name}(`);
  });

  it('show whole tables: no table is longer than the room kept for it', () => {
    for (const s of readWorkbook(file).sheets)
      for (const c of s.cells)
        if (c.formula?.text.includes('more on the sheet'))
          expect(String(c.value).trim(), `${s.name} row ${c.row + 1}`).toBe('');
  });

  it('come out the same in a recheck, and follow a pin that is changed', async () => {
    const r = await recheck(file);
    expect(r.cells.filter((c) => c.status !== 'same')).toEqual([]);
    expect([r.others, r.kept]).toEqual([[], []]);
    const changed = altered(file, { [SHEET1]: replacing(/(<c r="C7"[^>]*>)<v>5<\/v>/, '$1<v>4</v>') });
    const moved = await recheck(changed);
    expect(new Set(moved.cells.filter((c) => c.status === 'moved').map((c) => c.sheet))).toEqual(
      new Set(['Pins', 'Calculation']),
    );
    const again = await recheck(refreshed(moved, true));
    expect(again.cells.filter((c) => c.status !== 'same')).toEqual([]);
    expect(again.others).toEqual([]);
  });

  it('check themselves: all agree as it comes, and a blank length, a failed pin and another version are found', async () => {
    const checks = (made: Uint8Array): readonly (readonly [unknown, unknown])[] => {
      const { cells } = readWorkbook(made).sheets.find(({ name }) => name === 'Checks')!;
      const at = (row: number, column: number): unknown =>
        cells.find((c) => c.row === row && c.column === column)?.value ?? null;
      return [2, 6, 7, 8, 9, 10, 11, 12].map((row) => [at(row, 0), row === 2 ? null : at(row, 3)]);
    };
    const [all, ...lines] = checks(file);
    expect(all![0]).toBe('All 7 checks passed');
    expect(lines.map(([, result]) => result)).toEqual(Array.from({ length: 7 }, () => 'passed'));
    // The lengths of the first pin is taken out, the diameter of the fourth is a word, and an old version was quoted.
    const spoilt = altered(file, {
      [SHEET1]: (xml) =>
        replacing(
          /(<c r="C10"[^>]*>)<v>3.5<\/v>/,
          '$1<v>-1</v>',
        )(replacing(/(<c r="D7"[^>]*)>\s*<v>18<\/v><\/c>/, '$1/>')(xml)),
      ['xl/worksheets/sheet12.xml']: replacing(
        /<c r="B4"([^>]*)\/>/,
        '<c r="B4"$1 t="inlineStr"><is><t>2026.01.05</t></is></c>',
      ),
    });
    const again = checks(refreshed(await recheck(spoilt), true));
    const failed = again.filter(([, result]) => result === 'LOOK').map(([what]) => what);
    expect(failed).toEqual([
      'pins with a diameter, and pins sized',
      'pins with a diameter, and with a length',
      'cells of the list that failed, and none',
      'version calculated with, and version typed when it was quoted',
    ]);
    expect(again[0]![0]).toBe('4 of 7 want a look');
  });

  it('leave a section out where its function is not there', async () => {
    const without = hostFunctions.filter((f) => f.name !== 'BURN.JOB.COST' && f.name !== 'BURN.CAUTIONS');
    const book = jobWorkbook(without, [
      ['name', 'value', 'low', 'high', 'unit', 'kind', 'source', 'meaning'],
      ['stub', 3, 2, 4, 'in', '', '', ''],
    ]);
    expect(book.sheets.map((s) => s.name)).not.toContain('Quote');
    const made = newWorkbook(book, await calculateWorkbook(book, without.map(asInTheHost)));
    expect((await recheck(made)).cells.every((c) => c.status === 'same')).toBe(true);
  });
});

describe('the job workbook in other programs', () => {
  it('is read by a library of another make, with values, looks, validations and names', async () => {
    const book = new ExcelJS.Workbook();
    await book.xlsx.load(file as never);
    const pins = book.getWorksheet('Pins')!;
    const own = readWorkbook(file).sheets[0]!;
    for (const c of own.cells.filter((each) => each.formula && each.value !== '')) {
      const read = pins.getCell(c.row + 1, c.column + 1).value as { formula: string; result: unknown };
      expect(read.result, `row ${c.row + 1}`).toBe(c.value);
    }
    expect(pins.getCell('A1').font).toMatchObject({ bold: true, size: 16 });
    expect(pins.getCell('F7').dataValidation).toMatchObject({ type: 'list' });
    expect(book.definedNames.getRanges('Assume').ranges[0]).toMatch(/^Assumptions!\$A\$3:\$K\$\d+$/);
    expect(book.getWorksheet('Calculation')?.state).toBe('hidden');
    // Only what is yellow may be typed over, on every sheet, and there is no password.
    for (const sheet of book.worksheets) {
      const { sheetProtection } = sheet as unknown as { readonly sheetProtection: object };
      expect(sheetProtection, sheet.name).toMatchObject({ sheet: true });
      expect(Object.keys(sheetProtection)).not.toContain('hashValue');
      sheet.eachRow((row) =>
        row.eachCell({ includeEmpty: true }, (cell) => {
          const yellow =
            (cell.fill as { readonly fgColor?: { readonly argb?: string } } | undefined)?.fgColor?.argb ===
            `FF${YELLOW.slice(1).toUpperCase()}`;
          const legend = sheet.name === 'About';
          if (!legend)
            expect(
              (cell.protection as { readonly locked?: boolean } | undefined)?.locked === false,
              `${sheet.name} ${cell.address}`,
            ).toBe(yellow);
        }),
      );
    }
    const { conditionalFormattings } = book.getWorksheet('Checks') as unknown as {
      readonly conditionalFormattings: readonly { readonly ref: string }[];
    };
    expect(conditionalFormattings.length).toBe(3);
  });

  it.skipIf(SOFFICE === undefined && !process.env['CI'])(
    'shows its saved values, cell by cell, in a spreadsheet program without the add-in',
    async () => {
      writeFileSync(at('job.xlsx'), file);
      // One CSV a sheet, values as shown.
      const filter = 'csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,false,false,-1';
      await promisify(execFile)(SOFFICE!, [
        `-env:UserInstallation=file://${at('profile')}`,
        '--headless',
        '--convert-to',
        filter,
        '--outdir',
        folder,
        at('job.xlsx'),
      ]);
      let compared = 0;
      for (const sheet of readWorkbook(file).sheets) {
        if (sheet.name === 'Calculation') continue;
        const rows: readonly (readonly string[])[] = parse(readFileSync(at(`job-${sheet.name}.csv`), 'utf8'), {
          relax_column_count: true,
        });
        for (const { row, column, value } of sheet.cells) {
          const shown = rows[row]?.[column] ?? '';
          if (typeof value === 'number') {
            expect(
              Math.abs(Number(shown.replaceAll(',', '')) - value),
              `${sheet.name} row ${row + 1}, column ${column + 1}: ${shown} for ${value}`,
            ).toBeLessThanOrEqual(0.5 + 1e-9 * Math.abs(value));
            compared++;
          } else if (typeof value === 'string') {
            expect(shown.trim().replace(/\s+/g, ' '), `${sheet.name} row ${row + 1}, column ${column + 1}`).toBe(
              value.trim().replace(/\s+/g, ' '),
            );
            compared++;
          }
        }
      }
      expect(compared).toBeGreaterThan(3000);
    },
  );
});

describe('a job workbook saved again by a program without the add-in', () => {
  it.skipIf(SOFFICE === undefined)(
    "is read in that program's way of writing, and has its results again when written",
    async () => {
      writeFileSync(at('again.xlsx'), file);
      await promisify(execFile)(SOFFICE!, [
        `-env:UserInstallation=file://${at('profile')}`,
        '--headless',
        '--convert-to',
        'xlsx:Calc MS Excel 2007 XML',
        '--outdir',
        at('saved'),
        at('again.xlsx'),
      ]);
      const r = await recheck(readFileSync(at('saved/again.xlsx')));
      // Single values it kept; arrays it cannot calculate, and saved an error in their place.
      expect(r.cells.filter((c) => c.sheet === 'Pins' && c.status !== 'same')).toEqual([]);
      expect(r.cells.filter((c) => c.status === 'broken')).toEqual([]);
      const lost = r.cells.filter(
        (c) => c.sheet === 'Calculation' && isCellError(c.before) && c.before.error === '#NAME?',
      );
      expect(lost.length).toBeGreaterThan(1000);
      const again = await recheck(refreshed(r, true));
      expect(again.cells.filter((c) => c.status !== 'same')).toEqual([]);
      expect(again.versions).toEqual([{ place: 'Calculation!A3', version: r.version }]);
    },
  );
});

describe('the command', () => {
  it('writes the workbook, once', async () => {
    expect(await template([at('new.xlsx')])).toEqual({ code: 0, out: `written: ${at('new.xlsx')}`, err: '' });
    expect(readFileSync(at('new.xlsx')).equals(file)).toBe(true);
    expect(await template([at('new.xlsx')])).toMatchObject({
      code: 2,
      err: expect.stringContaining('is there already; --force') as string,
    });
    expect((await template(['--force', at('new.xlsx')])).code).toBe(0);
    expect(readdirSync(folder).filter((n) => n.endsWith('.part'))).toEqual([]);
  });

  it.each([
    [[], 'No file given'],
    [['a.xlsx', 'b.xlsx'], 'One file at a time'],
    [['a.csv'], 'must end in .xlsx'],
    [['--fast', 'a.xlsx'], 'no option --fast'],
    [[at('none/a.xlsx')], 'ENOENT'],
  ])('answers wrong use %j with exit code 2', async (args, why) => {
    expect(await template(args)).toMatchObject({ code: 2, out: '', err: expect.stringContaining(why) as string });
  });

  it('explains itself', async () => {
    expect((await template(['--help'])).out).toContain('npm run --silent template');
  });
});
