import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { parseFormula, symbolsOf, type Formula } from '../../../src/core/model/grammar.ts';
import { Evaluation } from '../../../src/core/model/evaluation.ts';
import { calculated, given } from '../../../src/core/model/step.ts';
import { StepList } from '../../../src/core/model/step-list.ts';

const NO_ASSUMPTIONS = {
  value: (): never => {
    throw new Error('none');
  },
  about: (): never => {
    throw new Error('none');
  },
};

function valueOf(expression: string, given_: Readonly<Record<string, number>> = {}): number {
  const symbols = symbolsOf(expression);
  const list = new StepList(
    [...symbols.map((s) => given(s, s, 'ratio')), calculated('result', 'result', 'ratio', expression, '')],
    ['result'],
  );
  return new Evaluation(list, given_, NO_ASSUMPTIONS).number('result');
}

describe('a formula', () => {
  it.each<[string, number]>([
    ['1 + 2 * 3', 7],
    ['(1 + 2) * 3', 9],
    ['8 / 4 / 2', 1],
    ['8 - 4 - 2', 2],
    ['2 ^ 3 ^ 2', 512],
    ['-2 ^ 2', -4],
    ['2 ^ -1', 0.5],
    ['max(1, 5, 3) - min(4, 2)', 3],
    ['ceil(1.2) + floor(1.8) + abs(-3)', 6],
    ['sqrt(16) + ln(exp(2))', 6],
    ['if(1 < 2, 10, 20)', 10],
    ['if(2 <= 1, 10, 20)', 20],
    ['if(2 > 1, 10, 20) + if(1 >= 1, 1, 2)', 11],
    ['1.5e3 + 2e-1', 1500.2],
    ['PI', Math.PI],
  ])('%s is %d', (text, value) => {
    expect(valueOf(text)).toBeCloseTo(value, 12);
  });

  it.each([
    ['1 +', 'found its end'],
    ['(1', 'wanted )'],
    ['a b', 'found b'],
    ['1 $ 2', 'found $ 2'],
    ['sinh(1)', 'no function sinh'],
    ['max(1)', 'max takes two or more arguments'],
    ['sqrt(1, 2)', 'sqrt takes 1 arguments'],
    ['if(1, 2, 3)', 'a comparison'],
  ])('%s is refused', (text, why) => {
    expect(() => parseFormula(text)).toThrow(why);
  });

  it('gives on columns what it gives on the numbers of each place', () => {
    const leaf: fc.Arbitrary<string> = fc.constantFrom('a', 'b', 'c', '2', '0.5', 'PI');
    const text = fc.letrec<{ formula: string }>((tie) => ({
      formula: fc.oneof(
        { maxDepth: 4 },
        leaf,
        fc
          .tuple(tie('formula'), fc.constantFrom('+', '-', '*', '/'), tie('formula'))
          .map(([x, o, y]) => `(${x} ${o} ${y})`),
        fc.tuple(fc.constantFrom('min', 'max'), tie('formula'), tie('formula')).map(([f, x, y]) => `${f}(${x}, ${y})`),
        tie('formula').map((x) => `-(${x})`),
        tie('formula').map((x) => `abs(${x})`),
        tie('formula').map((x) => `(${x}) ^ 2`),
        fc
          .tuple(tie('formula'), fc.constantFrom('<', '<=', '>', '>='), tie('formula'), tie('formula'), tie('formula'))
          .map(([x, o, y, u, v]) => `if(${x} ${o} ${y}, ${u}, ${v})`),
      ),
    })).formula;
    fc.assert(
      fc.property(
        text,
        fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { minLength: 3, maxLength: 3 }),
        (expression, column) => {
          const steps = [
            given('a', 'a', 'ratio'),
            given('b', 'b', 'ratio'),
            given('c', 'c', 'ratio'),
            calculated('first', 'first', 'ratio', `${expression} + a * 0`, ''),
            calculated('second', 'second', 'ratio', `first * b + ${expression} + c * 0`, ''),
          ];
          const list = new StepList(steps, ['second', 'first']);
          const b = Float64Array.from(column);
          const columns = new Evaluation(list, { a: 1.5, b, c: 3 }, NO_ASSUMPTIONS);
          const again = columns.over(['a']).give([1.5]);
          for (const symbol of ['first', 'second']) {
            const [one, two] = [columns.column(symbol), again.column(symbol)];
            column.forEach((x, i) => {
              const alone = new Evaluation(list, { a: 1.5, b: x, c: 3 }, NO_ASSUMPTIONS).number(symbol);
              for (const c of [one, two]) expect(typeof c === 'number' ? c : c[i]).toBe(alone);
            });
          }
          expect([...b]).toEqual(column);
        },
      ),
      { numRuns: 500 },
    );
  });

  it('names its symbols once each', () => {
    expect(symbolsOf('a * b + if(a < c, PI, max(b, 2e-3))')).toEqual(['a', 'b', 'c']);
  });

  it('is read as text and never run', () => {
    const formula: Formula = parseFormula('constructor + toString');
    expect(formula).toMatchObject({ left: { symbol: 'constructor' }, right: { symbol: 'toString' } });
    expect(symbolsOf('constructor + toString')).toEqual(['constructor', 'toString']);
  });
});
