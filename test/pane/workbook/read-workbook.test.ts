import { describe, expect, it } from 'vitest';
import { isCellError, type Cell } from '../../../src/catalogue/cell.ts';
import { findFunction } from '../../../src/catalogue/catalogue.ts';
import { checkWorkbook } from '../../../src/check/check.ts';
import { placesOf } from '../../../src/check/places.ts';
import { addressOf, readArea } from '../../../src/files/xlsx/address.ts';
import type { FormulaCell } from '../../../src/pane/unknown-name.ts';
import { readForCheck, recalculatedFor } from '../../../src/pane/workbook/read-workbook.ts';
import { call } from '../../../src/sheet/call.ts';

const rods = (diameter: Cell, length: Cell): Cell =>
  call(findFunction('BURN.PIN.RODS')!, [diameter, length])[0]?.[0] ?? null;

/** A sheet `Pins` with a list of pins, a formula for each but where a row is given another value or formula. */
async function found(changed: Readonly<Record<string, Cell>> = {}): Promise<readonly string[]> {
  const cells: Record<string, Cell> = { A1: 'Diameter', B1: 'Length', C1: 'Rods' };
  const formulas: FormulaCell[] = [];
  for (const [row, diameter, length] of [
    [2, 3, 10],
    [3, 4, 12],
    [4, 5, 14],
    [5, 6, 16],
  ] as const) {
    Object.assign(cells, { [`A${row}`]: diameter, [`B${row}`]: length });
    const own = changed[`A${row}`] ?? diameter;
    const value = rods(own, length);
    if (changed[`C${row}`] === undefined)
      formulas.push({
        sheet: 'Pins',
        address: `C${row}`,
        formula: `=BURN.PIN.RODS(A${row},B${row})`,
        // The host keeps the code of an error and drops its words.
        value: isCellError(value) ? { ...value, message: '' } : value,
      });
  }
  Object.assign(cells, changed);
  const asked: string[] = [];
  const read = (reference: string): Promise<readonly (readonly Cell[])[]> => {
    asked.push(reference);
    const area = readArea(reference.replace(/^Pins!/, ''));
    if (!area) return Promise.reject(new Error('there is no such range'));
    return Promise.resolve(
      Array.from({ length: area.bottom - area.top + 1 }, (_, r) =>
        Array.from({ length: area.right - area.left + 1 }, (__, c) => {
          const address = addressOf(area.top + r, area.left + c);
          return formulas.find((f) => f.address === address)?.value ?? cells[address] ?? null;
        }),
      ),
    );
  };
  const workbook = await readForCheck(formulas, { read });
  expect(asked).toHaveLength(1);
  const again = await recalculatedFor(workbook, formulas, { read }, () => undefined);
  return checkWorkbook(workbook, again).findings.map((f) => `${placesOf(workbook, f.cells)} ${f.kind}: ${f.text}`);
}

describe('a workbook behind the pane', () => {
  it('that is whole gives nothing', async () => expect(await found()).toEqual([]));

  it('is read with what stands round its formulas: a number typed over one', async () => {
    expect(await found({ C4: 9 })).toEqual([expect.stringMatching(/^Pins!C4 typed over: 9 is typed/)]);
  });

  it('says why a cell failed, where the host keeps the code alone', async () => {
    expect(await found({ A3: 'thick' })).toEqual([expect.stringMatching(/^Pins!C3 error: diameter/)]);
  });
});
