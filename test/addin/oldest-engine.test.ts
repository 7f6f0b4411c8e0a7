import esbuild from 'esbuild';
import { describe, expect, it } from 'vitest';
import { unknownToOldest } from '../../src/addin/oldest-engine.mjs';

describe('the oldest engine that the manifest admits', () => {
  it('can read and run the whole script of the add-in', async () => {
    const { outputFiles } = await esbuild.build({
      absWorkingDir: new URL('../..', import.meta.url).pathname,
      entryPoints: ['src/addin/functions.ts'],
      bundle: true,
      write: false,
      format: 'iife',
      target: 'es2022',
      jsx: 'automatic',
      jsxImportSource: 'preact',
    });
    expect(unknownToOldest(outputFiles[0]?.text ?? '')).toEqual([]);
  });

  // Safari's release notes: lookbehind and static blocks came with 16.4, toSorted with 16, Set.union with 17, groupBy with 17.4.
  it.each([
    ['a.replace(/(?<=x)y/, "")', 'a lookbehind in a regular expression'],
    ['new RegExp("(?<!x)y")', 'a lookbehind in a regular expression'],
    ['class A { static { start(); } }', 'a static block in a class'],
    ['list.toSorted()', 'toSorted'],
    ['Object.groupBy(list, of)', 'Object.groupBy'],
    ['new Set(a).union(b)', 'Set.union'],
    ['Temporal.Now.instant()', 'Temporal'],
    ['/[a--b]/v.test(x)', 'Invalid regular expression flag'],
    ['using x = open()', 'Unexpected token'],
  ])('would not know %s', (script, fault) => {
    expect(unknownToOldest(script).join('\n')).toContain(fault);
  });

  it('knows what came before it', () => {
    const script =
      'a.at(-1); a.findLast(f); Object.hasOwn(a, b); /(?:a)(?=b)(?<c>d)/u.exec(x)?.groups?.c ?? 1n; a.total; a.until(b)';
    expect(unknownToOldest(script)).toEqual([]);
  });
});
