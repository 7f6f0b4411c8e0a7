/** The arguments of the catalogue's own examples as the host passes them: a matrix each, null for one left out. */
import { parse, tokenize } from '@borgar/fx';
import { CATALOGUE } from '../../src/catalogue/catalogue.ts';
import type { Cell } from '../../src/catalogue/cell.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';

export type Matrix = readonly (readonly Cell[])[];
export type HostArguments = readonly (Matrix | null)[];

interface Node {
  readonly type: string;
  readonly value?: string | number | boolean;
  readonly callee?: { readonly name: string };
  readonly arguments?: readonly (Node | null)[];
  readonly elements?: readonly (readonly Node[])[];
}

/** Arguments of a formula that is one call on constants, array constants and calls on such. */
export function argumentsOf(formula: string): HostArguments {
  const node = parse(tokenize(formula)) as unknown as Node;
  return (node.arguments ?? []).map((a) => (a ? valueOf(a) : null));
}

function valueOf(node: Node): Matrix {
  if (node.type === 'Literal') return [[node.value ?? null]];
  if (node.type === 'ArrayExpression') return (node.elements ?? []).map((row) => row.map((e) => e.value ?? null));
  const name = node.type === 'CallExpression' ? node.callee?.name : undefined;
  const called = hostFunctions.find((f) => f.name === name);
  if (!called) throw new Error(`${node.type} ${name ?? ''} is more than an example here may hold`);
  // What one function hands another in the sheet: a blank goes as an empty text.
  return called
    .call((node.arguments ?? []).map((a) => (a ? valueOf(a) : undefined)))
    .map((row) => row.map((cell) => cell ?? ''));
}

/** A parameter's own example, where it is a constant. */
function constant(example: string): Matrix | null {
  const quoted = /^"(.*)"$/.exec(example);
  if (quoted) return [[(quoted[1] ?? '').replaceAll('""', '"')]];
  return example.trim() !== '' && Number.isFinite(Number(example)) ? [[Number(example)]] : null;
}

/** Rows of assumptions as someone would write them beside a pin list. */
export const ASSUME: Matrix = [
  ['name', 'value'],
  ['stub', 4],
  ['burning duty', ''],
  ['', ''],
];

/**
 * Every argument of a function given: as in its examples, from its parameters' own examples where no formula shows one,
 * and `assume` as a table.
 */
export function everyArgument(name: string): HostArguments {
  const f = hostFunctions.find((each) => each.name === name);
  const examples = CATALOGUE.find((d) => d.name === name)?.examples.map(argumentsOf) ?? [];
  const fullest = examples.reduce<HostArguments>((most, each) => (each.length > most.length ? each : most), []);
  return (f?.parameters ?? []).map((p, i) =>
    i < fullest.length ? (fullest[i] ?? null) : p.name === 'assume' ? ASSUME : constant(p.example),
  );
}

/** As a function of ours takes them. */
export const asCalled = (args: HostArguments): readonly Argument[] =>
  args.map((a) => a?.map((row) => row.map((cell) => (cell === '' ? null : cell))) ?? undefined);
