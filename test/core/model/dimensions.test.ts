/** The dimension of every formula of the program: each list of steps that any function of ours uses, as it is used. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../../src/catalogue/catalogue.ts';
import { CalcError } from '../../../src/core/errors.ts';
import { misfits } from '../../../src/core/model/dimensions.ts';
import { StepList } from '../../../src/core/model/step-list.ts';
import { findCalls } from '../../../src/formula/formula-calls.ts';
import { resolveOperands } from '../../../src/pane/resolve-operands.ts';
import { explain } from '../../../src/sheet/explain.ts';
import { CASES, exampleArguments, workingOf } from '../../catalogue/cases.ts';

/** Lists that were asked for a step. */
const used = new Set<StepList>();
// eslint-disable-next-line @typescript-eslint/unbound-method -- it is called on the list it was asked of
const { place } = StepList.prototype;

beforeAll(() => {
  StepList.prototype.place = function (this: StepList, symbol: string): number {
    used.add(this);
    return place.call(this, symbol);
  };
});
afterAll(() => {
  StepList.prototype.place = place;
});

/** Wrong units of all lists used so far, each told once. */
const wrong = (): readonly string[] => [...new Set([...used].flatMap(misfits))];

const uses = (...symbols: readonly string[]): StepList | undefined =>
  [...used].find((list) => symbols.every((symbol) => list.has(symbol)));

describe('the units of every formula', () => {
  it.each(Object.keys(CASES))('fit %s', (label) => {
    for (const d of CATALOGUE)
      for (const optionals of [false, true])
        if (d.assume !== 'required') workingOf(d, exampleArguments(d, optionals), d.assume ? (CASES[label] ?? []) : []);
    expect(wrong()).toEqual([]);
  });

  it('fit in every example of the documentation', async () => {
    for (const formula of CATALOGUE.flatMap((d) => d.examples)) {
      const asked = findCalls(formula).find((c) => c.whole);
      const d = CATALOGUE.find((each) => each.name === asked?.name);
      if (!asked || !d) continue;
      const operands = await resolveOperands(asked.operands, () => Promise.resolve([]));
      try {
        explain(
          d,
          operands.map((o) => o.argument),
        );
      } catch (e) {
        // What has no solution, or stands on cells that are not here, has no working.
        if (!(e instanceof CalcError)) throw e;
      }
    }
    expect(wrong()).toEqual([]);
  });

  it('are those of lists inside calculations too', () => {
    expect(uses('p_out', 'loss_hose', 'p_reg')).toBeDefined();
    expect(uses('m_0', 'm_over', 'm')).toBeDefined();
    expect(uses('share_cyl', 'C_use')).toBeDefined();
    for (const symbols of [
      ['T_1', 'T_2', 'T_shift', 'D', 'TWA'],
      ['f_mean', 'f_from', 'C_15', 'C_iron'],
      ['x_s', 'x_limit', 'q', 't'],
      ['rho_20', 'T_double', 'V'],
      ['s_min', 's_short'],
    ])
      expect(uses(...symbols), symbols.join(' ')).toBeDefined();
    expect(uses('p_work', 'p_cyl', 'm_now')).toBeDefined();
    expect(uses('p_0', 'tau_held', 'F_1')).toBeDefined();
    expect(uses('k_shield', 'leg', 'l_weld')).toBeDefined();
    expect(uses('s_crit_pin', 'U_oil', 'v')).toBeDefined();
    expect(uses('p_yield', 'p_plastic', 'F')).toBeDefined();
    expect(uses('delta_push', 'loose')).toBeDefined();
    expect(uses('P_O', 'A_O', 'price')).toBeDefined();
  });

  it('are told where a formula is spoilt', () => {
    const list = uses('p_out', 'loss_hose', 'p_reg')!;
    const spoilt = list.nodes.map(({ step }) =>
      step.symbol === 'loss_hose' ? { ...step, from: { expression: 'p_out * p_hose' } } : step,
    );
    expect(misfits(new StepList(spoilt, list.results))).toEqual([
      'step loss_hose (pressure lost in the hose) = p_out * p_hose: found m-2 kg2 s-4, expected m-1 kg s-2',
    ]);
  });
});
