import { DOCS_FORMULA_BAR_EDITOR_UNIT_ID_KEY, DOCS_NORMAL_EDITOR_UNIT_ID_KEY, ICommandService } from '@univerjs/core';
import type { Injector } from '@univerjs/core';
import { KeyCode } from '@univerjs/preset-sheets-core';

/** The sheet's own command for a key pressed while its list of functions is open, one for each place to type in. */
const LISTS = [DOCS_NORMAL_EDITOR_UNIT_ID_KEY, DOCS_FORMULA_BAR_EDITOR_UNIT_ID_KEY].map(
  (editor) => `sheet.formula-embedding-editor.search_function.${editor}`,
);

/**
 * Closes the list of functions as soon as something is typed that is no part of a name. The sheet by itself waits a
 * while, and an Enter meant for the finished formula would choose from the list. Gives a function that stops it.
 */
export function closeStaleList(injector: Injector): () => void {
  const commands = injector.get(ICommandService);
  const close = ({ key, ctrlKey, metaKey }: KeyboardEvent): void => {
    if (key.length !== 1 || /[\w.]/.test(key) || ctrlKey || metaKey) return;
    for (const list of LISTS) {
      if (commands.hasCommand(list)) commands.syncExecuteCommand(list, { keyCode: KeyCode.ESC });
    }
  };
  document.addEventListener('keydown', close, true);
  return () => document.removeEventListener('keydown', close, true);
}
