import { isChoice, type Assumption } from '../core/assumptions/assumption.ts';
import { fingerprintOf } from '../core/assumptions/fingerprint.ts';
import { matching, search } from './search.ts';
import { tableFunction, valueFunction, type Declaration, type Output } from './declaration.ts';

/** One row of the listing, as it works in `assume`; BURN.SOURCES has the citation behind the source's key. */
function assumptionLine(a: Assumption): readonly Output[] {
  return isChoice(a)
    ? [a.name, a.value, null, null, a.choices.join(' or '), a.kind, a.source, a.summary]
    : [a.name, a.value, a.low, a.high, a.unit, a.kind, a.source, a.summary];
}

export const LISTING_FUNCTIONS: readonly Declaration[] = [
  tableFunction({
    name: 'BURN.ASSUMED',
    family: 'LISTS',
    summary:
      'The assumptions in force: name, value (the middle), low and high (one case in ten lies below, one above), unit, kind, source. Edited, the region works as assume.',
    parameters: { search },
    assume: false,
    result: {
      kind: 'table',
      columns: ['name', 'value', 'low', 'high', 'unit', 'kind', 'source', 'meaning'].map((heading) => ({ heading })),
    },
    sources: [],
    cautions: [],
    examples: ['=BURN.ASSUMED()', '=BURN.ASSUMED("stub")'],
    calculate: ({ search: words }, { a }) =>
      matching<Assumption>(
        a.entries,
        words,
        (each) => `${each.name} ${each.summary} ${each.kind}`,
        (each) => each.name,
      ).map(assumptionLine),
  }),
  valueFunction({
    name: 'BURN.VERSION',
    family: 'LISTS',
    summary: 'Version of the calculation, with assume a fingerprint of what it sets; keep it beside saved results.',
    parameters: {},
    assume: true,
    result: { kind: 'value', quantity: 'text' },
    sources: [],
    cautions: [],
    examples: ['=BURN.VERSION()', '=BURN.VERSION({"stub",4})'],
    calculate: (_, { a }) => [a.version, fingerprintOf(a)].filter((part) => part !== '').join(' '),
  }),
];
