import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';

/** A window over the page that the keyboard stays in; Esc closes it. */
export function Dialog({
  label,
  onClose,
  children,
}: {
  readonly label: string;
  readonly onClose: () => void;
  readonly children: ComponentChildren;
}) {
  const place = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    place.current?.showModal();
  }, []);
  return (
    <dialog
      ref={place}
      class="job-dialog rs-colours"
      aria-label={label}
      onClose={onClose}
      // The sheet behind takes keys and clipboard of the whole page for its own.
      onKeyDown={(event) => event.stopPropagation()}
      onCopy={(event) => event.stopPropagation()}
      onPaste={(event) => event.stopPropagation()}
      onCut={(event) => event.stopPropagation()}
    >
      {children}
      <form method="dialog">
        <button type="submit">Close</button>
      </form>
    </dialog>
  );
}
