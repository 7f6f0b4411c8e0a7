import { nearestNames } from '../core/units/nearest-names.ts';
import { LIMITS_TOLD, SECONDS } from './bounded.ts';
import { EXIT_CODES } from './ended.ts';
import type { HostFunction } from '../sheet/host-function.ts';

export const USAGE = `Calculates spreadsheet formulas.

  npm run --silent calc -- [--json | --trace] [--sheet FILE.csv] FORMULA ...
  npm run --silent calc -- --help [FUNCTION]

  --json           one line a formula: {"formula": ..., "values": [[...]]};
                   a failed cell is {"error": "#VALUE!", "message": "..."}
  --trace          the working of every call as JSON: each step with its symbol, value, unit,
                   expression, what it comes from, source, and a hash; --trace-schema prints its schema
  --sheet FILE     puts a CSV file at A1, so that formulas can use its cells
  --encoding NAME  of the CSV: utf-8, utf-16le, windows-1252 and so on
  --separator C    of its fields: a comma, a semicolon, tab
  --decimal C      of its numbers: a point or a comma
  --seconds N      gives up after N seconds (${SECONDS})
  --help           this text and the functions, or the arguments of one

What the CSV does not say is found out, and told where it is not UTF-8 with commas and decimal points.
${LIMITS_TOLD}
${EXIT_CODES}
The figures are estimates; they do not say that a job is safe.`;

export function signature(f: HostFunction): string {
  return `${f.name}(${f.parameters.map((p) => (p.optional ? `[${p.name}]` : p.name)).join(', ')})`;
}

export function functionList(functions: readonly HostFunction[]): string {
  return functions.map((f) => `  ${signature(f)}\n      ${f.summary}`).join('\n');
}

/** The help of one function, or of those whose names begin so; undefined where there is none. */
export function functionHelp(name: string, functions: readonly HostFunction[]): string | undefined {
  const wanted = name.toUpperCase().replace(/^=|\(.*$/g, '');
  const exact = functions.find((f) => f.name === wanted);
  if (exact) return [signature(exact), exact.summary, '', ...argumentLines(exact)].join('\n').trimEnd();
  const begun = functions.filter((f) => f.name.startsWith(`${wanted}.`));
  return begun.length > 0 ? functionList(begun) : undefined;
}

function argumentLines(f: HostFunction): string[] {
  const width = Math.max(0, ...f.parameters.map((p) => p.name.length));
  return f.parameters.map((p) => `  ${p.name.padEnd(width)}  ${p.summary}${p.optional ? ' (may be left out)' : ''}`);
}

export function noFunction(name: string, functions: readonly HostFunction[]): string {
  return `There is no function ${name}; nearest: ${nearestNames(
    name,
    functions.map((f) => f.name),
  ).join(', ')}`;
}
