/**
 * The host's description of the functions, functions.json, built from their declarations.
 *
 * Limits from the host's documentation: ids and names have 3 to 128 characters of A-Z, 0-9 and the period and
 * start with a letter; a parameter name has up to 64 characters; a description is cut near 255; the function
 * wizard fails where all parameter names of a function with their separators pass 254.
 */
import type { HostFunction } from '../sheet/host-function.ts';
import { referencePage } from '../sheet/reference-page.ts';
import { functionId } from './function-id.ts';

export interface ParameterMetadata {
  readonly name: string;
  readonly description: string;
  readonly type: 'any';
  readonly dimensionality: 'matrix';
  readonly optional?: true;
}

export interface FunctionMetadata {
  readonly id: string;
  readonly name: string;
  readonly description: string;
  readonly helpUrl: string;
  /** The host says when it needs a result no more, and which arguments are cells, so that a blank one can be told from a typed 0. */
  readonly options: { readonly cancelable: true; readonly requiresParameterAddresses?: true };
  readonly parameters: readonly ParameterMetadata[];
  readonly result: { readonly type: 'any'; readonly dimensionality: 'matrix' };
}

export interface Metadata {
  /** Lets error values in as arguments, so that one bad cell of a range fails alone. */
  readonly allowErrorForDataTypeAny?: true;
  /** Lets rich values in and out, and error values with them. Never with the flag above: both together crashed one host version. */
  readonly allowCustomDataForDataTypeAny?: true;
  readonly functions: readonly FunctionMetadata[];
}

const DESCRIPTION_LIMIT = 254;
const PARAMETER_NAME_LIMIT = 64;
const PARAMETER_NAMES_LIMIT = 254;
const ID = /^(?=.{3,128}$)[A-Z][A-Z0-9]*(\.[A-Z][A-Z0-9]*)*$/;

/** Builds functions.json; refuses a declaration the host would cut or reject. `reference` is the address of the pages; with `cards` results may be rich values. */
export function metadata(functions: readonly HostFunction[], reference: string, cards = false): Metadata {
  return {
    ...(cards ? { allowCustomDataForDataTypeAny: true } : { allowErrorForDataTypeAny: true }),
    functions: functions.map((f) => functionMetadata(f, reference)),
  };
}

function functionMetadata(f: HostFunction, reference: string): FunctionMetadata {
  const id = functionId(f.name);
  if (!ID.test(id)) throw new Error(`${f.name}: the host does not take this name`);
  const names = f.parameters.map((p) => within(p.name, PARAMETER_NAME_LIMIT, `a parameter name of ${f.name}`));
  if (names.length > 0) within(names.join(','), PARAMETER_NAMES_LIMIT, `the parameter names of ${f.name} together`);
  return {
    id,
    name: id,
    description: within(f.summary, DESCRIPTION_LIMIT, `the summary of ${f.name}`),
    helpUrl: `${reference}/${referencePage(f.name)}`,
    options: {
      cancelable: true,
      ...(f.parameters.some((p) => p.zeroIsBlank || p.whole) ? { requiresParameterAddresses: true } : {}),
    },
    parameters: f.parameters.map((p) => ({
      name: p.name,
      description: within(p.summary, DESCRIPTION_LIMIT, `the summary of ${p.name} in ${f.name}`),
      type: 'any',
      dimensionality: 'matrix',
      ...(p.optional ? { optional: true } : {}),
    })),
    result: { type: 'any', dimensionality: 'matrix' },
  };
}

function within(text: string, limit: number, what: string): string {
  if (text.length === 0) throw new Error(`${what} is empty`);
  if (text.length > limit) throw new Error(`${what} has ${text.length} characters; the host takes ${limit}`);
  return text;
}
