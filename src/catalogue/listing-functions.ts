import { isChoice, type Assumption } from '../core/assumptions/assumption.ts';
import { CONDITIONS } from '../core/exposure/conditions.ts';
import { nothingFound } from '../core/messages.ts';
import { SOURCES, findSource } from '../core/sources/register.ts';
import { nearestNames } from '../core/units/nearest-names.ts';
import { optional, tableFunction, valueFunction, type Declaration, type Output } from './declaration.ts';

const search = optional({ kind: 'text' }, 'Words to look for; everything when left out', '"stub"');

function matching<T>(entries: readonly T[], words: string | undefined, textOf: (entry: T) => string, nameOf: (entry: T) => string): readonly T[] {
  const wanted = (words ?? '').toLowerCase().split(/\s+/).filter((w) => w !== '');
  const found = entries.filter((e) => wanted.every((w) => textOf(e).toLowerCase().includes(w)));
  if (found.length === 0) throw nothingFound(words ?? '', nearestNames(words ?? '', entries.map(nameOf)));
  return found;
}

/** One row of the listing, as it works in `assume`. */
function assumptionLine(a: Assumption): readonly Output[] {
  const where = findSource(a.source)?.citation ?? a.source;
  return isChoice(a)
    ? [a.name, a.value, null, null, a.choices.join(' or '), a.kind, where, a.summary]
    : [a.name, a.value, a.low, a.high, a.unit, a.kind, where, a.summary];
}

export const LISTING_FUNCTIONS: readonly Declaration[] = [
  tableFunction({
    name: 'BURN.ASSUMED',
    family: 'LISTS',
    summary: 'The assumptions in force: name, value, low, high, unit, kind, source. Edited, the region works as assume.',
    parameters: { search },
    assume: false,
    result: { kind: 'table', columns: ['name', 'value', 'low', 'high', 'unit', 'kind', 'source', 'meaning'].map((heading) => ({ heading })) },
    sources: [],
    cautions: [],
    examples: ['=BURN.ASSUMED()', '=BURN.ASSUMED("stub")'],
    calculate: ({ search: words }, { a }) => matching<Assumption>(a.entries, words, (each) => `${each.name} ${each.summary} ${each.kind}`, (each) => each.name).map(assumptionLine),
  }),
  tableFunction({
    name: 'BURN.SOURCES',
    family: 'LISTS',
    summary: 'The sources that figures rest on: key, citation, edition, what each was used for.',
    parameters: { search },
    assume: false,
    result: { kind: 'table', columns: ['source', 'citation', 'edition', 'used for'].map((heading) => ({ heading })) },
    sources: [],
    cautions: [],
    examples: ['=BURN.SOURCES()', '=BURN.SOURCES("iron")'],
    calculate: ({ search: words }) =>
      matching(SOURCES, words, (s) => `${s.key} ${s.citation} ${s.edition} ${s.usedFor}`, (s) => s.key).map((s) => [s.key, s.citation, s.edition, s.usedFor]),
  }),
  tableFunction({
    name: 'BURN.CONDITIONS',
    family: 'LISTS',
    summary: 'The words that BURN.CAUTIONS takes as conditions of a job: what each means, whether a value follows, and other words for it.',
    parameters: { search: { ...search, example: '"paint"' } },
    assume: false,
    result: { kind: 'table', columns: ['condition', 'value', 'meaning', 'also'].map((heading) => ({ heading })) },
    sources: [],
    cautions: [],
    examples: ['=BURN.CONDITIONS()', '=BURN.CONDITIONS("paint")'],
    calculate: ({ search: words }) =>
      matching(CONDITIONS, words, (c) => `${c.name} ${c.meaning} ${c.also.join(' ')}`, (c) => c.name).map((c) => [
        c.name, 'quantity' in c ? ('needs' in c ? `must follow: ${c.needs}` : 'may follow') : '', c.meaning, c.also.join(', '),
      ]),
  }),
  valueFunction({
    name: 'BURN.VERSION',
    family: 'LISTS',
    summary: 'Version of the calculation; keep it beside saved results, since saved values stay as they are until recalculated.',
    parameters: {},
    assume: false,
    result: { kind: 'value', quantity: 'text' },
    sources: [],
    cautions: [],
    examples: ['=BURN.VERSION()'],
    calculate: (_, { a }) => a.version,
  }),
];
