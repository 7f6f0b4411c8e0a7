import { isChoice, type Assumption } from '../core/assumptions/assumption.ts';
import { REGISTRY, type ChoiceName, type NumberName } from '../core/assumptions/registry.ts';
import type { Basis } from '../core/basis.ts';
import { findRod, rodNames } from '../core/burn/rods.ts';
import { jobTotals } from '../core/job/job-cost.ts';
import type { Ranged } from '../core/job/job-range.ts';
import { conditionText, parseConditions, type ConditionName } from '../core/safety/conditions.ts';
import { freshAirForOxygen } from '../core/safety/fresh-air-for-oxygen.ts';
import { LIMITS } from '../core/safety/limits.ts';
import { noiseHours } from '../core/safety/noise-hours.ts';
import { findNoiseRule } from '../core/safety/noise-rules.ts';
import { oxygenByVolume, oxygenRelease } from '../core/safety/oxygen-release.ts';
import { conditionsOf } from '../core/safety/item.ts';
import { OPERATIONS, type Operation } from '../core/safety/operations.ts';
import { wearFor } from '../core/safety/ppe.ts';
import { rodCover } from '../core/safety/welding-machine.ts';
import { operationOf } from '../core/operations/all.ts';
import { fromSi, plainUnit } from '../core/units/parse-quantity.ts';
import type { QuantityName } from '../core/units/quantities.ts';
import { showQuantity } from '../core/units/show-quantity.ts';
import { CALCULATION_VERSION } from '../core/version.ts';
import { isBlankOrZero } from './cell.ts';
import { reachFrom, watchRule } from './fire-functions.ts';
import { itemsOf, jobItems } from './job-items.ts';
import { shortCautions } from './plan-cautions.ts';
import { planItems, readPlan } from './read-plan.ts';
import { cellUnder, quantityUnder, readTable, type Cells } from './read-table.ts';

/** One line of a job sheet. The section stands in its first line only. */
export interface SheetLine {
  readonly section: string;
  readonly what: string;
  readonly figure: string;
  readonly note: string;
}

export interface JobSheetRequest {
  readonly plan: Cells;
  readonly operations: readonly Operation[];
  readonly conditions: readonly string[];
  readonly title: string | undefined;
}

type Line = readonly [what: string, figure: string, note: string];

const DIGITS = 3;
const SIGNED = 'name ____________________';
const WHEN = 'signed ________________  date __________  time ________';

/** What is signed for, and by whom. */
const SIGN_OFF: readonly string[] = [
  'permit issued, with its limits and its end',
  'machine shut down, isolated, blocked; springs and pressure released',
  'reach cleared, covered or guarded; extinguishers in place',
  'air tested: oxygen ______ %   flammable ______ %   other ____________',
  'burner: read the cautions, wears what is listed',
  'second person at the cylinder valve',
  'fire watch posted, from ________ to ________',
  'place checked again after the watch; permit handed back',
];

/**
 * A printable sheet of one page: cautions first, then the job with its figures, what departs from the defaults, fire watch,
 * what to wear, and lines to sign. It permits nothing.
 */
export function jobSheet({ plan, operations, conditions, title }: JobSheetRequest, basis: Basis): readonly SheetLine[] {
  const { a } = basis;
  const { system } = a;
  const { rows, bad } = readPlan(plan, system);
  const totals = jobTotals(rows, basis);
  const given = parseConditions(conditions, system);
  const { items: known, bad: untold } = planItems(plan, system);
  const items = itemsOf(jobItems(operations, known, given, a), a);
  const held = items.flatMap(conditionsOf);
  const has = (...names: readonly ConditionName[]): boolean => held.some((c) => names.includes(c.name));
  const shown = (value: number, quantity: QuantityName): string =>
    Number.isFinite(value) ? showQuantity(value, quantity, system, DIGITS) : 'beyond reach';
  const range = ({ low, high }: Ranged, quantity: QuantityName): string =>
    `${shown(low, quantity)} to ${shown(high, quantity)} in eight cases of ten`;
  const whole = (n: number): string => (Number.isFinite(n) ? String(n) : 'beyond reach');

  const sheet: SheetLine[] = [];
  const section = (name: string, lines: readonly Line[]): void =>
    lines.forEach(([what, figure, note], i) => void sheet.push({ section: i === 0 ? name : '', what, figure, note }));

  section('Hot work', [
    [
      title ?? 'exothermic rod work',
      `calculation ${CALCULATION_VERSION}`,
      "An estimate to plan with. It permits nothing: local codes, the employer's permit and licensed or qualified people rule.",
    ],
  ]);

  const { named, others } = shortCautions(items);
  const also: readonly Line[] =
    others.length > 0
      ? [
          [
            'and with every such job',
            `${others.length} more`,
            `${others.map((c) => c.key).join(', ')}: BURN.CAUTIONS says what to do`,
          ],
        ]
      : [];
  section('Cautions', [
    ...named.map((c): Line => [c.title, c.severity, c.clause === '' ? c.action : `${c.action} (${c.clause})`]),
    ...also,
  ]);

  const brought = new Set(
    held
      .filter((c) => !given.some((g) => g.name === c.name))
      .map((c) => (c.origin === 'material' ? c.because : conditionText(c, system))),
  );
  section('Job', [
    ...OPERATIONS.filter((id) => items.some((item) => item.operation === id)).map((id): Line => [
      operationOf(id).summary,
      id,
      '',
    ]),
    [
      'items',
      String(rows.length),
      bad.length === 0 ? '' : `${bad.length} left out of all figures: ${bad[0]?.message ?? ''}`,
    ],
    // Rows that could not be sized do not say what they are either.
    ...(untold.length > bad.length
      ? [['cautions left out', String(untold.length), untold.at(-1)?.message ?? ''] as const]
      : []),
    [
      'conditions given',
      '',
      conditions.length === 0 ? 'none: that says nothing of the place. Walk it and list them' : conditions.join(', '),
    ],
    ...(brought.size > 0 ? [['of the plan and the assumptions', '', [...brought].join(', ')] as const] : []),
  ]);

  const cover = rodCover({ grounded: has('grounded work'), arc: false, underwater: has('underwater', 'splash zone') });
  const covering = cover.cover === 'insulated' ? `use insulated rods: ${cover.reason}` : `bare rods: ${cover.reason}`;
  section(
    'Rods',
    [...totals.rods].map(([name, count]): Line => [
      `rod ${name}`,
      whole(count.value),
      `${whole(count.low)} to ${whole(count.high)} in eight cases of ten${name.includes('insulated') ? '' : `; ${covering}`}`,
    ]),
  );

  const column = columnsOf(plan, basis);
  const between = (values: readonly number[], quantity: QuantityName): string => {
    const [least, most] = [Math.min(...values), Math.max(...values)];
    return shown(least, quantity) === shown(most, quantity)
      ? shown(most, quantity)
      : `${shown(least, quantity)} to ${shown(most, quantity)}`;
  };
  const readings = (
    [
      ['tip pressure', 'tip pressure', 'pressure'],
      ['regulator setting', 'regulator setting', 'pressure'],
      ['flow', 'flow through a rod', 'flow'],
    ] as const
  ).flatMap(([heading, what, quantity]): Line[] => {
    const values = column(heading, quantity);
    return values.length === 0
      ? []
      : [[what, between(values, quantity), heading === 'flow' ? '' : 'gauge, while oxygen flows']];
  });
  section('Oxygen', [
    ['oxygen at the work', shown(totals.oxygen.value, 'oxygen'), range(totals.oxygen, 'oxygen')],
    [
      'cylinders',
      whole(totals.cylinders.value),
      `${whole(totals.cylinders.low)} to ${whole(totals.cylinders.high)} in eight cases of ten; chained upright, capped when moved, ${shown(LIMITS.cylinderDistance.value, 'distance')} from fuel gas and combustibles or behind a barrier`,
    ],
    ...readings,
    ...(has('confined', 'indoors')
      ? airLines(
          Math.max(0, ...column('flow', 'flow')),
          rows.map((r) => r.rod),
          basis,
        )
      : []),
  ]);

  const rams = column('ram', 'force');
  const push: readonly Line[] =
    rams.length > 0
      ? [
          [
            'ram to bring',
            shown(Math.max(...rams), 'force'),
            'squared, secured and guarded; nobody in line with the pin; raise the force in steps',
          ],
        ]
      : [];
  const rule = findNoiseRule(a.word('noise rule'));
  const noise = a.value('short rod noise');
  section('Crew', [
    [
      'rod burning',
      shown(
        rows.reduce((sum, r) => sum + r.burnTime, 0),
        'time',
      ),
      `${rule.name} allows ${shown(noiseHours(noise, rule), 'hours')} a shift of such work without protectors, at ${shown(noise, 'level')} on average (common practice, no source; measure)`,
    ],
    ['crew time', shown(totals.crew.value, 'hours'), `${range(totals.crew, 'hours')}; never one person alone`],
    ...push,
  ]);

  section('Assumptions', departures(basis));

  const watch = watchRule(undefined, basis);
  const height = Math.max(0, ...held.flatMap((c) => (c.name === 'height' && c.value !== undefined ? [c.value] : [])));
  const { reach, governs } = reachFrom(height, basis);
  const unsaid = has('height') && height === 0 ? '; give the height: from a height drops go farther' : '';
  section('Fire', [
    [
      'fire watch after the rod is out',
      `${shown(watch.watch, 'time')} at least`,
      `${watch.name}, ${watch.clause}${watch.monitoring > 0 ? `; up to ${shown(watch.monitoring, 'time')} more of monitoring where the permit asks for it` : ''}. The strictest rule of the place holds`,
    ],
    [
      'clear, cover or guard within',
      shown(reach, 'distance'),
      `${governs === 'drops' ? `drops from ${shown(height, 'distance')}, with bounce` : LIMITS.hotWorkRadius.clause}${unsaid}; farther where wind or openings carry sparks`,
    ],
  ]);

  section(
    'To wear',
    wearFor(items).map((p): Line => [p.item, '', `against ${p.against}`]),
  );
  section(
    'Sign-off',
    SIGN_OFF.map((what): Line => [what, SIGNED, WHEN]),
  );
  return sheet;
}

/** Numbers under a heading of the plan, SI; cells that hold none are passed over. */
function columnsOf(plan: Cells, { a }: Basis): (heading: string, quantity: QuantityName) => readonly number[] {
  const table = readTable(
    'plan',
    plan,
    {
      rod: ['rod'],
      'tip pressure': ['tip pressure'],
      'regulator setting': ['regulator setting'],
      flow: ['flow'],
      oxygen: ['oxygen'],
      ram: ['ram'],
    },
    ['rod', 'oxygen'],
  );
  return (heading, quantity) =>
    table.flatMap((row) => {
      const cell = cellUnder(row, heading);
      if (isBlankOrZero(cell) || typeof cell !== 'number') return [];
      const value = quantityUnder(row, heading, { kind: 'quantity', quantity }, a.system);
      return value === undefined ? [] : [value];
    });
}

/** Unburnt oxygen of the thirstiest rod, and the air that keeps the room's average at the limit. */
function airLines(flow: number, rods: readonly string[], basis: Basis): readonly Line[] {
  const { a } = basis;
  const burnt = Math.min(...rods.map((name) => a.value(rodNames(findRod(name).rod).burnt)));
  const release = oxygenRelease(flow, burnt, a.value('leak flow'));
  const air = freshAirForOxygen(
    oxygenByVolume(release, a.value('room temperature'), a.value('air pressure')),
    a.value('air mixing factor'),
    a.value('fresh air oxygen'),
  );
  const shown = (value: number, quantity: QuantityName): string => showQuantity(value, quantity, a.system, DIGITS);
  return [
    ['oxygen let into the air unburnt', shown(release, 'flow'), 'with leaks, while a rod burns'],
    [
      'fresh air for that oxygen alone',
      shown(air, 'airflow'),
      `holds the average of the room at ${shown(LIMITS.oxygenHigh.value, 'percent')} with a mixing factor of ${shown(a.value('air mixing factor'), 'ratio')}; near the work there is more: measure. For people 29 CFR 1910.252(c)(2) asks for ${shown(LIMITS.freshAirForEach.value, 'airflow')} each`,
    ],
  ];
}

/** What the call sets otherwise than the register does. */
function departures({ a }: Basis): readonly Line[] {
  const names = new Set<string>(a.departures());
  const lines = (REGISTRY as readonly Assumption[])
    .filter((e) => names.has(e.name))
    .map((entry): Line => {
      if (isChoice(entry)) return [entry.name, a.word(entry.name as ChoiceName), `default ${entry.value}`];
      const { value, low, high, kind } = a.inForce(entry.name as NumberName);
      const unit = a.system === 'SI' ? plainUnit(entry.quantity, 'SI') : entry.unit;
      const inUnit = (si: number): string =>
        `${Number(fromSi(si, entry.quantity, 'US', unit).toPrecision(4))}${unit === '' ? '' : ` ${unit}`}`;
      return [
        entry.name,
        inUnit(value),
        `${kind}, ${inUnit(low)} to ${inUnit(high)}; default ${entry.value}${entry.unit === '' ? '' : ` ${entry.unit}`}`,
      ];
    });
  return lines.length > 0
    ? lines
    : [
        [
          'all as by default',
          '',
          'BURN.ASSUMED lists them, each with its range; most are common practice without a source',
        ],
      ];
}
