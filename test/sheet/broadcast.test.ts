import { describe, expect, it } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { isCellError, type Cell } from '../../src/catalogue/cell.ts';
import type { Declaration } from '../../src/catalogue/declaration.ts';
import { call } from '../../src/sheet/call.ts';
import type { Argument } from '../../src/sheet/host-function.ts';

const fn = (name: string): Declaration => {
  const found = findFunction(name);
  if (!found) throw new Error(name);
  return found;
};
const OXYGEN = fn('BURN.PIN.OXYGEN');
const PLAN = fn('BURN.PIN.PLAN');
const one = (...args: readonly Argument[]): Cell => call(OXYGEN, args)[0]?.[0] ?? null;
const column = (...cells: readonly Cell[]): readonly (readonly Cell[])[] => cells.map((c) => [c]);

describe('ranges', () => {
  it('size a list as single cells would', () => {
    const diameters = [3, 3.5, '4 in', '100 mm'];
    const lengths = [10, 12, 8, '1 ft'];
    expect(call(OXYGEN, [column(...diameters), column(...lengths)])).toEqual(
      diameters.map((d, i) => [one(d, lengths[i])]),
    );
  });

  it('broadcast a single cell over a column', () => {
    expect(call(OXYGEN, [column(3, 4), 10])).toEqual([[one(3, 10)], [one(4, 10)]]);
  });

  it('make a grid of a column and a row', () => {
    expect(call(OXYGEN, [column(3, 4), [[8, 10, 12]]])).toEqual([3, 4].map((d) => [8, 10, 12].map((l) => one(d, l))));
  });

  it('take two grids of equal shape', () => {
    expect(
      call(OXYGEN, [
        [
          [3, 4],
          [5, 6],
        ],
        [
          [8, 9],
          [10, 11],
        ],
      ]),
    ).toEqual([
      [one(3, 8), one(4, 9)],
      [one(5, 10), one(6, 11)],
    ]);
  });

  it('of unequal sizes are refused, naming both', () => {
    const [[cell]] = call(OXYGEN, [column(3, 4, 5), column(8, 9)]) as [[Cell]];
    expect(cell).toEqual({
      error: '#VALUE!',
      message:
        'diameter is 3 rows by 1 column and length is 2 rows by 1 column; ranges must have equal sizes, or be one cell, one row or one column',
    });
  });

  it('give a blank row for a blank row and fail a bad row alone', () => {
    const results = call(OXYGEN, [column(3, null, 'x', '', 4), column(10, null, 10, '', 10)]);
    expect(results[0]).toEqual([one(3, 10)]);
    expect(results[1]).toEqual([null]);
    expect(results[2]?.[0]).toMatchObject({
      error: '#VALUE!',
      message: expect.stringContaining('diameter is "x"') as string,
    });
    expect(results[3]).toEqual([null]);
    expect(results[4]).toEqual([one(4, 10)]);
  });

  it('leave a row blank where only the listed column is blank and the rest is one cell', () => {
    expect(call(OXYGEN, [column(3, null), 10])[1]).toEqual([null]);
  });

  it('say "blank or zero" where a row is filled in part', () => {
    expect(call(OXYGEN, [column(3, 4), column(10, null)])[1]?.[0]).toEqual({
      error: '#VALUE!',
      message: 'length is blank or zero; must be more than 0',
    });
  });

  it('of 5,000 rows with holes keep every row in its place', () => {
    const diameters = Array.from({ length: 5000 }, (_, i): Cell =>
      i % 7 === 0 ? null : i % 11 === 0 ? 'bad' : 2 + (i % 40) / 10,
    );
    const lengths = diameters.map((d, i): Cell => (d === null ? null : 5 + (i % 20)));
    const results = call(OXYGEN, [column(...diameters), column(...lengths)]);
    expect(results).toHaveLength(5000);
    results.forEach(([cell], i) => {
      if (i % 7 === 0) expect(cell).toBeNull();
      else if (i % 11 === 0) expect(isCellError(cell ?? null)).toBe(true);
      else expect(typeof cell).toBe('number');
    });
    expect(results[5]).toEqual([one(diameters[5], lengths[5])]);
  });

  it('as a whole column cost no more than its filled part', () => {
    const sheet = Array.from({ length: 1_048_576 }, (_, i): readonly Cell[] => [i < 3 ? 3 + i : null]);
    expect(call(OXYGEN, [sheet, 10])).toHaveLength(3);
  });
});

describe('a single cell', () => {
  it('that is blank in all sizes gives a blank', () => {
    expect(call(OXYGEN, [null, null])).toEqual([[null]]);
    expect(call(OXYGEN, [[['']], [['  ']]])).toEqual([[null]]);
  });

  it('passes over a blank optional size', () => {
    expect(one(4, 10, null)).toBe(one(4, 10));
    expect(one(4, 10, '', '', '')).toBe(one(4, 10));
  });

  it('tells what is wrong with a date', () => {
    expect(one(46089, 10)).toMatchObject({ message: expect.stringContaining('looks like a date') as string });
    expect(one(4, 10, 2.5, 46089)).toMatchObject({
      message: expect.stringContaining('rod is 46089, which looks like a date') as string,
    });
  });

  it('is read with a decimal comma where the assumptions say so, and refused without', () => {
    const comma = [['decimal mark', 'comma']];
    expect(one('3,5', '10,25 in', null, null, null, comma)).toBe(one(3.5, 10.25));
    expect(one('Ø3,5', 10, null, null, null, comma)).toBe(one(3.5, 10));
    expect(one('3,5', 10)).toMatchObject({
      message: expect.stringContaining('diameter is "3,5" with a comma') as string,
    });
    expect(call(OXYGEN, [column('3,5', '1.500 mm'), 10, undefined, undefined, undefined, comma])).toEqual([
      [one(3.5, 10)],
      [
        {
          error: '#VALUE!',
          message:
            'diameter holds the error #VALUE! ("1.500 mm" has a point, which could part thousands where the decimal mark is a comma: write 1500 or 1,5); mend that cell first',
        },
      ],
    ]);
  });

  it('of sizes that look to be in the wrong unit is asked about in the note, and worked out all the same', () => {
    const note = (...args: readonly Argument[]): Cell => call(PLAN, args)[1]?.at(-1) ?? null;
    expect(note(60, 200)).toMatch(/^diameter 60 in is out of the usual: if mm was meant, write 60 mm; /);
    expect(note(3.5, 10, null, null, null, [['units', 'SI']])).toMatch(/if in was meant, write 3.5 in/);
    expect(note(4, 10)).not.toContain('out of the usual');
    expect(note('60 in', '200 in')).not.toContain('out of the usual');
    expect(note(60, '200 mm')).toMatch(/^diameter 60 in is out of the usual/);
    expect(one(60, 200)).toBeTypeOf('number');
  });

  it('takes a rod as a number, as =3/8 gives it', () => {
    expect(one(4, 10, 2.5, 0.375)).toBe(one(4, 10, 2.5, '3/8'));
  });

  it('refuses a hole as wide as the pin in the words of the sheet', () => {
    expect(one(4, 10, 5)).toEqual({ error: '#VALUE!', message: "hole is 5 in; must be less than the pin's 4 in" });
    expect(one('100 mm', '250 mm', '100 mm', null, null, [['units', 'SI']])).toEqual({
      error: '#VALUE!',
      message: "hole is 100 mm; must be less than the pin's 100 mm",
    });
  });

  it('refuses too many arguments', () => {
    expect(one(4, 10, 2.5, '3/8', 'steel', null, 7)).toMatchObject({
      error: '#VALUE!',
      message: 'there are 7 arguments; at most 6 are taken',
    });
  });
});

describe('a plan', () => {
  const heading = (call(PLAN, [4, 10])[0] ?? []).map(String);
  const at = (name: string): number => heading.findIndex((h) => h.startsWith(name));

  it('has a heading with units and a row for each item, blank where the item is', () => {
    const plan = call(PLAN, [column(3, null, 4), column(10, null, 10)]);
    expect(plan).toHaveLength(4);
    expect(heading).toContain('oxygen, scf');
    expect(plan[2]?.every((c) => c === null)).toBe(true);
    expect(plan[3]?.[0]).toBe(3);
  });

  it('fails a bad row alone, with the reason in the note', () => {
    const plan = call(PLAN, [column(3, 'x', 4), 10]);
    expect(plan[2]?.[at('oxygen, ')]).toMatchObject({ error: '#VALUE!' });
    expect(plan[2]?.[heading.length - 1]).toContain('diameter is "x"');
    // The row before has drawn on the cylinder.
    const shared = [at('cylinders'), at('left in cylinder')];
    expect(plan[3]).toEqual(
      call(PLAN, [column(null, null, 4), 10])[3]?.map((c, i) => (shared.includes(i) ? plan[3]?.[i] : c)),
    );
  });

  it('gives low, likely and high in order', () => {
    const [, row = []] = call(PLAN, [4, 10]);
    expect(row[at('oxygen low')] as number).toBeLessThan(row[at('oxygen, ')] as number);
    expect(row[at('oxygen, ')] as number).toBeLessThan(row[at('oxygen high')] as number);
    expect(row[at('rods low')] as number).toBeLessThanOrEqual(row[at('rods')] as number);
    expect(row[at('rods')] as number).toBeLessThanOrEqual(row[at('rods high')] as number);
  });

  it('shares cylinders over its items: the column counts those that the list has needed so far', () => {
    const plan = call(PLAN, [column(2, 2, 2, 8), 10]).slice(1);
    const soFar = plan.map((r) => r[at('cylinders')] as number);
    const left = plan.map((r) => r[at('left in cylinder')] as number);
    const oxygen = plan.map((r) => r[at('oxygen, ')] as number);
    const all = oxygen.reduce((a, b) => a + b, 0);
    expect(soFar.slice(0, 3)).toEqual([1, 1, 1]);
    expect(left[0]! - left[1]!).toBeCloseTo(oxygen[1]!, 6);
    expect(soFar).toEqual([...soFar].sort((a, b) => a - b));
    expect(soFar[3]).toBeGreaterThanOrEqual(Math.ceil(all / 250));
    expect(soFar[3]).toBeLessThanOrEqual((call(PLAN, [8, 10])[1]?.[at('cylinders')] as number) + 1);
  });

  it('agrees with the single functions', () => {
    const [, row = []] = call(PLAN, [4, 10]);
    expect(row[at('oxygen, ')]).toBe(one(4, 10));
    expect(row[at('rods')]).toBe(call(fn('BURN.PIN.RODS'), [4, 10])[0]?.[0]);
    expect(row[at('burning')]).toBe(call(fn('BURN.PIN.BURN'), [4, 10])[0]?.[0]);
    expect(row[at('crew, ')]).toBe(call(fn('BURN.PIN.TIME'), [4, 10])[0]?.[0]);
    expect(row[at('tip pressure')]).toBe(call(fn('BURN.PIN.PRESSURE'), [4, 10])[0]?.[0]);
  });
});
