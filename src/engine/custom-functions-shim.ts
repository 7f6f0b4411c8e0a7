/**
 * Stands in for the spreadsheet host's custom-functions runtime, so that the trial workbook and the command
 * line load the very bundle that the host loads: dist/functions.js with its functions.json.
 *
 * Convention of the host: every parameter is declared as a matrix, so a single cell comes as `[[x]]`; a blank
 * cell is an empty text; an argument left out is null; an error value is an object with its code; one object
 * more comes after the declared parameters. A result is a value or a matrix, an error is thrown or in the matrix.
 */
import { unexpected } from '../core/messages.ts';
import type { Argument, Cell, CellError, HostFunction } from '../sheet/host-function.ts';

type HostCall = (...args: unknown[]) => unknown;

/** The part of functions.json that is read here. */
export interface FunctionsJson {
  readonly functions: readonly {
    readonly id: string;
    readonly name: string;
    readonly description: string;
    readonly parameters: readonly {
      readonly name: string;
      readonly description: string;
      readonly optional?: boolean;
    }[];
  }[];
}

class HostError extends Error {
  constructor(
    readonly code: string,
    message = '',
  ) {
    super(message);
  }
}

const ErrorCode = {
  invalidValue: '#VALUE!',
  notAvailable: '#N/A',
  divisionByZero: '#DIV/0!',
  invalidNumber: '#NUM!',
  nullReference: '#NULL!',
  invalidName: '#NAME?',
  invalidReference: '#REF!',
} as const;

export interface CustomFunctionsShim {
  /** To be put where the bundle looks for it: the global `CustomFunctions`. */
  readonly runtime: {
    associate(idOrAll: string | Readonly<Record<string, HostCall>>, call?: HostCall): void;
    readonly Error: typeof HostError;
    readonly ErrorCode: typeof ErrorCode;
  };
  /** The functions that the loaded bundle associated, as functions.json describes them. Throws where the two differ. */
  functions(json: FunctionsJson, namespace: string): readonly HostFunction[];
}

export function customFunctionsShim(): CustomFunctionsShim {
  const calls = new Map<string, HostCall>();
  const add = (id: string, call: HostCall | undefined): void => {
    if (typeof call !== 'function') throw new TypeError(`${id} is associated with nothing`);
    if (calls.has(id)) throw new TypeError(`${id} is associated twice`);
    calls.set(id, call);
  };
  return {
    runtime: {
      associate(idOrAll, call) {
        if (typeof idOrAll === 'string') add(idOrAll, call);
        else for (const [id, each] of Object.entries(idOrAll)) add(id, each);
      },
      Error: HostError,
      ErrorCode,
    },
    functions(json, namespace) {
      const undescribed = [...calls.keys()].find((id) => json.functions.every((f) => f.id !== id));
      if (undescribed !== undefined) throw new TypeError(`${undescribed} is not in functions.json`);
      return json.functions.map(({ id, name, description, parameters }) => {
        const call = calls.get(id);
        if (!call) throw new TypeError(`${id} is in functions.json and associated with nothing`);
        return {
          name: `${namespace}.${name}`,
          summary: description,
          parameters: parameters.map((p) => ({
            name: p.name,
            summary: p.description,
            optional: p.optional === true,
            example: p.name,
          })),
          call: (args) =>
            called(
              `${namespace}.${name}`,
              call,
              parameters.map((_, i) => hostArgument(args[i])),
            ),
        };
      });
    },
  };
}

function called(name: string, call: HostCall, args: readonly unknown[]): readonly (readonly Cell[])[] {
  try {
    const result = call(...args, { functionName: name });
    const rows: readonly unknown[] = Array.isArray(result) ? result : [result];
    return rows.map((row) => (Array.isArray(row) ? row : [row]).map(cell));
  } catch (thrown) {
    if (thrown instanceof HostError) return [[cellError(thrown)]];
    const { code, message } = unexpected(name, thrown);
    return [[{ error: code, message }]];
  }
}

function hostArgument(argument: Argument): unknown {
  if (argument === undefined) return null;
  const rows = Array.isArray(argument) ? (argument as readonly (readonly Cell[])[]) : [[argument as Cell]];
  return rows.map((row) => row.map(hostCell));
}

function hostCell(value: Cell): unknown {
  if (value === null) return '';
  return typeof value === 'object' ? new HostError(value.error, value.message) : value;
}

function cell(value: unknown): Cell {
  if (value instanceof HostError) return cellError(value);
  if (typeof value === 'number' || typeof value === 'string' || typeof value === 'boolean') return value;
  if (value === null || value === undefined) return null;
  return { error: '#VALUE!', message: `a ${typeof value} is no value of a cell` };
}

const cellError = (thrown: HostError): CellError => ({ error: thrown.code, message: thrown.message });
