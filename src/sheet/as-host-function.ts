import { parameterLabel, type Declaration, type Kind } from '../catalogue/declaration.ts';
import type { Assumptions } from '../core/assumptions/assumptions.ts';
import { call, workingOf } from './call.ts';
import type { HostFunction } from './host-function.ts';

const ASSUME = {
  name: 'assume',
  summary: 'Range of rows name, value that replace assumptions for this call, as BURN.ASSUMED lists them',
  optional: true,
  example: 'Assumptions!A2:B9',
} as const;

function zeroIsBlank(kind: Kind): boolean {
  if (kind.kind === 'quantity') return (kind.above ?? -1) >= 0 || (kind.min ?? -1) > 0;
  return kind.kind !== 'cells';
}

/** A declaration as a host is given it. `defaults` are today's unless those of an earlier version are given. */
export function hostFunction(d: Declaration, defaults?: Assumptions): HostFunction {
  const parameters = Object.entries(d.parameters).map(([name, { summary, optional, example, kind }]) => ({ name: parameterLabel(name), summary, optional, example, zeroIsBlank: zeroIsBlank(kind) }));
  return {
    name: d.name,
    summary: d.summary,
    parameters: d.assume ? [...parameters, { ...ASSUME, optional: d.assume !== 'required' }] : parameters,
    call: (args) => call(d, args, defaults),
    working: (args) => workingOf(d, args, defaults),
  };
}
