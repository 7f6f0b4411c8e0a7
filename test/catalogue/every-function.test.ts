/** Tests made from the declarations: every function of the catalogue, its texts, its examples, and bad input. */
import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../src/catalogue/catalogue.ts';
import { isCellError, type Cell } from '../../src/catalogue/cell.ts';
import { parameterLabel, type Declaration, type Parameter } from '../../src/catalogue/declaration.ts';
import { findSource } from '../../src/core/sources/register.ts';
import { writtenFromSi } from '../../src/core/units/as-written.ts';
import { call } from '../../src/sheet/call.ts';
import { explain } from '../../src/sheet/explain.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { replay } from '../core/model/replay.ts';

/** The value of an argument's example, as a cell. */
function exampleCell(example: string): Cell {
  if (example.startsWith('"')) return example.slice(1, -1);
  return Number.isFinite(Number(example)) ? Number(example) : example;
}

const parametersOf = (d: Declaration): readonly [string, Parameter][] => Object.entries(d.parameters);
const exampleAssume = (d: Declaration): Argument[] => (d.assume === 'required' ? [[['stub', 4]]] : []);
const exampleArguments = (d: Declaration): Argument[] => [
  ...parametersOf(d).map(([, p]) =>
    p.kind.kind === 'cells' ? undefined : p.optional ? undefined : exampleCell(p.example),
  ),
  ...exampleAssume(d),
];
const cells = (results: readonly (readonly Cell[])[]): readonly Cell[] => results.flat();
const errorsOf = (results: readonly (readonly Cell[])[]): readonly { error: string; message: string }[] =>
  cells(results).filter(isCellError);

/** Functions whose required arguments are plain cells, so that bad cells can be tried in each. */
const cellFunctions = CATALOGUE.filter((d) => parametersOf(d).every(([, p]) => p.optional || p.kind.kind !== 'cells'));

describe.each(CATALOGUE.map((d) => [d.name, d] as const))('%s', (_, d) => {
  it('has a name the host takes and texts short enough for its help', () => {
    expect(d.name).toMatch(/^BURN(\.[A-Z]{2,})+$/);
    expect(d.summary.length).toBeLessThanOrEqual(254);
    for (const [name, p] of parametersOf(d)) {
      expect(p.summary.length, name).toBeLessThanOrEqual(254);
      expect(p.summary, name).not.toBe('');
    }
    expect(d.examples.length).toBeGreaterThan(0);
  });

  it('puts optional arguments last and cites sources that exist', () => {
    const order = parametersOf(d).map(([, p]) => p.optional);
    expect(order.indexOf(true) === -1 || order.slice(order.indexOf(true)).every((o) => o)).toBe(true);
    for (const key of d.sources) expect(findSource(key), key).toBeDefined();
  });
});

describe.each(cellFunctions.map((d) => [d.name, d] as const))('%s with cells', (_, d) => {
  const good = exampleArguments(d);

  it('works on the examples of its arguments', () => {
    expect(errorsOf(call(d, good))).toEqual([]);
    const withOptional = [
      ...parametersOf(d).map(([, p]) => (p.kind.kind === 'cells' ? undefined : exampleCell(p.example))),
      ...exampleAssume(d),
    ];
    expect(errorsOf(call(d, withOptional))).toEqual([]);
  });

  it('gives the same twice, and the same in its working', () => {
    expect(call(d, good)).toEqual(call(d, good));
    const { steps } = explain(d, good);
    const value = d.result.kind === 'value' ? call(d, good)[0]?.[0] : undefined;
    if (d.result.kind === 'value' && d.result.quantity !== 'text' && typeof value === 'number') {
      const { quantity } = d.result;
      const shown = steps.map((s) => (typeof s.value === 'number' ? writtenFromSi(s.value, quantity, 'US') : NaN));
      expect(shown, 'the working shows the result').toContain(value);
      const symbols = steps.map((s) => s.symbol);
      expect(new Set(symbols).size, symbols.join(' ')).toBe(symbols.length);
      for (const { step, value: again } of replay(steps)) {
        expect(
          Math.abs(again - (step.value as number)),
          `${step.symbol} = ${step.expression ?? ''}`,
        ).toBeLessThanOrEqual(1e-12 * Math.abs(again));
      }
    }
  });

  for (const [i, [name, p]] of parametersOf(d).entries()) {
    if (p.kind.kind === 'cells') continue;
    const label = parameterLabel(name);
    const withCell = (cell: Cell): readonly { error: string; message: string }[] =>
      errorsOf(
        call(
          d,
          good.map((g, k) => (k === i ? [[cell]] : g)),
        ),
      );

    it(`passes on an error in ${label}`, () => {
      const [first] = withCell({ error: '#DIV/0!', message: '' });
      expect(first?.error).toBe('#VALUE!');
      expect(first?.message).toContain(`${label} holds the error #DIV/0!`);
    });

    if (p.kind.kind === 'quantity') {
      it.each([
        ['text', 'abc'],
        ['a truth value', true],
        ['infinity', Infinity],
        ['1e308', 1e308],
      ] as const)(`refuses %s as ${label}`, (_kind, bad) => {
        const [first] = withCell(bad);
        expect(first?.error).toBe('#VALUE!');
        expect(first?.message).toContain(label);
      });
      if (p.kind.above !== undefined || p.kind.min !== undefined) {
        it(`refuses a negative ${label}`, () => {
          const [first] = withCell(-1e6);
          expect(first?.error).toBe('#VALUE!');
          expect(first?.message).toContain(label);
        });
      }
      if (p.kind.above === 0) {
        it(`says "blank or zero" for a 0 as ${label}`, () => {
          expect(withCell(0)[0]?.message).toContain(`${label} is blank or zero`);
        });
      }
      if (p.kind.quantity === 'length' && p.kind.max !== undefined) {
        it(`sees a date in ${label}`, () => {
          expect(withCell(46089)[0]?.message).toMatch(/looks like a date.*3\/8/);
        });
      }
    } else if (p.kind.kind === 'rod' || p.kind.kind === 'material') {
      it(`names the nearest to an unknown ${label}`, () => {
        const [first] = withCell('no such thing');
        expect(first?.error).toBe('#N/A');
        expect(first?.message).toMatch(/nearest: \S+/);
      });
    }
    if (!p.optional) {
      it(`says that ${label} is missing where it is left out`, () => {
        const [first] = errorsOf(
          call(
            d,
            good.map((g, k) => (k === i ? undefined : g)),
          ),
        );
        expect(first?.message).toBe(`${label} is missing`);
      });
    }
  }

  if (d.assume) {
    it('refuses an assumption it does not know, a bad value and a single column, naming the row', () => {
      const withRows = (rows: readonly (readonly Cell[])[]): string => {
        const all: Argument[] = [...good];
        all[parametersOf(d).length] = rows;
        return errorsOf(call(d, all))[0]?.message ?? 'no error';
      };
      expect(
        withRows([
          ['stub', 3],
          ['stubb', 3],
        ]),
      ).toContain('assume row 2: "stubb" is not an assumption');
      expect(withRows([['stub', -3]])).toContain('assume row 1, stub: value is -3 in; must be at least 0 in');
      expect(withRows([['stub', 'long']])).toContain('assume row 1, stub: value is "long"');
      expect(withRows([['stub']])).toContain('assume is one column');
      expect(withRows([['units', 'metric']])).toContain('must be one of US, SI');
    });
  }

  it('never gives a number a sheet cannot hold', () => {
    for (const cell of cells(call(d, good))) if (typeof cell === 'number') expect(Number.isFinite(cell)).toBe(true);
  });
});
