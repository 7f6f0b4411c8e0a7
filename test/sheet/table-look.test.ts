import { describe, expect, it } from 'vitest';
import { CATALOGUE, findFunction } from '../../src/catalogue/catalogue.ts';
import type { Cell } from '../../src/catalogue/cell.ts';
import { call } from '../../src/sheet/call.ts';
import { tableLook, type ColumnLook, type TableLook } from '../../src/sheet/table-look.ts';

function look(name: string, rows: readonly (readonly Cell[])[]): TableLook {
  const found = tableLook(findFunction(name)!, rows);
  if (!found) throw new Error(`${name} has no table`);
  return found;
}
const list = [
  ['mark', 'qty', 'dia', 'length'],
  ['Boom foot, left', 2, 5, 18],
  ['Lock pin', 4, 1.5, 6],
];

describe('the look of a table', () => {
  it('is none for single values', () => {
    expect(tableLook(findFunction('BURN.PIN.OXYGEN')!, [[1]])).toBeUndefined();
  });

  it('has a column for each of every function that gives a table', () => {
    for (const d of CATALOGUE) {
      if (d.result.kind === 'value') continue;
      expect(tableLook(d, [])?.columns.length, d.name).toBe(d.result.columns.length);
    }
  });

  it('counts rods whole, gives quantities about four digits, and wraps notes in a wide column', () => {
    const rows = call(findFunction('BURN.JOB.PLAN')!, [list]);
    const { columns, headed } = look('BURN.JOB.PLAN', rows);
    const at = (heading: string): ColumnLook => {
      const c = rows[0]!.findIndex((h) => String(h).replace(/,.*/, '') === heading);
      expect(c, heading).toBeGreaterThanOrEqual(0);
      return columns[c]!;
    };
    expect(headed).toBe(true);
    expect(at('rods')).toMatchObject({ format: '#,##0', align: 'right' });
    expect(at('oxygen').format).toMatch(/^#,##0(\.0)?$/);
    expect(at('note')).toMatchObject({ wrap: true, align: 'left', vertical: 'top' });
    expect(at('note').width).toBeGreaterThan(300);
    expect(at('mark').width).toBeGreaterThan(100);
  });

  it('wraps cautions', () => {
    const rows = call(findFunction('BURN.CAUTIONS')!, ['PIN']);
    const { columns } = look('BURN.CAUTIONS', rows);
    const texts = rows[0]!.map((_, c) => Math.max(...rows.slice(1).map((row) => String(row[c] ?? '').length)));
    texts.forEach((longest, c) => {
      if (longest > 60) expect(columns[c], String(rows[0]![c])).toMatchObject({ wrap: true, width: 420 });
    });
    expect(texts.some((longest) => longest > 60)).toBe(true);
  });

  it('leaves numbers that no one format would do for as they are', () => {
    const rows = call(findFunction('BURN.PIN.STEPS')!, [4, 10]);
    const value = rows[0]!.indexOf('value');
    expect(look('BURN.PIN.STEPS', rows).columns[value]?.format).toBeUndefined();
  });

  it('of a table without headings begins with its first row', () => {
    const d = CATALOGUE.find(({ result }) => result.kind === 'table' && 'headless' in result)!;
    const look = tableLook(d, [[1.25], [2.5]]);
    expect(look?.headed).toBe(false);
    expect(look?.columns[0]).toMatchObject({ format: '#,##0.000' });
  });
});
