/** No cell shows the last bits of a binary number where a person would write a decimal one: 12, and not 11.999999999999998. */
import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../src/catalogue/catalogue.ts';
import type { Cell } from '../../src/catalogue/cell.ts';
import { OPERATION_IDS } from '../../src/core/operations/all.ts';
import { call } from '../../src/sheet/call.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { exampleArguments, type Rows } from '../catalogue/cases.ts';
import { CALLS } from '../golden/calls.ts';
import { calculate } from '../golden/golden.ts';

/** Thirteen figures and more, but within 3e-15 of a number of twelve or fewer. */
function coarse(x: number): boolean {
  const written = Number(x.toPrecision(12));
  return x !== written && Math.abs(x - written) <= 3e-15 * Math.abs(x);
}

/** The same in a text: a run of nines or noughts behind the point, and a digit or two. */
const COARSE_TEXT = /\d\.\d*?(?:0{9,}[1-9]|9{9,})\d{0,2}(?!\d)/;

const coarseCells = (rows: readonly (readonly Cell[])[]): readonly Cell[] =>
  rows
    .flat()
    .filter((cell) => (typeof cell === 'number' ? coarse(cell) : typeof cell === 'string' && COARSE_TEXT.test(cell)));

const UNITS = ['US', 'SI'] as const;

describe('what is looked for', () => {
  it('is told from a number that has so many figures', () => {
    expect(coarse(11.999999999999998)).toBe(true);
    expect(coarse(0.1 + 0.2)).toBe(true);
    expect(coarse(1 / 3)).toBe(false);
    expect(COARSE_TEXT.test('a stub of 2.9999999999999996 in')).toBe(true);
    expect(COARSE_TEXT.test('a flow of 13.571041562346068 scfm')).toBe(false);
  });
});

it('no cell of the calls whose results are kept, those of lists and jobs among them', async () => {
  // The operations are swept below.
  const operation = new RegExp(`^=BURN\\.(${OPERATION_IDS.join('|')})\\.`);
  const { results } = await calculate(CALLS.filter((formula) => !operation.test(formula)));
  expect(Object.keys(results).some((formula) => formula.startsWith('=BURN.JOB.'))).toBe(true);
  for (const [formula, rows] of Object.entries(results)) expect(coarseCells(rows as Rows), formula).toEqual([]);
});

describe.each(UNITS)('in %s', (units) => {
  it.each(CATALOGUE.map((d) => [d.name, d] as const))('no cell of %s', (_, d) => {
    const args = exampleArguments(d, false);
    if (d.assume) args[Object.keys(d.parameters).length] = [['units', units]];
    expect(coarseCells(call(d, args))).toEqual([]);
  });

  it.each(OPERATION_IDS)('no cell of plan, working and values of %s, whatever its sizes', (id) => {
    for (let i = 0; i < 60; i++) {
      const [a, b, c] = [0.5 + (i % 12) / 4, 1.1 + ((i * 7) % 23) / 2, 3 + ((i * 5) % 17)];
      const scale = units === 'US' ? 1 : 25;
      const sizes: Readonly<Record<string, readonly number[]>> = {
        PIN: [a + 1, b],
        HOLE: [a, b],
        GOUGE: [a, 0.3, b],
        CUT: [a, b],
        STUD: [a],
        BREACH: [b, a],
      };
      const given: Argument[] = [...sizes[id]!.map((x) => x * scale), ...(id === 'STUD' || id === 'BREACH' ? [c] : [])];
      for (const suffix of ['PLAN', 'STEPS', 'RODS', 'OXYGEN', 'BURN', 'TIME', 'PRESSURE']) {
        const d = findFunction(`BURN.${id}.${suffix}`)!;
        const args = [
          ...given,
          ...new Array<undefined>(Object.keys(d.parameters).length - given.length).fill(undefined),
        ];
        const rows = call(d, [
          ...args,
          [
            ['units', units],
            ['set-up time', 7.3],
            ['gas temperature', units === 'US' ? 0 : -5],
          ],
        ]);
        expect(coarseCells(rows), `${d.name} ${given.join(' ')}`).toEqual([]);
      }
    }
  });
});
