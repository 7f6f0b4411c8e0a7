/** The functions in LibreOffice Calc itself, without a window. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../../src/catalogue/catalogue.ts';
import { hostFunctions } from '../../../src/sheet/host-functions.ts';
import type { Argument, Cell } from '../../../src/sheet/host-function.ts';
import { recheck } from '../../../src/cli/recheck/recheck.ts';
import type { Calc, CalcCell } from './calc.ts';
import { startCalc } from './installed.ts';
import { examples, type Example } from './examples.ts';

/** The program's category of functions of extensions; it has none of our own. */
const ADD_INS = 11;
const VALUE = 519;
const NOT_AVAILABLE = 32_767;

let calc: Calc;
const folder = mkdtempSync(path.join(tmpdir(), 'rodsheet-saved-'));

beforeAll(async () => {
  calc = await startCalc();
});
afterAll(async () => {
  await calc.end();
  rmSync(folder, { recursive: true, force: true });
});

/** A document that is closed again. */
async function inDocument<T>(work: (document: string) => Promise<T>): Promise<T> {
  await calc.open('test');
  try {
    return await work('test');
  } finally {
    await calc.close('test');
  }
}

const PINS = [
  [3.5, 12],
  [4, 10],
  [null, null],
  [3, 8],
] as const;

/** What BURN.PIN.RODS gives for these. */
const rods = (diameter: Argument, length: Argument): readonly (readonly Cell[])[] =>
  hostFunctions.find((f) => f.name === 'BURN.PIN.RODS')!.call([diameter, length]);

const shown = (rows: readonly (readonly CalcCell[])[]): readonly (readonly string[])[] =>
  rows.map((row) => row.map((c) => c.shown));

describe('the documented examples', () => {
  let all: readonly Example[];
  beforeAll(async () => {
    all = examples();
    await calc.open('examples');
    for (const { sheet, address, typed } of all) await calc.put('examples', { [address]: typed }, sheet);
  });

  const compare = async (document: string): Promise<void> => {
    expect(all.length).toBeGreaterThanOrEqual(CATALOGUE.length);
    for (const { formula, sheet, address, values } of all) {
      const found = await calc.values(document, address, sheet);
      for (const [r, row] of values.entries())
        for (const [c, expected] of row.entries()) {
          const place = `${formula}, row ${r + 1}, column ${c + 1}`;
          const value = found[r]![c];
          if (typeof expected === 'number') {
            expect(typeof value, place).toBe('number');
            expect(Math.abs((value as number) - expected), place).toBeLessThanOrEqual(1e-12 * Math.abs(expected));
          } else expect(value, place).toBe(expected ?? '');
        }
    }
  };

  it('give what the command line gives, within one part in a million million', () => compare('examples'));

  it.each(['.ods', '.xlsx'])('are the same after being saved as %s, reopened and calculated again', async (ending) => {
    const file = path.join(folder, `examples${ending}`);
    await calc.save('examples', file);
    await calc.open('again', file);
    await calc.recalculate('again');
    await compare('again');
    await calc.close('again');
  });

  it('are found unmoved by recheck in the workbook that Calc saved', async () => {
    const found = await recheck(readFileSync(path.join(folder, 'examples.xlsx')));
    expect(found.cells.length).toBeGreaterThan(1000);
    expect(found.cells.filter((c) => c.status !== 'same')).toEqual([]);
  });

  it('have names, help and arguments in the function wizard, of all functions', async () => {
    const listed = new Map((await calc.functions()).map((f) => [f.name, f]));
    expect(listed.size).toBe(hostFunctions.length + 1);
    for (const f of hostFunctions) {
      const { description, category, arguments: args } = listed.get(f.name)!;
      expect(category).toBe(ADD_INS);
      expect(description).toBe(f.summary);
      expect(args.map((a) => a.name)).toEqual(f.parameters.map((p) => p.name));
      for (const [i, p] of f.parameters.entries()) expect(args[i]!.description).toContain(p.summary);
    }
  });
});

describe('arguments', () => {
  it('may be blank cells, dates, booleans, texts and numbers, and each is taken for what it is', () =>
    inDocument(async (d) => {
      const six = rods([[3.5]], [[12]]).flat()[0];
      await calc.fill(d, 'A1', [[3.5, 12, null, '100 mm']]);
      await calc.put(d, {
        E1: '=DATE(2026;3;8)',
        F1: '=TRUE()',
        A3: '=BURN.PIN.RODS(A1;B1)',
        B3: '=BURN.PIN.RODS(C1;C1)',
        C3: '=BURN.PIN.RODS(A1;C1)',
        D3: '=BURN.PIN.RODS(D1;B1)',
        E3: '=BURN.PIN.RODS(E1;B1)',
        F3: '=BURN.PIN.RODS(A1;B1;;;;)',
        A4: '=BURN.WHY(C3)',
        B4: '=BURN.WHY(E3)',
      });
      const [results, reasons] = await calc.read(d, 'A3:F4');
      expect(results!.map((c) => c.value)).toEqual([
        six,
        '',
        '#VALUE!',
        rods([['100 mm']], [[12]]).flat()[0],
        '#VALUE!',
        six,
      ]);
      expect(reasons![0]!.shown).toMatch(/^length is blank/);
      expect(reasons![1]!.shown).toMatch(/date/);
    }));

  it('may be whole columns, ranges of other sheets and names', () =>
    inDocument(async (d) => {
      await calc.fill(d, 'A1', PINS, 'Pins of Monday');
      await calc.do('name', { document: d, name: 'diameters', meaning: "$'Pins of Monday'.$A$1:$A$4" });
      await calc.put(d, {
        'A1:A4': "=BURN.PIN.RODS($'Pins of Monday'.A1:A4;$'Pins of Monday'.B1:B4)",
        'B1:B4': "=BURN.PIN.RODS(diameters;$'Pins of Monday'.B1:B4)",
        C1: "=SUM(BURN.PIN.RODS($'Pins of Monday'.A:A;$'Pins of Monday'.B:B))",
        'D1:D2': '=BURN.PIN.RODS({3.5|4};{12|10})',
      });
      const expected = rods(
        PINS.map(([diameter = null]) => [diameter]),
        PINS.map(([, length = null]) => [length]),
      ).flat();
      const sum = expected.reduce<number>((total, each) => total + Number(each ?? 0), 0);
      expect(await calc.values(d, 'A1:C4')).toEqual(
        expected.map((each, i) => [each ?? '', each ?? '', i === 0 ? sum : '']),
      );
      expect(await calc.values(d, 'D1:D2')).toEqual(expected.slice(0, 2).map((each) => [each]));
    }));

  it('keep rows of a longer list beside blank ones, so that lists of one length stay of one length', () =>
    inDocument(async (d) => {
      await calc.fill(d, 'A1', [
        [3.5, 12],
        [4, 10],
        [3, null],
      ]);
      await calc.put(d, { 'D1:D3': '=BURN.PIN.RODS(A1:A3;B1:B3;C1:C3)' });
      expect(shown(await calc.read(d, 'D1:D3'))).toEqual([['6'], ['6'], ['#VALUE!']]);
    }));
});

describe('an error', () => {
  it('is one to ISERROR and IFERROR, in a single cell and inside an array, and says why', () =>
    inDocument(async (d) => {
      await calc.fill(d, 'A1', [
        [3.5, 12],
        [4, 'long'],
        [3, 8],
      ]);
      await calc.put(d, {
        C1: '=BURN.PIN.RODS("wide";12)',
        C2: '=BURN.ROD.FLOW("4/4";80)',
        'D1:D3': '=BURN.PIN.RODS(A1:A3;B1:B3)',
        E1: '=ISERROR(C1)',
        E2: '=IFERROR(D2;"mend it")',
        E3: '=SUM(IFERROR(D1:D3;0))',
        F1: '=BURN.WHY(C1)',
        F2: '=BURN.WHY(D2)',
        F3: '=BURN.WHY(D3)',
        G1: '=BURN.WHY(C2)',
        G2: '=ISNA(C2)',
      });
      expect((await calc.read(d, 'C1:D3')).map((row) => row.map((c) => c.error))).toEqual([
        [VALUE, 0],
        [NOT_AVAILABLE, VALUE],
        [0, 0],
      ]);
      expect(shown(await calc.read(d, 'E1:E2'))).toEqual([['TRUE'], ['mend it']]);
      const reasons = shown(await calc.read(d, 'F1:G3'));
      expect(reasons[0]![0]).toMatch(/^diameter is "wide"; must be/);
      expect(reasons[1]![0]).toMatch(/^length is "long"; must be/);
      expect(reasons[2]![0]).toBe('');
      expect(reasons[0]![1]).toMatch(/4\/4/);
      expect(reasons[1]![1]).toBe('TRUE');
    }));

  it('of a formula that is written as a text says why, as if the formula stood in the cell beside it', () =>
    inDocument(async (d) => {
      await calc.fill(d, 'A1', [
        [3.5, 12],
        [4, 'long'],
      ]);
      await calc.put(d, {
        'D1:D2': '=BURN.PIN.RODS(A1:A2;B1:B2)',
        E1: '=BURN.WHY(A1;"=BURN.PIN.RODS(""wide"";12)")',
        E2: '=BURN.WHY(A1;FORMULA(D1))',
        E3: '=BURN.WHY(A1;"BURN.PIN.RODS(A1;B1)")',
        E4: '=BURN.WHY(A1;"=1/0")',
        E5: '=BURN.WHY(D2;)',
      });
      await calc.fill(d, 'A1', [['broad']], 'Other');
      await calc.put(d, { E6: '=BURN.WHY($Other.A1;"=BURN.PIN.RODS(A1;$Sheet1.B1)")' });
      const reasons = shown(await calc.read(d, 'E1:E6')).flat();
      expect(reasons[0]).toMatch(/^diameter is "wide"; must be/);
      expect(reasons[1]).toMatch(/^length is "long"; must be/);
      expect(reasons[2]).toBe('');
      expect(reasons[3]).toBe('The formula calls no BURN function.');
      expect(reasons[4]).toMatch(/^length is "long"; must be/);
      expect(reasons[5]).toMatch(/^diameter is "broad"; must be/);
    }));

  it('in a single argument is passed on; in a range it stops the call, which BURN.WHY says', () =>
    inDocument(async (d) => {
      await calc.fill(d, 'A1', [
        [3.5, 12],
        [null, 10],
      ]);
      await calc.put(d, {
        A2: '=NA()',
        C1: '=BURN.PIN.RODS(A2;12)',
        C2: '=BURN.PIN.RODS(A1:A2;B1:B2)',
        'D1:D2': '=BURN.PIN.RODS(IFERROR(A1:A2;"");B1:B2)',
        E1: '=BURN.WHY(C2)',
      });
      expect((await calc.cell(d, 'C1')).error).toBe(NOT_AVAILABLE);
      expect((await calc.cell(d, 'C2')).error).not.toBe(0);
      expect(await calc.shown(d, 'D1')).toBe('6');
      expect(await calc.shown(d, 'E1')).toMatch(/^A1:A2 holds an error/);
    }));
});
