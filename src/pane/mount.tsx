import { render } from 'preact';
import { Pane } from './pane.tsx';
import type { SheetPort } from './port.ts';

/** Shows the pane in an element, following the sheet behind the port; gives a function that takes it away. */
export function mountPane(element: HTMLElement, port: SheetPort): () => void {
  element.replaceChildren();
  render(<Pane port={port} />, element);
  return () => render(null, element);
}
