/** Whether anybody can see the pane: the host loads its page for the functions too, and keeps it when the pane is closed. */
export interface Shown {
  /** Resolves once the pane is shown, at once where it is. */
  wait(): Promise<void>;
}

/**
 * As the page itself tells: a page that is hidden has that state, and in a frame that is not drawn nothing comes into view. The
 * host's own interface tells changes only, not how the page began.
 */
export function shownInPage(element: Element): Shown {
  let inView = false;
  let waiting: (() => void)[] = [];
  const isShown = (): boolean => inView && document.visibilityState !== 'hidden';
  const tell = (): void => {
    if (!isShown()) return;
    const ready = waiting;
    waiting = [];
    for (const go of ready) go();
  };
  new IntersectionObserver((entries) => {
    inView = entries.some((entry) => entry.isIntersecting);
    tell();
  }).observe(element);
  document.addEventListener('visibilitychange', tell);
  return { wait: () => (isShown() ? Promise.resolve() : new Promise((resolve) => waiting.push(resolve))) };
}
