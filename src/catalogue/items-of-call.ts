import { Assumptions } from '../core/assumptions/assumptions.ts';
import type { Basis } from '../core/basis.ts';
import type { Material } from '../core/burn/materials.ts';
import { CalcError } from '../core/errors.ts';
import { itemOf, type Item, type KnownItem, type RodUse } from '../core/safety/item.ts';
import { isOperation } from '../core/operations/all.ts';
import type { Declaration, ItemOfRow } from './declaration.ts';

/** What `calculate` was given. */
interface Given {
  readonly values: Readonly<Record<string, unknown>>;
  readonly basis: Basis;
}

/** The functions whose own cautions apply to a call. */
const functionsOf = (d: Declaration): readonly string[] => [
  d.name,
  ...d.cautions.filter((word) => !isOperation(word)).map((word) => `BURN.${word}`),
];

/** The item of one row of a call's table, for its cautions. */
export const itemsOfRow = (d: Declaration, { known }: ItemOfRow, { basis }: Given): readonly Item[] =>
  known.map((k) => itemOf({ ...k, functions: functionsOf(d) }, basis.a));

/** The items that a call is about, for their cautions; nothing is given where its arguments cannot be read. */
export function itemsOfCall(d: Declaration, given?: Given): readonly Item[] {
  const a = given?.basis.a ?? Assumptions.defaults();
  const functions = functionsOf(d);
  const named = given ? ofParameters(d, given) : {};
  const declared = d.cautions.filter(isOperation).map((operation): KnownItem => ({ operation, ...named }));
  const base = declared.length > 0 ? declared : [named];
  const known = (given && aboutOf(d, given)) ?? [{}];
  return base.flatMap((b) => known.map((k) => itemOf({ ...b, ...k, functions }, a)));
}

/** An operation, a rod and a material that stand in the arguments. */
function ofParameters(d: Declaration, { values }: Given): KnownItem {
  const of = (kind: string): unknown => {
    const name = Object.keys(d.parameters).find((each) => d.parameters[each]?.kind.kind === kind);
    return name === undefined ? undefined : values[name];
  };
  const { operation } = values;
  return {
    ...(typeof operation === 'string' && isOperation(operation) ? { operation } : {}),
    ...(of('material') === undefined ? {} : { material: of('material') as Material }),
    ...(of('rod') === undefined ? {} : { rod: of('rod') as RodUse }),
  };
}

/** Undefined where the arguments do not say it: then the call fails too and says why. */
function aboutOf(d: Declaration, { values, basis }: Given): readonly KnownItem[] | undefined {
  try {
    return d.about?.(values as never, basis);
  } catch (e) {
    if (e instanceof CalcError) return undefined;
    throw e;
  }
}
