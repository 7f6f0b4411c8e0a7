/** Calls made from the declarations: each function with its arguments' examples, under other assumptions. */
import type { Cell } from '../../src/catalogue/cell.ts';
import type { Declaration, Parameter } from '../../src/catalogue/declaration.ts';
import { CalcError } from '../../src/core/errors.ts';
import type { WorkedStep } from '../../src/core/model/step.ts';
import { explain } from '../../src/sheet/explain.ts';
import type { Argument } from '../../src/sheet/host-function.ts';

export type Rows = readonly (readonly Cell[])[];

export const parametersOf = (d: Declaration): readonly Parameter[] => Object.values(d.parameters);
const exampleCell = (example: string): Cell =>
  example.startsWith('"') ? example.slice(1, -1) : Number.isFinite(Number(example)) ? Number(example) : example;

export const CASES: Readonly<Record<string, Rows>> = {
  'with the defaults': [],
  'with other assumptions': [
    ['stub', 4],
    ['idle oxygen share', 0.15],
    ['burning duty', 0.6],
    ['slag temperature', 2250],
    ['product FeO share', 0.7],
    ['bore ratio', 0.55],
    ['ends worked', 2],
    ['advance limit', 9],
    ['set-up time', 20],
    ['flow factor', 0.9],
    ['gas temperature', 40],
    ['air pressure', 13],
    ['holder orifice', 0.14],
    ['hose length', 150],
    ['cylinder volume', 50],
    ['leftover pressure', 400],
    ['boss over pin', 2.2],
    ['heat into the part', 0.6],
    ['drop diameter', 0.1],
  ],
  'with coupled rods': [['coupled rods', 'yes']],
  'with strings of three rods': [
    ['coupled rods', 'yes'],
    ['string rods', 3],
  ],
  'with a measured flow and a tip pressure of its own': [
    ['rod flow measured', 8],
    ['pressure', 75],
    ['tip pressure', 85],
  ],
  'overhead, in tight access, read standing': [
    ['position', 'overhead'],
    ['access', 'tight'],
    ['regulator set', 'standing'],
  ],
  'cooled with water, under water': [
    ['cooling method', 'water'],
    ['water depth', 20],
  ],
};

/** Arguments by their examples; with `optionals` those that may be left out too. */
export const exampleArguments = (d: Declaration, optionals: boolean): Argument[] =>
  parametersOf(d).map((p) =>
    p.kind.kind === 'cells' || (p.optional && !optionals) ? undefined : exampleCell(p.example),
  );

export function workingOf(d: Declaration, args: readonly Argument[], assume: Rows): readonly WorkedStep[] | CalcError {
  try {
    return explain(d, d.assume && (assume.length > 0 || d.assume === 'required') ? [...args, assume] : args).steps;
  } catch (e) {
    if (e instanceof CalcError) return e;
    throw e;
  }
}
