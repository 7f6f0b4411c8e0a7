/** What a key does that is typed into a cell; others, as those with ctrl, are not kept. */
const KEPT = /^(?:.|Enter|Tab|Backspace|Delete|Arrow(?:Up|Down|Left|Right))$/su;
/** How long the sheet may take until keys go to it, ms. */
const PATIENCE = 30_000;
const EDITOR = '[data-u-comp="editor"]';

/** What has keys of its own while the sheet is being made. */
const ELSEWHERE = 'input, textarea, select, button, a, dialog, #pane, #job';

/**
 * Keeps what is typed while the page's script arrives and the sheet is made, since nothing would take it, or a sheet's
 * editor that is half made would throw. What is given types it again once keys go to the sheet, in the order of typing.
 */
function keepEarlyKeys(): () => Promise<void> {
  const kept: KeyboardEvent[] = [];
  const keep = (event: KeyboardEvent): void => {
    const { key, target, isTrusted } = event;
    // What is typed again is not kept again; a Tab before anything else goes to the next part of the page.
    if (!isTrusted || !KEPT.test(key) || (key === 'Tab' && kept.length === 0)) return;
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (target instanceof Element && target.closest(ELSEWHERE)) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    kept.push(event);
  };
  window.addEventListener('keydown', keep, true);
  return async () => {
    const until = performance.now() + PATIENCE;
    while (!document.activeElement?.matches(EDITOR) && performance.now() < until) await nextFrame();
    for (let event = kept.shift(); event; event = kept.shift()) {
      typeAgain(event);
      await nextFrame();
    }
    window.removeEventListener('keydown', keep, true);
  };
}

const nextFrame = (): Promise<unknown> => new Promise((resolve) => requestAnimationFrame(resolve));

function typeAgain(typed: KeyboardEvent): void {
  const { key, code, shiftKey } = typed;
  const target = document.activeElement;
  if (!target?.matches(EDITOR)) return;
  // The sheet goes by the number of a key, as the browser has it.
  // eslint-disable-next-line @typescript-eslint/no-deprecated -- the sheet reads no other
  const { keyCode } = typed;
  const event = new KeyboardEvent('keydown', { key, code, keyCode, shiftKey, bubbles: true, cancelable: true });
  if (!target.dispatchEvent(event) || key.length > 1) return;
  // The one way to put in a text as typing does, with the events that the sheet's editor waits for.
  // eslint-disable-next-line @typescript-eslint/no-deprecated -- there is no other
  document.execCommand('insertText', false, key);
}

/** Begins as soon as the page is there: this is a script of its own, before the large one. */
Object.assign(globalThis, { typeEarlyKeys: keepEarlyKeys() });
