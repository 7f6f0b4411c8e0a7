/** A part of the page that F6 goes to: the area it is known by, and what to go to in it. */
export interface PagePart {
  readonly area: string;
  readonly first: string;
}

/** The cells come last, since the other parts of the sheet stand in the same area. */
export const PAGE_PARTS: readonly PagePart[] = [
  { area: '#pane', first: '[role="tab"][aria-selected="true"]' },
  { area: '#job', first: 'button' },
  { area: '[data-u-comp="headerbar"]', first: 'button:not(:disabled)' },
  { area: '[data-u-comp="formula-bar"]', first: 'input' },
  { area: '[data-u-comp="slide-tab-bar"]', first: '[role="tab"][tabindex="0"]' },
  { area: '#sheet', first: '[data-u-comp="editor"]' },
];

/**
 * F6 goes on to the next part of the page, shift+F6 to the one before, since Tab goes from cell to cell. A part that was
 * left is come back to where it was left.
 */
export function moveFocusWithF6(parts: readonly PagePart[]): void {
  const left = new Map<number, HTMLElement>();
  document.addEventListener(
    'keydown',
    (event) => {
      if (event.key !== 'F6') return;
      event.preventDefault();
      event.stopPropagation();
      const active = document.activeElement;
      const from = parts.findIndex(({ area }) => active?.closest(area));
      const at = from < 0 ? parts.length - 1 : from;
      if (active instanceof HTMLElement) left.set(at, active);
      const next = (at + (event.shiftKey ? parts.length - 1 : 1)) % parts.length;
      const { area, first } = parts[next]!;
      const before = left.get(next);
      const to = before?.isConnected ? before : document.querySelector<HTMLElement>(`${area} ${first}`);
      to?.focus();
    },
    true,
  );
}
