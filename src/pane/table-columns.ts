import type { Cell } from '../catalogue/cell.ts';

/** Reads a spilled table by its headings, with or without their units. */
export interface TableColumns {
  readonly rows: readonly (readonly Cell[])[];
  readonly text: (row: readonly Cell[], heading: string) => string;
  /** The unit that a heading names; empty where it names none. */
  readonly unit: (heading: string) => string;
  /** Undefined where the cell holds no number. */
  readonly number: (row: readonly Cell[], heading: string) => number | undefined;
}

export function tableColumns([headings = [], ...rows]: readonly (readonly Cell[])[]): TableColumns {
  const names = headings.map((h) => (typeof h === 'string' ? h.replace(/,[^,]*$/, '') : ''));
  const at = (row: readonly Cell[], heading: string): Cell => row[names.indexOf(heading)] ?? null;
  return {
    rows,
    unit: (heading) => {
      const cell = headings[names.indexOf(heading)];
      return typeof cell === 'string' ? cell.slice(heading.length).replace(/^, /, '') : '';
    },
    text: (row, heading) => {
      const cell = at(row, heading);
      return typeof cell === 'string' || typeof cell === 'number' ? String(cell) : '';
    },
    number: (row, heading) => {
      const cell = at(row, heading);
      return typeof cell === 'number' ? cell : undefined;
    },
  };
}
