import type { Injector } from '@univerjs/core';
import { guardCalculation } from './circular.ts';
import { mendEngine } from './engine-fixes.ts';
import { dropOldTexts } from './error-text.ts';
import { settleSpills } from './settle-spills.ts';
import { allowSpillReferences } from './spill-reference.ts';

/** Readies one engine, of a page or of a process, before its first calculation. */
export function attachEngine(injector: Injector): void {
  mendEngine();
  allowSpillReferences(injector);
  guardCalculation(injector);
  settleSpills(injector);
  dropOldTexts(injector);
}
