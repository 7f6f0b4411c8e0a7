/** Narrows the index to the functions whose name or text holds all the words typed. The page reads without it. */
export function filterFunctions(page: Document): void {
  const box = page.querySelector<HTMLElement>('.filter');
  const input = box?.querySelector('input');
  const found = box?.querySelector('output');
  if (!box || !input || !found) return;
  box.hidden = false;
  input.addEventListener('input', () => {
    const words = input.value
      .toLowerCase()
      .split(/\s+/)
      .filter((w) => w !== '');
    let hits = 0;
    for (const family of page.querySelectorAll<HTMLElement>('[data-family]')) {
      let shown = 0;
      for (const each of family.querySelectorAll<HTMLElement>('[data-function]')) {
        const text = each.textContent.toLowerCase();
        each.hidden = !words.every((w) => text.includes(w));
        if (!each.hidden) shown++;
      }
      family.hidden = shown === 0;
      hits += shown;
    }
    found.textContent = words.length === 0 ? '' : `${hits} found`;
  });
}
