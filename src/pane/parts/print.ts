/** Some engines print once the script is done; one that has not begun after so long does not print [ms]. */
const PATIENCE = 1000;

/**
 * Prints one element by itself, in the page's own light colours: a copy of it stands alone on the page until the printing
 * is done. Gives false where the host's window cannot print: some do nothing when they are asked, and say nothing.
 */
export async function printAlone(element: Element): Promise<boolean> {
  const { body, documentElement } = document;
  const copy = document.createElement('div');
  copy.className = 'rs rs-print';
  copy.append(element.cloneNode(true));
  // What is folded is not printed.
  for (const each of copy.querySelectorAll('details')) each.open = true;
  body.append(copy);
  documentElement.classList.add('rs-printing');
  const done = (): void => {
    copy.remove();
    documentElement.classList.remove('rs-printing');
  };
  const begun = new Set<Event>();
  const begin = (event: Event): void => void begun.add(event);
  window.addEventListener('beforeprint', begin, { once: true });
  window.addEventListener('afterprint', done, { once: true });
  if (typeof window.print === 'function') window.print();
  if (begun.size === 0) await new Promise((resolve) => setTimeout(resolve, PATIENCE));
  if (begun.size > 0) return true;
  window.removeEventListener('beforeprint', begin);
  window.removeEventListener('afterprint', done);
  done();
  return false;
}
