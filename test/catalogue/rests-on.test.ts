import { describe, expect, it } from 'vitest';
import type { Cell } from '../../src/catalogue/cell.ts';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import type { Declaration } from '../../src/catalogue/declaration.ts';
import { isChoice } from '../../src/core/assumptions/assumption.ts';
import { REGISTRY } from '../../src/core/assumptions/registry.ts';
import { CalcError } from '../../src/core/errors.ts';
import { explain, type Explanation } from '../../src/sheet/explain.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { CASES, exampleArguments, type Rows } from './cases.ts';

/** Every other word of each assumption, and other values of it, as rows of `assume`. */
const OTHERS = REGISTRY.flatMap((entry): readonly (readonly [string, Cell])[] => {
  if (isChoice(entry))
    return entry.choices
      .filter((word) => word !== entry.value)
      .map((word): readonly [string, Cell] => [entry.name, word]);
  const { value, low } = entry;
  return [low, value === 0 ? 10 : value * 1.01]
    .filter((x) => x !== value)
    .map((x): readonly [string, Cell] => [entry.name, x]);
});
/** They change how a result is shown, nothing else. */
const SHOWN = ['units', 'show working'];

function explained(d: Declaration, args: readonly Argument[], assume: Rows): Explanation | undefined {
  try {
    return explain(d, [...args, assume]);
  } catch (e) {
    if (e instanceof CalcError) return undefined;
    throw e;
  }
}

const resultOf = ({ result, steps }: Explanation): unknown => steps.find((s) => s.symbol === result)?.value;

/** The assumptions that move the result though the explanation does not name them. */
function unnamed(d: Declaration, args: readonly Argument[], assume: Rows): readonly string[] {
  const base = explained(d, args, assume);
  if (!base) return [];
  return OTHERS.flatMap(([name, value]) => {
    if (base.assumptions.has(name) || SHOWN.includes(name) || assume.some(([given]) => given === name)) return [];
    const other = explained(d, args, [...assume, [name, value]]);
    return other && resultOf(other) !== resultOf(base) ? [`${name} = ${String(value)}`] : [];
  });
}

/** Functions whose steps words and values decide in most ways, and that solve no table of temperatures for every assumption. */
const WORKED = [
  'NOISE.HOURS',
  'FIRE.WATCH',
  'AIR.RISE',
  'LEAD.DROP',
  'BATTERY.STRIKES',
  'PIN.OXYGEN',
  'CUT.TIME',
  'ROD.FLOW',
  'HOSE.LOSS',
  'HOSE.SETTING',
  'CYLINDER.CONTENT',
].map((name) => findFunction(`BURN.${name}`)!);

describe('the assumptions of a cell', () => {
  describe.each(['with the defaults', 'cooled with water, under water'] as const)('%s', (label) => {
    it.each(WORKED.map((d) => [d.name, d] as const))('of %s are all that move it', (_name, d) => {
      for (const optionals of [false, true])
        expect(unnamed(d, exampleArguments(d, optionals), CASES[label] ?? [])).toEqual([]);
    });
  });
});
