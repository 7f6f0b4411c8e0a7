/** F6 goes between the sheet and the pane, since Tab goes from cell to cell. */
export function moveFocusWithF6(pane: HTMLElement): void {
  let left: Element | null = null;
  document.addEventListener(
    'keydown',
    (event) => {
      if (event.key !== 'F6') return;
      event.preventDefault();
      const inPane = pane.contains(document.activeElement);
      const to = inPane ? left : pane.querySelector('[role="tab"][aria-selected="true"]');
      if (!inPane) left = document.activeElement;
      if (to instanceof HTMLElement) to.focus();
    },
    true,
  );
}
