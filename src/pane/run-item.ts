import type { Declaration, Output } from '../catalogue/declaration.ts';
import type { Assumptions } from '../core/assumptions/assumptions.ts';
import type { AssumptionName } from '../core/assumptions/registry.ts';
import { Basis } from '../core/basis.ts';
import { CalcError } from '../core/errors.ts';
import { recorder, type Step, type Trace } from '../core/model/trace.ts';
import type { Working } from '../core/model/working.ts';
import { explain } from '../sheet/call.ts';
import type { ReadCall } from './read-call.ts';

/** What `calculate` of a declaration gives: a value, the line of a plan, or a table. */
export type Calculated = number | string | readonly Output[] | readonly (readonly Output[])[];

/** The calculation of one item: what it was given in SI, what it gave, and what it asked for. */
export interface Run {
  readonly steps: readonly Step[];
  /** Names of the assumptions it asked for. */
  readonly used: ReadonlySet<AssumptionName>;
  readonly failed?: CalcError;
  /** Undefined where reading the arguments failed. */
  readonly given?: { readonly values: Readonly<Record<string, unknown>>; readonly basis: Basis };
  readonly gave?: Calculated;
}

export function runItem({ declaration, operands }: ReadCall, item: number): Run {
  const trace = recorder();
  const used = new Set<AssumptionName>();
  let given: Run['given'];
  let gave: Calculated | undefined;
  const listening = {
    ...declaration,
    calculate: (values: Readonly<Record<string, unknown>>, { a }: Basis, steps?: Trace): Calculated => {
      const basis = new Basis(watched(a, used));
      given = { values, basis: new Basis(a) };
      gave = declaration.calculate(values as never, basis, steps);
      return gave;
    },
    ...(declaration.working && {
      working: (values: Readonly<Record<string, unknown>>, { a }: Basis): Working | undefined => {
        const basis = new Basis(watched(a, used));
        given = { values, basis: new Basis(a) };
        gave = declaration.calculate(values as never, basis);
        return declaration.working?.(values as never, basis);
      },
    }),
  };
  try {
    explain(
      listening as unknown as Declaration,
      operands.map((o) => o.argument),
      item,
      trace,
    );
    return { steps: trace.steps, used, given, gave };
  } catch (e) {
    if (e instanceof CalcError) return { steps: trace.steps, used, given, failed: e };
    throw e;
  }
}

/** The same assumptions, noting the names that the calculation asks for. */
function watched(a: Assumptions, used: Set<AssumptionName>): Assumptions {
  return new Proxy(a, {
    get(target, key, receiver: unknown) {
      if (key !== 'inForce' && key !== 'word') return Reflect.get(target, key, receiver) as unknown;
      return (name: never) => {
        used.add(name);
        return target[key](name);
      };
    },
  });
}
