import type { CalculatedWorkbook, SheetDescription, WorkbookDescription } from '../sheet/described-workbook.ts';
import type { Cell } from '../sheet/host-function.ts';
import { addressOf, LAST_COLUMN, LAST_ROW, readAddress, sheetPrefix, type Area } from '../files/xlsx/address.ts';
import { readReference } from '../files/xlsx/formula-tokens.ts';

/** Cells of one sheet. */
export interface Cells {
  readonly sheet: number;
  readonly area: Area;
}

/** A call's results on a sheet Working. */
export interface Placed {
  readonly results: readonly (readonly Cell[])[];
  /** Where one of them stands. */
  at(row: number, column: number): string;
  /** Where all of them stand. */
  reference(): string;
}

export type Values = Pick<CalculatedWorkbook, 'valueAt' | 'spilledAt'>;

/** Finds the cells that references of a workbook stand for. */
export class References {
  private readonly used: readonly { readonly row: number; readonly column: number }[];
  private readonly names: ReadonlyMap<string, string>;

  constructor(
    private readonly workbook: WorkbookDescription,
    private readonly values: Values,
  ) {
    this.used = workbook.sheets.map((sheet, index) => lastUsed(sheet, index, values));
    this.names = new Map(
      Object.entries(workbook.definedNames ?? {}).map(([name, meaning]) => [name.toLowerCase(), meaning]),
    );
  }

  /** Undefined where the text is no reference to cells of this workbook. `home` is the sheet of the formula it stands in. */
  find(text: string, home: number): Cells | undefined {
    if (text.endsWith('#')) {
      const anchor = this.find(text.slice(0, -1), home);
      if (!anchor) return undefined;
      const { top, left } = anchor.area;
      const spilled = this.values.spilledAt(anchor.sheet, top, left);
      return {
        sheet: anchor.sheet,
        area: { top, left, bottom: top + spilled.length - 1, right: left + (spilled[0]?.length ?? 1) - 1 },
      };
    }
    const meaning = this.names.get(text.toLowerCase());
    if (meaning !== undefined) return readReference(meaning) ? this.find(meaning, home) : undefined;
    const reference = readReference(text);
    if (!reference || reference.workbookName) return undefined;
    const { range, sheetName } = reference;
    const sheet = sheetName === undefined || sheetName === '' ? home : this.sheetOf(sheetName);
    const used = this.used[sheet];
    if (!used) return undefined;
    const whole = (at: number | null | undefined, otherwise: number): number => at ?? otherwise;
    return {
      sheet,
      area: {
        top: whole(range.top, 0),
        left: whole(range.left, 0),
        bottom: whole(range.bottom, Math.min(LAST_ROW, used.row)),
        right: whole(range.right, Math.min(LAST_COLUMN, used.column)),
      },
    };
  }

  read({ sheet, area: { top, left, bottom, right } }: Cells): readonly (readonly Cell[])[] {
    // Beyond what is filled all is blank.
    const last = Math.max(top, Math.min(bottom, this.used[sheet]?.row ?? bottom));
    return Array.from({ length: last - top + 1 }, (_, r) =>
      Array.from({ length: right - left + 1 }, (__, c) => this.values.valueAt(sheet, top + r, left + c)),
    );
  }

  /** A cell's address with its sheet, fixed. */
  address(sheet: number, row: number, column: number): string {
    return sheetPrefix(this.workbook.sheets[sheet]?.name ?? '') + fixed(row, column);
  }

  private sheetOf(name: string): number {
    return this.workbook.sheets.findIndex((sheet) => sheet.name.toLowerCase() === name.toLowerCase());
  }
}

/** `$B$7`. */
export const fixed = (row: number, column: number): string =>
  addressOf(row, column).replace(/^([A-Z]+)(\d+)$/, '$$$1$$$2');

function lastUsed(sheet: SheetDescription, index: number, values: Values): { row: number; column: number } {
  let [row, column] = [Math.max(0, (sheet.rows?.length ?? 0) - 1), 0];
  const reach = (r: number, c: number): void => {
    row = Math.max(row, r);
    column = Math.max(column, c);
  };
  const formula = (content: unknown, r: number, c: number): void => {
    reach(r, c);
    if (typeof content !== 'string' || !content.startsWith('=')) return;
    const spilled = values.spilledAt(index, r, c);
    reach(r + spilled.length - 1, c + (spilled[0]?.length ?? 1) - 1);
  };
  sheet.rows?.forEach((cells, r) => cells.forEach((content, c) => formula(content, r, c)));
  for (const [address, content] of Object.entries(sheet.cells ?? {})) {
    const at = readAddress(address);
    if (at) formula(content, at.row, at.column);
  }
  return { row, column };
}
