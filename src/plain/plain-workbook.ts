/**
 * A copy of a workbook that needs no function of ours: every cell that had one reads its value from sheets Working, on
 * which each step of the calculation is an ordinary formula of earlier steps. What is found by iteration, drawn, or read
 * from a text stands there as a number, marked so.
 */
import { findFunction } from '../catalogue/catalogue.ts';
import { isBlankCell, isCellError } from '../catalogue/cell.ts';
import { rewritten, findCalls, type FormulaCall } from '../formula/formula-calls.ts';
import { formulaTokens, isOperator, TYPES, type FormulaToken } from '../formula/formula-tokens.ts';
import type { CalculatedWorkbook, CellContent, SheetDescription } from '../sheet/described-workbook.ts';
import type { Cell } from '../sheet/host-function.ts';
import { addressOf, readAddress, sheetPrefix } from '../files/xlsx/address.ts';
import type { NewSheet, NewWorkbook } from '../files/xlsx/new-workbook.ts';
import { explainedCall } from './explained-call.ts';
import { fixed, References, type Placed, type Values } from './read-cells.ts';
import { operandsOf, scratchFormulas, type PlainOperand } from './operands.ts';
import { WorkingSheets } from './working-sheets.ts';

/** Calculates a workbook; ours are among its functions. */
export type Calculate = (workbook: NewWorkbook) => Promise<CalculatedWorkbook>;

export interface PlainCopy {
  readonly workbook: NewWorkbook;
  /** What the formulas of the copy give. */
  readonly results: Values;
  /** Cells that had a function of ours. */
  readonly followed: number;
  /** Cells whose value stands as it is, with the reason; one sentence each. */
  readonly notFollowed: readonly string[];
}

/** One formula of the workbook. */
interface Standing {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly formula: string;
}

export async function plainWorkbook(workbook: NewWorkbook, calculate: Calculate): Promise<PlainCopy> {
  const standing = workbook.sheets.flatMap(formulasOf);
  const ours = standing.filter(({ formula }) => findCalls(formula).length > 0);
  const scratch = scratchFormulas(
    ours.map(({ sheet, formula }) => ({ formula, sheet: workbook.sheets[sheet]?.name ?? '' })),
  );
  const calculated = await calculate(scratch.added(workbook));
  const copy = new Copy(workbook, calculated, scratch.reader(calculated));
  for (const each of ours) copy.follow(each);
  for (const each of standing) if (!ours.includes(each)) copy.settleSpills(each);
  return copy.finished();
}

class Copy {
  private readonly references: References;
  private readonly working: WorkingSheets;
  /** New contents by sheet and address. */
  private readonly contents: Map<string, CellContent>[];
  private readonly notFollowed: string[] = [];
  private readonly whole = new Set<string>();
  private followed = 0;

  constructor(
    private readonly workbook: NewWorkbook,
    private readonly calculated: CalculatedWorkbook,
    private readonly scratch: (formula: string, sheet: string) => readonly (readonly Cell[])[] | undefined,
  ) {
    this.references = new References(workbook, calculated);
    this.working = new WorkingSheets(workbook.sheets.map(({ name }) => name));
    this.contents = workbook.sheets.map(() => new Map<string, CellContent>());
  }

  /** Puts the working of a formula's calls on sheets Working and links the cell to it. */
  follow({ sheet, row, column, formula }: Standing): void {
    const calls = outermost(formula);
    const value = this.calculated.spilledAt(sheet, row, column);
    const place = sheetPrefix(this.workbook.sheets[sheet]?.name ?? '') + addressOf(row, column);
    this.followed++;
    const failed = value[0]?.[0];
    if (value.length === 1 && value[0]?.length === 1 && isCellError(failed ?? null)) {
      this.put(sheet, row, column, failed as CellContent);
      this.notFollowed.push(`${place}: shows ${(failed as { error: string }).error}`);
      return;
    }
    try {
      const placed = calls.map((call) => this.placeCall(call, sheet, place));
      const [only] = placed;
      if (calls[0]?.whole && only) this.linkAll(sheet, row, column, value, only);
      else {
        let next = 0;
        const text = rewritten(
          this.withoutSpills(formula, sheet),
          () => (placed[next++] as Placed).reference(),
          (token) => this.settled(token, sheet),
        );
        this.put(sheet, row, column, text);
      }
    } catch (thrown) {
      if (!(thrown instanceof NotFollowed)) throw thrown;
      this.notFollowed.push(`${place}: ${thrown.message}`);
      value.forEach((cells, r) => cells.forEach((cell, c) => this.put(sheet, row + r, column + c, asContent(cell))));
    }
  }

  /** A formula that reads a spill by `A1#` reads the cells themselves, since what spilled there is plain cells now. */
  settleSpills({ sheet, row, column, formula }: Standing): void {
    if (!formula.includes('#')) return;
    const text = this.withoutSpills(formula, sheet);
    if (text !== formula) this.put(sheet, row, column, text);
  }

  finished(): PlainCopy {
    const sheets = this.workbook.sheets.map((sheet, index): NewSheet => {
      const contents = this.contents[index] as Map<string, CellContent>;
      const rows = sheet.rows?.map((cells, r) =>
        cells.map((content, c) => (contents.has(addressOf(r, c)) ? null : content)),
      );
      return {
        ...sheet,
        ...(rows ? { rows } : {}),
        cells: { ...sheet.cells, ...Object.fromEntries(contents) },
        plain: 'singles',
      };
    });
    const added = this.working.sheets();
    return {
      workbook: { ...this.workbook, sheets: [...sheets, ...added.map(({ sheet }) => sheet)] },
      results: {
        valueAt: (sheet, row, column) =>
          sheet < sheets.length
            ? this.calculated.valueAt(sheet, row, column)
            : (added[sheet - sheets.length]?.valueAt(row, column) ?? null),
        spilledAt: (sheet, row, column) => {
          if (sheet >= sheets.length) return [[added[sheet - sheets.length]?.valueAt(row, column) ?? null]];
          const alone = this.whole.has(`${sheet}!${addressOf(row, column)}`);
          return alone
            ? [[this.calculated.valueAt(sheet, row, column)]]
            : this.calculated.spilledAt(sheet, row, column);
        },
      },
      followed: this.followed,
      notFollowed: this.notFollowed,
    };
  }

  private put(sheet: number, row: number, column: number, content: CellContent): void {
    this.contents[sheet]?.set(addressOf(row, column), content);
  }

  private placeCall(call: FormulaCall, sheet: number, place: string): Placed {
    const declaration = findFunction(call.name);
    if (!declaration) throw new NotFollowed(`${call.name} is no function here`);
    const operands = operandsOf(call, {
      find: (text) => this.references.find(text, sheet),
      read: (cells) => this.references.read(cells),
      address: (cells, row, column) =>
        this.references.address(cells.sheet, cells.area.top + row, cells.area.left + column),
      scratch: (text) => this.scratch(text, this.workbook.sheets[sheet]?.name ?? ''),
      inner: (inner) => this.placeCall(inner, sheet, place),
      rewrite: (text) =>
        rewritten(
          text,
          (inner) => this.placeCall(inner, sheet, place).reference(),
          (token) => this.settled(token, sheet, true),
        ),
    });
    const unread = operands.find(
      (operand): operand is PlainOperand & { problem: string } => operand.problem !== undefined,
    );
    if (unread) throw new NotFollowed(unread.problem);
    return this.working.add(place, explainedCall(declaration, call, operands));
  }

  private linkAll(
    sheet: number,
    row: number,
    column: number,
    value: readonly (readonly Cell[])[],
    placed: Placed,
  ): void {
    value.forEach((cells, r) =>
      cells.forEach((cell, c) => {
        this.whole.add(`${sheet}!${addressOf(row + r, column + c)}`);
        // A reference to a blank cell would show 0.
        const content = isBlankCell(cell) ? null : isCellError(cell) ? cell : `=${placed.at(r, c)}`;
        this.put(sheet, row + r, column + c, content);
      }),
    );
  }

  private withoutSpills(formula: string, sheet: number): string {
    const tokens = formulaTokens(formula);
    return tokens
      .map((token, i) => {
        if (isOperator(token, '#') && isReference(tokens[i - 1])) return '';
        if (!isReference(token) || !isOperator(tokens[i + 1], '#')) return token.text;
        return this.fixedArea(`${token.text}#`, sheet) ?? token.text;
      })
      .join('');
  }

  /** A token of a formula as it stands in the copy; with the sheet it means, where it is read from another. */
  private settled({ type, text }: FormulaToken, sheet: number, elsewhere = false): string {
    if (!elsewhere || (type !== TYPES.REF_RANGE && type !== TYPES.REF_BEAM) || text.includes('!')) return text;
    return sheetPrefix(this.workbook.sheets[sheet]?.name ?? '') + text;
  }

  private fixedArea(text: string, sheet: number): string | undefined {
    const found = this.references.find(text, sheet);
    if (!found) return undefined;
    const { top, left, bottom, right } = found.area;
    const prefix = text.includes('!') ? text.slice(0, text.lastIndexOf('!') + 1) : '';
    return `${prefix}${fixed(top, left)}:${fixed(bottom, right)}`;
  }
}

const isReference = (token: FormulaToken | undefined): boolean => token?.type === TYPES.REF_RANGE;

/** Why a cell keeps its value. */
export class NotFollowed extends Error {}

function outermost(formula: string): readonly FormulaCall[] {
  const calls: FormulaCall[] = [];
  rewritten(
    formula,
    (call) => {
      calls.push(call);
      return '';
    },
    () => '',
  );
  return calls;
}

const asContent = (cell: Cell): CellContent =>
  typeof cell === 'string' ? (cell === '' ? null : { text: cell }) : cell;

function formulasOf(sheet: SheetDescription, index: number): readonly Standing[] {
  const found: Standing[] = [];
  const look = (content: CellContent, row: number, column: number): void => {
    if (typeof content === 'string' && content.startsWith('=') && content.length > 1)
      found.push({ sheet: index, row, column, formula: content });
  };
  const over = sheet.cells ?? {};
  sheet.rows?.forEach((cells, r) =>
    cells.forEach((content, c) => {
      if (!(addressOf(r, c) in over)) look(content, r, c);
    }),
  );
  for (const [address, content] of Object.entries(over)) {
    const at = readAddress(address);
    if (at) look(content, at.row, at.column);
  }
  return found;
}
