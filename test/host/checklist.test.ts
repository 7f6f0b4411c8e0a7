/** Keeps the check-list for the real host true where a machine can: its formulas give what it says, and what it names is there. */
import { existsSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { calc, readCalc } from '../../src/cli/calc.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';

const root = new URL('../../', import.meta.url);
const read = (file: string): string => readFileSync(new URL(file, root), 'utf8');
const list = read('test/host/CHECKLIST.md');
const CSV = /```csv\n([^`]*)```/.exec(list)?.[1] ?? '';

interface Shown {
  readonly formula: string;
  readonly result: string;
  readonly message: string | undefined;
}
type Value = number | string | boolean | null | { readonly error: string; readonly message: string };

const shown: readonly Shown[] = [
  ...list.matchAll(/`(=[^`]+)`(?: in [A-Z]+\d+)? shows `([^`]*)`(?: with `([^`]*)`)?/g),
].map(([, formula = '', result = '', message]) => ({ formula, result, message }));
const steps = [...list.slice(list.indexOf('## Loading')).matchAll(/^(\d+)\. /gm)].map(([, n]) => Number(n));
const rows = [...list.matchAll(/^\| (\d+) \|([^\n]*)\|$/gm)].map(([, n, cells = '']) => ({
  step: Number(n),
  seen: cells.split('|').some((c) => c.trim() !== ''),
}));

/** A number as far as it is written, another value as it is, a blank as nothing. */
function agrees(value: Value, written: string): boolean {
  if (typeof value === 'number')
    return (
      written !== '' && Math.abs(value - Number(written)) <= 0.5 * 10 ** -(written.split('.')[1]?.length ?? 0) + 1e-12
    );
  if (value === null) return written === '';
  return (typeof value === 'object' ? value.error : String(value).toUpperCase()) === written;
}

describe('the check-list for the real host', () => {
  let values: readonly (readonly (readonly Value[])[])[];
  beforeAll(async () => {
    const asked = readCalc(['--json', '--sheet', 'pins.csv', ...shown.map((s) => s.formula)]);
    if ('code' in asked) expect.fail(asked.err);
    const { out, err } = await calc(asked, hostFunctions, () => Buffer.from(CSV));
    expect(err).toBe('');
    values = out
      .split('\n')
      .map((line) => (JSON.parse(line) as { readonly values: readonly (readonly Value[])[] }).values);
  });

  it('has formulas with results to look for', () => {
    expect(shown.length).toBeGreaterThan(5);
    expect(CSV.split('\n').length).toBeGreaterThan(5);
  });

  it.each(shown.map((s, i) => [s.formula, s.result, s, i] as const))(
    'says truly that %s shows %s',
    (_, result, { message }, i) => {
      const cells = (values[i] ?? []).flat();
      const written = result.split(';').map((part) => part.trim());
      expect(cells.length).toBe(written.length);
      cells.forEach((cell, k) =>
        expect(agrees(cell, written[k] ?? ''), `${JSON.stringify(cell)} as ${written[k] ?? ''}`).toBe(true),
      );
      if (message !== undefined)
        expect(cells[0]).toMatchObject({ message: expect.stringContaining(message) as string });
    },
  );

  it('names functions, commands, files and parts of the pane that are there', () => {
    for (const [name] of list.matchAll(/\bBURN(\.[A-Z]+)+\b/g)) expect(findFunction(name), name).toBeDefined();
    const { scripts } = JSON.parse(read('package.json')) as { readonly scripts: Readonly<Record<string, string>> };
    for (const [, script = ''] of list.matchAll(/npm run (?:--silent )?([\w:-]+)/g))
      expect(scripts, script).toHaveProperty([script]);
    for (const [, file = ''] of list.matchAll(/`((?:src|test)\/[\w./-]+)`/g))
      expect(existsSync(new URL(file, root)), file).toBe(true);
    for (const [, option = ''] of list.matchAll(/--env (\w+)=/g))
      expect(read('webpack.config.js'), option).toContain(` ${option} `);
    const pane = read('src/pane/pane.tsx');
    for (const tab of ['This cell', 'Functions', 'Assumptions', 'References']) {
      expect(list).toContain(tab);
      expect(pane).toContain(`label: '${tab}'`);
    }
    const manifest = read('manifest.xml');
    for (const label of ['Rod work', 'Rodsheet']) expect(manifest).toContain(`DefaultValue="${label}"`);
  });

  it('numbers its steps in order, and has one row for each in the table of what was seen', () => {
    expect(steps).toEqual(steps.map((_, i) => i + 1));
    expect(rows.map((r) => r.step)).toEqual(steps);
  });

  it('says that it has not been done as long as no row is filled in, and not any longer', () => {
    expect(list.includes('None of this has been done yet')).toBe(!rows.some((r) => r.seen));
  });
});
