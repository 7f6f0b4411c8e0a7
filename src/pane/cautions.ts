import type { Declaration, Kind } from '../catalogue/declaration.ts';
import { parameterLabel } from '../catalogue/declaration.ts';
import type { Material } from '../core/burn/materials.ts';
import { CalcError } from '../core/errors.ts';
import { cautionsForFunction, type MeasuredValues, type RaisedCaution } from '../core/exposure/cautions.ts';
import { CONDITIONS, parseCondition, type ConditionName, type MeasuredName } from '../core/exposure/conditions.ts';
import type { UsedAssumption } from './explained.ts';

/** Conditions that an assumption with a `yes` is, where it goes by another name. */
const MEANT_BY: Readonly<Record<string, ConditionName>> = { 'work grounded': 'grounded work' };

/**
 * The cautions that a call brings up: those of its function, and those of conditions its arguments name: a word
 * such as `water`, a material such as cast iron, a figure such as a depth of water, or an assumption in force such
 * as work under water. `values` are SI.
 */
export function cautionsOf(d: Declaration, values: Readonly<Record<string, unknown>> = {}, assumptions: readonly UsedAssumption[] = []): readonly RaisedCaution[] {
  const words: string[] = assumptions.flatMap(conditionOf);
  const measured: Partial<Record<MeasuredName, number>> = {};
  for (const [name, { kind }] of Object.entries(d.parameters)) {
    const value = values[name];
    const word = wordOf(value, kind);
    const meant = word === undefined ? undefined : conditionNamed(word);
    if (meant !== undefined) words.push(meant);
    const figure = kind.kind === 'quantity' && typeof value === 'number' && value > 0 ? measuredBy(name, kind) : undefined;
    if (figure !== undefined) measured[figure] = value as number;
  }
  return cautionsForFunction(d.name, words, measured satisfies MeasuredValues);
}

function conditionOf({ name, value }: UsedAssumption): readonly ConditionName[] {
  if (typeof value !== 'string') return [];
  const meant = value === 'yes' ? (MEANT_BY[name] ?? conditionNamed(name)) : conditionNamed(value);
  return meant === undefined ? [] : [meant];
}

function wordOf(value: unknown, { kind }: Kind): string | undefined {
  if (kind === 'material') return (value as Material | undefined)?.name;
  return (kind === 'choice' || kind === 'text') && typeof value === 'string' ? value : undefined;
}

/** The condition that a word is a name of, where it needs no figure. */
function conditionNamed(word: string): ConditionName | undefined {
  try {
    return parseCondition(word).name;
  } catch (e) {
    if (e instanceof CalcError) return undefined;
    throw e;
  }
}

/** The condition whose figure a parameter is: `depth`, in feet of water, is that of work under water. */
function measuredBy(parameter: string, kind: Extract<Kind, { readonly kind: 'quantity' }>): MeasuredName | undefined {
  const name = conditionNamed(parameterLabel(parameter));
  const entry = CONDITIONS.find((c) => c.name === name);
  return entry && 'quantity' in entry && entry.quantity === kind.quantity ? entry.name : undefined;
}
