/** A cell as the sheet shows it. */
export interface ShownCell {
  readonly text: string;
  readonly bold: boolean;
  readonly right: boolean;
}

export interface ShownSheet {
  readonly name: string;
  readonly rows: readonly (readonly ShownCell[])[];
}

/** Before printing puts the sheet on show in `place` as a plain table: the sheet itself is a picture of what fits in the window. */
export function printAsTable(place: HTMLElement, shown: () => ShownSheet): void {
  window.addEventListener('beforeprint', () => place.replaceChildren(table(shown())));
  window.addEventListener('afterprint', () => place.replaceChildren());
}

function table({ name, rows }: ShownSheet): HTMLTableElement {
  const made = document.createElement('table');
  made.createCaption().textContent = name;
  for (const row of rows) made.append(rowOf(row));
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
