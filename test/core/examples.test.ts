/** Every worked example of core's doc comments gives the number printed beside it. */
import { describe, expect, it } from 'vitest';
import { CORE, examplesIn, miss, textOf } from './examples.ts';

const EXAMPLES = Object.keys(CORE).flatMap((file) => examplesIn(file, textOf(file)));

describe('the worked examples of core', () => {
  it('are there', () => {
    expect(EXAMPLES.length).toBeGreaterThan(0);
  });

  it.each(EXAMPLES.map((e) => [`${e.file}:${e.line}`, e] as const))('%s', (_, example) => {
    expect(miss(example)).toBeUndefined();
  });
});

describe('an example', () => {
  it('may run over several lines, and is refused where it says no number', () => {
    const comment = (...lines: readonly string[]): string => ['/**', ...lines.map((l) => ` * ${l}`), ' */'].join('\n');
    expect(examplesIn('a.ts', comment('@example f({', '  x: 1,', '}) // 2.50'))).toEqual([
      { file: 'a.ts', line: 2, expression: 'f({ x: 1, })', printed: '2.50' },
    ]);
    expect(() => examplesIn('a.ts', comment('@example f(1)'))).toThrow('a.ts:2: @example is no expression // number');
    expect(() => examplesIn('a.ts', comment('@example f(1) // two'))).toThrow('a.ts:2');
  });

  it('meets or misses the digits printed', () => {
    const printed = (number: string): string | undefined =>
      miss(examplesIn('units/quantities.ts', `/** @example 1000 * FOOT // ${number} */`)[0]!);
    for (const number of ['305', '304.8', '304.80', '3.0e2']) expect(printed(number)).toBeUndefined();
    expect(printed('304')).toBe('1000 * FOOT gives 304.8, printed 304');
    expect(printed('304.7')).toBe('1000 * FOOT gives 304.8, printed 304.7');
  });

  it('misses where it gives no number', () => {
    expect(miss(examplesIn('units/quantities.ts', '/** @example String(FOOT) // 0.3048 */')[0]!)).toContain('gives');
  });
});
