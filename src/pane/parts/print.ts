/**
 * Prints one element by itself, in the page's own light colours: a copy of it stands alone on the page until the printing
 * is done. Gives false where the host's window cannot print.
 */
export function printAlone(element: Element): boolean {
  if (typeof window.print !== 'function') return false;
  const { body, documentElement } = document;
  const copy = document.createElement('div');
  copy.className = 'rs rs-print';
  copy.append(element.cloneNode(true));
  body.append(copy);
  documentElement.classList.add('rs-printing');
  window.addEventListener(
    'afterprint',
    () => {
      copy.remove();
      documentElement.classList.remove('rs-printing');
    },
    { once: true },
  );
  window.print();
  return true;
}
