/**
 * Every working, replayed: each step is calculated again from the steps before it, with the defaults and with other
 * assumptions, with coupled rods, in SI, and from the very numbers that a STEPS table shows. Steps found by iteration are
 * found again from nothing but what the working shows.
 */
import { describe, expect, it } from 'vitest';
import { CATALOGUE, findFunction } from '../../src/catalogue/catalogue.ts';
import { isCellError } from '../../src/catalogue/cell.ts';
import { CalcError } from '../../src/core/errors.ts';
import { OPERATION_IDS } from '../../src/core/operations/all.ts';
import { findSource } from '../../src/core/sources/register.ts';
import type { WorkedStep as Step } from '../../src/core/model/step.ts';
import { fromSi, plainUnit, toSi } from '../../src/core/units/parse-quantity.ts';
import { call } from '../../src/sheet/call.ts';
import { readAssume } from '../../src/catalogue/read-assume.ts';
import { replay, solvedFrom } from '../core/model/replay.ts';
import { foundAgain } from '../core/model/solved.ts';
import { CASES, exampleArguments, parametersOf, workingOf, type Rows } from './cases.ts';

/** Rounding of the arithmetic, and of a solution that is found again on its own. */
const EXACT = 1e-11;
const SOLVED = 1e-9;

const withPlainCells = CATALOGUE.filter((d) =>
  Object.values(d.parameters).every((p) => p.optional || p.kind.kind !== 'cells'),
);

/** Every step of a working stands on the steps before it. */
function check(steps: readonly Step[], assume: Rows = [], exact = EXACT): void {
  const others = assume.length === 0 ? undefined : readAssume(assume);
  const symbols = steps.map((s) => s.symbol);
  expect(new Set(symbols).size, symbols.join(' ')).toBe(symbols.length);
  for (const { step, value } of replay(steps)) {
    expect(
      Math.abs(value - (step.value as number)),
      `${step.symbol} = ${step.expression ?? ''} gives ${value}, shown ${String(step.value)}`,
    ).toBeLessThanOrEqual(exact * Math.abs(value));
  }
  steps.forEach((step, i) => {
    expect(step.formula, step.symbol).not.toBe('');
    const from = solvedFrom(step);
    if (!from) {
      if (step.kind === 'calculated' && typeof step.value === 'number')
        expect(step.expression, `${step.symbol} is calculated and has no formula`).toBeDefined();
      return;
    }
    const before = new Set(symbols.slice(0, i));
    expect(
      from.filter((name) => !before.has(name)),
      `${step.symbol} is found from steps that are not shown before it`,
    ).toEqual([]);
    const again = foundAgain(step, steps, others);
    expect(again, `no way to find ${step.symbol} again: ${step.formula}`).toBeDefined();
    expect(
      Math.abs((again ?? NaN) - (step.value as number)),
      `${step.symbol} is found again as ${again ?? NaN}, shown ${String(step.value)}`,
    ).toBeLessThanOrEqual(Math.max(exact, SOLVED) * Math.abs(step.value as number));
  });
}

describe.each(withPlainCells.map((d) => [d.name, d] as const))('the working of %s', (_, d) => {
  it.each(Object.keys(CASES))('stands on its own numbers %s', (label) => {
    const assume = d.assume === true ? (CASES[label] ?? []) : [];
    let replayed = 0;
    for (const optionals of [false, true]) {
      const steps = workingOf(d, exampleArguments(d, optionals), d.assume === 'required' ? [['stub', 4]] : assume);
      // A case that has no solution has no working; one of the two has.
      if (steps instanceof CalcError) continue;
      check(steps, assume);
      replayed++;
    }
    if (label === 'with the defaults') expect(replayed).toBe(2);
  });

  it('names sources that are in the register, and a kind', () => {
    const steps = workingOf(d, exampleArguments(d, false), d.assume === 'required' ? [['stub', 4]] : []);
    if (steps instanceof CalcError) throw steps;
    for (const step of steps)
      if (step.source !== '') expect(findSource(step.source), `${step.symbol}: ${step.source}`).toBeDefined();
  });
});

describe.each(OPERATION_IDS)('BURN.%s.STEPS', (id) => {
  const steps = findFunction(`BURN.${id}.STEPS`)!;
  const args = exampleArguments(steps, false);

  it.each([
    ['US', []],
    ['SI', [['units', 'SI']]],
    [
      'SI, other assumptions',
      [
        ['units', 'SI'],
        ...(CASES['with other assumptions'] ?? []).filter(
          ([name]) => name === 'idle oxygen share' || name === 'burning duty' || name === 'slag temperature',
        ),
      ],
    ],
  ] as const)('shows numbers that give the results again, in %s', (label, assume: Rows) => {
    const system = label.startsWith('SI') ? ('SI' as const) : ('US' as const);
    const plain = args.map((a) => (typeof a === 'number' && system === 'SI' ? a * 25.4 : a));
    const inputs = parametersOf(steps).map((p, i) =>
      p.kind.kind === 'quantity' && p.kind.quantity === 'length' ? plain[i] : args[i],
    );
    const working = workingOf(steps, inputs, assume);
    if (working instanceof CalcError) throw working;
    const [, ...rows] = call(steps, assume.length > 0 ? [...inputs, assume] : inputs);
    expect(rows.length).toBe(working.length);
    // The table as a reader has it: shown values, in the unit beside them.
    const read = rows.map((row, i): Step => {
      const step = working[i]!;
      expect(row.map((cell) => isCellError(cell))).toEqual(row.map(() => false));
      expect([row[0], row[1], row[3], row[4], row[5], row[6]]).toEqual([
        step.name,
        step.symbol,
        typeof step.value === 'string' ? '' : plainUnit(step.quantity, system),
        step.formula,
        step.kind,
        step.source,
      ]);
      return { ...step, value: typeof row[2] === 'number' ? toSi(row[2], step.quantity, system) : String(row[2]) };
    });
    check(read, [], 1e-9);
    for (const [suffix, symbol, quantity] of [
      ['RODS', 'N', 'count'],
      ['OXYGEN', 'O', 'oxygen'],
      ['BURN', 't', 'time'],
      ['TIME', 't_crew', 'time'],
      ['PRESSURE', 'p', 'pressure'],
    ] as const) {
      const value = call(
        findFunction(`BURN.${id}.${suffix}`)!,
        assume.length > 0 ? [...inputs, assume] : inputs,
      )[0]?.[0];
      const shown = working.find((s) => s.symbol === symbol)?.value as number;
      expect(fromSi(shown, quantity, system), suffix).toBe(value);
    }
  });
});
