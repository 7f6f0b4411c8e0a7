/** Rows of `assume` that say how two assumptions go along with each other, in every function that takes them. */
import { describe, expect, it } from 'vitest';
import { CATALOGUE, findFunction } from '../../src/catalogue/catalogue.ts';
import { isCellError, type Cell } from '../../src/catalogue/cell.ts';
import { call } from '../../src/sheet/call.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { argumentsOf, asCalled } from '../addin/example-arguments.ts';

type Rows = readonly (readonly Cell[])[];
const table = (name: string, ...args: readonly Argument[]): Rows => call(findFunction(name)!, args);
const HEADING: readonly Cell[] = ['name', 'value', 'low', 'high', 'unit', 'kind'];
const row = (name: string, value: Cell, kind: Cell = null): readonly Cell[] => [name, value, null, null, null, kind];
const MAKING_UP = 'correlation of oxygen burnt share with heat into the part';
const TOGETHER: Rows = [HEADING, row(MAKING_UP, 0.8), row('correlation of flow factor with boss over pin', -0.5)];
const LIST: Rows = [
  ['mark', 'qty', 'dia', 'length'],
  ['Boom foot', 2, 5, 18],
  ['Lock pin', 4, '1-1/2', 6],
];
const PRICES: Rows = [
  ['rod', 9],
  ['oxygen', 0.4],
  ['crew', 180],
];
const rowOf = (rows: Rows, name: string): readonly Cell[] => rows.find((each) => each.includes(name)) ?? [];
const headed = (rows: Rows, line: readonly Cell[], heading: string): Cell => line[rows[0]!.indexOf(heading)] ?? null;

/** Values that come of draws, and that which tells one set of assumptions from another. */
const DRAWN = ['BURN.SPREAD', 'BURN.COOL.SHRINK', 'BURN.VERSION'];
const taking = CATALOGUE.filter((d) => d.assume);

it.each(taking.map((d) => [d.name, d] as const))('%s takes them, and its plans stay as they were', (_, d) => {
  const places = Object.keys(d.parameters).length;
  const given = asCalled(argumentsOf(d.examples[0]!)).slice(0, places);
  const args = [...given, ...Array.from({ length: places - given.length }, () => undefined)];
  const [plain, together] = [[['stub', 3]], TOGETHER].map((assume) => call(d, [...args, assume]));
  const errors = (rows: Rows | undefined): readonly Cell[] => rows!.flat().filter(isCellError);
  expect(errors(together)).toEqual(errors(plain));
  if (d.result.kind === 'value' && !DRAWN.includes(d.name)) expect(together).toEqual(plain);
});

describe('what is shown of them', () => {
  it('BURN.ASSUME.DIFF lists them, works as assume as it stands, and says where a log no longer told both', () => {
    const rows = table('BURN.ASSUME.DIFF', [
      HEADING,
      row('oxygen burnt share', 0.5, 'your log'),
      row('heat into the part', 0.8),
      row(MAKING_UP, 0.8, 'your log'),
      row('correlation of flow factor with boss over pin', -0.5),
    ]);
    const [log, own] = rows.slice(-2) as [readonly Cell[], readonly Cell[]];
    const shown = (line: readonly Cell[]): readonly Cell[] =>
      ['name', 'value', 'kind', 'default', 'change', 'why'].map((heading) => headed(rows, line, heading));
    expect(shown(log)).toEqual([
      MAKING_UP,
      0.8,
      'your log',
      0,
      0.8,
      expect.stringContaining('heat into the part; fit'),
    ]);
    expect(shown(own)).toEqual(['correlation of flow factor with boss over pin', -0.5, 'your value', 0, -0.5, null]);
    expect(table('BURN.ASSUME.DIFF', rows)).toEqual(rows);
  });

  it('one of longer cooling sets the times of the crew against it, once that is uncertain', () => {
    const name = 'correlation of set-up time with longer cooling';
    const width = (r: number): number => {
      const assume: Rows = [HEADING, ['longer cooling', 5, 0, 10, 'min', null], row(name, r)];
      const plan = table('BURN.PIN.PLAN', 4, 10, undefined, undefined, undefined, assume);
      return Number(headed(plan, plan[1]!, 'crew high, min')) - Number(headed(plan, plan[1]!, 'crew low, min'));
    };
    expect(width(-0.6)).toBeLessThan(0.9 * width(0.1));
  });

  it('BURN.ASSUME.EFFECT and BURN.ASSUME.WORTH say how their shares are to be read, of those concerned alone', () => {
    const effects = table('BURN.ASSUME.EFFECT', 'PIN', [[4, 10]], TOGETHER);
    const of = (name: string): readonly Cell[] => effects.find((line) => line[0] === 'oxygen' && line[2] === name)!;
    expect(headed(effects, of('oxygen burnt share'), 'note')).toContain('counted with them');
    expect(headed(effects, of('heat into the part'), 'total index')).toBe(
      headed(effects, of('oxygen burnt share'), 'total index'),
    );
    expect(headed(effects, of('heat lost share'), 'note')).toBeNull();
    const worth = table('BURN.ASSUME.WORTH', LIST, PRICES, TOGETHER);
    const measures = (lines: Rows): readonly Cell[] => lines.map((line) => headed(worth, line, 'measure'));
    const isTold = (line: readonly Cell[]): boolean => String(line.at(-1)).includes('counted with them');
    expect(measures(worth.filter(isTold))).toContain('oxygen burnt share');
    for (const name of measures(worth.filter(isTold)))
      expect(['oxygen burnt share', 'heat into the part', 'flow factor', 'boss over pin']).toContain(name);
    expect(measures(worth.filter((line) => !isTold(line)))).toContain('everything');
  });

  it('BURN.JOB.COMPARE prices what they do by themselves, whatever their order, and adds up', () => {
    const compare = (a: Rows, b: Rows): Rows => table('BURN.JOB.COMPARE', LIST, a, b, PRICES);
    const [heading = [], first = [], ...others] = TOGETHER;
    expect(rowOf(compare(TOGETHER, [heading, ...others, first]), 'nothing differs')).not.toEqual([]);
    const apart = compare([['stub', 4]], [...TOGETHER, row('stub', 4.5)]);
    const [alone, stub, rest, all] = ['by the correlations', 'by stub', 'together besides', 'in all'].map(
      (what) => headed(apart, rowOf(apart, what), 'cost') as number,
    ) as [number, number, number, number];
    // What makes up for each other leaves less to load for.
    expect(alone).toBeLessThan(0);
    expect(alone + stub + rest).toBeCloseTo(all, 6);
    expect(headed(apart, rowOf(apart, 'by the correlations'), 'oxygen')).toBe(0);
  });

  it.each(['BURN.JOB.BASIS', 'BURN.JOB.SHEET'])(
    '%s has a line for them, and names what was replaced by hand',
    (name) => {
      const assume = [HEADING, row('oxygen burnt share', 0.5, 'your log'), row(MAKING_UP, 0.8, 'your log')];
      const sheet = (rows: Rows): readonly Cell[] => {
        const places = Object.keys(findFunction(name)!.parameters).indexOf('list');
        expect(places).toBe(0);
        const between = Object.keys(findFunction(name)!.parameters).slice(1);
        return rowOf(table(name, LIST, ...between.map(() => undefined), rows), 'correlations');
      };
      expect(sheet(assume).slice(-2)).toEqual(['1', expect.stringContaining('heat into the part; fit again')]);
      expect(sheet(TOGETHER).at(-1)).not.toContain('fit again');
      expect(sheet([HEADING])).toEqual([]);
    },
  );

  it('BURN.LOG.FIT hands on what was given of others as the user gave it, and finds its own anew', () => {
    const log: Rows = [
      ['diameter', 'length', 'rods used', 'oxygen used', 'burning minutes', 'crew minutes'],
      [4, 10, 7, 140, 9, 62],
      [3.5, 12, 6, 128, 8, 58],
      [5, 16, 16, 330, 18, 85],
    ];
    const other = 'correlation of cylinder pressure with leftover pressure';
    const fit = table('BURN.LOG.FIT', log, [...TOGETHER, row(other, 0.3)]);
    expect(rowOf(fit, other).slice(0, 6)).toEqual([other, 0.3, null, null, '', 'your value']);
    expect(rowOf(fit, MAKING_UP)[5]).toBe('your log');
    expect(table('BURN.ASSUME.DIFF', fit).flat().filter(isCellError)).toEqual([]);
  });
});
