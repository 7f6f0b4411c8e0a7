import { describe, expect, it } from 'vitest';
import { isCellError, type Cell } from '../../../src/catalogue/cell.ts';
import { hostFunctions } from '../../../src/sheet/host-functions.ts';
import { draglineSheets } from '../../../src/trial/demo/dragline.ts';
import { finishedJobsSheet } from '../../../src/trial/demo/finished-jobs.ts';
import { calculateWorkbook } from '../../../src/engine/headless.ts';

const column = (cells: readonly (readonly Cell[])[], heading: string): readonly Cell[] => {
  const at = cells[0]!.findIndex((h) => typeof h === 'string' && h.replace(/,.*/, '') === heading);
  return cells.slice(1).map((row) => row[at] ?? null);
};

describe('the demo sheet of finished jobs', () => {
  it('fits, scores and plans without an error, and with a narrower range after the fit', async () => {
    const book = await calculateWorkbook({ sheets: [finishedJobsSheet()] }, hostFunctions);
    for (const at of ['S5', 'A39', 'A47', 'A67', 'A70']) {
      const cells = book.spilled(at);
      expect(cells.length, at).toBeGreaterThan(1);
      expect(cells.flat().filter(isCellError), at).toEqual([]);
    }
    const width = (at: string): number => {
      const plan = book.spilled(at);
      return (column(plan, 'oxygen high')[0] as number) / (column(plan, 'oxygen low')[0] as number);
    };
    expect(width('A70')).toBeLessThan(1 + 0.5 * (width('A67') - 1));
    expect(column(book.spilled('A39'), 'verdict').length).toBe(4);
  });
});

describe('the demo sheet of load and price', () => {
  it('loads, prices and schedules the dragline job without an error', async () => {
    const book = await calculateWorkbook({ sheets: draglineSheets() }, hostFunctions);
    const [stock, cost, schedule] = ["'Load and price'!E9", "'Load and price'!A25", "'Load and price'!A53"].map((at) =>
      book.spilled(at),
    ) as [Cell[][], Cell[][], Cell[][]];
    for (const cells of [stock, cost, schedule]) {
      expect(cells.flat().filter(isCellError)).toEqual([]);
      expect(column(cells, cells[0]![0] as string)).not.toContain('left out');
    }
    expect(stock.at(-1)?.[0]).toBe('all together');
    expect(cost.at(-1)?.[0]).toBe('price');
    const items = column(schedule, 'order').filter((c) => typeof c === 'number');
    expect(items).toHaveLength(24);
    // The stock covers what the plan adds up to.
    const rods = stock.filter((row) => typeof row[0] === 'string' && row[0].startsWith('rods'));
    for (const row of rods) expect(row[1] as number).toBeGreaterThanOrEqual(row[3] as number);
  });
});
