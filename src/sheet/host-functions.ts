import { CATALOGUE } from '../catalogue/catalogue.ts';
import { planList } from '../catalogue/plan-list.ts';
import type { Assumptions } from '../core/assumptions/assumptions.ts';
import { hostFunction } from './as-host-function.ts';
import type { HostFunction } from './host-function.ts';
import { LONG_LISTS } from './long-lists.ts';

LONG_LISTS.work = planList;

/** Every function of the catalogue. */
export const hostFunctions: readonly HostFunction[] = CATALOGUE.map((d) => hostFunction(d));

/** Every function, calculating with the defaults of an earlier version where a call's `assume` does not replace them. */
export const hostFunctionsWith = (defaults: Assumptions): readonly HostFunction[] =>
  CATALOGUE.map((d) => hostFunction(d, defaults));
