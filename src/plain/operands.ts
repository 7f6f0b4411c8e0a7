import { findFunction } from '../catalogue/catalogue.ts';
import { isCellError } from '../catalogue/cell.ts';
import { findCalls, rewritten, type FormulaCall, type Operand } from '../formula/formula-calls.ts';
import { TYPES } from '../formula/formula-tokens.ts';
import { asGrid } from '../sheet/broadcast.ts';
import type { CalculatedWorkbook } from '../sheet/described-workbook.ts';
import type { Argument, Cell } from '../sheet/host-function.ts';
import { addressOf, sheetPrefix } from '../files/xlsx/address.ts';
import type { NewSheet, NewWorkbook } from '../files/xlsx/new-workbook.ts';
import type { Cells, Placed } from './read-cells.ts';

/** One argument of a call: what it holds, and where each of its cells can be read from. */
export interface PlainOperand {
  readonly argument: Argument;
  /** Why it could not be read. */
  readonly problem?: string;
  /** What gives the cell at a place of the argument in a formula; undefined where it stands in the formula itself. */
  link(row: number, column: number): string | undefined;
}

/** What the operands of one formula are read by. */
export interface OperandReader {
  find(reference: string): Cells | undefined;
  read(cells: Cells): readonly (readonly Cell[])[];
  address(cells: Cells, row: number, column: number): string;
  /** What a formula of the sheet's own gives. */
  scratch(text: string): readonly (readonly Cell[])[] | undefined;
  /** Places the working of a call that stands inside. */
  inner(call: FormulaCall): Placed;
  /** A formula as it stands in the copy, to be read from another sheet. */
  rewrite(text: string): string;
}

const NONE = (): undefined => undefined;

/** What gives something else where it stands elsewhere. */
const OF_PLACE = /\b(?:INDIRECT|ROW|COLUMN|CELL|SHEET|INFO)\(/i;

export function operandsOf({ operands }: FormulaCall, reader: OperandReader): readonly PlainOperand[] {
  return operands.map((operand) => read(operand, reader));
}

function read(operand: Operand, reader: OperandReader): PlainOperand {
  switch (operand.kind) {
    case 'omitted':
      return { argument: undefined, link: NONE };
    case 'value':
      return { argument: operand.value, link: NONE };
    case 'array':
      return { argument: operand.rows, link: NONE };
    case 'reference': {
      const cells = reader.find(operand.text);
      if (!cells) return calculated(operand.text, reader);
      return { argument: reader.read(cells), link: (row, column) => reader.address(cells, row, column) };
    }
    case 'call': {
      if (!findFunction(operand.call.name)) return unread(`${operand.call.name} is no function here`);
      const placed = reader.inner(operand.call);
      return { argument: placed.results, link: (row, column) => placed.at(row, column) };
    }
    case 'arithmetic':
    case 'formula':
      return calculated(operand.text, reader);
  }
}

const unread = (problem: string): PlainOperand => ({ argument: undefined, problem, link: NONE });

/** An argument that the sheet itself calculates. */
function calculated(text: string, reader: OperandReader): PlainOperand {
  const grid = OF_PLACE.test(text) ? undefined : reader.scratch(text);
  const first = grid?.[0]?.[0] ?? null;
  if (!grid || (grid.length === 1 && isCellError(first))) return unread(`the argument ${text} cannot be followed`);
  const single = grid.length === 1 && grid[0]?.length === 1;
  let formula: string | undefined;
  return {
    argument: grid,
    link: (row, column) => {
      formula ??= `(${reader.rewrite(text)})`;
      return single ? formula : `INDEX(${formula},${row + 1},${column + 1})`;
    },
  };
}

/** Cells of an operand as its function takes them. */
export const gridOf = ({ argument }: PlainOperand): readonly (readonly Cell[])[] | undefined => asGrid(argument);

const SCRATCH = 'Arguments of formulas';
/** Columns between two of them, which is how wide one may be. */
const APART = 80;
const ON_ONE_SHEET = 200;

/** Calculates arguments that are formulas of the sheet's own: on sheets of their own, beside the workbook. */
export function scratchFormulas(formulas: readonly { readonly formula: string; readonly sheet: string }[]): {
  added(workbook: NewWorkbook): NewWorkbook;
  reader(calculated: CalculatedWorkbook): (text: string, sheet: string) => readonly (readonly Cell[])[] | undefined;
} {
  const places = new Map<string, number>();
  for (const { formula, sheet } of formulas)
    for (const { operands } of findCalls(formula))
      for (const { kind, text } of operands) {
        if (kind !== 'arithmetic' && kind !== 'formula' && kind !== 'reference') continue;
        const key = keyOf(text, sheet);
        if (!places.has(key)) places.set(key, places.size);
      }
  let first = 0;
  return {
    added: (workbook) => {
      first = workbook.sheets.length;
      const all = [...places.keys()];
      const sheets = Array.from({ length: Math.ceil(all.length / ON_ONE_SHEET) }, (_, s): NewSheet => ({
        name: `${SCRATCH} ${s + 1}`,
        size: [200_000, APART * (ON_ONE_SHEET + 1)],
        cells: Object.fromEntries(
          all.slice(s * ON_ONE_SHEET, (s + 1) * ON_ONE_SHEET).map((key, i) => [addressOf(0, i * APART), `=${key}`]),
        ),
      }));
      return { ...workbook, sheets: [...workbook.sheets, ...sheets] };
    },
    reader: (calculated) => (text, sheet) => {
      const place = places.get(keyOf(text, sheet));
      return place === undefined
        ? undefined
        : calculated.spilledAt(first + Math.floor(place / ON_ONE_SHEET), 0, (place % ON_ONE_SHEET) * APART);
    },
  };
}

/** The formula as it reads from another sheet. */
const keyOf = (text: string, sheet: string): string =>
  rewritten(
    text,
    ({ text: inner }) => keyOfCall(inner, sheet),
    ({ type, text: token }) =>
      (type === TYPES.REF_RANGE || type === TYPES.REF_BEAM) && !token.includes('!')
        ? sheetPrefix(sheet) + token
        : token,
  );

const keyOfCall = (text: string, sheet: string): string => {
  const open = text.indexOf('(');
  return `${text.slice(0, open)}${keyOf(text.slice(open), sheet)}`;
};
