import { parameterLabel, type Declaration, type Kind } from '../catalogue/declaration.ts';
import type { Assumptions } from '../core/assumptions/assumptions.ts';
import { findMaterial, type Material } from '../core/burn/materials.ts';
import { cautionsForFunction, type RaisedCaution } from '../core/safety/cautions.ts';
import { CONDITIONS, conditionNamed, type ConditionName, type MeasuredName } from '../core/safety/conditions.ts';
import { coolingConditions, workConditions } from '../core/safety/work-conditions.ts';

type Values = Readonly<Record<string, unknown>>;

/**
 * The cautions that a call brings up: those of its function, and those of conditions its arguments name: a material
 * and where the work lies, a word such as `water`, a figure such as a depth of water. `values` are SI, `a` the
 * assumptions in force; both are missing where the arguments cannot be read.
 */
export function cautionsOf(d: Declaration, values: Values = {}, a?: Assumptions): readonly RaisedCaution[] {
  const conditions: ConditionName[] = a ? [...coolingConditions(d.family, a, values['method'])] : [];
  const measured: Partial<Record<MeasuredName, number>> = {};
  const words = [...d.cautions];
  for (const [name, { kind }] of Object.entries(d.parameters)) {
    const value = values[name];
    if (kind.kind === 'material' && a)
      conditions.push(...workConditions((value as Material | undefined) ?? findMaterial(a.word('material')), a));
    const word =
      (kind.kind === 'choice' || kind.kind === 'text') && typeof value === 'string' ? conditionNamed(value) : undefined;
    if (word !== undefined) conditions.push(word);
    // A function for any operation brings up those of the one it is called with.
    if (name === 'operation' && kind.kind === 'choice' && typeof value === 'string') words.push(value);
    const figure = measuredBy(name, kind);
    if (figure !== undefined && typeof value === 'number' && value > 0) measured[figure] = value;
  }
  return cautionsForFunction([d.name, ...words.map((word) => `BURN.${word}`)], conditions, measured);
}

/** The condition whose figure a parameter is: `depth`, in feet of water, is that of work under water. */
function measuredBy(parameter: string, kind: Kind): MeasuredName | undefined {
  const name = conditionNamed(parameterLabel(parameter));
  const entry = CONDITIONS.find((c) => c.name === name);
  return kind.kind === 'quantity' && entry && 'quantity' in entry && entry.quantity === kind.quantity
    ? entry.name
    : undefined;
}
