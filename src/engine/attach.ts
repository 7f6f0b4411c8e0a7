import type { Injector } from '@univerjs/core';
import { dropOldTexts } from './error-text.ts';
import { patchEngine, patchShared } from './univer-patches.ts';

/** Readies one engine, of a page or of a process, before its first calculation. */
export function attachEngine(injector: Injector): void {
  patchShared();
  patchEngine(injector);
  dropOldTexts(injector);
}
