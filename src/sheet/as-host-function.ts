import {
  assumeParameter,
  isRowsFunction,
  isTableFunction,
  parameterLabel,
  type Declaration,
  type Kind,
  type Parameter,
} from '../catalogue/declaration.ts';
import { zeroIsBlank } from '../catalogue/read-cell.ts';
import type { Assumptions } from '../core/assumptions/assumptions.ts';
import { plainUnit } from '../core/units/parse-quantity.ts';
import { call, callByItems, callsInList } from './call.ts';
import { tableExplained, workingOf } from './explain.ts';
import type { Argument, HostFunction } from './host-function.ts';
import { readyFor } from './long-lists.ts';
import { SHARED } from './shared-bases.ts';

/** Whether the build is one whose results can carry their working on a card; nothing outside of a build says so. */
declare const CARDS: boolean | undefined;

/** Units that a summary has in words. */
const IN_WORDS: Readonly<Record<string, RegExp>> = { min: /minutes/i, h: /hours/i, '%': /percent|share|chance/i };

/** A parameter's summary with the unit of a plain number after its first clause, where it has none. */
export function withUnit(summary: string, kind: Kind): string {
  const unit = kind.kind === 'quantity' ? plainUnit(kind.quantity, 'US') : '';
  const [clause = ''] = summary.split(/[;:]/);
  if (unit === '' || clause.split(', ').includes(unit) || IN_WORDS[unit]?.test(clause)) return summary;
  return `${clause}, ${unit}${summary.slice(clause.length)}`;
}

/** A declaration as a host is given it. `defaults` are today's unless those of an earlier version are given. */
export function hostFunction(d: Declaration, defaults?: Assumptions): HostFunction {
  const all: Readonly<Record<string, Parameter>> = { ...d.parameters, ...(d.assume && { assume: assumeParameter }) };
  const parameters = Object.entries(all).map(([name, { summary, optional, example, kind }]) => ({
    name: parameterLabel(name),
    // When it is asked for: a build leaves the words out of functions.js.
    get summary() {
      return withUnit(summary, kind);
    },
    optional: optional && (name !== 'assume' || d.assume === true),
    example,
    zeroIsBlank: zeroIsBlank(kind),
    whole: kind.kind === 'cells',
    apart: name === 'assume',
  }));
  return {
    name: d.name,
    summary: d.summary,
    parameters,
    ...(isTableFunction(d) &&
      parameters.some((p) => p.whole && !p.apart) && {
        inOnePiece: true,
        explained: (args: readonly Argument[]) => {
          const calculated = tableExplained(d, args, defaults, SHARED);
          SHARED.tidy();
          return calculated;
        },
      }),
    call: (args) => {
      const results = call(d, args, defaults, SHARED);
      SHARED.tidy();
      return results;
    },
    *paused(args) {
      yield* readyFor(args);
      const results = yield* callByItems(d, args, defaults, SHARED);
      SHARED.tidy();
      return results;
    },
    ...(isRowsFunction(d) &&
      d.plan && {
        *inList(list: readonly Argument[]) {
          yield* readyFor(list);
          yield* callsInList(d, list, defaults, SHARED);
          SHARED.tidy();
        },
      }),
    ...(typeof CARDS === 'undefined' || CARDS ? { working: (args) => workingOf(d, args, defaults, SHARED) } : {}),
  };
}
