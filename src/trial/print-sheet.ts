/** A cell as the sheet shows it. */
export interface ShownCell {
  readonly text: string;
  readonly bold: boolean;
  readonly right: boolean;
}

export interface ShownSheet {
  readonly name: string;
  /** Rows that stand at the top of every page. */
  readonly headings: number;
  readonly rows: readonly (readonly ShownCell[])[];
}

/** Width of a landscape page between its margins, in px: that of US letter, the narrower across of the usual two is A4's 1046. */
const PAGE_WIDTH = 980;

/** Before printing puts the sheet on show in `place` as a plain table: the sheet itself is a picture of what fits in the window. */
export function printAsTable(place: HTMLElement, shown: () => ShownSheet | undefined): void {
  window.addEventListener('beforeprint', () => {
    // Something else is printed by itself.
    if (document.documentElement.classList.contains('rs-printing')) return;
    const sheet = shown();
    if (!sheet) return;
    const made = table(sheet);
    place.replaceChildren(made);
    fit(place, made);
  });
  window.addEventListener('afterprint', () => place.replaceChildren());
}

/** Prints the sheet by itself, without the working of the selected cell. */
export function printSheet(): void {
  const { classList } = document.documentElement;
  classList.add('sheet-only');
  window.addEventListener('afterprint', () => classList.remove('sheet-only'), { once: true });
  window.print();
}

/** Makes a table that is wider than the page smaller. */
function fit(place: HTMLElement, made: HTMLTableElement): void {
  place.classList.add('measured');
  // As wide as a page, or as its longest words need.
  const width = made.offsetWidth;
  place.classList.remove('measured');
  if (width > PAGE_WIDTH) made.style.setProperty('zoom', String(PAGE_WIDTH / width));
}

function table({ name, headings, rows }: ShownSheet): HTMLTableElement {
  const made = document.createElement('table');
  made.createCaption().textContent = name;
  if (headings > 0) made.createTHead().append(...rows.slice(0, headings).map(rowOf));
  made.createTBody().append(...rows.slice(headings).map(rowOf));
  return made;
}

function rowOf(cells: readonly ShownCell[]): HTMLTableRowElement {
  const row = document.createElement('tr');
  for (let at = 0; at < cells.length;) {
    const { text, bold, right } = cells[at] ?? { text: '', bold: false, right: false };
    const next = cells.findIndex((other, i) => i > at && other.text !== '');
    // A text runs on over the blank cells beside it, as it does in the sheet.
    const width = text === '' || right ? 1 : (next < 0 ? cells.length : next) - at;
    const cell = row.insertCell();
    cell.textContent = text;
    cell.colSpan = width;
    cell.classList.toggle('bold', bold);
    cell.classList.toggle('right', right);
    at += width;
  }
  return row;
}
