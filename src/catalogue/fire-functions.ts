import type { Basis } from '../core/basis.ts';
import { CalcError } from '../core/errors.ts';
import { DROP_RANGE } from '../core/safety/drop-reach.ts';
import { FIRE_CHECKS, thingsInside, type Thing } from '../core/safety/fire-checks.ts';
import { fireReachInForce } from '../core/safety/fire-reach.ts';
import { FIRE_WATCH_RULES, fireWatch, type FireWatchRule } from '../core/safety/fire-watch.ts';
import { inRow, isBlank, thingsTooNarrow } from '../core/messages.ts';
import { decidedBy, entered } from '../core/model/step.ts';
import { workAll } from '../core/model/working.ts';
import { FOOT } from '../core/units/quantities.ts';
import { isBlankOrZero } from './cell.ts';
import {
  optional,
  required,
  tableFunction,
  workedFunction,
  type Declaration,
  type Output,
  type QuantityKind,
} from './declaration.ts';
import { figureOf } from './condition-cells.ts';
import { textStep } from './given.ts';
import { quantityIn, readHeading, type Cells, type Heading } from './read-table.ts';

const HEIGHT: QuantityKind = { kind: 'quantity', quantity: 'distance', min: 0, max: DROP_RANGE.highest };
const AWAY: QuantityKind = { kind: 'quantity', quantity: 'distance', min: 0, max: 10_000 * FOOT };
const height = required(HEIGHT, 'Height of the work above the lowest place drops can fall to, ft', '30');
const SOURCES = ['osha 1910.252', 'schiller naumann', 'common practice'];

/** The rule asked for, or the one in force. */
export function watchRule(word: string | undefined, { a }: Basis): FireWatchRule {
  return fireWatch(word ?? a.word('fire watch rule'));
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
  workedFunction({
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
    working: ({ rule: word }, basis) => {
      const { name, watch, monitoring, clause, source } = watchRule(word, basis);
      const more = `at most, where whoever grants the permit asks for it; ${clause}`;
      return workAll(
        [
          word === undefined
            ? decidedBy(textStep('rule', 'rule', name, 'assumption fire watch rule'), 'fire watch rule')
            : textStep('rule', 'rule', name),
          entered('W', 'fire watch', 'time', watch, `at least, ${clause}`, 'published', source),
          ...(monitoring > 0
            ? [entered('W_more', 'monitoring after the watch', 'time', monitoring, more, 'published', source)]
            : []),
        ],
        {},
        'W',
      );
    },
  }),
  workedFunction({
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
    about: ({ height: metres }) => figureOf('height', metres),
    working: ({ height: metres }, basis) => fireReachInForce(metres, basis),
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
    calculate: ({ height: metres, things }, basis) => {
      const reach = fireReachInForce(metres, basis).value;
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
    working: ({ height: metres }, basis) => fireReachInForce(metres, basis),
  }),
];
