import type { Basis } from '../core/basis.ts';
import type { CalcError } from '../core/errors.ts';
import type { Material } from '../core/burn/materials.ts';
import type { RodChoice } from '../core/burn/rods.ts';
import type { Operation } from '../core/operations/operation.ts';
import type { CylinderChoice } from '../core/oxygen/cylinder-sizes.ts';
import type { Working } from '../core/model/working.ts';
import type { KnownItem } from '../core/safety/item.ts';
import type { QuantityName } from '../core/units/quantities.ts';
import type { Cell } from './cell.ts';

/** A number with a unit; limits in SI. */
export interface QuantityKind {
  readonly kind: 'quantity';
  readonly quantity: QuantityName;
  /** Refused at and below. */
  readonly above?: number;
  /** Refused below. */
  readonly min?: number;
  readonly max?: number;
  readonly whole?: true;
}
/** One of a few words. */
export interface ChoiceKind {
  readonly kind: 'choice';
  readonly choices: readonly string[];
}
export interface TextKind {
  readonly kind: 'text';
}
export interface RodKind {
  readonly kind: 'rod';
}
export interface MaterialKind {
  readonly kind: 'material';
}
/** Water volume of a cylinder, or a size of the register by name. */
export interface CylinderKind {
  readonly kind: 'cylinder';
}
/** A range handed over as it stands. */
export interface CellsKind {
  readonly kind: 'cells';
}
export type Kind = QuantityKind | ChoiceKind | TextKind | RodKind | MaterialKind | CylinderKind | CellsKind;

export interface Parameter<K extends Kind = Kind, O extends boolean = boolean> {
  readonly summary: string;
  readonly kind: K;
  readonly optional: O;
  /** As a user would type it in a formula. */
  readonly example: string;
}

type ValueOfKind<K extends Kind> = K extends QuantityKind
  ? number
  : K extends ChoiceKind | TextKind
    ? string
    : K extends RodKind
      ? RodChoice
      : K extends MaterialKind
        ? Material
        : K extends CylinderKind
          ? CylinderChoice
          : readonly (readonly Cell[])[];

/** Under this key the values that `calculate` is given hold the names of those that were written with their unit. */
export const UNITS_WRITTEN = Symbol('units written');

/** What `calculate` is given: SI numbers and register entries, by parameter name. */
export type Values<P extends Record<string, Parameter>> = {
  readonly [N in keyof P]: P[N] extends Parameter<infer K, infer O>
    ? O extends true
      ? ValueOfKind<K> | undefined
      : ValueOfKind<K>
    : never;
} & { readonly [UNITS_WRITTEN]?: ReadonlySet<string> };

export interface Column {
  readonly heading: string;
  /** Numbers of this column are SI and shown in the user's plain unit, which joins the heading. */
  readonly quantity?: QuantityName;
  /** Symbol of the step that a cell of this column shows; absent where no step of the item's working is it. */
  readonly step?: string;
}

/** A number is SI where the column or result has a quantity; a CalcError fails that cell alone. */
export type Output = number | string | null | CalcError;

interface Common<P extends Record<string, Parameter>> {
  readonly name: string;
  readonly family: string;
  readonly summary: string;
  readonly parameters: P;
  /** Whether the argument `assume` follows the parameters, and whether it may be left out. */
  readonly assume: boolean | 'required';
  /** Keys of the register of sources. */
  readonly sources: readonly string[];
  /** Words after `BURN.`, an operation or the beginning of a function's name, whose cautions apply besides those of its own name. */
  readonly cautions: readonly string[];
  /** What a call's cautions depend on besides its rod, its material and the assumptions: each item it is about. */
  about?(values: Values<P>, basis: Basis): readonly KnownItem[];
  /** Formulas that can be put in a cell as they stand; every one is run by a test. */
  readonly examples: readonly string[];
}

/** One value for each item; ranges broadcast and spill. */
export interface ValueFunction<P extends Record<string, Parameter> = Record<string, Parameter>> extends Common<P> {
  readonly result: { readonly kind: 'value'; readonly quantity: QuantityName | 'text' };
  calculate(values: Values<P>, basis: Basis): number | string;
  /** How the value is worked out; its result is the value. Absent where there is nothing to explain. */
  working?(values: Values<P>, basis: Basis): Working;
}

/** One labelled row for each item under a heading; a bad item fails in its own row, with the reason in its last column. */
export interface RowsFunction<P extends Record<string, Parameter> = Record<string, Parameter>> extends Common<P> {
  readonly result: { readonly kind: 'rows'; readonly columns: readonly Column[] };
  calculate(values: Values<P>, basis: Basis): readonly Output[];
  /** How one item is worked out, where that is explained; or one step of it alone, that of a column, where the item has it. */
  working?(values: Values<P>, basis: Basis, step?: string): Working;
  /**
   * Columns that depend on all good rows together: outputs by the place of their column, for one of these rows after the other, in
   * place of what `calculate` gave; of the columns `from`, each with one output for each of these rows.
   */
  readonly together?: {
    readonly from: readonly number[];
    of(
      columns: readonly (readonly Output[])[],
      basis: Basis,
    ): (row: number) => readonly (readonly [place: number, output: Output])[];
  };
  /** What a plan's rows are of: long lists of them are worked out in columns. */
  readonly plan?: {
    readonly operation: Operation;
    /** What is said of an item's sizes before anything is worked out. */
    notes(values: Values<P>, basis: Basis): readonly string[];
  };
}

/** A table from one set of arguments. */
export interface TableFunction<P extends Record<string, Parameter> = Record<string, Parameter>> extends Common<P> {
  /** `headless` tables have no heading row, so that they stand row by row beside the range they came from. */
  readonly result: { readonly kind: 'table'; readonly columns: readonly Column[]; readonly headless?: true };
  calculate(values: Values<P>, basis: Basis): readonly (readonly Output[])[];
  /** How the table is worked out, where that is explained. */
  working?(values: Values<P>, basis: Basis): Working;
  /** What a row of it is about, counted from 1 below the heading; undefined where it is about no single item. */
  row?(values: Values<P>, basis: Basis, row: number): ItemOfRow | undefined;
}

/** The item of one row of a table. */
export interface ItemOfRow {
  /** What it is called. */
  readonly mark: string;
  /** Pieces that its figures are for; the working is that of one. */
  readonly pieces: number;
  readonly operation: string;
  /** The assumptions of this row. */
  readonly basis: Basis;
  readonly known: readonly KnownItem[];
  working(step?: string): Working;
}

/** A declared function, whatever its parameters. */
export type Declaration = ValueFunction | RowsFunction | TableFunction;

// The declarations below keep the types of the parameters for `calculate` and drop them outside.
export function valueFunction<const P extends Record<string, Parameter>>(d: ValueFunction<P>): Declaration {
  return d;
}
/** A value whose working is its calculation. */
export function workedFunction<const P extends Record<string, Parameter>>(
  d: Omit<ValueFunction<P>, 'calculate' | 'working'> & { working(values: Values<P>, basis: Basis): Working },
): Declaration {
  return valueFunction<P>({ ...d, calculate: (values, basis) => d.working(values, basis).value });
}
export function rowsFunction<const P extends Record<string, Parameter>>(d: RowsFunction<P>): Declaration {
  return d;
}
export function tableFunction<const P extends Record<string, Parameter>>(d: TableFunction<P>): Declaration {
  return d;
}

export const isRowsFunction = (d: Declaration): d is RowsFunction => d.result.kind === 'rows';
export const isTableFunction = (d: Declaration): d is TableFunction => d.result.kind === 'table';

export function required<const K extends Kind>(kind: K, summary: string, example: string): Parameter<K, false> {
  return { kind, summary, example, optional: false };
}
export function optional<const K extends Kind>(kind: K, summary: string, example: string): Parameter<K, true> {
  return { kind, summary, example, optional: true };
}

/** The last argument of every function that goes by assumptions. */
export const assumeParameter = optional(
  { kind: 'cells' },
  'Range of rows name, value that replace assumptions for this call, as BURN.ASSUMED lists them',
  'Assumptions!A2:B9',
);

/** Name of a parameter in a formula's help and in messages: `hoseLength` is `hose length`; one with spaces stands as it is. */
export function parameterLabel(name: string): string {
  return name.includes(' ') ? name : name.replace(/[A-Z]/g, (c) => ` ${c.toLowerCase()}`);
}
