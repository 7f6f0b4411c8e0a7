import type { Basis } from '../core/basis.ts';
import type { Working } from '../core/model/working.ts';
import { settingOf, supplyOf } from '../core/operations/item-supply.ts';
import type { Sized } from '../core/operations/sized.ts';

/** All steps of an item with its supply; or one of them with what it rests on, and nothing else worked out, where the item has it. */
export function itemWorking(item: Sized, basis: Basis, step?: string): Working {
  if (step !== undefined) {
    const besides = step === 'p_reg' ? settingOf(item, basis) : step === 'R_ram' ? item.ramSteps() : undefined;
    const has = besides ? besides.results.includes(step) : step !== 't_cool' || item.operation.cooling !== undefined;
    if (has) return item.working(step, besides);
  }
  return item.allSteps(supplyOf(item, basis));
}
