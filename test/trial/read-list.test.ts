import { describe, expect, it } from 'vitest';
import { call } from '../../src/sheet/call.ts';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { LIST_COLUMNS } from '../../src/files/template/job-list.ts';
import { missingSizes, readPasted, readRows, type ReadRow } from '../../src/trial/read-list.ts';

/** As it stands without a hand laid on it. */
function read(text: string): readonly ReadRow[] {
  const table = readPasted(text);
  return readRows(table, table.guessed, table.unit);
}
const rowsOf = (text: string): unknown => read(text).map(({ row }) => row);

describe('a list that was pasted', () => {
  it('keeps a line a row, with its quantity as it was written', () => {
    expect(rowsOf('Mark\tNo. off\tDia\tLength\nBoom foot\t4\t5\t18\nLock pin\t2 off\t1-1/2\t6 in')).toEqual([
      { mark: 'Boom foot', quantity: 4, diameter: 5, length: 18 },
      { mark: 'Lock pin', quantity: '2 off', diameter: '1-1/2', length: '6 in' },
    ]);
  });

  it('that counts nothing has a line for each piece; a count that is missing in one that does is asked about', () => {
    expect(read('tag\tdia\tlen\nA\t4\t12').map(({ row, remark }) => [row.quantity, remark])).toEqual([[1, '']]);
    expect(read('tag\tqty\tdia\tlen\nA\t\t4\t12\nB\t2\t4\t12').map(({ remark }) => remark)).toEqual([
      'quantity is blank or zero: 1 is taken',
      '',
    ]);
  });

  it('is read by tabs, commas, semicolons or wide gaps', () => {
    const expected = [{ mark: 'a, b', quantity: 1, diameter: 5, length: 18 }];
    for (const text of ['tag,dia,len\n"a, b",5,18', 'tag;dia;len\na, b;5;18', 'tag   dia  len\na, b   5  18'])
      expect(rowsOf(text), text).toEqual(expected);
  });

  it('gives bare sizes the unit of their heading, then that of the list', () => {
    const text = 'tag\tØ (mm)\tlength\nA\t90\t300\nB\t110\t12 in';
    expect(rowsOf(text)).toEqual([
      { mark: 'A', quantity: 1, diameter: '90 mm', length: '300 mm' },
      { mark: 'B', quantity: 1, diameter: '110 mm', length: '12 in' },
    ]);
    const table = readPasted(text);
    expect(readRows(table, table.guessed, 'in')[0]?.row).toMatchObject({ diameter: '90 mm', length: 300 });
  });

  it('takes bare sizes for millimetres where as inches they would be out of the usual', () => {
    expect(readPasted('tag\tdia\tlen\nA\t60\t200\nB\t75\t240').unit).toBe('mm');
    expect(readPasted('tag\tdia\tlen\nA\t3.5\t12\nB\t4\t16').unit).toBe('in');
  });

  it('without a heading takes words for the mark, then diameter and length; what is off for the quantity', () => {
    expect(readPasted('Boom foot\t2 off\t5\t18\nStick\t1 off\t4-1/2\t16').guessed).toEqual([
      'mark',
      'quantity',
      'diameter',
      'length',
    ]);
  });

  it('of other operations keeps their sizes', () => {
    expect(rowsOf('mark\toperation\tqty\tthickness\tlength\nplate\tcut\t2\t1\t40')).toEqual([
      { mark: 'plate', operation: 'cut', quantity: 2, thickness: 1, length: 40 },
    ]);
  });

  it('says of a bad row what the functions say of it', () => {
    const rows = read('mark\tqty\tdia\tlength\ngood\t1\t5\t18\nbad\t0.5\t5\t18\nblank\t1\t\t18\nwords\t1\twide\t18');
    expect(rows.map(({ problem }) => problem === '')).toEqual([true, false, false, false]);
    const plan = call(findFunction('BURN.JOB.PLAN')!, [
      [[...LIST_COLUMNS], ...rows.map(({ row }) => LIST_COLUMNS.map((name) => row[name] ?? null))],
    ]);
    rows.forEach(({ problem }, i) => {
      if (problem !== '') expect(plan[i + 1]?.at(-1)).toBe(problem);
    });
  });

  it('has a pin go by its tag and its description both', () => {
    expect(rowsOf('Tag\tDescription\tØ\tLgth\nP1\tBoom foot, left\t4\t14')).toEqual([
      { mark: 'P1 Boom foot, left', quantity: 1, diameter: 4, length: 14 },
    ]);
  });

  it('asks about a size that was likelier meant in the other unit', () => {
    const rows = read('tag\tdia\tlen\nA\t4\t12\nB\t63\t180\nC\t3\t9');
    expect(rows.map(({ problem }) => problem)).toEqual(['', '', '']);
    expect(rows.map(({ remark }) => remark)).toEqual([
      '',
      'diameter 63 in is out of the usual: if mm was meant, write 63 mm',
      '',
    ]);
  });

  it('takes a comma with one or two digits behind it for a decimal one, and says so; three may be thousands', () => {
    const [one, two, thousands] = read('tag\tdia\tlen\nA\t4,5\t12\nB\t90,25 mm\t300 mm\nC\t1,250 mm\t3 m');
    expect(one).toMatchObject({ row: { diameter: 4.5 }, problem: '', remark: '4,5 is read as 4.5' });
    expect(two).toMatchObject({ row: { diameter: '90.25 mm' }, problem: '', remark: '90,25 mm is read as 90.25 mm' });
    expect(thousands?.problem).toContain('comma');
  });

  it('takes a condition from a note that names one, and says so', () => {
    const [under, none] = read('tag\tdia\tlen\tremarks\nA\t4\t12\tram 100 t no go, under water\nB\t4\t12\tram 100 t');
    expect(under?.row).toMatchObject({ condition: 'under water', note: 'ram 100 t no go, under water' });
    expect(under?.remark).toBe(
      'the note names a condition: under water; underwater brings cautions only: its figures need a column water depth',
    );
    expect(none?.row).not.toHaveProperty('condition');
  });

  it('without a column of lengths lacks it, instead of having each row wrong', () => {
    expect(missingSizes(readPasted('tag\tdia\tfoo\nA\t4\t12').guessed)).toEqual(['length']);
    expect(missingSizes(readPasted('tag\toperation\tthickness\tlength\nA\tCUT\t1\t12').guessed)).toEqual([]);
  });

  it('tells each row where none is good', () => {
    const rows = read('mark\tdia\tlength\na\t\t18\nb\t5\t');
    expect(rows[0]?.problem).toContain('diameter');
    expect(rows[1]?.problem).toContain('length');
  });
});
