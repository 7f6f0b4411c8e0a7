import type { ComponentChildren } from 'preact';

export interface Tab<Id extends string> {
  readonly id: Id;
  readonly label: string;
}

const STEPS: Readonly<Record<string, (at: number, count: number) => number>> = {
  ArrowRight: (at, count) => (at + 1) % count,
  ArrowLeft: (at, count) => (at + count - 1) % count,
  Home: () => 0,
  End: (_, count) => count - 1,
};

/** Tabs after the pattern of the ARIA Authoring Practices: one is in the tab order, arrow keys move and open. */
export function Tabs<Id extends string>({
  tabs,
  open,
  onOpen,
}: {
  readonly tabs: readonly Tab<Id>[];
  readonly open: Id;
  readonly onOpen: (id: Id) => void;
}) {
  const move = (event: KeyboardEvent): void => {
    const step = STEPS[event.key];
    if (!step) return;
    event.preventDefault();
    const next =
      tabs[
        step(
          tabs.findIndex((t) => t.id === open),
          tabs.length,
        )
      ];
    if (!next) return;
    onOpen(next.id);
    document.getElementById(`rs-tab-${next.id}`)?.focus();
  };
  return (
    <div class="rs-tabs" role="tablist" aria-label="Rodsheet" onKeyDown={move}>
      {tabs.map(({ id, label }) => (
        <button
          type="button"
          role="tab"
          id={`rs-tab-${id}`}
          aria-controls={`rs-panel-${id}`}
          aria-selected={id === open}
          tabIndex={id === open ? 0 : -1}
          onClick={() => onOpen(id)}
        >
          {label}
        </button>
      ))}
    </div>
  );
}

export function TabPanel({
  id,
  open,
  children,
}: {
  readonly id: string;
  readonly open: string;
  readonly children: ComponentChildren;
}) {
  return (
    <div
      class="rs-panel"
      role="tabpanel"
      id={`rs-panel-${id}`}
      aria-labelledby={`rs-tab-${id}`}
      hidden={id !== open}
      tabIndex={0}
    >
      {children}
    </div>
  );
}
