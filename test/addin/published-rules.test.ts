import { readdirSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { staticFiles } from '../../src/addin/static-files.ts';
import { brokenRules } from './published-rules.ts';

/** Names of the host's own functions in 18 languages, as a formula engine has them for reading workbooks. */
async function builtInNames(): Promise<ReadonlySet<string>> {
  const folder = new URL('../../node_modules/hyperformula/es/i18n/languages/', import.meta.url);
  const files = readdirSync(folder).filter((f) => /^[a-z]{2}[A-Z]{2}\.mjs$/.test(f));
  const packs = await Promise.all(
    files.map(
      async (f) =>
        (await import(new URL(f, folder).href)) as {
          readonly default: { readonly functions: Readonly<Record<string, string>> };
        },
    ),
  );
  return new Set(
    packs.flatMap(({ default: { functions } }) => Object.entries(functions).flat()).map((n) => n.toUpperCase()),
  );
}

interface Mutable {
  functions: { [key: string]: unknown; parameters: Record<string, unknown>[] }[];
  [key: string]: unknown;
}

describe("functions.json against the host's published rules", () => {
  let builtIn: ReadonlySet<string>;
  beforeAll(async () => {
    builtIn = await builtInNames();
    expect(builtIn).toContain('SUMPRODUCT');
    expect(builtIn).toContain('SUMMENPRODUKT');
  });
  const written = (cards: boolean): string => staticFiles('https://example.test', cards)['functions.json'] ?? '';

  it.each([
    ['plain', false],
    ['with cards', true],
  ])('keeps them all, %s', (_, cards) => {
    expect(brokenRules(written(cards), builtIn)).toEqual([]);
  });

  it('has no byte order mark and nothing outside the first plane of characters', () => {
    expect(written(false)).not.toMatch(/^\ufeff|[\ud800-\udfff]/);
  });

  it.each<[string, (json: Mutable) => void, string]>([
    ['both flags', (j) => (j['allowCustomDataForDataTypeAny'] = true), 'both flags at once'],
    ['a flag that is a text', (j) => (j['allowErrorForDataTypeAny'] = 'true'), 'must be a boolean'],
    ['a property it does not know', (j) => (j.functions[0]!['summary'] = 's'), 'summary is not in the reference'],
    [
      'an option it does not know',
      (j) => (j.functions[0]!['options'] = { async: true }),
      'async is not in the reference',
    ],
    ['a missing result', (j) => delete j.functions[0]!['result'], 'result is missing'],
    [
      'a type it does not know',
      (j) => (j.functions[0]!.parameters[0]!['type'] = 'date'),
      'type must be one of boolean',
    ],
    [
      'a dimensionality it does not know',
      (j) => (j.functions[0]!.parameters[0]!['dimensionality'] = 'range'),
      'must be one of scalar, matrix',
    ],
    [
      'addresses of parameters with a single result',
      (j) => (j.functions[0]!['result'] = { type: 'any', dimensionality: 'scalar' }),
      'want a matrix as result',
    ],
    ['an id in small letters', (j) => (j.functions[0]!['id'] = 'pin.hole'), 'must be 3 to 128'],
    ['a short name', (j) => (j.functions[0]!['name'] = 'AB'), 'must be 3 to 128'],
    ['a name like a cell', (j) => (j.functions[0]!['name'] = 'PIN12'), 'can be read as a cell'],
    ['a macro function', (j) => (j.functions[0]!['name'] = 'RESULT'), 'is a macro function'],
    ['a function of the host', (j) => (j.functions[0]!['name'] = 'SUMMENPRODUKT'), 'is a function of the host'],
    ['a name twice but for case', (j) => (j.functions[0]!['name'] = 'Pin.Rods'), 'name PIN.RODS stands twice'],
    [
      'help that is not https',
      (j) => (j.functions[0]!['helpUrl'] = 'http://example.test/'),
      'must be an https address',
    ],
    ['a long summary', (j) => (j.functions[0]!['description'] = 'x'.repeat(256)), '255 are shown'],
    ['a comma in a parameter', (j) => (j.functions[0]!.parameters[0]!['name'] = 'a, b'), 'letters, digits and spaces'],
    [
      'a required parameter at the end',
      (j) => j.functions[0]!.parameters.push({ name: 'last' }),
      'a required parameter after an optional one',
    ],
    ['a file over 1 MB', (j) => (j['$schema'] = 'x'.repeat(1e6)), 'a desktop host takes 1000000'],
  ])('would tell %s', (_, spoil, fault) => {
    const json = JSON.parse(written(false)) as Mutable;
    spoil(json);
    expect(brokenRules(JSON.stringify(json), builtIn).join('\n')).toContain(fault);
  });
});
