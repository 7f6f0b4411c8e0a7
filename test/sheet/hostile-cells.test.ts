/** Cells that nobody means and hosts hand over nevertheless. */
import { describe, expect, it } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { isCellError, type Cell, type CellError } from '../../src/catalogue/cell.ts';
import { call } from '../../src/sheet/call.ts';
import type { Argument } from '../../src/sheet/host-function.ts';

const one = (name: string, ...args: readonly Argument[]): Cell => call(findFunction(name)!, args)[0]?.[0] ?? null;
function errorOf(name: string, ...args: readonly Argument[]): CellError {
  const cell = one(name, ...args);
  if (!isCellError(cell)) throw new Error(`no error but ${String(cell)}`);
  return cell;
}

describe('a number that is none', () => {
  it.each([NaN, Infinity, -Infinity])('%s counts as the error #NUM!, wherever it stands', (bad) => {
    expect(errorOf('BURN.PIN.HOLE', bad)).toEqual({
      error: '#VALUE!',
      message: 'diameter holds the error #NUM!; mend that cell first',
    });
    expect(errorOf('BURN.PIN.OXYGEN', 4, 10, undefined, bad).message).toBe(
      'rod holds the error #NUM!; mend that cell first',
    );
    expect(errorOf('BURN.PIN.HOLE', 4, [['material', bad]]).message).toBe(
      'assume row 1, material: value holds the error #NUM!; mend that cell first',
    );
    expect(errorOf('BURN.NOISE.DOSE', [[92], [bad]], [[4], [1]]).message).toBe(
      'levels row 2: level holds the error #NUM!; mend that cell first',
    );
  });
});

it('rows of unequal length are filled up with blanks', () => {
  expect(errorOf('BURN.NOISE.SHIFT', [[92], [85]], [[null], [2, 4]]).message).toMatch(
    /^levels is 2 by 1 cells and hours is 2 by 2 cells/,
  );
  expect(call(findFunction('BURN.PIN.HOLE')!, [[[4], [3, 5]]])).toEqual(
    [
      [2.4, null],
      [3 * 0.6, 3],
    ].map((row) => row.map((x) => (x === null ? null : (expect.closeTo(x, 12) as number)))),
  );
});

describe('a text that fills its cell', () => {
  const page = 'no such thing '.repeat(2340);

  it('is told again only in part', () => {
    for (const { message } of [
      errorOf('BURN.PIN.HOLE', page),
      errorOf('BURN.PIN.OXYGEN', 4, 10, undefined, page),
      errorOf('BURN.PIN.HOLE', 4, [[page, 1]]),
      errorOf('BURN.LEAD.DROP', 100, 100, page),
      errorOf('BURN.ASSUMED', page),
    ]) {
      expect(message.length).toBeLessThan(250);
      expect(message).toContain('no such thing no such thing');
      expect(message).toContain('…');
    }
  });

  it('is cut between signs, not within one', () => {
    expect(errorOf('BURN.PIN.HOLE', `x${'🔥'.repeat(100)}`).message).not.toMatch(/[\ud800-\udbff](?![\udc00-\udfff])/);
  });
});

describe('what a subtraction in the sheet leaves over', () => {
  const left = 0.3 - 0.2 - 0.1; // -2.8e-17

  it('is no size', () => {
    expect(errorOf('BURN.PIN.HOLE', -left).message).toBe('diameter is blank or zero; must be more than 0');
    expect(errorOf('BURN.PIN.HOLE', left).message).toBe('diameter is blank or zero; must be more than 0');
  });

  it('is 0 as an assumption', () => {
    const oxygen = (tip: number): Cell =>
      one('BURN.GOUGE.OXYGEN', 0.75, 0.5, 12, undefined, undefined, [['tip pressure', tip]]);
    expect(oxygen(1.48e-321)).toBe(oxygen(0));
    expect(errorOf('BURN.PIN.HOLE', 4, [['bore ratio', left]]).message).toMatch(
      /^assume row 1, bore ratio: value is -2.77556e-17; must be at least/,
    );
  });

  it('is 0 where 0 is accepted', () => {
    expect(one('BURN.HOSE.SETTING', 90, 15, 50, 0.375, left)).toBe(one('BURN.HOSE.SETTING', 90, 15, 50, 0.375, 0));
    expect(errorOf('BURN.AIR.CLEAR', 4000, -left, 26).message).toBe(
      'without fresh air the room does not clear; fresh air must be more than 0',
    );
  });
});

it('a bore finer than any hose is refused before the flow is sought', () => {
  expect(errorOf('BURN.SUPPLY.CHECK', '3/16', 90, 50, 3.75e-5, 1).message).toBe(
    'bore is 0.0000375 in; must be at least 0.05 in',
  );
});

it('a hole wider than its pin is refused at once, not followed for ever', () => {
  for (const name of ['BURN.COOL.SHRINK', 'BURN.COOL.TIME']) {
    expect(errorOf(name, 2, 3, ...(name === 'BURN.COOL.TIME' ? [5] : [])).message, name).toBe(
      "hole is 3 in; must be less than the pin's 2 in",
    );
  }
});
