import { describe, expect, it } from 'vitest';
import { misfits } from '../../../src/core/model/dimensions.ts';
import { calculated, given, solved } from '../../../src/core/model/step.ts';
import { StepList } from '../../../src/core/model/step-list.ts';
import { valueOf, work } from '../../../src/core/model/working.ts';
import { noSolution } from '../../../src/core/messages.ts';

const m = given('m', 'flow', 'flow');
const t = given('t', 'burning time', 'time');
const burnt = calculated('O_burn', 'oxygen while burning', 'oxygen', 'm * t', 'flow x burning time');

describe('a list of steps', () => {
  it('gives the value of a result', () => {
    expect(valueOf(new StepList([m, t, burnt], ['O_burn']), { m: 2, t: 3 })).toBe(6);
  });

  it('refuses a symbol that is unknown, stands later, has two meanings, or serves nothing', () => {
    expect(() => new StepList([m, burnt], ['O_burn'])).toThrow('step O_burn uses t, no earlier step');
    expect(() => new StepList([m, burnt, t], ['O_burn'])).toThrow('step O_burn uses t, no earlier step');
    expect(() => new StepList([m, t, burnt, given('t', 'other', 'time')], ['O_burn'])).toThrow(
      'step t has two meanings',
    );
    expect(() => new StepList([m, t, burnt, given('x', 'depth', 'length')], ['O_burn'])).toThrow(
      'step x serves nothing',
    );
  });

  it('works out nothing that is not asked for', () => {
    let solves = 0;
    const cooling = solved(
      't_cool',
      'cooling time',
      'time',
      ['t'],
      (x) => (solves++, x),
      'by conduction',
      'en 1993-1-2',
    );
    const list = new StepList([m, t, burnt, cooling], ['O_burn', 't_cool']);
    expect(
      work(list, { m: 2, t: 3 })
        .steps()
        .map((s) => s.symbol),
    ).toEqual(['m', 't', 'O_burn']);
    expect(solves).toBe(0);
    expect(work(list, { m: 2, t: 3 }, undefined, 't_cool').value).toBe(3);
    expect(solves).toBe(1);
  });

  it('reads a step that is solved with what it is solved from', () => {
    const root = solved('r', 'root', 'ratio', ['m', 't'], (x, y) => x + y, 'by iteration', 'a book');
    expect(
      work(new StepList([m, t, root], ['r']), { m: 1, t: 2 })
        .steps()
        .at(-1),
    ).toMatchObject({ expression: 'solve(m, t)', value: 3 });
  });

  it('throws where a value is checked, and leaves a gap in a column', () => {
    const checked = calculated('O_burn', 'oxygen', 'oxygen', 'm * t', '', {
      check: { above: 0, otherwise: (value) => noSolution(`nothing left: ${value}`) },
    });
    const list = new StepList([m, t, checked], ['O_burn']);
    expect(() => valueOf(list, { m: -1, t: 2 })).toThrow('nothing left: -2');
    expect(work(list, { m: Float64Array.of(-1, 1), t: 2 }).evaluation.column('O_burn')).toEqual(
      Float64Array.of(NaN, 2),
    );
  });

  it('works out once what the steps given anew do not change', () => {
    let solves = 0;
    const pace = solved('k', 'pace', 'ratio', ['m'], (x) => (solves++, x), '', '');
    const list = new StepList([m, t, pace, calculated('y', 'y', 'time', 'k * t', '')], ['y']);
    const item = work(list, { m: 2 }).evaluation.over(['t']);
    expect([1, 2, 3].map((x) => item.give([x]).number('y'))).toEqual([2, 4, 6]);
    expect(solves).toBe(1);
  });
});

describe('the dimensions of a list', () => {
  it('fit', () => {
    expect(misfits(new StepList([m, t, burnt], ['O_burn']))).toEqual([]);
  });

  it.each([
    ['m + t', 'found kg s-1 beside s, expected the same'],
    ['m * t * t', 'found kg s, expected kg'],
    ['m * t + exp(t) * 0', 'found s in exp, expected a pure number'],
    ['m ^ t', 'found s in an exponent, expected a pure number'],
    ['m * t + 1', 'found kg beside a pure number, expected the same'],
  ])('are told where they do not: %s', (expression, why) => {
    const list = new StepList(
      [m, t, calculated('O_burn', 'oxygen while burning', 'oxygen', expression, '')],
      ['O_burn'],
    );
    expect(misfits(list)).toEqual([`step O_burn (oxygen while burning) = ${expression}: ${why}`]);
  });

  it('take a plain 0 for nothing of anything', () => {
    const list = new StepList([m, t, calculated('O_burn', 'oxygen', 'oxygen', 'max(0, m * t)', '')], ['O_burn']);
    expect(misfits(list)).toEqual([]);
  });
});
