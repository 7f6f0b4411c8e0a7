import { describe, expect, it } from 'vitest';
import { findCalls } from '../../src/formula/formula-calls.ts';
import { resolveOperands } from '../../src/pane/resolve-operands.ts';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { call } from '../../src/sheet/call.ts';
import { reader, type Cells } from './memory-sheet.ts';

const cells: Cells = {
  A5: 3.5,
  B5: 10,
  A6: null,
  A7: '100 mm',
  'A5:A7': [[3.5], [null], [4]],
  E9: { error: '#DIV/0!', message: '' },
};
const resolved = async (text: string): Promise<unknown> => {
  const [first] = await resolveOperands(findCalls(`=BURN.PIN.HOLE(${text})`)[0]?.operands ?? [], (r) =>
    reader(cells)(r, 'Pins', 'D5'),
  );
  return first?.problem ?? first?.argument;
};

describe('what an argument holds', () => {
  it('is read through the sheet where it is a reference', async () => {
    expect(await resolved('A5')).toEqual([[3.5]]);
    expect(await resolved('A5:A7')).toEqual([[3.5], [null], [4]]);
    expect(await resolved('E9')).toEqual([[{ error: '#DIV/0!', message: '' }]]);
  });

  it.each([
    ['3+1/2', 3.5],
    ['A5/25.4', 3.5 / 25.4],
    ['2*(B5-1)', 18],
    ['-2^2', 4],
    ['2^-1', 0.5],
    ['2^3^2', 64],
    ['10-2-3', 5],
    ['50%*B5', 5],
    ['A5+A6', 3.5],
    ['-(A5+1)', -4.5],
  ])('%s is worked out as the sheet does it', async (text, expected) => {
    expect(await resolved(text)).toBeCloseTo(expected, 12);
  });

  it('is what a call of our functions gives, however deep', async () => {
    const hole = findFunction('BURN.PIN.HOLE')!;
    expect(await resolved('BURN.PIN.HOLE(A5)')).toEqual(call(hole, [3.5]));
    expect(await resolved('BURN.PIN.HOLE(BURN.PIN.HOLE(A5:A7))')).toEqual(
      call(hole, [call(hole, [[[3.5], [null], [4]]])]),
    );
  });
});

describe('an argument that cannot be read', () => {
  it('says to put a formula in a cell of its own', async () => {
    expect(await resolved('SUM(A5:A7)')).toBe(
      'SUM(A5:A7) is a formula of its own, which the pane cannot read; put it in a cell of its own and point to that cell',
    );
    expect(await resolved('BURN.PIN.HOLE(SUM(A5))')).toMatch(
      /^BURN.PIN.HOLE inside could not be worked out: SUM\(A5\) is a formula/,
    );
    expect(await resolved('BURN.NO.SUCH(A5)')).toMatch(/^BURN.NO.SUCH\(A5\) is a formula/);
  });

  it("gives the sheet's reason for a reference", async () => {
    expect(await resolved('Nowhere')).toBe('Nowhere could not be read: there is no such range');
  });

  it('says where arithmetic has no number to work on', async () => {
    expect(await resolved('A7*2')).toBe('A7 is not a single number');
    expect(await resolved('A5:A7*2')).toBe('A5:A7 is not a single number');
    expect(await resolved('A5/A6')).toBe('A5/A6 does not give a number');
  });
});
