import type { Basis } from '../core/basis.ts';
import { CalcError } from '../core/errors.ts';
import { DROP_RANGE } from '../core/safety/drop-reach.ts';
import { FIRE_CHECKS, thingsInside, type Thing } from '../core/safety/fire-checks.ts';
import { fireReach, type FireReach } from '../core/safety/fire-reach.ts';
import { FIRE_WATCH_RULES, fireWatch, type FireWatchRule } from '../core/safety/fire-watch.ts';
import { inRow, isBlank, thingsTooNarrow } from '../core/messages.ts';
import type { Trace } from '../core/model/trace.ts';
import { FOOT } from '../core/units/quantities.ts';
import { isBlankOrZero } from './cell.ts';
import {
  optional,
  required,
  tableFunction,
  valueFunction,
  type Declaration,
  type Output,
  type QuantityKind,
} from './declaration.ts';
import { figureOf } from './condition-cells.ts';
import { recordGiven, recordText } from './given.ts';
import { quantityIn, readHeading, type Cells, type Heading } from './read-table.ts';

const HEIGHT: QuantityKind = { kind: 'quantity', quantity: 'distance', min: 0, max: DROP_RANGE.highest };
const AWAY: QuantityKind = { kind: 'quantity', quantity: 'distance', min: 0, max: 10_000 * FOOT };
const height = required(HEIGHT, 'Height of the work above the lowest place drops can fall to, ft', '30');
const SOURCES = ['osha 1910.252', 'schiller naumann', 'common practice'];

/** The rule asked for, or the one in force. */
export function watchRule(word: string | undefined, { a }: Basis): FireWatchRule {
  return fireWatch(word ?? a.word('fire watch rule'));
}

/** Reach of hot metal from a height [m], for the low, middle and high drop size; kept for the call. */
export function reachFrom(metres: number, { a, once }: Basis, trace?: Trace): FireReach {
  const within = (d: number): number => Math.min(Math.max(d, DROP_RANGE.smallest), DROP_RANGE.largest);
  const make = (): FireReach => {
    const { low, value, high } = a.inForce('drop diameter');
    return fireReach(
      metres,
      [low, value, high].map(within),
      a.value('drop density'),
      { density: a.value('air density'), viscosity: a.value('air viscosity'), wind: a.value('wind') },
      { speed: a.value('throw speed'), bounce: a.value('bounce') },
      trace,
    );
  };
  if (!trace) return once(`reach ${metres}`, make);
  const { low, high } = a.inForce('drop diameter');
  recordGiven(
    trace,
    ['height', 'h', metres, 'distance'],
    ['smallest drop followed', 'd_low', within(low), 'length'],
    ['largest drop followed', 'd_high', within(high), 'length'],
  );
  for (const [name, symbol] of [
    ['drop diameter', 'd_mid'],
    ['drop density', 'rho'],
    ['throw speed', 'v_0'],
    ['bounce', 'e_b'],
    ['wind', 'u'],
    ['air density', 'rho_air'],
    ['air viscosity', 'nu'],
  ] as const)
    a.record(name, symbol, trace);
  return make();
}

/** The two columns of things: name, distance. A first row whose second cell is a heading may give the unit. */
function thingsIn(cells: Cells | undefined, { a }: Basis): readonly Thing[] {
  if (!cells || cells.every((row) => row.every(isBlankOrZero))) return [];
  if ((cells[0]?.length ?? 0) < 2) throw thingsTooNarrow();
  let heading: Heading | undefined;
  return cells.flatMap((row, i): readonly Thing[] => {
    const [name, distance] = [row[0] ?? null, row[1] ?? null];
    if (isBlankOrZero(name) && isBlankOrZero(distance)) return [];
    if (i === 0 && typeof distance === 'string' && !/\d/.test(distance)) {
      heading = readHeading(distance);
      return [];
    }
    try {
      const away = quantityIn(distance, 'distance', AWAY, a.system, heading);
      if (away === undefined) throw isBlank('distance');
      return [
        {
          name:
            (typeof name === 'string' || typeof name === 'number') && !isBlankOrZero(name)
              ? String(name)
              : `thing ${i + 1}`,
          distance: away,
        },
      ];
    } catch (e) {
      if (e instanceof CalcError) throw inRow('things', i + 1, e);
      throw e;
    }
  });
}

const MOVE = 'within the reach: move it, cover it with flame-proofed covers or guard it, and watch it';

export const FIRE_FUNCTIONS: readonly Declaration[] = [
  valueFunction({
    name: 'BURN.FIRE.WATCH',
    family: 'FIRE',
    summary:
      'Minutes that the place is watched after the rod is out, at least, by a rule. The stricter of the rules that apply at the place, or the permit, is to be followed.',
    parameters: {
      rule: optional(
        { kind: 'text' },
        `${FIRE_WATCH_RULES.map((r) => r.name).join(', ')}; the assumption fire watch rule when left out`,
        '"OSHA"',
      ),
    },
    assume: true,
    result: { kind: 'value', quantity: 'time' },
    sources: ['osha 1910.252', 'nfpa 51b 2009', 'nfpa 51b 2014', 'nfpa 51b 2019'],
    cautions: ['FIRE.WATCH'],
    examples: ['=BURN.FIRE.WATCH()', '=BURN.FIRE.WATCH("OSHA")', '=BURN.FIRE.WATCH({"NFPA 51B 2014";"NFPA 51B 2019"})'],
    calculate: ({ rule: word }, basis, trace) => {
      const { name, watch, monitoring, clause, source } = watchRule(word, basis);
      recordText(trace, 'rule', 'rule', name, word === undefined ? 'assumption fire watch rule' : 'given');
      trace?.add({
        name: 'fire watch',
        symbol: 'W',
        value: watch,
        quantity: 'time',
        formula: `at least, ${clause}`,
        kind: 'published',
        source,
      });
      if (monitoring > 0)
        trace?.add({
          name: 'monitoring after the watch',
          symbol: 'W_more',
          value: monitoring,
          quantity: 'time',
          formula: `at most, where whoever grants the permit asks for it; ${clause}`,
          kind: 'published',
          source,
        });
      return watch;
    },
  }),
  valueFunction({
    name: 'BURN.FIRE.REACH',
    family: 'FIRE',
    summary:
      'How far hot metal can travel, ft: the 35 ft of 29 CFR 1910.252 or the reach of drops that fall from the height and bounce, whichever is larger.',
    parameters: { height },
    assume: true,
    result: { kind: 'value', quantity: 'distance' },
    sources: SOURCES,
    cautions: ['FIRE.REACH'],
    examples: ['=BURN.FIRE.REACH(30)'],
    monotone: [{ rises: ['height'], risesWith: ['throw speed', 'wind', 'bounce'] }],
    about: ({ height: metres }) => figureOf('height', metres),
    calculate: ({ height: metres }, basis, trace) => reachFrom(metres, basis, trace).reach,
  }),
  tableFunction({
    name: 'BURN.FIRE.CHECK',
    family: 'FIRE',
    summary:
      'What lies inside the reach of hot metal: those of your own things that do, nearest first, then what to look for before lighting and what to do with it.',
    parameters: {
      height,
      things: optional(
        { kind: 'cells' },
        'Two columns: what is near the work, and its distance, ft; only what to look for is listed when left out',
        'A2:B9',
      ),
    },
    assume: true,
    result: {
      kind: 'table',
      columns: [
        { heading: 'look for' },
        { heading: 'distance', quantity: 'distance' },
        { heading: 'reach', quantity: 'distance' },
        { heading: 'what to do' },
        { heading: 'source' },
        { heading: 'clause' },
      ],
    },
    sources: [...SOURCES, 'nfpa 51b 2019'],
    cautions: ['FIRE.CHECK'],
    examples: ['=BURN.FIRE.CHECK(30)', '=BURN.FIRE.CHECK(12,{"diesel tank",20;"hay barn",60})'],
    about: ({ height: metres }) => figureOf('height', metres),
    calculate: ({ height: metres, things }, basis, trace) => {
      const { reach } = reachFrom(metres, basis, trace);
      const inside = thingsInside(reach, thingsIn(things, basis)).map((t): readonly Output[] => [
        t.name,
        t.distance,
        reach,
        MOVE,
        'osha 1910.252',
        '1910.252(a)(2)(vii)',
      ]);
      return [
        ...inside,
        ...FIRE_CHECKS.map(({ look, action, source, clause }): readonly Output[] => [
          look,
          null,
          reach,
          action,
          source,
          clause,
        ]),
      ];
    },
  }),
];
