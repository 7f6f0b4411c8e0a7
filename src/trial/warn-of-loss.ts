import { IUndoRedoService } from '@univerjs/core';
import type { Injector } from '@univerjs/core';

/** Nothing is saved here, so leaving the page is asked about once there is an edit to lose. */
export function warnOfLoss(injector: Injector): void {
  let edits = 0;
  injector.get(IUndoRedoService).undoRedoStatus$.subscribe(({ undos }) => {
    edits = undos;
  });
  window.addEventListener('beforeunload', (event) => {
    if (edits > 0) event.preventDefault();
  });
}
