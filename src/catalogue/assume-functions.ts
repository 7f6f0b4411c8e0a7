import { isChoice, type Assumption, unitIn } from '../core/assumptions/assumption.ts';
import type { Assumptions, InForce } from '../core/assumptions/assumptions.ts';
import { NO_REASON } from '../core/assumptions/reason.ts';
import {
  numberAssumption,
  type AssumptionName,
  type ChoiceName,
  type NumberName,
} from '../core/assumptions/registry.ts';
import type { Basis } from '../core/basis.ts';
import { CalcError } from '../core/errors.ts';
import { oneAtATime, type Effect } from '../core/job/one-at-a-time.ts';
import { countedTogether, oneRowOnly } from '../core/messages.ts';
import { itemIndices } from '../core/operations/item-indices.ts';
import { OPERATION_IDS, operationOf, type OperationId } from '../core/operations/all.ts';
import type { Indices } from '../core/spread/sobol-indices.ts';
import { fromSi, plainUnit } from '../core/units/parse-quantity.ts';
import type { QuantityName } from '../core/units/quantities.ts';
import { correlationName, isCorrelated, replacedSince } from './correlation-rows.ts';
import { required, tableFunction, type Declaration, type Output } from './declaration.ts';
import { listItems } from './job-items.ts';
import { goodItems } from './read-items.ts';
import type { Cells } from './read-table.ts';

const DIFF_COLUMNS = [
  'name',
  'value',
  'low',
  'high',
  'unit',
  'kind',
  'default',
  'default low',
  'default high',
  'change',
  'change, %',
  'why',
  'by',
  'date',
  'source',
].map((heading) => ({ heading }));
const EFFECT_COLUMNS = [
  'result',
  'rank',
  'assumption',
  'change at low',
  'change at high',
  'at low',
  'as assumed',
  'at high',
  'unit',
  'low',
  'value',
  'high',
  'unit of the assumption',
  'first index',
  'total index',
  'note',
].map((heading) => ({ heading }));

/** Without the last digits that changing the unit leaves: 3, not 2.9999999999999996. */
const tidy = (x: number): number => Number(x.toPrecision(14));

function departure(entry: Assumption, basis: Basis): readonly Output[] {
  const { a } = basis;
  if (isChoice(entry))
    return [
      entry.name,
      a.word(entry.name as ChoiceName),
      null,
      null,
      null,
      'your value',
      a.defaults.word(entry.name as ChoiceName),
      null,
      null,
      null,
      null,
      ...said(entry, a),
    ];
  const unit = unitIn(entry, a.system);
  const shown = (x: number): number => tidy(fromSi(x, entry.quantity, 'US', unit));
  const of = ({ value, low, high }: InForce): readonly number[] => [value, low, high].map(shown);
  const now = a.inForce(entry.name as NumberName);
  const standard = a.defaults.inForce(entry.name as NumberName);
  const [value = NaN] = of(now);
  const [before = NaN] = of(standard);
  // A share of a temperature says nothing where its zero is a convention.
  const share = before === 0 || entry.quantity === 'temperature' ? null : (100 * (value - before)) / Math.abs(before);
  return [entry.name, ...of(now), unit, now.kind, ...of(standard), tidy(value - before), share, ...said(entry, a)];
}

/** What the user says of an own value; a value without a reason is told as such. */
function said({ name }: Assumption, a: Assumptions): readonly Output[] {
  const { why, by, date, source } = a.reason(name as AssumptionName);
  const log = a.reasonOf(name as AssumptionName) === 'your log';
  return [why === '' && !log ? NO_REASON : why, by, date, log ? 'your log' : source].map((part) =>
    part === '' ? null : part,
  );
}

/** The results that a plan is quoted by. */
const RESULTS: readonly { readonly name: string; readonly quantity: QuantityName }[] = [
  { name: 'oxygen', quantity: 'oxygen' },
  { name: 'rods', quantity: 'count' },
  { name: 'crew time', quantity: 'time' },
];

function effectLine(
  e: Effect,
  rank: number,
  { name, quantity }: (typeof RESULTS)[number],
  { a }: Basis,
  indices: Indices | undefined,
): readonly Output[] {
  const { system } = a;
  const entry = numberAssumption(e.name);
  const unit = unitIn(entry, system);
  const result = (x: number | CalcError): Output => (x instanceof CalcError ? x : fromSi(x, quantity, system));
  const change = (x: number | CalcError): Output =>
    x instanceof CalcError ? null : fromSi(x, quantity, system) - fromSi(e.asAssumed, quantity, system);
  const assumed = ({ low, value, high }: InForce): readonly Output[] =>
    [low, value, high].map((x) => tidy(fromSi(x, entry.quantity, 'US', unit)));
  const why = (x: number | CalcError, where: string): readonly string[] =>
    x instanceof CalcError ? [`${where}: ${x.message}`] : [];
  const note = [
    ...why(e.atLow, 'at low'),
    ...why(e.atHigh, 'at high'),
    ...(indices && isCorrelated(e.name, a) ? [countedTogether()] : []),
  ].join('; ');
  return [
    name,
    rank,
    e.name,
    change(e.atLow),
    change(e.atHigh),
    result(e.atLow),
    result(e.asAssumed),
    result(e.atHigh),
    plainUnit(quantity, system),
    ...assumed(e.inForce),
    unit,
    indices?.first ?? null,
    indices?.total ?? null,
    note === '' ? null : note,
  ];
}

/** A single column is read downward. */
const asRow = (cells: Cells): Cells =>
  cells.length > 1 && cells.every((row) => row.length === 1) ? [cells.map((row) => row[0] ?? null)] : cells;

export const ASSUME_FUNCTIONS: readonly Declaration[] = [
  tableFunction({
    name: 'BURN.ASSUME.DIFF',
    family: 'LISTS',
    summary:
      'What a range of assumptions changes: each row that departs from the defaults, by how much, why, by whom and when. It works as assume.',
    parameters: {},
    assume: 'required',
    result: { kind: 'table', columns: DIFF_COLUMNS },
    sources: [],
    cautions: [],
    examples: ['=BURN.ASSUME.DIFF({"stub",4;"bore ratio",0.5})'],
    calculate: (_, basis) => {
      const changed = new Set<string>(basis.a.departures());
      const rows = basis.a.entries.filter((entry) => changed.has(entry.name)).map((entry) => departure(entry, basis));
      rows.push(
        ...basis.a.correlations.map((each): readonly Output[] => {
          const { names, value, kind } = each;
          const why = replacedSince([each], basis.a);
          const said: Readonly<Record<string, Output>> = {
            name: correlationName(names),
            value,
            kind,
            default: 0,
            change: value,
            why: why === '' ? null : why,
          };
          return DIFF_COLUMNS.map(({ heading }) => said[heading] ?? null);
        }),
      );
      return rows.length > 0
        ? rows
        : [DIFF_COLUMNS.map((__, i): Output => (i === 0 ? 'nothing departs from the defaults' : null))];
    },
  }),
  tableFunction({
    name: 'BURN.ASSUME.EFFECT',
    family: 'LISTS',
    summary:
      'What each assumption does to oxygen, rods and crew time of one item: one at a time from low to high, largest first (the bars of a tornado), and its share of what is uncertain: first index by itself, total index with others.',
    parameters: {
      operation: required(
        { kind: 'choice', choices: OPERATION_IDS },
        `Operation: ${OPERATION_IDS.join(', ')}`,
        '"PIN"',
      ),
      sizes: required(
        { kind: 'cells' },
        'One item: a row or a column of its sizes in the order of the operation, then rod and material if wanted; a heading row may name them',
        'A2:C2',
      ),
    },
    assume: true,
    result: { kind: 'table', columns: EFFECT_COLUMNS },
    sources: ['sobol indices', 'sobol', 'common practice'],
    cautions: ['SPREAD'],
    examples: ['=BURN.ASSUME.EFFECT("PIN",{4,10})', '=BURN.ASSUME.EFFECT("HOLE",{1.5,6})'],
    about: ({ operation: id, sizes }, basis) => listItems(id as OperationId, 'sizes', asRow(sizes), basis).items,
    calculate: ({ operation: id, sizes }, basis) => {
      const operation = operationOf(id as OperationId);
      const { sizings, bad } = goodItems(operation, 'sizes', asRow(sizes), basis);
      if (sizings.length + bad.length > 1) throw oneRowOnly('sizes', sizings.length + bad.length);
      const effects = oneAtATime((varied) => {
        const [s] = goodItems(operation, 'sizes', asRow(sizes), varied).sizings;
        return s ? [s.oxygen, s.rods, s.crewTime] : [];
      }, basis.a);
      const indices = sizings[0] && itemIndices(sizings[0], basis);
      return RESULTS.flatMap((result, i) =>
        (effects[i] ?? []).map((e, rank) => effectLine(e, rank + 1, result, basis, indices?.get(e.name)?.[i])),
      );
    },
  }),
];
