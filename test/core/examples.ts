/** The worked examples of doc comments in core: `@example expression // number`. */
import { readdirSync, readFileSync } from 'node:fs';
import { readList } from '../../src/catalogue/read-list.ts';
import { Assumptions } from '../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../src/core/basis.ts';
import { Job } from '../../src/core/job/job-list.ts';
import * as quantities from '../../src/core/units/quantities.ts';

export interface Example {
  /** Path from `src/core`, and the line it begins on. */
  readonly file: string;
  readonly line: number;
  readonly expression: string;
  /** The number as it is printed. */
  readonly printed: string;
}

const NUMBER = /^-?\d+(?:\.\d+)?(?:e[+-]?\d+)?$/;

/** Examples of a file. One may run over several lines; a text after `@example` that is none is an error. */
export function examplesIn(file: string, text: string): readonly Example[] {
  const lines = text.split('\n');
  return lines.flatMap((first, i) => {
    const at = first.indexOf('@example');
    if (at === -1) return [];
    const parts = [first.slice(at + '@example'.length)];
    for (let k = i + 1; !parts.at(-1)?.includes('//') && /^\s*\*(?!\/)/.test(lines[k] ?? ''); k++)
      parts.push((lines[k] as string).replace(/^\s*\* ?/, '').trim());
    const whole = parts.join(' ').replace(/\*\/\s*$/, '');
    const cut = whole.lastIndexOf('//');
    const [expression, printed] = [whole.slice(0, cut).trim(), whole.slice(cut + 2).trim()];
    if (cut === -1 || expression === '' || !NUMBER.test(printed))
      throw new Error(`${file}:${i + 1}: @example is no expression // number`);
    return [{ file, line: i + 1, expression, printed }];
  });
}

/** Half of the last digit printed. */
function tolerance(printed: string): number {
  const [mantissa = '', exponent = '0'] = printed.split('e');
  return 0.5 * 10 ** (Number(exponent) - (mantissa.split('.')[1] ?? '').length);
}

type Module = Readonly<Record<string, unknown>>;

const FOLDER = new URL('../../src/core/', import.meta.url);

/** Every file of core, by its path from `src/core`. */
export const CORE: Readonly<Record<string, Module>> = Object.fromEntries(
  await Promise.all(
    readdirSync(FOLDER, { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.ts'))
      .map(async (file) => [file, (await import(new URL(file, FOLDER).href)) as Module] as const),
  ),
);

export const textOf = (file: string): string => readFileSync(new URL(file, FOLDER), 'utf8');

/** A list of two pins in inches. */
const PINS = [
  ['diameter', 'length'],
  [4, 10],
  [3, 8],
];

/**
 * What an example may name: exports of its own file, of others in its room, of the quantities, `basis` with the defaults, `job`, a
 * list of two pins, 4 x 10 in and 3 x 8 in, and `item`, the first of them.
 */
function valueOfExample({ file, expression }: Example): unknown {
  const room = file.split('/').slice(0, -1).join('/');
  const beside = Object.entries(CORE).flatMap(([path, module]) =>
    path.startsWith(`${room}/`) ? Object.entries(module) : [],
  );
  const basis = new Basis(Assumptions.defaults());
  const job = new Job(readList(PINS, basis), basis);
  const names: Module = {
    ...quantities,
    ...Object.fromEntries(beside),
    ...CORE[file],
    basis,
    job,
    item: job.items[0]?.sized,
  };
  // eslint-disable-next-line @typescript-eslint/no-implied-eval -- our own text, from the comment beside the code
  const run = new Function(...Object.keys(names), `return ${expression};`) as (...values: unknown[]) => unknown;
  return run(...Object.values(names));
}

/** How an example misses the number printed beside it; undefined where it meets it to the digits printed. */
export function miss(example: Example): string | undefined {
  const value = valueOfExample(example);
  const { expression, printed } = example;
  const met = typeof value === 'number' && Math.abs(value - Number(printed)) <= tolerance(printed) * (1 + 1e-9);
  return met ? undefined : `${expression} gives ${String(value)}, printed ${printed}`;
}
