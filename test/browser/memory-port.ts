/** A sheet in memory behind the pane's port; formulas that are one call of our functions are calculated and spill. */
import { parseA1Ref, toCol } from '@borgar/fx';
import { isBlankCell, type Cell } from '../../src/catalogue/cell.ts';
import { isKnown, readSelectedCell } from '../../src/pane/explain-cell.ts';
import type { SelectedCell, SheetPort, WrittenCell } from '../../src/pane/port.ts';
import type { FormulaCell } from '../../src/pane/unknown-name.ts';

interface Held {
  readonly value: Cell;
  readonly formula?: string;
  readonly spill?: SelectedCell['spill'];
}

export class MemoryPort implements SheetPort {
  formulas?: NonNullable<SheetPort['formulas']>;
  readonly sheets = new Map<string, Map<string, Held>>();
  private readonly listeners = new Set<(cell: SelectedCell | undefined) => void>();
  private at: { sheet: string; address: string } | undefined;

  async fill(sheet: string, cells: Readonly<Record<string, Cell>>): Promise<void> {
    const held = this.sheets.get(sheet) ?? new Map<string, Held>();
    this.sheets.set(sheet, held);
    for (const [address, value] of Object.entries(cells)) {
      if (typeof value === 'string' && value.startsWith('=')) await this.calculate(sheet, address, value);
      else held.set(address, { value });
    }
  }

  select(sheet: string, address: string): void {
    this.at = { sheet, address };
    this.tell();
  }

  selectNothing(): void {
    this.at = undefined;
    this.tell();
  }

  /** Replaces what a cell shows, as an outdated file would. */
  show(sheet: string, address: string, value: Cell): void {
    const held = this.sheets.get(sheet)?.get(address);
    this.sheets.get(sheet)?.set(address, { ...held, value });
    this.tell();
  }

  onSelection(listener: (cell: SelectedCell | undefined) => void): () => void {
    this.listeners.add(listener);
    listener(this.selected());
    return () => this.listeners.delete(listener);
  }

  read(reference: string, sheet: string): Promise<readonly (readonly Cell[])[]> {
    const parsed = parseA1Ref(reference);
    const { context = [] } = parsed ?? {};
    const held = this.sheets.get(context[0] ?? sheet);
    if (!parsed || !('range' in parsed) || !held) return Promise.reject(new Error('there is no such range'));
    const { top, left, bottom, right } = parsed.range as { top: number; left: number; bottom: number; right: number };
    return Promise.resolve(
      Array.from({ length: bottom - top + 1 }, (_, r) =>
        Array.from({ length: right - left + 1 }, (_c, c) => held.get(addressOf(top + r, left + c))?.value ?? null),
      ),
    );
  }

  async putFormula(formula: string): Promise<void> {
    if (!this.at) throw new Error('no cell is selected');
    await this.calculate(this.at.sheet, this.at.address, formula);
    this.tell();
  }

  /** As `formulas.all` of a port that has it. */
  allFormulas(): Promise<readonly FormulaCell[]> {
    return Promise.resolve(
      [...this.sheets].flatMap(([sheet, cells]) =>
        [...cells].flatMap(([address, { formula, value }]) =>
          formula === undefined ? [] : [{ sheet, address, formula, value }],
        ),
      ),
    );
  }

  async write(sheet: string, cells: readonly WrittenCell[]): Promise<void> {
    const held = this.sheets.get(sheet);
    const taken = cells.find(({ address }) => held?.get(address)?.formula ?? held?.get(address)?.spill);
    if (taken) throw new Error(`${sheet} ${taken.address} is filled by a formula`);
    await this.fill(sheet, Object.fromEntries(cells.map(({ address, value }) => [address, value])));
    this.tell();
  }

  async addSheet(name: string, rows: readonly (readonly Cell[])[]): Promise<string> {
    let got = name;
    for (let n = 2; this.sheets.has(got); n++) got = `${name} ${n}`;
    await this.fill(
      got,
      Object.fromEntries(
        rows
          .flatMap((row, r) => row.map((cell, c) => [addressOf(r, c), cell] as const))
          .filter(([, cell]) => !isBlankCell(cell)),
      ),
    );
    return got;
  }

  private async calculate(sheet: string, address: string, formula: string): Promise<void> {
    const { calls } = await readSelectedCell({ sheet, address, formula, value: null }, this);
    const [call] = calls;
    const results = call && isKnown(call) && call.whole ? call.results : undefined;
    const parsed = parseA1Ref(address);
    const { top = 0, left = 0 } = (parsed && 'range' in parsed ? parsed.range : {}) as { top?: number; left?: number };
    const held = this.sheets.get(sheet);
    held?.set(address, { value: results?.[0]?.[0] ?? null, formula });
    results?.forEach((row, r) =>
      row.forEach((value, c) => {
        if (r + c > 0)
          held?.set(addressOf(top + r, left + c), { value, spill: { from: address, formula, row: r, column: c } });
      }),
    );
  }

  private selected(): SelectedCell | undefined {
    if (!this.at) return undefined;
    const held = this.sheets.get(this.at.sheet)?.get(this.at.address);
    return {
      ...this.at,
      formula: held?.formula ?? '',
      value: held?.value ?? null,
      ...(held?.spill ? { spill: held.spill } : {}),
    };
  }

  private tell(): void {
    for (const listener of this.listeners) listener(this.selected());
  }
}

const addressOf = (row: number, column: number): string => `${toCol(column)}${row + 1}`;
