import { describe, expect, it } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import type { Cell } from '../../src/catalogue/cell.ts';
import { CALCULATION_VERSION } from '../../src/core/version.ts';
import { call } from '../../src/sheet/call.ts';
import type { Argument } from '../../src/sheet/host-function.ts';

type Rows = readonly (readonly Cell[])[];
const table = (name: string, ...args: readonly Argument[]): Rows => call(findFunction(name)!, args);
const LIST: Rows = [
  ['mark', 'qty', 'dia', 'length'],
  ['Boom foot', 2, 5, 18],
  ['Lock pin', 4, '1-1/2', 6],
  ['Latch', 1, 'x', 4],
];
const ASSUME: Rows = [
  ['name', 'value', 'low', 'high', 'why', 'by', 'date'],
  ['stub', 4, 3.5, 4.5, 'measured on ten stubs', 'R. Vale', 46211],
  ['burning duty', 0.6, null, null, null, null, null],
];
/** The lines of a section. */
function section(rows: Rows, name: string): Rows {
  const from = rows.findIndex(([s]) => s === name);
  const next = rows.findIndex(([s], i) => i > from && s !== '');
  return from < 0 ? [] : rows.slice(from, next < 0 ? undefined : next).map(([, ...line]) => line);
}

describe('BURN.JOB.BASIS', () => {
  const rows = table('BURN.JOB.BASIS', LIST, 'Dragline 2', ASSUME);

  it('says what it covers, and names every row left out', () => {
    expect(section(rows, 'Covers')[0]).toEqual(['work', 'rows 2, pieces 6', expect.stringContaining('PIN: ')]);
    expect(section(rows, 'Leaves out')).toContainEqual([
      'Latch',
      'left out',
      expect.stringContaining('Latch: diameter is "x"'),
    ]);
  });

  it('has the figures of the plan', () => {
    const plan = table('BURN.JOB.PLAN', LIST, ASSUME);
    const [heading = []] = plan;
    const total = plan.at(-1)!;
    const at = (name: string): number => total[heading.findIndex((h) => String(h).startsWith(name))] as number;
    const sure = section(rows, 'How sure');
    expect(sure.find(([what]) => what === 'rods')).toEqual([
      'rods',
      String(at('rods')),
      expect.stringMatching(new RegExp(`^${at('rods low')} to ${at('rods high')} in eight`)),
    ]);
    expect(Number.parseFloat(String(sure.find(([what]) => what === 'oxygen')![1]))).toBeCloseTo(at('oxygen'), -1);
  });

  it('lists what matters most first, with range and source, and every value of the user with its reason', () => {
    const [how, ...lines] = section(rows, 'Assumptions that matter');
    expect(how![0]).toBe('tried one at a time');
    const of = (name: string): readonly Cell[] => lines.find(([what]) => what === name) ?? [];
    expect(of('stub')).toEqual([
      'stub',
      '4 (3.5 to 4.5) in',
      expect.stringMatching(/^cost .*; your value; measured on ten stubs \(R\. Vale, 2026-07-08\)$/),
    ]);
    expect(of('burning duty')[2]).toMatch(/your value; no reason given$/);
    expect(of('oxygen burnt share')[2]).toMatch(/^cost [-+]\d.* to [-+]\d.*; common practice, no source$/);
    // The order is that of ASSUME.EFFECT for one such pin, as far as oxygen and crew time go: the burnt share is first in both.
    expect(lines[0]![0]).toBe('oxygen burnt share');
    const effect = table('BURN.ASSUME.EFFECT', 'PIN', [[5, 18]], ASSUME);
    expect(effect.find(([result, rank]) => result === 'oxygen' && rank === 1)![2]).toBe('oxygen burnt share');
  });

  it('classes it by what is known, with the range that the published scheme expects', () => {
    const classOf = (...args: readonly Argument[]): Cell =>
      section(table('BURN.JOB.BASIS', ...args), 'How sure').at(-1)![1] ?? null;
    expect(classOf(LIST)).toBe('5, concept screening');
    expect(classOf(LIST, undefined, [['position', 'overhead']])).toBe('4, study or feasibility');
    // Whoever has measured what matters most knows more.
    const measured = [
      'oxygen burnt share',
      'bore ratio',
      'heat into the part',
      'rod feed ratio',
      'burning duty',
      'crew price',
    ];
    const assumed = table('BURN.ASSUMED').filter(([name]) => measured.includes(String(name)));
    const own = [
      ['name', 'value', 'low', 'high', 'unit'],
      ...assumed.map(([name = null, value = null, low = null, high = null, unit = null]) => [
        name,
        0.9 * (value as number),
        0.8 * (low as number),
        high,
        unit,
      ]),
    ];
    expect(classOf(LIST, undefined, own)).toBe('3, budget or control');
    expect(section(rows, 'How sure').at(-1)![2]).toContain('the published scheme expects -30% to +50%');
  });

  it('tells which checks passed and which failed', () => {
    const checks = new Map(section(rows, 'Checks').map(([what, result, note]) => [what, [result, note]]));
    expect(checks.get('rows read against rows sized')).toEqual(['FAILED', '2 of 3']);
    expect(checks.get('your values have reasons')).toEqual(['FAILED', 'none for burning duty']);
    expect(checks.get('every piece fits a shift')![0]).toBe('passed');
    expect(section(table('BURN.JOB.BASIS', LIST.slice(0, 3)), 'Checks').map(([, result]) => result)).toEqual(
      Array.from({ length: checks.size }, () => 'passed'),
    );
  });

  it('has the version, the fingerprint that BURN.VERSION shows, and lines to sign', () => {
    const [version, fingerprint, ...sign] = section(rows, 'Made with');
    expect(version![1]).toBe(CALCULATION_VERSION);
    expect(table('BURN.VERSION', ASSUME)).toEqual([[`${CALCULATION_VERSION} ${String(fingerprint![1])}`]]);
    expect(sign.length).toBe(2);
    expect(section(table('BURN.JOB.BASIS', LIST), 'Made with')[1]![1]).toBe('the defaults');
  });

  it('is two pages at most for a list of forty rows', () => {
    const long = [
      LIST[0]!,
      ...Array.from({ length: 40 }, (_, i): Cell[] => [`Pin ${i + 1}`, 1, 2 + i / 20, 6 + i / 4]),
    ];
    expect(table('BURN.JOB.BASIS', long).length).toBeLessThan(75);
  });
});

describe('BURN.JOB.REPORT', () => {
  const rows = table('BURN.JOB.REPORT', LIST);

  it('works the costliest row in full, as its own STEPS do', () => {
    expect(rows[0]![0]).toBe('Worked in full: Boom foot');
    const steps = table('BURN.PIN.STEPS', 5, 18);
    const symbols = rows
      .slice(
        2,
        rows.findIndex((row) => row.every((cell) => cell === null)),
      )
      .map(([, symbol]) => symbol);
    expect(symbols).toEqual(expect.arrayContaining(steps.slice(1).map(([, symbol]) => symbol)));
    for (const step of steps.slice(1)) {
      const same = rows.find(([, symbol]) => symbol === step[1])!;
      expect(same[2]).toEqual(step[2]);
    }
  });

  it('has every row in the table, with the figures of the plan, and those left out', () => {
    const plan = table('BURN.JOB.PLAN', LIST);
    const at = (name: string): number => plan[0]!.findIndex((h) => String(h).startsWith(name));
    const from = rows.findIndex(([first]) => first === 'mark');
    const all = rows.slice(from + 1);
    expect(all.map(([mark]) => mark)).toEqual(['Boom foot', 'Lock pin', 'Latch']);
    for (const [i, row] of all.slice(0, 2).entries()) {
      expect(row[4]).toBeCloseTo(plan[i + 1]![at('oxygen')] as number, 9);
      expect(row[6]).toBeCloseTo(plan[i + 1]![at('crew')] as number, 9);
      expect(Number.parseInt(String(row[3]), 10)).toBe(plan[i + 1]![at('rods')]);
    }
    expect(all[2]![2]).toBe('left out');
  });

  it('works another row where it is asked for, by mark or number', () => {
    expect(table('BURN.JOB.REPORT', LIST, 'lock pin')[0]![0]).toBe('Worked in full: Lock pin');
    expect(table('BURN.JOB.REPORT', LIST, 2)[0]![0]).toBe('Worked in full: Lock pin');
    expect(table('BURN.JOB.REPORT', LIST, 'Mast')[0]![0]).toMatchObject({
      message: expect.stringContaining('Boom foot, Lock pin') as string,
    });
  });
});
