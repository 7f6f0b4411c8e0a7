import { describe, expect, it } from 'vitest';
import { isCellError } from '../../src/catalogue/cell.ts';
import { OPERATION_IDS, operationOf } from '../../src/core/operations/all.ts';
import { RODS } from '../../src/core/burn/rods.ts';
import { cellsOf, numberOf, rowsOf, textOf } from '../published/plan-of.ts';

const messageOf = (
  name: string,
  ...args: Parameters<typeof cellsOf> extends [string, ...infer A] ? A : never
): string => {
  const cell = cellsOf(name, ...args)
    .flat()
    .find(isCellError);
  return cell ? `${cell.error} ${cell.message}` : 'no error';
};

describe('BURN.ROD.LIST', () => {
  it('has a row for each rod, whose flow BURN.ROD.FLOW agrees with', () => {
    const rows = rowsOf('BURN.ROD.LIST');
    expect(rows.map((r) => r['rod'])).toEqual(RODS.map((r) => r.name));
    for (const r of rows) {
      const [longest, stub] = [
        Number(textOf(r['lengths']).split(', ').at(-1)?.replace(' in', '')),
        textOf(r['kind']).includes('bar') ? 8 : 3,
      ];
      const [fresh, spent] = [
        numberOf('BURN.ROD.FLOW', r['rod'], r['tip pressure'], longest),
        numberOf('BURN.ROD.FLOW', r['rod'], r['tip pressure'], stub),
      ];
      expect(r['flow']).toBeGreaterThan(fresh);
      expect(r['flow']).toBeLessThan(spent);
    }
  });

  it('follows the assumptions', () => {
    expect(rowsOf('BURN.ROD.LIST', [['tip pressure', 120]])[0]?.['tip pressure']).toBeCloseTo(120, 9);
    expect(rowsOf('BURN.ROD.LIST', [['units', 'SI']])[2]?.['outside diameter']).toBeCloseTo(9.525, 9);
  });
});

describe('BURN.ROD.PICK', () => {
  it.each(OPERATION_IDS)('picks for %s what its plan picks, with the reason and a dearer runner-up', (id) => {
    const sizes = operationOf(id).order.map((name) => Number(operationOf(id).sizes[name]?.example));
    const rows = rowsOf('BURN.ROD.PICK', id, ...sizes);
    const plan = rowsOf(`BURN.${id}.PLAN`, ...sizes)[0];
    expect(rows[0]).toMatchObject({
      choice: 'pick',
      rod: plan?.['rod'],
      rods: plan?.['rods'],
      oxygen: plan?.['oxygen'],
    });
    expect(textOf(rows[0]?.['why'])).toContain('its work costs least of');
    expect(rows[1]?.['choice']).toBe('runner-up');
    expect(textOf(rows[1]?.['why'])).toMatch(/^its work costs [\d.]+% more$|^costs as much$/);
  });

  it('takes the sizes one an argument or all in a range', () => {
    expect(cellsOf('BURN.ROD.PICK', 'PIN', [[4, 10, 2.5]])).toEqual(cellsOf('BURN.ROD.PICK', 'PIN', 4, 10, 2.5));
    expect(cellsOf('BURN.ROD.PICK', 'PIN', [[4], [10]])).toEqual(cellsOf('BURN.ROD.PICK', 'PIN', 4, 10));
    expect(cellsOf('BURN.ROD.PICK', 'PIN', '100 mm', '10"', null)).toEqual(
      cellsOf('BURN.ROD.PICK', 'PIN', 100 / 25.4, 10),
    );
  });

  it('keeps to the access given, for short rods and bars', () => {
    expect(rowsOf('BURN.ROD.PICK', 'PIN', 4, 10, undefined, 20)[0]?.['rod']).toMatch(/^3\/8 x 18( coupled)?$/);
    expect(textOf(rowsOf('BURN.ROD.PICK', 'BREACH', 24, 2.5, undefined, 70)[0]?.['rod'])).toMatch(
      /pipe x 60( coupled)?$/,
    );
    expect(textOf(rowsOf('BURN.ROD.PICK', 'BREACH', 6, 2.5, undefined, 40)[0]?.['rod'])).not.toContain('pipe');
  });

  it('says what is wrong with the sizes', () => {
    expect(messageOf('BURN.ROD.PICK', 'HOLE', 1)).toBe('#VALUE! depth is blank or zero; must be more than 0');
    expect(messageOf('BURN.ROD.PICK', 'HOLE', 1, 6, 3)).toBe('#VALUE! there are 3 sizes; HOLE takes hole, depth');
    expect(messageOf('BURN.ROD.PICK', 'HOLE', 46089, 6)).toMatch(/^#VALUE! hole is 46089, which looks like a date/);
    expect(messageOf('BURN.ROD.PICK', 'STUD', 1, 2.5)).toBe('#VALUE! count is 2.5; must be a whole number');
    expect(messageOf('BURN.ROD.PICK', 'WELD', 1)).toMatch(/^#VALUE! operation is "WELD"; must be one of PIN, HOLE/);
    expect(messageOf('BURN.ROD.PICK', 'PIN', 4, 10, 5)).toMatch(/hole is 5 in; must be less than the pin's 4 in/);
    expect(messageOf('BURN.ROD.PICK', 'HOLE', 0.2, 6)).toMatch(
      /^#N\/A hole is 0.2 in; the thinnest rod in the register/,
    );
  });
});

describe('BURN.ROD.CUTLIST', () => {
  it('sums up rods, length burned and length left, with the bound beside it', () => {
    const rows = rowsOf('BURN.ROD.CUTLIST', [[4], [6], [null], [9], [12], [12]], [['3/8 x 24'], ['3/8 x 36']]);
    const each = rows.slice(0, -1);
    const all = rows.at(-1);
    expect(all?.['stock']).toBe(each.length);
    for (const of of ['burned', 'left'])
      expect(all?.[of]).toBeCloseTo(
        each.reduce((sum, r) => sum + (r[of] as number), 0),
        9,
      );
    expect(textOf(all?.['holes, in this order'] ?? all?.['holes'])).toMatch(/no plan can do with fewer than \d+/);
    for (const r of each)
      expect((r['burned'] as number) + (r['left'] as number)).toBeCloseTo(
        Number(textOf(r['stock']).split(' x ')[1]),
        9,
      );
  });

  it("takes one 3/8 x 36 rod for one shallow hole, and no fewer rods than the hole's own plan", () => {
    expect(rowsOf('BURN.ROD.CUTLIST', 2).at(-1)?.['stock']).toBe(1);
    for (const depth of [3, 6, 10, 14]) {
      const single = numberOf('BURN.HOLE.RODS', 0.75, depth, '3/8 x 36');
      expect(rowsOf('BURN.ROD.CUTLIST', depth, '3/8 x 36').at(-1)?.['stock'], `${depth} in`).toBeGreaterThanOrEqual(
        single,
      );
    }
  });

  it('says what is wrong with depths and stock, naming the row', () => {
    expect(messageOf('BURN.ROD.CUTLIST', [[4], ['deep']])).toMatch(/^#VALUE! depths row 2: depth is "deep"/);
    expect(messageOf('BURN.ROD.CUTLIST', [[null], ['']])).toMatch(/^#VALUE! depths holds no row/);
    expect(messageOf('BURN.ROD.CUTLIST', 4, [['3/8 x 36'], ['1/4 x 36']])).toBe(
      '#VALUE! stock holds 3/8 and 1/4; must be rods of one size, in one or more lengths',
    );
    expect(messageOf('BURN.ROD.CUTLIST', 4, '5/8 x 36')).toMatch(
      /^#N\/A stock row 1: rod "5\/8 x 36" is not in the register; nearest:/,
    );
    expect(messageOf('BURN.ROD.CUTLIST', 34, '3/8 x 36')).toMatch(
      /^#N\/A a 3\/8 x 36 rod reaches 33 in with its stub; the work is 34 in deep/,
    );
  });
});
