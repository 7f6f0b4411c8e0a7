import { createHash } from 'node:crypto';
import { findFunction } from '../catalogue/catalogue.ts';
import type { Declaration } from '../catalogue/declaration.ts';
import { readAssume } from '../catalogue/read-assume.ts';
import type { Assumptions } from '../core/assumptions/assumptions.ts';
import { fingerprintOf } from '../core/assumptions/fingerprint.ts';
import type { NumberName } from '../core/assumptions/registry.ts';
import { CalcError } from '../core/errors.ts';
import { symbolsOf } from '../core/model/grammar.ts';
import type { WorkedStep } from '../core/model/step.ts';
import { findSource } from '../core/sources/register.ts';
import { writtenFromSi } from '../core/units/as-written.ts';
import { plainUnit, siUnit } from '../core/units/parse-quantity.ts';
import { CALCULATION_VERSION } from '../core/version.ts';
import { givenItem, itemCount } from '../sheet/call.ts';
import { explainItem } from '../sheet/explain.ts';
import type { Argument, Cell, HostFunction } from '../sheet/host-function.ts';

export const TRACE_SCHEMA = 'rodsheet-trace/1';
/** Items of one call that are traced; a longer list says how many were left out. */
const MOST_ITEMS = 500;

/** One step with its value, and all that is needed to calculate it again. */
export interface TraceNode {
  readonly symbol: string;
  readonly name: string;
  readonly quantity: string;
  /** In SI, or a text. */
  readonly value: number | string;
  /** Unit of the value; '' where there is none. */
  readonly unit: string;
  readonly shown: { readonly value: number | string; readonly unit: string };
  /**
   * `expression`: calculated by `expression` from `from`. `solved`: found by iteration, integration or from a table, from nothing
   * but `from`. `assumption`: in force, by its name. `entry`: of a register, or a choice. `input`: handed over.
   */
  readonly origin: 'expression' | 'solved' | 'assumption' | 'entry' | 'input';
  readonly expression: string | null;
  readonly from: readonly string[];
  readonly assumption: { readonly name: string; readonly low: number; readonly high: number } | null;
  readonly words: string;
  readonly kind: string;
  readonly source: string;
  readonly citation: string;
}

export interface TraceItem {
  readonly item: number;
  /** Symbol of the step that is the value; null where the result has several columns. */
  readonly result: string | null;
  readonly nodes: readonly TraceNode[];
  /** SHA-256 of the nodes, see `hashOf`. */
  readonly hash: string;
}

/** One call of a function of ours. */
export interface TraceCall {
  readonly function: string;
  readonly arguments: readonly unknown[];
  readonly fingerprint: string;
  readonly items: readonly (TraceItem | { readonly item: number; readonly error: string; readonly message: string })[];
  readonly itemsLeftOut: number;
}

export interface Trace {
  readonly schema: typeof TRACE_SCHEMA;
  readonly engine: { readonly name: 'Rodsheet'; readonly version: string };
  readonly formulas: readonly {
    readonly formula: string;
    readonly values: readonly (readonly Cell[])[];
    readonly calls: readonly TraceCall[];
  }[];
}

/** The functions, each noting its calls in `made`. */
export const notingCalls = (
  functions: readonly HostFunction[],
  made: { readonly name: string; readonly args: readonly Argument[] }[],
): readonly HostFunction[] =>
  functions.map((f) => ({
    ...f,
    call: (args) => {
      made.push({ name: f.name, args });
      return f.call(args);
    },
  }));

export const traceOf = (formulas: Trace['formulas']): Trace => ({
  schema: TRACE_SCHEMA,
  engine: { name: 'Rodsheet', version: CALCULATION_VERSION },
  formulas,
});

/** The working of one call, item by item; undefined where the function has none. */
export function traceCall(name: string, args: readonly Argument[]): TraceCall | undefined {
  const d = findFunction(name);
  if (!d?.working) return undefined;
  const places = Object.keys(d.parameters).length;
  const items: TraceCall['items'][number][] = [];
  let fingerprint = '';
  let count = 0;
  try {
    count = itemCount(d, args);
    fingerprint = fingerprintOf(readAssume(d.assume === false ? undefined : args[places]));
    for (let item = 0; item < Math.min(count, MOST_ITEMS); item++) items.push(traceItem(d, args, item));
  } catch (e) {
    if (!(e instanceof CalcError)) throw e;
    items.push({ item: 0, error: e.code, message: e.message });
  }
  return {
    function: name,
    arguments: args.map((arg) => arg ?? null),
    fingerprint,
    items,
    itemsLeftOut: Math.max(0, count - MOST_ITEMS),
  };
}

function traceItem(d: Declaration, args: readonly Argument[], item: number): TraceCall['items'][number] {
  try {
    const given = givenItem(d, args, item);
    const { steps, result } = explainItem(d, given);
    const nodes = steps.map((step) => nodeOf(step, given.basis.a));
    return { item, result: result ?? null, nodes, hash: hashOf(nodes) };
  } catch (e) {
    if (e instanceof CalcError) return { item, error: e.code, message: e.message };
    throw e;
  }
}

function nodeOf(s: WorkedStep, a: Assumptions): TraceNode {
  const text = typeof s.value === 'string';
  const solved = /^solve\((.*)\)$/.exec(s.expression ?? '')?.[1];
  const origin =
    solved !== undefined
      ? 'solved'
      : s.expression !== undefined
        ? 'expression'
        : s.assumption !== undefined
          ? 'assumption'
          : s.kind === 'input'
            ? 'input'
            : 'entry';
  const from =
    solved !== undefined
      ? solved.split(',').map((symbol) => symbol.trim())
      : s.expression === undefined
        ? []
        : symbolsOf(s.expression);
  return {
    symbol: s.symbol,
    name: s.name,
    quantity: s.quantity,
    value: typeof s.value === 'number' && !Number.isFinite(s.value) ? String(s.value) : s.value,
    unit: text ? '' : (siUnit(s.quantity) ?? ''),
    shown: text
      ? { value: s.value, unit: '' }
      : { value: writtenFromSi(s.value, s.quantity, a.system), unit: plainUnit(s.quantity, a.system) },
    origin,
    expression: origin === 'expression' ? (s.expression ?? null) : null,
    from,
    assumption: s.assumption === undefined ? null : assumptionOf(s.assumption as NumberName, a),
    words: s.formula,
    kind: s.kind,
    source: s.source,
    citation: findSource(s.source)?.citation ?? '',
  };
}

function assumptionOf(name: NumberName, a: Assumptions): TraceNode['assumption'] {
  const { low, high } = a.inForce(name);
  return { name, low, high };
}

/**
 * SHA-256, hexadecimal, of one line for each node: symbol, origin, expression, the symbols it is from with commas between, and the
 * value, with tabs between and a line feed behind. A number stands as the sixteen hexadecimal digits of its IEEE 754 double, a
 * text as itself; UTF-8.
 */
function hashOf(nodes: readonly TraceNode[]): string {
  const hash = createHash('sha256');
  for (const { symbol, origin, expression, from, value } of nodes)
    hash.update(`${[symbol, origin, expression ?? '', from.join(','), bits(value)].join('\t')}\n`);
  return hash.digest('hex');
}

function bits(value: number | string): string {
  if (typeof value === 'string') return value;
  const bytes = Buffer.alloc(8);
  bytes.writeDoubleBE(value);
  return bytes.toString('hex');
}
