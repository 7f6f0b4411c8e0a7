/**
 * F6 goes on to the next part of the page, shift+F6 to the one before, since Tab goes from cell to cell. A part is named by
 * what to go to in it; a part that was left is come back to where it was left.
 */
export function moveFocusWithF6(parts: readonly (() => HTMLElement | null)[]): void {
  const left = new Map<number, HTMLElement>();
  document.addEventListener(
    'keydown',
    (event) => {
      if (event.key !== 'F6') return;
      event.preventDefault();
      const active = document.activeElement;
      const areas = parts.map((part) => part()?.closest<HTMLElement>('#job, #sheet, #pane') ?? null);
      const from = areas.findIndex((area) => area?.contains(active));
      const at = from < 0 ? 1 : from;
      if (active instanceof HTMLElement && from >= 0) left.set(from, active);
      const next = (at + (event.shiftKey ? parts.length - 1 : 1)) % parts.length;
      const before = left.get(next);
      (before?.isConnected ? before : parts[next]?.())?.focus();
    },
    true,
  );
}
