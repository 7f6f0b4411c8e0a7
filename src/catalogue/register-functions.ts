import { CONDITIONS } from '../core/safety/conditions.ts';
import { SOURCES } from '../core/sources/register.ts';
import { tableFunction, type Declaration } from './declaration.ts';
import { matching, search } from './search.ts';

/** Listings of the registers that are all text. */
export const REGISTER_FUNCTIONS: readonly Declaration[] = [
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
      matching(
        SOURCES,
        words,
        (s) => `${s.key} ${s.citation} ${s.edition} ${s.usedFor}`,
        (s) => s.key,
      ).map((s) => [s.key, s.citation, s.edition, s.usedFor]),
  }),
  tableFunction({
    name: 'BURN.CONDITIONS',
    family: 'LISTS',
    summary:
      'The words that BURN.CAUTIONS takes as conditions of a job: what each means, whether a value follows, and other words for it.',
    parameters: { search: { ...search, example: '"paint"' } },
    assume: false,
    result: { kind: 'table', columns: ['condition', 'value', 'meaning', 'also'].map((heading) => ({ heading })) },
    sources: [],
    cautions: [],
    examples: ['=BURN.CONDITIONS()', '=BURN.CONDITIONS("paint")'],
    calculate: ({ search: words }) =>
      matching(
        CONDITIONS,
        words,
        (c) => `${c.name} ${c.meaning} ${c.also.join(' ')}`,
        (c) => c.name,
      ).map((c) => [
        c.name,
        'quantity' in c ? ('needs' in c ? `must follow: ${c.needs}` : 'may follow') : '',
        c.meaning,
        c.also.join(', '),
      ]),
  }),
];
